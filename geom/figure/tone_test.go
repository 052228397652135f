package figure

import (
	"fmt"
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
						if !has(labels, s.Length(b).String()) {
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

// TestIsolines: a step's line crosses a cell where the dye is that step's: of a cell
// dyed 0.5 to 2.5 across, 1 lies at a quarter of its width and 2 at three quarters.
func TestIsolines(t *testing.T) {
	var b draw.Body
	v := [4]draw.Vertex{{}, {X: 8}, {X: 8, Y: 4}, {Y: 4}}
	isolines(&b, v, [4]float64{0.5, 2.5, 2.5, 0.5}, 0.1, draw.Light().Ink)
	if len(b.Vertices) != 8 {
		t.Fatalf("%d corners, want two lines of four", len(b.Vertices))
	}
	for k, want := range []float32{2, 6} {
		for _, c := range b.Vertices[4*k:][:4] {
			if d := c.X - want; d < -0.11 || d > 0.11 {
				t.Errorf("step %d is drawn at %g, want %g", k+1, c.X, want)
			}
		}
	}
}
