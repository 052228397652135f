package pattern

import (
	"math"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
)

// TestPair: of a pair of cuffs both are on the cloth, beside each other and the
// swatches, which are cut once; cloth and sewing are those of both. No piece is cut
// for spare alone.
func TestPair(t *testing.T) {
	for _, c := range [][3]string{{"weft", "1400", "40"}, {"warp", "1400", "40"}, {"warp", "200", "76"}, {"warp", "200", "80"}} {
		along := c[0]
		set := [][2]string{{"wearer.girth", "190"}, {"ruff.sets", "24"}, {"ruff.depth", c[2]}, {"strip.along", along}, {"strip.bolt", c[1]}}
		cuffs := made(t, append(set, [2]string{"wearer.part", "wrist"})...)
		count := map[string]int{}
		l := cuffs.Cut.Layout
		for i, q := range l.Placed {
			count[strings.TrimRight(q.Name().String(), " 0123456789")]++
			for _, r := range l.Placed[i+1:] {
				const eps = 1e-6
				if q.X_mm < r.X_mm+r.Wide_mm-eps && r.X_mm < q.X_mm+q.Wide_mm-eps && q.Y_mm < r.Y_mm+r.Long_mm-eps && r.Y_mm < q.Y_mm+q.Long_mm-eps {
					t.Errorf("%s: %+v lies on %+v", along, q, r)
				}
			}
			if q.Y_mm+q.Long_mm > l.Length_mm-l.Square_mm+1e-6 || q.X_mm+q.Wide_mm > l.Bolt_mm-l.Selvedge_mm+1e-6 {
				t.Errorf("%s: %+v lies off the cloth", along, q)
			}
		}
		n := len(cuffs.Cut.Pieces)
		if count["left strip"] != n || count["right strip"] != n || count["left band"] != 1 || count["right band"] != 1 || count["swatch, warp"] != swatchEach {
			t.Errorf("%s: %d pieces a strip, on the cloth %v", along, n, count)
		}
		// Two strips lie beside each other where both go between the selvedges.
		wide, high := 0.0, map[float64]bool{}
		for _, q := range l.Placed {
			if q.Kind == KindStrip {
				wide += q.Wide_mm
				high[q.Y_mm] = true
			}
		}
		if beside := wide <= l.Bolt_mm-2*l.Selvedge_mm; along == "warp" && beside != (len(high) == 1) {
			t.Errorf("%s: strips %.0f mm wide in all begin at %d heights", along, wide, len(high))
		}
		one := cuffs
		one.Made = 1
		both, single := cuffs.Work(), one.Work()
		if both.Stitches < 2*single.Stitches-len(both.Seams) || both.Stitches > 2*single.Stitches ||
			math.Abs(both.Setting.Learner.Most-2*single.Setting.Learner.Most) > 1e-9 {
			t.Errorf("%s: %d stitches for both, %d for one", along, both.Stitches, single.Stitches)
		}
	}
}

// TestNoPieceForSpare: spare that would take a piece of its own is trimmed to what
// the last piece has room for; where a piece more is needed anyway, it is whole.
func TestNoPieceForSpare(t *testing.T) {
	trimmed := 0
	for sets := 40; sets < 80; sets++ {
		n := decimal(float64(sets))
		all := made(t, [2]string{"ruff.sets", n}, [2]string{"pleat.panel", "50"})
		none := made(t, [2]string{"ruff.sets", n}, [2]string{"pleat.panel", "50"}, [2]string{"strip.spare", "0"})
		if len(all.Cut.Pieces) != len(none.Cut.Pieces) {
			t.Errorf("%d sets: %d pieces with spare, %d without", sets, len(all.Cut.Pieces), len(none.Cut.Pieces))
		}
		s := all.Strip.Spare_mm
		if s < 0 || s > 200 {
			t.Errorf("%d sets: %g mm of spare", sets, s)
		}
		if s < 200 {
			trimmed++
			c := all.Cut.Pieces[len(all.Cut.Pieces)-1]
			st := all.Plan.Scheme.Strip
			if reach := usable(st) * keeps(st, scheme.Weft); math.Abs(c.Length_mm-reach) > 1e-6 {
				t.Errorf("%d sets: the last piece is %g mm of %g", sets, c.Length_mm, reach)
			}
		}
	}
	if trimmed == 0 {
		t.Error("no spare was trimmed: the test shows nothing")
	}
}
