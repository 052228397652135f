package pattern

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

func decimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// everyCut gives every way of cutting a pattern, laid out.
func everyCut(p Pattern) []Pattern {
	var out []Pattern
	for _, c := range p.cuts() {
		q := p
		q.Cut = c
		out = append(out, q)
	}
	return out
}

// The strip from the marks and the strip from the pieces agree; the pieces follow
// one another over the whole strip and no piece is longer than its cloth.
func TestPiecesCoverStrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first, err := New(drawPlan(t))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range everyCut(first) {
			s, c := p.Strip, p.Cut
			// Sums of up to a thousand lengths: a few hundred roundings of 1e-16.
			tol := 1e-12 * s.Length_mm * float64(len(c.Pieces)+1)
			if math.Abs(stripFromMarks(p)-stripFromPieces(p)) > tol {
				t.Fatalf("strip from marks %v, from pieces %v (%d at hand)", stripFromMarks(p), stripFromPieces(p), len(c.Pieces)-c.ToCut())
			}
			if math.Abs(s.Length_mm-stripFromMarks(p)) > tol {
				t.Fatalf("strip %v, from marks %v", s.Length_mm, stripFromMarks(p))
			}
			if want := p.Plan.Strip_mm + s.Spare_mm; math.Abs(s.Length_mm-want) > tol {
				t.Fatalf("strip %v, the plan's with spare %v", s.Length_mm, want)
			}
			at := -s.Hem_mm
			join := p.Plan.Scheme.Strip.Join
			for i, q := range c.Pieces {
				if q.From_mm != at || !(q.To_mm > q.From_mm) {
					t.Fatalf("piece %d from %v to %v, want from %v on", q.Number, q.From_mm, q.To_mm, at)
				}
				at = q.To_mm
				a, b := join, join
				if i == 0 {
					a = 0
				}
				if i == len(c.Pieces)-1 {
					b = 0
				}
				if q.JoinA_mm != a || q.JoinB_mm != b {
					t.Fatalf("piece %d joins %v and %v, want %v and %v", q.Number, q.JoinA_mm, q.JoinB_mm, a, b)
				}
				if i < len(c.Pieces)-1 {
					if j := c.Joins[i]; j.Place_mm != q.To_mm || j.Back_mm < -1e-9 || j.Consumes_mm != 2*join {
						t.Fatalf("join %+v after piece %+v", j, q)
					}
				}
			}
			if math.Abs(at-(s.Length_mm-s.Hem_mm)) > tol {
				t.Fatalf("pieces end at %v, strip at %v", at, s.Length_mm-s.Hem_mm)
			}
			if len(c.Joins) != len(c.Pieces)-1 {
				t.Fatalf("%d joins between %d pieces", len(c.Joins), len(c.Pieces))
			}
		}
	})
}

// A hidden join lies on a trough inside the strip or in the spare; one that shows
// exists only where no trough was in reach.
func TestJoinsOnInnerFolds(t *testing.T) {
	shown, hidden := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		first, err := New(drawPlan(t))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range everyCut(first) {
			marks := p.Plan.Row
			for i, j := range p.Cut.Joins {
				from, full := p.Cut.Pieces[i].From_mm, j.Place_mm+j.Back_mm
				switch {
				case j.Hidden && j.Mark >= 0:
					hidden++
					if j.Mark == 0 || j.Mark == len(marks)-1 || marks[j.Mark].Fold != scheme.Trough || marks[j.Mark].Place_mm != j.Place_mm {
						t.Fatalf("join %+v on mark %+v", j, marks[j.Mark])
					}
				case j.Hidden:
					if j.Place_mm-p.Plan.Scheme.Strip.Join < p.Strip.Marked_mm+p.Strip.Hem_mm-1e-9 {
						t.Fatalf("join %+v lies in what stays, which ends at %v", j, p.Strip.Marked_mm+p.Strip.Hem_mm)
					}
				default:
					shown++
					for k, m := range marks[:len(marks)-1] {
						if k > 0 && m.Fold == scheme.Trough && m.Place_mm > from && m.Place_mm <= full {
							t.Fatalf("join %+v shows, but the trough at %v was in reach", j, m.Place_mm)
						}
					}
				}
			}
		}
	})
	// A short run draws 20 plans instead of 100: one in fifty has no join that shows.
	if !testing.Short() && (shown == 0 || hidden == 0) {
		t.Errorf("drew %d joins that show and %d hidden, want both", shown, hidden)
	}
}

