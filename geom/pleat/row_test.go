package pleat

import (
	"fmt"
	"testing"

	"ruffwright/geom/scheme"
)

// rowOf is a row of folds 60 mm apart on the strip and 5 mm on the neckline, each
// written as its kind (c, t) and its edge (t, b, -).
func rowOf(folds ...string) Row {
	r := make(Row, len(folds))
	for k, f := range folds {
		kind := map[byte]scheme.Fold{'c': scheme.Crest, 't': scheme.Trough}[f[0]]
		edge := map[byte]scheme.Edge{'t': scheme.EdgeTop, 'b': scheme.EdgeBottom, '-': scheme.EdgeNone}[f[1]]
		r[k] = Mark{Place_mm: 60 * float64(k), Station_mm: 5 * float64(k), Pitch_mm: 5, Fold: kind, Edge: edge}
	}
	r.tuck(scheme.Pleat{TuckTop: 12, TuckBottom: 7})
	return r
}

// What is sewn is what most folds of a kind are sewn to, in whatever fields a
// scheme may say something else; of equal numbers sewn counts before free.
func TestRowSaysWhatIsSewn(t *testing.T) {
	for _, c := range []struct {
		row             Row
		crests, troughs scheme.Edge
		oneEdge         bool
		edge            scheme.Edge
		top, bottom     float64 // tucks
	}{
		{rowOf("tb", "ct", "tb"), scheme.EdgeTop, scheme.EdgeBottom, false, scheme.EdgeTop, 12, 7},
		{rowOf("t-", "ct", "t-"), scheme.EdgeTop, scheme.EdgeNone, true, scheme.EdgeTop, 12, 0},
		{rowOf("t-", "cb", "t-"), scheme.EdgeBottom, scheme.EdgeNone, true, scheme.EdgeBottom, 12, 0},
		{rowOf("tt", "c-", "tt"), scheme.EdgeNone, scheme.EdgeTop, true, scheme.EdgeTop, 0, 7},
		{rowOf("tb", "c-", "tb"), scheme.EdgeNone, scheme.EdgeBottom, true, scheme.EdgeBottom, 0, 7},
		{rowOf("t-", "c-", "t-"), scheme.EdgeNone, scheme.EdgeNone, true, scheme.EdgeNone, 0, 0},
		// one bottom fold sewn among three: most hang free, and its tuck is no ruff's
		{rowOf("tb", "ct", "t-", "ct", "t-"), scheme.EdgeTop, scheme.EdgeNone, true, scheme.EdgeTop, 12, 0},
		{rowOf("tb", "ct", "t-", "ct"), scheme.EdgeTop, scheme.EdgeBottom, false, scheme.EdgeTop, 12, 7},
		{rowOf("tb", "ct", "tt", "ct"), scheme.EdgeTop, scheme.EdgeTop, false, scheme.EdgeTop, 12, 7},
	} {
		r := c.row
		if crests, troughs := r.Sewn(scheme.Crest), r.Sewn(scheme.Trough); crests != c.crests || troughs != c.troughs {
			t.Errorf("%+v: crests to %q, troughs to %q, want %q and %q", r, crests, troughs, c.crests, c.troughs)
		}
		if r.OneEdge() != c.oneEdge || r.Edge() != c.edge {
			t.Errorf("%+v: one edge %v, %q, want %v, %q", r, r.OneEdge(), r.Edge(), c.oneEdge, c.edge)
		}
		if want := c.crests == scheme.EdgeNone && c.troughs != scheme.EdgeNone; (r.Kind() == scheme.Trough) != want {
			t.Errorf("%+v: %ss are sewn", r, r.Kind())
		}
		if top, bottom := r.Tuck(scheme.Crest), r.Tuck(scheme.Trough); top != c.top || bottom != c.bottom || r.Tucked() != (c.top+c.bottom > 0) {
			t.Errorf("%+v: tucks %g and %g mm, tucked %v, want %g and %g", r, top, bottom, r.Tucked(), c.top, c.bottom)
		}
	}
}

