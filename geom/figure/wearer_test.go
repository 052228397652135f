package figure

import (
	"math"
	"strings"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/testdata/reference"
)

// What is taken for a face that was not given is the middle of ANSUR II, and between
// women's and men's necks a face between.
func TestMiddling(t *testing.T) {
	middle := map[string]float64{}
	for _, row := range reference.Rows(t, "wearer.csv") {
		middle[row["measure_mm"]+row["sex"]] = reference.Number(t, row, "p50")
	}
	for i, sex := range []string{"F", "M"} {
		if m := middling[i]; m.girth != middle["neckcircumference"+sex] || m.face != middle["mentonsellionlength"+sex] {
			t.Errorf("%s: %+v, ANSUR II says %v", sex, m, middle)
		}
	}
	for girth, want := range map[float64]float64{200: 113, 328: 113, 361.5: 118, 395: 123, 500: 123} {
		if got := faceOf(girth); math.Abs(got-want) > 1e-9 {
			t.Errorf("a neck of %g has a face of %g, want %g", girth, got, want)
		}
	}
}

// Behind the band the wood stands within it all round; below, no cloth at rest lies in
// the shoulders, which end within the ruff; above, the chin lies over the band.
func TestFormFits(t *testing.T) {
	for _, d := range designs() {
		plan, shape := d.make(t)
		form := newWearer(plan, shape)
		band := plan.Scheme.Band.Height
		for _, ring := range form.turns(true) {
			for i := range 36 {
				v := ring.place(float64(i) * math.Pi / 18)
				if v.Z >= -1 && v.Z <= band {
					st := nearest(plan.Neckline, v.XY())
					if in := st.Pos.Sub(v.XY()).Dot(st.Normal); in < bandIn+0.5 {
						t.Fatalf("%s: at %v the wood stands %.2f mm within the neckline", d.name, v, in)
					}
				}
				if out := v.XY().Norm(); v.Z < 0 && out > math.Max(form.reach, 1.6*form.round) {
					t.Fatalf("%s: the shoulders reach %.0f mm, the ruff %.0f", d.name, out, form.reach)
				}
			}
		}
		low := lowered(shape, 40)
		form = newWearer(plan, low)
		for _, p := range low.Panels {
			for _, v := range p.V {
				if out := v.XY().Norm() - form.round; out > 2 && v.Z < form.slope(out)-neckBelow-form.sink {
					t.Fatalf("%s: cloth at %v lies in the shoulders", d.name, v)
				}
			}
		}
	}
}

// The collar's or the supporter's rim begins as far below the band as the scheme says,
// and rises as it says.
func TestSupportIsDrawn(t *testing.T) {
	plan, shape := designs()[0].make(t)
	count := func(kind scheme.SupportKind) *light.Scene {
		plan.Scheme.Support = scheme.Support{Kind: kind, Drop: 12, Slope: 20}
		form := newWearer(plan, shape)
		var s light.Scene
		form.add(&s, draw.Light(), true)
		return &s
	}
	none := len(count(scheme.NoSupport).Sheets)
	for _, kind := range []scheme.SupportKind{scheme.Collar, scheme.Supporter} {
		s := count(kind)
		if len(s.Sheets) != none+1 {
			t.Fatalf("%s: %d surfaces, without it %d", kind, len(s.Sheets), none)
		}
		rim := s.Sheets[none]
		a, b := rim.V[rim.Rows-4], rim.V[rim.Rows-1]
		if rise := math.Atan2(b.Z-a.Z, b.XY().Sub(a.XY()).Norm()) * 180 / math.Pi; math.Abs(rise-20) > 0.1 || math.Abs(a.Z+12) > 2 {
			t.Errorf("%s: from %v to %v it rises %.2f degrees", kind, a, b, rise)
		}
	}
}

