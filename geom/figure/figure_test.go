package figure

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

type sized struct {
	name string
	Options
}

func sheets() []sized {
	return []sized{
		{"phone", Options{Width_mm: 92, Height_mm: 120, Units: scheme.Centimetres}},
		{"desk", Options{Width_mm: 240, Height_mm: 180, Units: scheme.Millimetres}},
		{"inches", Options{Width_mm: 92, Height_mm: 120, Units: scheme.Inches}},
	}
}

func longNotes() []Note {
	return []Note{
		{WhereOpening, word.Name("The end flap stands where you wish it to fall: begin and end the strip on a trough."), SignStop, nil},
		{WhereMarks, word.Name("22 sets are not a multiple of four."), SignMend, nil},
		{WhereBand, word.Name("Keep two fingers between band and throat."), SignCaution, nil},
		{WhereInner, word.Name("Slack 1.04."), SignNote, nil},
	}
}

// Labels at every size used: no two overlap, none leaves the sheet, and none is
// lost: the same view without notes says no less.
func TestLabelsApart(t *testing.T) {
	t.Parallel()
	for _, d := range designs() {
		plan, shape := d.make(t)
		for _, sheet := range sheets() {
			for _, notes := range [][]Note{nil, longNotes(), everywhere()} {
				for _, set := range []int{0, 1, plan.Crests} {
					for _, v := range Views {
						opt := sheet.Options
						opt.Notes, opt.Set, opt.Turn_deg, opt.Tilt_deg = notes, set, 20, 32
						opt.Plain = true // labels do not depend on it
						name := fmt.Sprintf("%s %s %s set %d, %d notes", v.Name, d.name, sheet.name, set, len(notes))
						dr, err := v.Draw(plan, shape, opt)
						if err != nil {
							t.Fatalf("%s: %v", name, err)
						}
						page := draw.Rect{Max: draw.Pt(dr.Width_mm, dr.Height_mm)}
						labels := dr.Labels()
						for i, a := range labels {
							if a.Text == "" || !a.Box().Inside(page) {
								t.Errorf("%s: label %q at %v leaves the sheet", name, a.Text, a.Box())
							}
							for _, b := range labels[:i] {
								if a.Box().Overlaps(b.Box()) {
									t.Errorf("%s: labels %q and %q overlap", name, b.Text, a.Text)
								}
							}
						}
						if len(notes) == 0 && set == 0 {
							for _, want := range dimensions(v.Name, plan, dr, opt.Units) {
								if !has(labels, want) {
									t.Errorf("%s: no label %q among %v", name, want, texts(labels))
								}
							}
						}
					}
				}
			}
		}
	}
}

// everywhere puts a note at as many places as a sheet points at.
func everywhere() []Note {
	var all []Note
	for i, w := range wheres {
		all = append(all, Note{Where: w, Text: word.Say("something about the %s", w), Sign: []Sign{SignStop, SignMend, SignNote, SignCaution}[i%4]})
	}
	return all
}

// dimensions are what the view must say of the plan, by the plan's own figures.
func dimensions(view string, plan pleat.Plan, d draw.Drawing, u scheme.Units) []string {
	s := draw.Sheet{Units: u}
	band, depth := s.Length(plan.Scheme.Band.Height).String(), s.Length(plan.Scheme.Ruff.Depth).String()
	switch view {
	case "above":
		return []string{"From above", "opening, at the front"}
	case "side":
		return []string{band, depth}
	case "front":
		return []string{"From the front"}
	case "set":
		return []string{band}
	case "cut":
		return []string{band, depth, "outer edge", "inner edge"}
	case "flat":
		i := 1
		if plan.Panels < 3 {
			i = 0
		}
		return []string{depth, s.Length(plan.Row[i+1].Place_mm - plan.Row[i].Place_mm).String(), s.Length(plan.Marked_mm).String() + " from first to last mark"}
	}
	return []string{"In the hand"}
}