// The rows of planned schemes: pleat.sewn speaks where one edge is sewn only, and
// marks that say the same as the plan give the same row.
func TestPlannedRow(t *testing.T) {
	for _, anchor := range []string{"both", "top", "bottom"} {
		for _, sewn := range []string{"crests", "troughs"} {
			p := plan(t, "pleat.panel 60", "ruff.sets 12", "pleat.tuck_top 5", "pleat.tuck_bottom 4", "pleat.anchor "+anchor, "pleat.sewn "+sewn)
			if p.Row.OneEdge() != (anchor != "both") || !p.Row.Tucked() || !p.Row.Regular() {
				t.Errorf("%s, %s: one edge %v, tucked %v, regular %v", anchor, sewn, p.Row.OneEdge(), p.Row.Tucked(), p.Row.Regular())
			}
			if anchor != "both" && (p.Row.Edge() != scheme.Edge(anchor) || string(p.Row.Kind())+"s" != sewn) {
				t.Errorf("%s, %s: %ss to %q", anchor, sewn, p.Row.Kind(), p.Row.Edge())
			}
			along := 0.0
			for k := range p.Panels {
				near(t, "along the neckline", p.Row.Along(k), along, 1e-9)
				along += p.Row.Pitch(k)
			}
			near(t, "in the middle of the neckline", p.Row[0].Station_mm, p.Neckline_mm-p.Row[p.Panels].Station_mm, 1e-9)
			s := p.Scheme
			for _, m := range p.Row {
				s.Pleat.Marks = append(s.Pleat.Marks, scheme.Mark{Place: m.Place_mm, Fold: m.Fold, Sewn: m.Edge})
			}
			s.Pleat.Anchor, s.Pleat.Sewn = scheme.AnchorBottom, scheme.Troughs // no longer counts
			own, err := NewPlan(s)
			if err != nil {
				t.Fatal(err)
			}
			if got, want := fmt.Sprint(own.Row), fmt.Sprint(p.Row); got != want {
				t.Errorf("%s, %s: own marks give\n%s\nnot\n%s", anchor, sewn, got, want)
			}
		}
	}
}

// A row is regular until a place, a room, an edge or a tuck differs from one set to
// the next.
func TestRegular(t *testing.T) {
	regular := func() Row { return rowOf("tb", "ct", "tb", "ct", "tb", "ct", "tb") }
	if r := regular(); !r.Regular() || !rowOf("tb", "ct").Regular() {
		t.Error("equal sets are not regular")
	}
	for what, change := range map[string]func(Row){
		"place": func(r Row) { r[4].Place_mm += 0.01 },
		"room":  func(r Row) { r[5].Pitch_mm += 0.01 },
		"edge":  func(r Row) { r[3].Edge = scheme.EdgeBottom },
		"tuck":  func(r Row) { r[2].Tuck_mm++ },
	} {
		r := regular()
		change(r)
		if r.Regular() {
			t.Errorf("another %s goes unseen", what)
		}
	}
}

// Every panel is asked for its own lengths, and a tuck at an end has only the half
// that lies on the strip.
func TestRowLengths(t *testing.T) {
	r := rowOf("tb", "ct", "t-", "cb")
	r[2].Place_mm, r[2].Station_mm, r[1].Pitch_mm, r[2].Pitch_mm = 130, 11, 6, 4
	for i, want := range [][3]float64{{60, 41, 5}, {70, 58, 6}, {50, 38, 4}} {
		if got := [3]float64{r.Panel(i), r.Inner(i), r.Pitch(i)}; got != want {
			t.Errorf("panel %d: %v, want %v", i, got, want)
		}
	}
	for k, want := range [][2]float64{{0, 7}, {48, 72}, {130, 130}, {168, 180}} {
		if from, to := r.Stitch(k); from != want[0] || to != want[1] {
			t.Errorf("stitch %d joins %g and %g, want %v", k, from, to, want)
		}
	}
}

// AsGiven has the tucks that a fitted panel took away, at sewn folds alone.
func TestAsGiven(t *testing.T) {
	p := plan(t, "pleat.panel 0", "ruff.height 25", "band.height 20", "pleat.anchor top", "pleat.sewn crests", "pleat.tuck_top 30", "pleat.tuck_bottom 20")
	if !p.TucksFitted || p.Row.Tuck(scheme.Crest) >= 30 || p.Row.Tuck(scheme.Trough) != 0 {
		t.Fatalf("fitted %v: tucks %g and %g mm", p.TucksFitted, p.Row.Tuck(scheme.Crest), p.Row.Tuck(scheme.Trough))
	}
	if r := p.AsGiven(); r.Tuck(scheme.Crest) != 30 || r.Tuck(scheme.Trough) != 0 {
		t.Errorf("as given %g and %g mm", r.Tuck(scheme.Crest), r.Tuck(scheme.Trough))
	}
	if p.Row.Tuck(scheme.Crest) == 30 {
		t.Error("the plan's own row was changed")
	}
}