// A bow turns all places as one body, forward and down about a level axis through the
// neck, by its degrees.
func TestBowing(t *testing.T) {
	plan, shape := designs()[0].make(t)
	to := bowing(plan, 60)
	mid := geom.Vec3{Z: plan.Scheme.Band.Height / 2}
	if to(mid).Sub(mid).Norm() > 1e-12 || to(geom.Vec3{X: 30, Z: mid.Z}).Sub(geom.Vec3{X: 30, Z: mid.Z}).Norm() > 1e-12 {
		t.Error("the axis moves")
	}
	up := to(mid.Add(geom.Vec3{Z: 1})).Sub(mid)
	if want := (geom.Vec3{Y: -math.Sqrt(3) / 2, Z: 0.5}); up.Sub(want).Norm() > 1e-12 {
		t.Errorf("what stood upright points to %v, want %v", up, want)
	}
	if front := to(geom.Vec3{Y: -100, Z: mid.Z}); front.Z > mid.Z-80 {
		t.Errorf("the front goes to %v", front)
	}
	d, err := Named("hand").Draw(plan, shape, Options{Bow_deg: 60, Rest: &shape, Turn_deg: 75})
	if err != nil {
		t.Fatal(err)
	}
	upright, err := Named("hand").Draw(plan, shape, Options{Turn_deg: 75})
	if err != nil {
		t.Fatal(err)
	}
	if s := solidsOf(d); len(s) != 2 || s[0].Faint == 0 || s[1].Faint != 0 {
		t.Fatalf("%d solid things: want the ghost, and the ruff over it", len(s))
	}
	bowed, stood := solidsOf(d)[1].Scene, solidsOf(upright)[0].Scene
	for i := range bowed.Sheets {
		for k, v := range stood.Sheets[i].V {
			if bowed.Sheets[i].V[k].Sub(to(v)).Norm() > 1e-9 {
				t.Fatalf("surface %d, place %d does not bow with the others", i, k)
			}
		}
	}
}

// The description says which measures of the wearer were not given.
func TestWornBy(t *testing.T) {
	plan, shape := designs()[0].make(t)
	for face, want := range map[float64]string{0: "was not given: it is 123 mm, the middle of ANSUR II", 117: "whose face is 117 mm high"} {
		plan.Scheme.Wearer.Face = face
		d, err := Named("hand").Draw(plan, shape, Options{})
		if err != nil || !strings.Contains(d.Desc, want) {
			t.Errorf("%q, %v", d.Desc, err)
		}
	}
}

// Notes leave the ruff where it is and as large as it is, in every view.
func TestNotesMoveNothing(t *testing.T) {
	plan, shape := designs()[0].make(t)
	for _, v := range Views {
		a, err := v.Draw(plan, shape, Options{Tilt_deg: 20, Plain: true})
		if err != nil {
			t.Fatal(err)
		}
		for _, signs := range []bool{false, true} {
			b, err := v.Draw(plan, shape, Options{Tilt_deg: 20, Plain: true, Notes: everywhere(), Signs: signs})
			if err != nil {
				t.Fatal(err)
			}
			for i, s := range solidsOf(a) {
				if solidsOf(b)[i].Eye != s.Eye {
					t.Errorf("%s: notes move the ruff", v.Name)
				}
			}
			if grown := b.Height_mm > a.Height_mm; grown == signs || a.Scale != b.Scale {
				t.Errorf("%s, signs alone %v: %g mm high, without notes %g", v.Name, signs, b.Height_mm, a.Height_mm)
			}
		}
	}
}

// A place on the far side of the neck lies behind the form, one on the near side before
// it.
func TestHidden(t *testing.T) {
	plan, shape := designs()[0].make(t)
	s := &sheet{Sheet: &draw.Sheet{Pal: draw.Light()}, plan: plan, shape: shape}
	scene, _ := s.scenes(0, len(shape.Panels), false)
	r, z := plan.Neckline.Depth()/2, plan.Scheme.Band.Height
	far := r + plan.Scheme.Ruff.Depth
	for turn_deg := 0.0; turn_deg < 360; turn_deg += 90 {
		e := draw.NewEye(turn_deg, 8)
		e.Far = 800
		way := geom.Vec3{X: e.Toward.X, Y: e.Toward.Y}.Unit()
		for _, c := range []struct {
			out, z float64
			want   bool
		}{{r - 3, z + 6, false}, {-r, z + 6, true}, {far + 5, z / 2, false}, {-far - 5, z / 2, true}} {
			if got := hidden(scene, e, way.Scale(c.out).Add(geom.Vec3{Z: c.z})); got != c.want {
				t.Errorf("turned %g, %g mm towards the eye, %g up: hidden %v", turn_deg, c.out, c.z, got)
			}
		}
	}
}