func has(labels []draw.Label, text string) bool {
	for _, l := range labels {
		if l.Text == text {
			return true
		}
	}
	return false
}

func texts(labels []draw.Label) []string {
	var all []string
	for _, l := range labels {
		all = append(all, l.Text)
	}
	return all
}

// Hostile text stays text, and the file is well-formed XML.
func TestSVGWellFormed(t *testing.T) {
	t.Parallel()
	plan, shape := designs()[1].make(t)
	for _, v := range Views {
		d, err := v.Draw(plan, shape, Options{Width_mm: 92, Height_mm: 120, Notes: []Note{
			{WhereOuter, word.Name(`</text><script>alert("1&2")</script>` + "\x00\x08\uFFFE"), SignStop, nil}}})
		if err != nil {
			t.Fatal(err)
		}
		d.Title = `<&"'>`
		svg := d.SVG()
		dec := xml.NewDecoder(bytes.NewReader(svg))
		for {
			tok, err := dec.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", v.Name, err)
			}
			if e, ok := tok.(xml.StartElement); ok && !regexp.MustCompile(`^(svg|title|desc|rect|g|path|text|image)$`).MatchString(e.Name.Local) {
				t.Errorf("%s: element %s", v.Name, e.Name.Local)
			}
		}
		for _, want := range []string{`viewBox="0 0 92 1`, "<title", "<desc", `width="92mm"`} {
			if !bytes.Contains(svg, []byte(want)) {
				t.Errorf("%s: no %s", v.Name, want)
			}
		}
		plain := regexp.MustCompile(`base64,[^"]*`).ReplaceAll(svg, nil)
		if bytes.Contains(plain, []byte("NaN")) || bytes.Contains(plain, []byte("Inf")) {
			t.Errorf("%s: a number is not finite", v.Name)
		}
	}
}

// Everything that goes out is finite, indices are in range, the sheet says what
// it shows, and the same input gives the same drawing.
func TestDrawingsSound(t *testing.T) {
	t.Parallel()
	for _, d := range designs() {
		plan, shape := d.make(t)
		for _, v := range Views {
			opt := Options{Turn_deg: 200, Tilt_deg: -40, Zoom: 3, Notes: everywhere(), Set: 3}
			a, err := v.Draw(plan, shape, opt)
			if err != nil {
				t.Fatalf("%s %s: %v", v.Name, d.name, err)
			}
			if a.Title == "" || len(a.Desc) < 20 || !(a.Scale > 0) || math.IsInf(a.Scale, 0) {
				t.Errorf("%s %s: title %q, description %q, scale %g", v.Name, d.name, a.Title, a.Desc, a.Scale)
			}
			if err := sound(a); err != nil {
				t.Fatalf("%s %s: %v", v.Name, d.name, err)
			}
			b, err := v.Draw(plan, shape, opt)
			if err != nil || !reflect.DeepEqual(a, b) {
				t.Errorf("%s %s: drawn twice, it differs", v.Name, d.name)
			}
		}
	}
}

// sound tells the first number of a drawing that cannot be painted.
func sound(d draw.Drawing) error {
	for _, it := range d.Items {
		switch it := it.(type) {
		case draw.Path:
			for _, l := range it.Lines {
				for _, p := range l {
					if !finite(p.X, p.Y) {
						return fmt.Errorf("path at %v", p)
					}
				}
			}
		case draw.Label:
			if b := it.Box(); !finite(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y) {
				return fmt.Errorf("label %q at %v", it.Text, b)
			}
		case draw.Solid:
			if err := it.Scene.Check(); err != nil {
				return err
			}
			if e := it.Eye; !finite(e.X, e.Y, e.Scale, e.Far, e.Toward.X, e.Mid.X, e.Mid.Y, e.Mid.Z) {
				return fmt.Errorf("eye %+v", e)
			}
		}
	}
	return nil
}

