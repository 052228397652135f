package sim

import (
	"context"
	"flag"
	"math"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
)

var full = flag.Bool("full", false, "the long forms of the tests")

// stiffer is a scheme whose cloth is so many times as stiff, starched or not.
func stiffer(s scheme.Scheme, times float64) scheme.Scheme {
	s = s.Filled()
	by := math.Cbrt(times)
	s.Cloth.BendWarp *= by
	s.Cloth.BendWeft *= by
	s.Starch.Bend *= by
	return s
}

// TestSureCloth: full solves of the ruff made of cloth as limp and as stiff as it may be
// lie within every figure's interval, of a cloth by name and of one that is known better.
func TestSureCloth(t *testing.T) {
	names := []string{"sound", "untucked", "floppy"}
	if *full {
		names = append(names, "tall", "flaps-up", "wide", "short", "cuff", "early", "uneven", "ends-up", "portrait")
	}
	for _, name := range names {
		s := demo(t, name)
		r, err := Solve(context.Background(), s, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, known := range []float64{0, 8} {
			r.Plan.Given.Cloth.Error = known
			ends := []float64{0.5, 2}
			if known > 0 {
				ends = []float64{0.92 * 0.92 * 0.92, 1.08 * 1.08 * 1.08}
			}
			sure := r.Sure()
			if len(sure) == 0 {
				t.Errorf("%s: nothing is told", name)
			}
			for _, end := range ends {
				is, err := Solve(context.Background(), stiffer(s, end), Options{SkipFiner: true, SkipOther: true, SkipTangents: true})
				if err != nil || is.Measured() == nil {
					t.Fatal(err)
				}
				got := is.Solved.Ruff.Figures()
				for _, q := range sure {
					x := got[q.Figure]
					if _, low, high := q.Told(scheme.Millimetres); !(x >= low && x <= high) {
						t.Errorf("%s: %s of cloth %.2f times as stiff %.2f mm, told %.2f to %.2f: %+v", name, q.Figure.Row().Label, end, x, low, high, q.Doubts)
					}
				}
			}
		}
	}
}

// TestSure: the interval against a reckoning by hand, its words in three units, and what
// would narrow it most.
func TestSure(t *testing.T) {
	s := demo(t, "sound")
	r, err := Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	m := measure.Values{HeightOuter_mm: 45.6, Droop_mm: -0.2, BowDone: true, Bow_mm: 3, Loop_mm: 17, Reach_mm: 68, Converged: true,
		MeshDone: true, Apart_mm: measure.Lengths{1.4, 0.2}, StiffDone: true, StiffBowDone: true, Mesh_mm: 1.4,
		Limper_mm: measure.Lengths{-1, 0, 4}, Stiffer_mm: measure.Lengths{0.5, 0, -1}}
	r.Solved = &Solved{Ruff: m, Sets: []measure.Values{m}}
	sure := func() []Sure { r.Solved.Ruff = m; return r.Sure() }
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s %.4f, want %.4f", what, got, want)
		}
	}
	all := sure()
	// 45.6: solver 1.4 and a tenth more than the cloth's 1 below, 0.5 above; the hand 1.2 × 1 mm.
	near("height, low", all[0].Low_mm, 45.6-math.Hypot(1.4+1.1, 1.2))
	near("height, high", all[0].High_mm, 45.6+math.Hypot(1.4+0.55, 1.2))
	// Less than measured of any tucked set it is never sure to: 1 mm, a fifth of a swing.
	near("droop, low", all[1].Low_mm, -1.2)
	near("swing, low", all[2].Low_mm, 3-0.6-1.1)
	near("swing, high", all[2].High_mm, 3+0.6+4.4)
	for u, want := range map[scheme.Units]string{scheme.Millimetres: "45.5 mm, likely 42.5 to 48", scheme.Centimetres: "4.55 cm, likely 4.25 to 4.8", scheme.Inches: "1 25/32 in, likely 1 21/32 to 1 29/32"} {
		if got := all[0].Says(u).String(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	says := func(what, want string) {
		t.Helper()
		if got := r.Narrows(sure()).String(); !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", what, got, want)
		}
	}
	says("a name", "The cloth is a guess: a swatch of your own would narrow the swing")
	r.Plan.Given.Cloth.BendWeft, m.Limper_mm[measure.Bow] = 17, 8
	says("a length", "How sure your bending lengths are is not told: several readings of a swatch would narrow the swing")
	m.Limper_mm[measure.Bow] = 4
	near("of a length, ± 10 %", sure()[2].High_mm, 3+0.6+4.4*-math.Log(0.729)/math.Log(2))
	r.Plan.Given.Cloth.Error = 2
	near("of one sure to 2 %", sure()[2].High_mm, 3+0.6+4.4*-math.Log(0.98*0.98*0.98)/math.Log(2))
	says("the solver", "Most of what is in doubt of the height is the solver’s own.")
	m.Paths_mm = 2
	says("the ways", "the inside of the tucks can lie in several ways")
	m.Near_mm[measure.Height] = 1.3
	says("the ways, more than a neighbour", "the inside of the tucks can lie in several ways")
	m.Near_mm[measure.Height] = 1.4
	says("a neighbour", "a ruff 1 % larger may take another shape")
	r.Plan.Scheme.Hand.Error = 3
	says("the hand", "More exact marks would narrow the height most")
	for what, with := range map[string]func(){
		"not tried of other cloth": func() { m.StiffDone = false }, "nor on a finer mesh": func() { m.MeshDone = false }, "not come to rest": func() { m.Converged = false },
	} {
		was := m
		with()
		if got := sure(); got != nil || !r.Narrows(got).Empty() {
			t.Errorf("%s: %+v", what, got)
		}
		m = was
	}
}
