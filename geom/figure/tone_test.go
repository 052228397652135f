package figure

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
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
	t.Parallel()
	for _, d := range designs() {
		plan, shape := d.make(t)
		for _, tone := range tones(t, plan, shape) {
			for _, sheet := range sheets() {
				for _, v := range Views {
					opt := sheet.Options
					opt.Tone, opt.Turn_deg, opt.Tilt_deg, opt.Notes, opt.Plain = tone, 20, 32, longNotes()[:2], true
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

// The steps are the least round lengths of which five and the last's double hold all:
// from 0 up to 6 of a step, for every round length of either unit.
func TestToneStepsAreRound(t *testing.T) {
	for u, steps := range map[scheme.Units][]float64{
		scheme.Millimetres: {0.1, 0.2, 0.3, 0.5, 1, 2, 3, 5, 10, 20, 30, 50, 100, 200, 500, 1000},
		scheme.Inches:      {25.4 / 32, 25.4 / 16, 25.4 / 8, 25.4 / 4, 25.4 / 2, 25.4, 50.8, 101.6, 203.2, 406.4, 812.8},
	} {
		for k, step := range steps {
			if got := bounds(ToneDroop, 0, 5.99*step, u); math.Abs(got[0]-step) > 1e-9 || math.Abs(got[3]-4*step) > 1e-9 {
				t.Errorf("up to %g: %v, want steps of %g", 5.99*step, got, step)
			}
			if got := bounds(ToneDroop, 0, 6.01*step, u); k+1 < len(steps) && math.Abs(got[0]-steps[k+1]) > 1e-9 {
				t.Errorf("up to %g: %v, want steps of %g", 6.01*step, got, steps[k+1])
			}
		}
		first := map[scheme.Units]float64{scheme.Millimetres: 1, scheme.Inches: 25.4 / 32}[u]
		if got := bounds(ToneGap, 0, 90, u); got != [4]float64{first, 2 * first, 4 * first, 8 * first} {
			t.Errorf("%s: steps of gaps at %v", u, got)
		}
	}
	for dye, want := range map[float64]float32{0.5: 0, 0.6: 0, 2.8: 0.5, 5: 1} {
		if got := dense(dye); math.Abs(float64(got-want)) > 1e-6 {
			t.Errorf("dye %g is hatched %g, want %g", dye, got, want)
		}
	}
}

// A tone's range is what its values hold; steps may be asked to hold another, in order.
func TestToneRange(t *testing.T) {
	plan, shape := designs()[0].make(t)
	tone := *tones(t, plan, shape)[0]
	least, most := tone.Range()
	if least < -1.1 || least > -1 || most < 8.4 || most > 8.5 {
		t.Errorf("from %g to %g, want -0.8 - 0.3 to 9 - 0.8 + 0.3", least, most)
	}
	if a, b := (&Tone{}).Range(); a != 0 || b != 0 {
		t.Errorf("of no values from %g to %g", a, b)
	}
	for _, c := range []struct {
		least, most float64
		ok          bool
	}{{0, 29, true}, {-5, 24, true}, {-9, -9, true}, {-9, 0, true}, {5, 4, false}, {math.NaN(), 4, false}, {0, 1e5, false}, {-1e5, 0, false}, {-99999, 99999, true}} {
		tone.Least_mm, tone.Most_mm = c.least, c.most
		d, err := newToned(tone, shape, draw.Light(), scheme.Millimetres)
		if (err == nil) != c.ok || c.ok && d.bound != bounds(ToneDroop, c.least, c.most, scheme.Millimetres) {
			t.Errorf("asked to hold %g to %g: %v", c.least, c.most, err)
		}
	}
}

// The legend's five steps lie side by side, framed as a whole, each bound below the place
// where two meet; the deeper a step the fuller its hatching, none on the least.
func TestLegend(t *testing.T) {
	s := sheet{opt: Options{Width_mm: 200, Height_mm: 100}, title: word.Name("x")}
	s.opt.Palette = draw.Light()
	s.tone = &toned{Tone: Tone{Kind: ToneDroop}, bound: [4]float64{2, 4, 6, 8}, ink: draw.Light().ToneInk}
	s.head(word.Text{})
	var boxes []draw.Rect
	hatched := make([]int, toneSteps+1)
	for _, it := range s.Items[2:] {
		p, ok := it.(draw.Path)
		if !ok {
			continue
		}
		a := p.Lines[0][0]
		switch b := p.Lines[0][len(p.Lines[0])-1]; {
		case p.Closed:
			boxes = append(boxes, draw.Rect{Min: a, Max: p.Lines[0][2]})
		case a.X != b.X || b.Y-a.Y > 3.1: // a border between steps
		default:
			hatched[len(boxes)]++
		}
	}
	if len(boxes) != toneSteps+1 {
		t.Fatalf("%d boxes, want the steps and the frame", len(boxes))
	}
	for k, box := range boxes[:toneSteps] {
		if want := boxes[0].Min.X + 12*float64(k); math.Abs(box.Min.X-want) > 1e-9 || math.Abs(box.Max.X-want-12) > 1e-9 || math.Abs(box.Max.Y-box.Min.Y-3.6) > 1e-9 || box.Min.Y != boxes[0].Min.Y {
			t.Errorf("step %d fills %v", k+1, box)
		}
		if n := hatched[k+1]; (n > 0) != (k > 0) || k > 0 && n != 10 {
			t.Errorf("step %d has %d lines", k+1, n)
		}
		if k > 0 && !slices.ContainsFunc(s.Labels(), func(l draw.Label) bool {
			b := l.Box()
			return l.Text == s.Say(s.Length(2*float64(k))) && math.Abs((b.Min.X+b.Max.X)/2-box.Min.X) < 1e-9 && math.Abs(b.Min.Y-box.Max.Y-0.9) < 1e-9
		}) {
			t.Errorf("%d mm does not stand below the border of step %d", 2*k, k+1)
		}
	}
	if frame := boxes[toneSteps]; frame != (draw.Rect{Min: boxes[0].Min, Max: boxes[toneSteps-1].Max}) {
		t.Errorf("the frame is %v about %v", frame, boxes)
	}
	if label := s.Labels()[1].Box(); s.View != s.Room || s.Room.Max.Y > label.Min.Y-1.4 || s.Room.Max.Y < label.Min.Y-1.6 {
		t.Errorf("the room ends at %g above %v", s.Room.Max.Y, label)
	}
}