// No other choice of troughs needs fewer pieces: an exhaustive search over all
// troughs (fewest pieces to each, by dynamic programming) finds no better.
func TestFewestPieces(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		p, err := New(drawPlan(t))
		if err != nil {
			t.Fatal(err)
		}
		// A strip at hand and joins in the spare follow rules of their own; the
		// property is of the marks.
		p.Strip.Have_mm, p.Strip.Spare_mm = 0, 0
		p.Strip.Length_mm = p.Strip.Marked_mm + 2*p.Strip.Hem_mm
		a := p.Plan.Scheme.Strip.Join
		reach := usable(p.Plan.Scheme.Strip) * keeps(p.Plan.Scheme.Strip, scheme.Weft)
		stops := []float64{-p.Strip.Hem_mm}
		for _, m := range p.Plan.Row[1 : len(p.Plan.Row)-1] {
			if m.Fold == scheme.Trough {
				stops = append(stops, m.Place_mm)
			}
		}
		stops = append(stops, p.Strip.end())
		best := make([]int, len(stops))
		for k := 1; k < len(stops); k++ {
			best[k] = math.MaxInt32
			for i := range k {
				long := stops[k] - stops[i]
				if i > 0 {
					long += a
				}
				if k < len(stops)-1 {
					long += a
				}
				if long <= reach+1e-9 {
					best[k] = min(best[k], best[i]+1)
				}
			}
		}
		pieces, joins := p.pieces(reach)
		for _, j := range joins {
			if !j.Hidden {
				return
			}
		}
		compared++
		if want := best[len(stops)-1]; len(pieces) != want {
			t.Fatalf("%d pieces, %d would do", len(pieces), want)
		}
	})
	if compared == 0 {
		t.Error("nothing was compared")
	}
}

// Along the warp n pieces are as even as troughs allow: no reach shorter by a
// thousandth of a millimetre covers the strip with as few.
func TestEvenReach(t *testing.T) {
	p := made(t, [2]string{"strip.along", "warp"})
	for n := 2; n <= 12; n++ {
		reach := p.evenReach(n)
		for _, c := range []struct {
			reach float64
			good  bool
		}{{reach, true}, {reach - 1e-3, false}} {
			pieces, _ := p.pieces(c.reach)
			if got := len(pieces) <= n; got != c.good {
				t.Errorf("%d pieces wanted: reach %v gives %d", n, c.reach, len(pieces))
			}
		}
		if least := p.Strip.Length_mm / float64(n); reach < least {
			t.Errorf("%d pieces of %v cannot cover %v", n, reach, p.Strip.Length_mm)
		}
	}
}

// Cut sizes by hand: depth 70, two turns of 2 mm, 8 mm taken up; cut before the
// wash it is 82 ÷ 0.96 wide.
func TestStripWidthByHand(t *testing.T) {
	p := made(t)
	if p.Strip.Width_mm != 70+2*2+8 {
		t.Errorf("cut width %v", p.Strip.Width_mm)
	}
	if got, want := p.Cut.Layout.Placed[0].Long_mm, 82/0.96; math.Abs(got-want) > 1e-12 {
		t.Errorf("as bought %v, want %v", got, want)
	}
	// A set of spare is two panels.
	if got, want := p.Strip.Spare_mm, 4*p.Plan.Panel_mm; math.Abs(got-want) > 1e-9 {
		t.Errorf("spare %v, want %v", got, want)
	}
}

// A strip at hand that is long enough is not cut; one that is too short is eked
// out.
func TestStripAtHand(t *testing.T) {
	enough := made(t, [2]string{"strip.have", "4600"})
	if n := len(enough.Cut.Pieces); n != 1 || !enough.Cut.Pieces[0].AtHand {
		t.Errorf("%d pieces of a strip that is long enough", n)
	}
	for _, q := range enough.Cut.Layout.Placed {
		if q.Kind == KindStrip {
			t.Errorf("%s is cut though the strip is at hand", q.Name())
		}
	}
	short := made(t, [2]string{"strip.have", "3000"})
	if c := short.Cut.Pieces; !c[0].AtHand || c[0].Length_mm > 3000 || len(c) < 2 || c[1].AtHand {
		t.Errorf("pieces %+v", c)
	}
	if got := len(short.Cut.Layout.Placed); got == 0 || short.Cut.Layout.Placed[0].Number != 2 {
		t.Errorf("first piece on the cloth is %+v", short.Cut.Layout.Placed[0])
	}
}

// stripFromMarks is the length of the joined strip before it is hemmed, mm, from
// the marks: the last mark's place, the hem of both ends and the spare.
func stripFromMarks(p Pattern) float64 {
	marks := p.Plan.Row
	return marks[len(marks)-1].Place_mm + 2*p.Strip.Hem_mm + p.Strip.Spare_mm
}

// stripFromPieces is the same length from the pieces: their lengths as cut less
// what the joins consume.
func stripFromPieces(p Pattern) float64 {
	var sum float64
	for _, c := range p.Cut.Pieces {
		sum += c.Length_mm
	}
	for _, j := range p.Cut.Joins {
		sum -= j.Consumes_mm
	}
	return sum
}

// With no bottom fold in reach the piece ends off a top fold, by two join allowances
// (3 of 1.5), where that leaves at least half of it: from 0 to 10 with a top fold at
// 9 it ends at 6, from 4 it goes on to 10.
func TestJoinBesideACrest(t *testing.T) {
	var p Pattern
	p.Plan.Scheme.Strip.Join = 1.5
	p.Plan.Row = pleat.Row{{Fold: scheme.Trough}, {Fold: scheme.Crest, Place_mm: 9}, {Fold: scheme.Trough, Place_mm: 20}}
	for _, c := range []struct{ from, want float64 }{{0, 6}, {4, 10}} {
		if j := p.joinAt(c.from, 10, 100); j.Place_mm != c.want || j.Hidden {
			t.Errorf("from %v: %+v, want a join at %v that shows", c.from, j, c.want)
		}
	}
}
