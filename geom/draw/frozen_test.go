package draw

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/testdata/frozen"
)

// scribble is a drawing of everything that the kit has, by chance but always the same.
func scribble(seed uint64) (*Sheet, string) {
	r := rand.New(rand.NewPCG(seed, 8))
	x := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	pal := []Palette{Light(), Dark(), Contrast()}[seed%3]
	w, h := x(60, 240), x(60, 200)
	s := NewSheet(w, h, pal, scheme.Units(seed%3), word.English, []string{"", "A"}[seed%2], word.Say("In the hand"), word.Say("40 sets"))
	at := func() Point { return Pt(x(-5, w+5), x(-5, h+5)) }
	for range 12 {
		a, b := at(), at()
		s.Line(pal.Cloth(r.Float64()), x(0.1, 1), [][]float64{nil, {1, 0.5}}[r.IntN(2)], a, b, at())
		s.Dot(at(), x(0.2, 3), pal.Dye(r.Float64()))
		s.Add(Path{Lines: [][]Point{Ring(at(), x(1, 9), x(1, 9), 5+r.IntN(9))}, Closed: true, Fill: Mix(pal.Cloth(0.2), pal.Dye(0.8), r.Float64())})
		s.Place(Label{At: at(), Text: "a label & more", Size_mm: x(2, 6), Anchor: Pt(r.Float64(), r.Float64())}, Around(x(1, 6))...)
		s.Across(a, Pt(b.X, a.Y), x(0, h), s.Length(x(1, 90)))
		s.Upright(a, Pt(a.X, b.Y), x(0, w), s.Length(x(1, 90)))
	}
	s.Ruler(at(), x(0.05, 2), x(10, 70))
	e := NewEye(x(-180, 180), x(-90, 90))
	e.Far = []float64{0, 400}[seed%2]
	var corners []geom.Vec3
	for range 40 {
		corners = append(corners, geom.Vec3{X: x(-60, 60), Y: x(-60, 60), Z: x(-20, 40)})
	}
	e.Fit(Rect{Pt(5, 20), Pt(w-5, h-5)}, 3, corners)
	seen := ""
	for _, v := range corners {
		p, near := e.See(v)
		seen += fmt.Sprintln(p.X, p.Y, near)
	}
	return s, seen
}

// TestFrozen holds what the kit draws to what it drew: every line, label and place seen,
// two sheets beside each other and enlarged too.
func TestFrozen(t *testing.T) {
	texts := map[string]string{}
	var last *Sheet
	for seed := range uint64(24) {
		s, seen := scribble(seed)
		texts[fmt.Sprintf("%d-svg", seed)] = string(s.SVG())
		texts[fmt.Sprintf("%d-seen", seed)] = seen
		if last != nil {
			lens := []Lens{{Scale: 1}, {Scale: 2.5, X: 0.4, Y: 0.7}, {Scale: 6, X: 0.9, Y: 0.1}}[seed%3]
			texts[fmt.Sprintf("%d-beside", seed)] = string(Beside(last.Drawing, s.Drawing, seed%2 == 0, lens).SVG())
		}
		last = s
	}
	for k := range 40 {
		text, size := "Where the sewn folds hang from the edge of their kind", 1.5+float64(k)/7
		texts["text"] += fmt.Sprint(Clip(text, size, Face(k%3), 8*float64(k)), Wrap(text, size, Face(k%3), 40, 1+k%4), TextWidth(text, size, Face(k%3)), Number(size*1234.5678), "\n")
	}
	frozen.Hold(t, texts)
}