// A note about a mark on the far side has a hollow sign on a broken thread.
func TestNotesBehind(t *testing.T) {
	plan, shape := designs()[0].make(t)
	dashed := func(m int) bool {
		d, err := Named("hand").Draw(plan, shape, Options{Turn_deg: 0, Tilt_deg: 5, Notes: []Note{{Where: WhereInner, Text: word.Name("x"), Sign: SignStop, At: []int{m}}}})
		if err != nil {
			t.Fatal(err)
		}
		for _, it := range d.Items {
			if p, ok := it.(draw.Path); ok && p.Stroke == draw.Light().Madder && len(p.Dash_mm) > 0 {
				return true
			}
		}
		return false
	}
	if front, back := plan.Panels/2, plan.Panels/2+1; !dashed(front) || !dashed(back) {
		t.Error("a mark at the nape shows through the head")
	}
	if d, err := Named("hand").Draw(plan, shape, Options{Tilt_deg: 60, Notes: []Note{{Where: WhereOuter, Text: word.Name("x"), Sign: SignStop, At: []int{2}}}}); err != nil {
		t.Fatal(err)
	} else {
		for _, it := range d.Items {
			if p, ok := it.(draw.Path); ok && p.Stroke == draw.Light().Madder && len(p.Dash_mm) > 0 {
				t.Error("a crest in front lies behind")
			}
		}
	}
}

func BenchmarkHidden(b *testing.B) {
	plan, shape := designs()[0].make(b)
	s := &sheet{Sheet: &draw.Sheet{Pal: draw.Light()}, plan: plan, shape: shape}
	scene, _ := s.scenes(0, len(shape.Panels), false)
	e := draw.NewEye(20, 30)
	for b.Loop() {
		hidden(scene, e, geom.Vec3{X: 400})
	}
}

// TestSeenOverTheForm: as the ruff is held at first, 26 degrees from above, the form hides
// no top fold at the outer edge, from the front and from either side of it.
func TestSeenOverTheForm(t *testing.T) {
	for _, d := range designs() {
		plan, shape := d.make(t)
		if plan.Scheme.Wearer.Part == scheme.Wrist || plan.Scheme.Ruff.Depth < 50 {
			continue
		}
		for _, turn := range []float64{0, 28, -60} {
			dr, err := Named("hand").Draw(plan, shape, Options{Turn_deg: turn, Tilt_deg: 26})
			if err != nil {
				t.Fatal(err)
			}
			for _, it := range dr.Items {
				s, ok := it.(draw.Solid)
				if !ok {
					continue
				}
				form := light.Scene{Sheets: s.Scene.Sheets[:1]}
				for m, mark := range plan.Row {
					if mark.Fold == scheme.Crest && hidden(&form, s.Eye, innerAt(shape, m, shape.NV)) {
						t.Errorf("%s turned by %g: the form hides the outer edge at mark %d", d.name, turn, m+1)
					}
				}
			}
		}
	}
}

// One does not look into the form at its pith: seen from above there is wood all about it,
// at one height.
func TestFormIsClosed(t *testing.T) {
	plan, shape := design{"golden", "sound", []string{"ruff.sets", "12", "ruff.depth", "30"}, 8, 4}.make(t)
	form := newWearer(plan, shape)
	var scene light.Scene
	form.add(&scene, draw.Light(), true)
	turns := form.turns(true)
	pith := turns[len(turns)-1].inner(0, 0)
	eye := light.NewCamera(0, 90)
	eye.Mid, eye.X, eye.Y = pith, 1, 1
	p := scene.Draw(light.Look{Camera: eye, W: 100, H: 100, PxPerMM: 50, WithoutLines: true})
	for y := range p.H {
		for x := range p.W {
			if v, ok := p.Place(x, y); !ok || math.Abs(v.Z-pith.Z-dome[len(dome)-1][1]) > 1 {
				t.Fatalf("at pixel %d, %d lies %v, %t; the pith is %v", x, y, v, ok, pith)
			}
		}
	}
}
