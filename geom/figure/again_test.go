package figure

import (
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
)

// solidsOf are the solid things of a drawing, as they are painted.
func solidsOf(d draw.Drawing) (all []draw.Solid) {
	for _, it := range d.Items {
		if s, ok := it.(draw.Solid); ok {
			all = append(all, s)
		}
	}
	return all
}

// What is seen again only from elsewhere is the same scene; with another shape, tone,
// palette, set, bow or unit it is another.
func TestKept(t *testing.T) {
	plan, shape := designs()[1].make(t)
	tone := tones(t, plan, shape)[0]
	other := lowered(shape, 3)
	var kept Kept
	scene := func(o Options) any {
		o.Kept = &kept
		sh := shape
		if o.Zoom == 0.5 { // of the test: the other shape
			sh = other
		}
		d, err := Named("hand").Draw(plan, sh, o)
		if err != nil {
			t.Fatal(err)
		}
		return solidsOf(d)[0].Scene
	}
	first := scene(Options{})
	for _, o := range []Options{{Turn_deg: 50, Tilt_deg: 10}, {Zoom: 3, PanX_mm: 20}, {Width_mm: 230, Height_mm: 170, Plain: true}, {Notes: longNotes(), Signs: true}} {
		if scene(o) != first {
			t.Errorf("%+v makes another scene", o)
		}
	}
	for _, o := range []Options{{Zoom: 0.5}, {Tone: tone}, {Tone: tone, Units: scheme.Inches}, {Palette: draw.Dark()}, {Set: 2}, {Bow_deg: 60}, {Rest: &other}, {Row: true}, {Moves: true}} {
		was := scene(Options{})
		if scene(o) == was {
			t.Errorf("%+v has the scene of the ruff without", o)
		}
	}
	if scene(Options{Moves: true}) == scene(Options{Moves: true}) {
		t.Error("what moves is kept")
	}
	kept = Kept{}
	ghost := func() any {
		d, err := Named("hand").Draw(plan, shape, Options{Kept: &kept, Rest: &other, Bow_deg: 30, Moves: true})
		if err != nil {
			t.Fatal(err)
		}
		return solidsOf(d)[0].Scene
	}
	if ghost() != ghost() {
		t.Error("the ghost of what moves is another each time")
	}
	for _, v := range Views {
		var kept Kept
		draws := func(turn_deg float64) []draw.Solid {
			d, err := v.Draw(plan, shape, Options{Kept: &kept, Turn_deg: turn_deg, Plain: true})
			if err != nil {
				t.Fatal(err)
			}
			return solidsOf(d)
		}
		a, b := draws(0), draws(30)
		for i := range a {
			if a[i].Scene != b[i].Scene {
				t.Errorf("%s: drawn again, its part %d is another scene", v.Name, i)
			}
		}
	}
}

// BenchmarkInHand is what the page's thread does at every turn.
func BenchmarkInHand(b *testing.B) {
	plan, shape := design{"bench", "sound", nil, 24, 12}.make(b)
	var kept Kept
	for b.Loop() {
		if _, err := Named("hand").Draw(plan, shape, Options{Turn_deg: 20, Tilt_deg: 30, Kept: &kept, Plain: true}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkInHandAnew is the same where the shape is another each time.
func BenchmarkInHandAnew(b *testing.B) {
	plan, shape := design{"bench", "sound", nil, 24, 12}.make(b)
	tone := tones(b, plan, shape)[0]
	for b.Loop() {
		if _, err := Named("hand").Draw(plan, shape, Options{Turn_deg: 20, Tilt_deg: 30, Tone: tone}); err != nil {
			b.Fatal(err)
		}
	}
}

// Lines are drawn in full where folds have room on the sheet, and finer where they crowd.
func TestLinesWhereFoldsCrowd(t *testing.T) {
	fold := func(d design, width_mm, height_mm float64) float64 {
		plan, shape := d.make(t)
		dr, err := Named("hand").Draw(plan, shape, Options{Width_mm: width_mm, Height_mm: height_mm, Plain: true})
		if err != nil {
			t.Fatal(err)
		}
		sheets := solidsOf(dr)[0].Scene.Sheets
		return sheets[len(sheets)-1].Fold_mm
	}
	sound, wide := designs()[0], designs()[2]
	if f := fold(sound, 240, 180); f != foldLine {
		t.Errorf("40 sets on a large sheet: %g", f)
	}
	if a, b := fold(wide, 240, 180), fold(wide, 92, 120); !(b < a && a <= foldLine) || b < foldLine/6 {
		t.Errorf("200 sets: %g on a large sheet, %g on a small one", a, b)
	}
}