// Shapes that no ruff has are drawn or refused, never a panic and never NaN.
func TestOddShapes(t *testing.T) {
	t.Parallel()
	plan, shape := designs()[1].make(t)
	rng := rand.New(rand.NewPCG(1, 2))
	for name, f := range map[string]func(geom.Vec3) geom.Vec3{
		"a point":   func(geom.Vec3) geom.Vec3 { return geom.Vec3{} },
		"a post":    func(v geom.Vec3) geom.Vec3 { return geom.Vec3{Z: v.Z} },
		"a disc":    func(v geom.Vec3) geom.Vec3 { return geom.Vec3{X: v.X, Y: v.Y} },
		"a line":    func(v geom.Vec3) geom.Vec3 { return geom.Vec3{X: v.X} },
		"one place": func(geom.Vec3) geom.Vec3 { return geom.Vec3{X: 50} },
		"huge":      func(v geom.Vec3) geom.Vec3 { return v.Scale(200) },
		"scrambled": func(geom.Vec3) geom.Vec3 {
			return geom.Vec3{X: rng.NormFloat64() * 100, Y: rng.NormFloat64() * 100, Z: rng.NormFloat64() * 30}
		},
		"far below": func(v geom.Vec3) geom.Vec3 { return geom.Vec3{X: v.X, Y: v.Y, Z: v.Z - 9000} },
	} {
		odd := pleat.Shape{NU: shape.NU, NV: shape.NV}
		for _, p := range shape.Panels {
			var q pleat.Panel
			for _, v := range p.V {
				q.V = append(q.V, f(v))
			}
			odd.Panels = append(odd.Panels, q)
		}
		for _, v := range Views {
			d, err := v.Draw(plan, odd, Options{Tilt_deg: 20, Notes: everywhere(), Plain: true})
			if err == nil {
				err = sound(d)
				d.Image(1)
			} else if name != "a point" && name != "a post" {
				t.Errorf("%s, %s: refused: %v", v.Name, name, err)
				continue
			} else {
				continue
			}
			if err != nil {
				t.Errorf("%s, %s: %v", v.Name, name, err)
			}
		}
	}
}

func finite(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

func TestBadInput(t *testing.T) {
	plan, shape := designs()[1].make(t)
	nan, inf := math.NaN(), math.Inf(1)
	broken := pleat.Shape{NU: shape.NU, NV: shape.NV, Panels: append([]pleat.Panel{}, shape.Panels...)}
	broken.Panels[3].V = append(broken.Panels[3].V[:0:0], broken.Panels[3].V...)
	broken.Panels[3].V[5].Z = nan
	short := shape
	short.Panels = shape.Panels[:4]
	ragged := pleat.Shape{NU: shape.NU, NV: shape.NV, Panels: append([]pleat.Panel{}, shape.Panels...)}
	ragged.Panels[0].V = ragged.Panels[0].V[:7]
	for _, c := range []struct {
		name  string
		plan  pleat.Plan
		shape pleat.Shape
		opt   Options
		want  string
	}{
		{"no plan", pleat.Plan{}, shape, Options{}, "marks"},
		{"no shape", plan, pleat.Shape{}, Options{}, "grid"},
		{"short shape", plan, short, Options{}, "panels"},
		{"ragged shape", plan, ragged, Options{}, "nodes of a panel: 7"},
		{"NaN in the shape", plan, broken, Options{}, "panel 3, node 5"},
		{"small sheet", plan, shape, Options{Width_mm: 10, Height_mm: 10}, "Width_mm: 10 cannot be drawn; allowed: 80 to 1000"},
		{"half a sheet", plan, shape, Options{Width_mm: 100}, "Height_mm"},
		{"NaN sheet", plan, shape, Options{Width_mm: nan, Height_mm: 100}, "Width_mm: NaN"},
		{"Inf turn", plan, shape, Options{Turn_deg: inf}, "Turn_deg"},
		{"tilt", plan, shape, Options{Tilt_deg: 91}, "Tilt_deg: 91 cannot be drawn; allowed: -90 to 90"},
		{"zoom", plan, shape, Options{Zoom: -1}, "Zoom"},
		{"bow", plan, shape, Options{Bow_deg: -5}, "Bow_deg"},
		{"pan", plan, shape, Options{PanX_mm: inf}, "PanX_mm"},
		{"set", plan, shape, Options{Set: -1}, "Set"},
		{"joins", plan, shape, Options{Joins_mm: []float64{nan}}, "Joins_mm"},
	} {
		for _, v := range Views {
			if v.Strip && strings.Contains(c.name, "shape") {
				continue // it needs none
			}
			_, err := v.Draw(c.plan, c.shape, c.opt)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%s, %s: error %v, want one with %q", v.Name, c.name, err, c.want)
			}
		}
	}
	if _, err := Named("set").Draw(plan, shape, Options{Set: 1000}); err == nil {
		t.Error("set 1000 was drawn")
	}
	if d, err := Named("above").Draw(plan, shape, Options{Notes: []Note{{Where: "nowhere", Text: word.Name("x")}}}); err != nil || !has(d.Labels(), "a") {
		t.Errorf("an unknown place is not taken for the whole: %v", err)
	}
	if err := (draw.Drawing{Width_mm: 10, Height_mm: 10}).PNG(io.Discard, nan); err == nil {
		t.Error("PNG at NaN px/mm was written")
	}
}

