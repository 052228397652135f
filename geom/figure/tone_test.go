package figure

import (
	"fmt"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// tones are the two kinds on a shape: its real gaps, and a droop that grows with
// the square of the way out, as a panel's does.
func tones(t testing.TB, plan pleat.Plan, shape pleat.Shape) []*Tone {
	t.Helper()
	gaps, err := plan.Gaps(shape)
	if err != nil {
		t.Fatal(err)
	}
	var droop [][]float64
	for i, p := range shape.Panels {
		d := make([]float64, len(p.V))
		for n := range d {
			f := float64(n%(shape.NV+1)) / float64(shape.NV)
			d[n] = 9*f*f - 0.8 + math.Sin(float64(i))*0.3
		}
		droop = append(droop, d)
	}
	return []*Tone{{Kind: ToneDroop, Values: droop}, {Kind: ToneGap, Values: gaps}}
}

func palettes() map[string]draw.Palette {
	return map[string]draw.Palette{"light": draw.Light(), "dark": draw.Dark(), "contrast": draw.Contrast()}
}

// Simulated colour-vision deficiencies, full severity: matrices for linear RGB of
// G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, 'A Physiologically-based
// Model for Simulation of Color Vision Deficiency', IEEE Transactions on
// Visualization and Computer Graphics 15 (6), 2009, table 1 (severity 1.0).
var deficiencies = map[string][3][3]float64{
	"none":      {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protan":    {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deutan":    {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritan":    {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
	"no colour": {{0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}}, // luminance alone
}

// lab is a colour as seen with a deficiency, in CIE 1976 L*a*b* under D65 (sRGB's
// primaries, IEC 61966-2-1).
func lab(c color.NRGBA, m [3][3]float64) [3]float64 {
	lin := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	in := [3]float64{lin(c.R), lin(c.G), lin(c.B)}
	var rgb [3]float64
	for i := range rgb {
		for k := range in {
			rgb[i] += m[i][k] * in[k]
		}
		rgb[i] = clamp(rgb[i], 0, 1)
	}
	xyz := [3]float64{
		(0.4124*rgb[0] + 0.3576*rgb[1] + 0.1805*rgb[2]) / 0.95047,
		0.2126*rgb[0] + 0.7152*rgb[1] + 0.0722*rgb[2],
		(0.0193*rgb[0] + 0.1192*rgb[1] + 0.9505*rgb[2]) / 1.08883,
	}
	f := func(t float64) float64 {
		if t > 216./24389 {
			return math.Cbrt(t)
		}
		return (24389./27*t + 16) / 116
	}
	return [3]float64{116*f(xyz[1]) - 16, 500 * (f(xyz[0]) - f(xyz[1])), 200 * (f(xyz[1]) - f(xyz[2]))}
}

// Dyes can be told apart: neighbouring steps by at least 8 of CIE 1976's ΔE
// (2.3 is just noticeable: Mahy, Van Eycken, Oosterlinck, Color Res. Appl. 19,
// 1994), whoever looks; deeper is darker; and the lines on them have WCAG's 3 : 1
// for graphics against the deepest dye in its deepest shade.
func TestDyesCanBeToldApart(t *testing.T) {
	for name, pal := range palettes() {
		for who, m := range deficiencies {
			var before [3]float64
			for k := range toneSteps {
				now := lab(pal.Dye((float64(k)+0.5)/toneSteps), m)
				if k > 0 {
					d := math.Sqrt(sq(now[0]-before[0]) + sq(now[1]-before[1]) + sq(now[2]-before[2]))
					if d < 8 {
						t.Errorf("%s, %s: steps %d and %d differ by %.1f, want at least 8", name, who, k, k+1, d)
					}
					if now[0] > before[0]-4 {
						t.Errorf("%s, %s: step %d is not darker than step %d: L* %.1f, %.1f", name, who, k+1, k, now[0], before[0])
					}
				}
				before = now
			}
		}
		for k := range toneSteps {
			c := pal.Dye((float64(k) + 0.5) / toneSteps)
			if r := draw.Ratio(pal.ToneInk, c); r < 3 {
				t.Errorf("%s: lines on step %d stand out by %.2f, want 3", name, k+1, r)
			}
		}
	}
}

func sq(x float64) float64 { return x * x }

// The steps are round lengths of the unit and hold all values; a value on a bound
// begins the step above it (for gaps: below).
func TestToneSteps(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		u      scheme.Units
		want   [4]float64
	}{
		{0, 9.2, scheme.Millimetres, [4]float64{2, 4, 6, 8}},
		{-0.8, 9.2, scheme.Millimetres, [4]float64{0, 2, 4, 6}}, // the last holds 6 to 10
		{0.02, 0.3, scheme.Centimetres, [4]float64{0.1, 0.2, 0.3, 0.4}},
		{0, 7, scheme.Inches, [4]float64{25.4 / 16, 25.4 / 8, 25.4 * 3 / 16, 25.4 / 4}},
	} {
		got := bounds(ToneDroop, c.lo, c.hi, c.u)
		for k := range got {
			if math.Abs(got[k]-c.want[k]) > 1e-9 {
				t.Errorf("%g to %g: steps at %v, want %v", c.lo, c.hi, got, c.want)
				break
			}
		}
	}
	d := &toned{Tone: Tone{Kind: ToneDroop}, bound: [4]float64{2, 4, 6, 8}}
	for v, want := range map[float64]float64{-5: 0, 1: 0.5, 2: 1, 5: 2.5, 8: 4, 9: 4.5, 50: 5} {
		if got := d.dye(v); math.Abs(got-want) > 1e-12 {
			t.Errorf("%g mm of droop is dyed %g, want %g", v, got, want)
		}
	}
	d.Kind = ToneGap
	if got := d.dye(0); got != 5 {
		t.Errorf("touching is dyed %g, want 5", got)
	}
}

// Every view of cloth takes a tone: its legend gives the steps in the sheet's
// unit, no label overlaps, and the cloth is dyed.
func TestToneOnEveryView(t *testing.T) {
	for _, d := range designs() {
		plan, shape := d.make(t)
		for _, tone := range tones(t, plan, shape) {
			for _, sheet := range sheets() {
				for _, v := range Views {
					opt := sheet.Options
					opt.Tone, opt.Turn_deg, opt.Tilt_deg, opt.Notes, opt.Cells = tone, 20, 32, longNotes()[:2], 1
					name := fmt.Sprintf("%s %s %s %s", v.Name, d.name, sheet.name, tone.Kind)
					dr, err := v.Draw(plan, shape, opt)
					if err != nil {
						t.Fatalf("%s: %v", name, err)
					}
					labels := dr.Labels()
					page := draw.Rect{Max: draw.Pt(dr.Width_mm, dr.Height_mm)}
					for i, a := range labels {
						if !a.Box().Inside(page) {
							t.Errorf("%s: label %q leaves the sheet", name, a.Text)
						}
						for _, b := range labels[:i] {
							if a.Box().Overlaps(b.Box()) {
								t.Errorf("%s: labels %q and %q overlap", name, b.Text, a.Text)
							}
						}
					}
					if !v.Dyed {
						continue
					}
					ready, err := newToned(*tone, shape, draw.Light(), opt.Units)
					if err != nil {
						t.Fatal(err)
					}
					s := draw.Sheet{Units: opt.Units}
					for _, b := range ready.bound {
						if !has(labels, s.Length(b)) {
							t.Errorf("%s: the legend does not give %s", name, s.Length(b))
						}
					}
				}
			}
		}
	}
}

func TestBadTone(t *testing.T) {
	plan, shape := designs()[0].make(t)
	good := *tones(t, plan, shape)[0]
	for name, spoil := range map[string]func(*Tone){
		"kind":         func(x *Tone) { x.Kind = "taste" },
		"panel short":  func(x *Tone) { x.Values = x.Values[1:] },
		"values short": func(x *Tone) { x.Values[2] = x.Values[2][1:] },
		"NaN":          func(x *Tone) { x.Values[0][3] = math.NaN() },
	} {
		bad := Tone{Kind: good.Kind}
		for _, v := range good.Values {
			bad.Values = append(bad.Values, append([]float64(nil), v...))
		}
		spoil(&bad)
		if _, err := Named("above").Draw(plan, shape, Options{Tone: &bad}); err == nil {
			t.Errorf("%s: was drawn", name)
		}
	}
}

// TestLookTones writes dyed views as PNG into the folder named by FIGURE_LOOK.
func TestLookTones(t *testing.T) {
	dir := os.Getenv("FIGURE_LOOK")
	if dir == "" {
		t.Skip("FIGURE_LOOK names no folder")
	}
	for _, d := range designs()[:2] {
		plan, shape := d.make(t)
		for _, tone := range tones(t, plan, shape) {
			for _, v := range Views {
				for name, pal := range palettes() {
					opt := Options{Palette: pal, Tone: tone, Turn_deg: 20, Tilt_deg: 32}
					dr, err := v.Draw(plan, shape, opt)
					if err != nil {
						t.Fatal(err)
					}
					f, err := os.Create(filepath.Join(dir, fmt.Sprintf("tone-%s-%s-%s-%s.png", v.Name, d.name, tone.Kind, name)))
					if err != nil {
						t.Fatal(err)
					}
					if err := dr.PNG(f, 5); err != nil {
						t.Fatal(err)
					}
					f.Close()
				}
			}
		}
	}
}

func BenchmarkInHandDyed(b *testing.B) {
	d := design{"bench", "sound", nil, 24, 12}
	plan, shape := d.make(b)
	tone := tones(b, plan, shape)[0]
	var last draw.Drawing
	for b.Loop() {
		next, err := Named("hand").Draw(plan, shape, Options{Turn_deg: 20, Tilt_deg: 30, Again: &last, Tone: tone})
		if err != nil {
			b.Fatal(err)
		}
		last = next
	}
}
