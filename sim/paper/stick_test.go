package paper

import (
	"math"
	"strings"
	"testing"

	"ruffwright/geom/curve"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/paper/sheet"
)

// starchOf lays out the starch sheet of the case with changes and gives its words.
func starchOf(t *testing.T, u scheme.Units, set ...string) (string, sim.Sticks, pleat.Plan) {
	t.Helper()
	in := input(t, set, u)
	pages, err := Pages(in)
	if err != nil {
		t.Fatal(err)
	}
	inside(t, pages)
	q, _ := sim.NewSticks(in.Ruff.Plan)
	return said(pages, "starch"), q, in.Ruff.Plan
}

// TestStickOnSheet: the stick that the card names is the one that the sets are formed on:
// the rod below the loops' own, or the scheme's; with it go how far in it reaches and how
// tall thinner ones draw the sets, by the closed form at the mean room of a set.
func TestStickOnSheet(t *testing.T) {
	has := func(text string, want ...string) {
		t.Helper()
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("the card does not say %q: %s", w, text[strings.Index(text, "leave it")+1:])
			}
		}
	}
	text, q, p := starchOf(t, scheme.Millimetres, "starch.bend", "55")
	own := rod(q.Own_mm, scheme.Millimetres)
	if !(q.Own_mm > 10 && q.Own_mm < 20 && own > 0 && q.Reach_mm == 35) {
		t.Fatalf("own stick %+v, rod %g", q, own)
	}
	j := &job{Input: Input{Units: scheme.Millimetres}}
	has(text, "Stick: "+j.len(own).String()+" thick, 35 mm in from the outer edge (the next rod to be had below", "so far in as said above, the upper row first")
	rows := ""
	for k, d := range []float64{q.Own_mm, own, rod(own-0.1, scheme.Millimetres)} {
		h, err := curve.TautHeight(p.Panel_mm, p.PitchOuter_mm/2, (d+p.Scheme.Cloth.Thickness)/2)
		if err != nil {
			t.Fatal(err)
		}
		rows += j.near(d).String() + " " + j.near(h).String() + " " + []string{"the loops' own ", "this one ", ""}[k]
	}
	has(text, "stick height on it "+rows)

	text, _, _ = starchOf(t, scheme.Inches, "starch.bend", "55", "starch.stick", "12.7", "starch.tip", "6.35", "starch.reach", "25.4")
	has(text, "Stick: 1/2 in thick, at its inner end 1/4 in, 1 in in from the outer edge (as the scheme says)")

	text, _, _ = starchOf(t, scheme.Millimetres, "starch.bend", "55", "starch.dry", "hung")
	has(text, "No stick: the scheme has the loops dry as they hang", "Hang it by the band")
	for _, no := range []string{"Put the stick", "Stick:", "thinner stick", "Setting takes"} {
		if strings.Contains(text, no) {
			t.Errorf("hung: the card says %q", no)
		}
	}

	text, q, _ = starchOf(t, scheme.Millimetres, "ruff.sets", "300", "ruff.height", "8", "ruff.depth", "20", "pleat.tuck_top", "0", "pleat.tuck_bottom", "0", "pleat.anchor", "top")
	if q.Own_mm >= 3 {
		t.Fatalf("own stick %g", q.Own_mm)
	}
	has(text, "none to be had is so thin")
}

// TestThinnerIsTaller: on the heights that the card tells, for random schemes.
func TestThinnerIsTaller(t *testing.T) {
	n := 0
	for seed := range uint64(60) {
		r, err := sim.Draw(scheme.Random(seed))
		if err != nil {
			continue
		}
		q, _ := sim.NewSticks(r.Plan)
		thick, err := q.Height_mm(q.Own_mm)
		thin, err2 := q.Height_mm(0.8 * q.Own_mm)
		if err != nil || err2 != nil {
			continue
		}
		if n++; thin < thick {
			t.Errorf("seed %d: %g mm on the own stick of %g mm, %g on a thinner one", seed, thick, q.Own_mm, thin)
		}
	}
	if n < 30 {
		t.Errorf("%d schemes", n)
	}
}

// TestBiasStrip: the card of a starched ruff has the test for shear, with what a weight
// pulls, and none where there is no starch.
func TestBiasStrip(t *testing.T) {
	card := func(set ...string) string {
		pages, err := Pages(input(t, set, scheme.Millimetres))
		if err != nil {
			t.Fatal(err)
		}
		inside(t, pages)
		return said(append([]sheet.Page(nil), pages...), "swatch")
	}
	text := card("starch.bend", "55")
	for _, want := range []string{"50 mm wide and 250 mm long", "at 45° to the threads", "100 mm along it and 40 mm across", "G = pull ÷ (2 × (L + T))", "250 g are 49 N/m, 500 g 98, 1000 g 196", "‘Shear, starched’"} {
		if !strings.Contains(text, want) {
			t.Errorf("the card does not say %q: %s", want, text[len(text)-1500:])
		}
	}
	if strings.Contains(card(), "askew") {
		t.Error("the card of a ruff without starch tests starch's shear")
	}
	// An orthotropic sheet of known moduli, N/m, pulled at 45°: the formula gives its G.
	const e1, e2, nu1, g = 22000.0, 9000.0, 0.3, 640.0
	s := pull_Npm(500) / 2 // both normal stresses and the shear stress along the threads
	one, two, shear := s/e1-s*nu1/e1, s/e2-s*nu1/e1, s/g
	long, across := (one+two+shear)/2, (one+two-shear)/2
	if got := pull_Npm(500) / (2 * (long - across)); math.Abs(got-g) > 1e-9*g {
		t.Errorf("G %g of %g", got, g)
	}
}