// What the views measure on the shape is what the closed form says of its half
// sets; the shape's nodes lie on the curve, so a loop's width between nodes is
// short by at most the sagitta of a cell: (P/nu)²κ/8, here under 0.2 mm.
func TestMeasures(t *testing.T) {
	for _, d := range designs()[:2] {
		plan, shape := d.make(t)
		folded, err := plan.Fold(d.nu, d.nv)
		if err != nil {
			t.Fatal(err)
		}
		n := plan.Crests / 2
		lo, hi, _ := setPanels(plan, n)
		u := unroll(plan, shape, nil, lo, hi, lo+1)
		half := folded.Half[lo]
		a, b := u.loop(u.crest)
		sec := newSection(plan, shape, lo+1, nil)
		for _, m := range []struct {
			name            string
			got, want, room float64
		}{
			{"loop", b.X - a.X - plan.Scheme.Cloth.Thickness, half.Loop_mm, 0.2},
			{"room at the outer edge", u.roomOuter(plan.Pitch_mm), half.PitchOuter_mm, 0.01},
			{"height", sec.height, half.HeightOuter_mm, 1e-6},
			{"depth", sec.depth, plan.Scheme.Ruff.Depth, 0.01},
			{"droop", sec.droop, 0, 0.01},
		} {
			if !(math.Abs(m.got-m.want) <= m.room) {
				t.Errorf("%s: %s measures %.4f, the closed form says %.4f ± %g", d.name, m.name, m.got, m.want, m.room)
			}
		}
	}
}

// Scale is true: outer diameters on the sheet are those of the nodes.
func TestScale(t *testing.T) {
	plan, shape := designs()[0].make(t)
	d, err := Named("above").Draw(plan, shape, Options{})
	if err != nil {
		t.Fatal(err)
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range shape.Panels {
		for _, v := range p.V {
			lo, hi = math.Min(lo, v.X), math.Max(hi, v.X)
		}
	}
	s := draw.Sheet{}
	if !has(d.Labels(), s.Length(hi-lo).String()) {
		t.Errorf("no label %q among %v", s.Length(hi-lo), texts(d.Labels()))
	}
	seen := solidsOf(d)[0]
	box := seen.Eye.Bounds(seen.Scene.Sheets[len(seen.Scene.Sheets)-1].V)
	if got, want := box.Max.X-box.Min.X, (hi-lo)*d.Scale; math.Abs(got-want) > 1e-6 {
		t.Errorf("the ruff is %.3f mm wide on the sheet, want %.3f", got, want)
	}
}
