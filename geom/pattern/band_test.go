package pattern

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom/scheme"
)

// Closed, the band's inside goes round girth + ease, whatever closes it: the two
// halves of a pair lie Carry_mm apart along the band, or the ties cross the rest.
// Quarters divide what carries the sets; pins on the strip and on the band lie in
// the same proportion.
func TestBandGoesRoundTheNeck(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan := drawPlan(t)
		p, err := New(plan)
		if err != nil {
			t.Fatal(err)
		}
		b, s := p.Band, plan.Scheme
		if !b.AtHand && math.Abs(b.CutLong_mm-(s.Wearer.Girth+s.Wearer.Ease+s.Band.Overlap+2*s.Band.Seam)) > 1e-9 {
			t.Fatalf("band cut %v long", b.CutLong_mm)
		}
		if b.CutWide_mm != 2*s.Band.Height+2*s.Band.Seam || b.Fold_mm != b.CutWide_mm/2 {
			t.Fatalf("band cut %v wide, fold at %v", b.CutWide_mm, b.Fold_mm)
		}
		if math.Abs(b.Carry_mm+b.Overlap_mm-b.Length_mm) > 1e-9 {
			t.Fatalf("carries %v, overlap %v, length %v", b.Carry_mm, b.Overlap_mm, b.Length_mm)
		}
		for i := 0; i+1 < len(b.Closures); i += 2 {
			near, far := b.Closures[i], b.Closures[i+1]
			if near.Pair != far.Pair || near.Up_mm != far.Up_mm || near.Apart_mm != far.Apart_mm {
				t.Fatalf("pair %+v and %+v", near, far)
			}
			if got := far.X_mm - near.X_mm + near.Apart_mm; math.Abs(got-b.Carry_mm) > 1e-9 {
				t.Fatalf("closed by %+v and %+v the band goes round %v, want %v", near, far, got, b.Carry_mm)
			}
			if near.Apart_mm > 0 && s.Band.Closure != scheme.Ties {
				t.Fatalf("%s closes with a gap of %v", near.Name, near.Apart_mm)
			}
			row := b.Seam_mm + b.Carry_mm // sets lie on the outer half before it
			if near.Face != Inner || far.Face != Outer && far.X_mm > row+1e-6 || far.Face == Outer && far.X_mm < row-1e-6 {
				t.Fatalf("%+v and %+v: the overlap from %v goes under the other end", near, far, row)
			}
			for _, c := range []Closure{near, far} {
				if y := b.Y_mm(c); (y > b.Fold_mm) != (c.Face == Inner) {
					t.Fatalf("%+v is drawn at %v, the fold at %v", c, y, b.Fold_mm)
				}
				if c.X_mm < b.Seam_mm-1e-9 || c.X_mm > b.Seam_mm+b.Length_mm+1e-9 || !(c.Up_mm > 0 && c.Up_mm < b.Height_mm) {
					t.Fatalf("%+v lies off a band of %v × %v", c, b.Length_mm, b.Height_mm)
				}
			}
		}
		if len(b.Closures) < 2 || len(b.Closures)%2 != 0 {
			t.Fatalf("%d halves of closures", len(b.Closures))
		}
		for i, m := range b.Marks {
			if want := b.Seam_mm + b.Carry_mm*float64(i)/4; math.Abs(m.X_mm-want) > 1e-9 {
				t.Fatalf("%s at %v, want %v", m.Name, m.X_mm, want)
			}
		}
		// As sewn the row is as long as its panels are by half a pitch each.
		row := float64(plan.Panels) * plan.Pitch_mm / 2
		if got, want := b.RowFrom_mm-b.Seam_mm, (b.Carry_mm-row)/2; math.Abs(got-want) > 1e-9 {
			t.Fatalf("the row begins %v from the seam, want %v", got, want)
		}
		for _, q := range b.Pins {
			want := b.RowFrom_mm + row*float64(q.Mark)/float64(plan.Panels)
			if math.Abs(q.Band_mm-want) > 1e-9 {
				t.Fatalf("pin %+v, want the band at %v", q, want)
			}
		}
	})
}

// The default by hand: 395 + 20 round, 15 overlap, 10 seams, height 36. Forty sets
// end on troughs, so that the quarters of the strip meet the band's own marks.
func TestBandByHand(t *testing.T) {
	b := made(t).Band
	if b.CutLong_mm != 450 || b.CutWide_mm != 92 || b.Fold_mm != 46 || b.Carry_mm != 415 {
		t.Errorf("band %+v", b)
	}
	if len(b.Pins) != 5 || len(b.Marks) != 5 {
		t.Fatalf("%d pins, %d marks", len(b.Pins), len(b.Marks))
	}
	for i, m := range b.Marks {
		if math.Abs(b.Pins[i].Band_mm-m.X_mm) > 1e-9 {
			t.Errorf("pin %+v, mark %+v", b.Pins[i], m)
		}
	}
	for _, c := range []struct {
		sets [][2]string
		kind [2]string
		n    int
	}{
		{nil, [2]string{"hook", "eye"}, 4},
		{[][2]string{{"band.closure", "buttons"}}, [2]string{"loop", "button"}, 4},
		{[][2]string{{"band.closure", "buttons"}, {"band.overlap", "0"}}, [2]string{"loop", "button"}, 4},
		{[][2]string{{"band.closure", "ties"}, {"band.overlap", "0"}, {"band.height", "12"}}, [2]string{"eyelet", "eyelet"}, 2},
	} {
		b := made(t, c.sets...).Band
		if len(b.Closures) != c.n || b.Closures[0].Name.String() != c.kind[0] || b.Closures[1].Name.String() != c.kind[1] {
			t.Errorf("%v: %+v", c.sets, b.Closures)
		}
	}
	// A band as made, 470 with 15 overlap, carries 455: the row of 415 lies in its
	// middle, 20 in from either end beyond the seam of 10.
	if b := made(t, [2]string{"band.length", "470"}).Band; math.Abs(b.RowFrom_mm-30) > 1e-9 {
		t.Errorf("the row begins at %v, want 30", b.RowFrom_mm)
	}
	// A hook 9 up lies on the inner half: 92 − 10 − 9 across, its image on the outer at 19.
	if in, out := b.Y_mm(Closure{Face: Inner, Up_mm: 9}), b.Y_mm(Closure{Face: Outer, Up_mm: 9}); in != 73 || out != 19 {
		t.Errorf("9 up lies at %v on the inner half and %v on the outer, want 73 and 19", in, out)
	}
	// A cuff has no front and no back of the wearer's.
	for _, m := range made(t, [2]string{"wearer.part", "wrist"}, [2]string{"wearer.girth", "190"}).Band.Marks {
		if name := m.Name.String(); strings.Contains(name, "wearer") || strings.Contains(name, "centre") {
			t.Errorf("a cuff's band has a mark %q", m.Name)
		}
	}
	// Eyelets 6 mm in from ends that only meet: 12 mm for the ties to cross.
	ties := made(t, [2]string{"band.closure", "ties"}, [2]string{"band.overlap", "0"}).Band
	if got := ties.Closures[0].Apart_mm; math.Abs(got-12) > 1e-9 {
		t.Errorf("ties cross %v mm, want 12", got)
	}
}
