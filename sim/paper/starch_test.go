package paper

import (
	"errors"
	"math"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim/cloth"
)

func close2(a, b, rel float64) bool { return math.Abs(a-b) <= rel*math.Abs(b) }

// TestRecipes holds the spoons against published household recipes, as grams per
// litre of water: the sources' own numbers of spoons and quarts (US quart 0.946353
// L, US cup 0.2365882 L = 16 tablespoons). Published density: 128 g of cornstarch a
// cup (USDA figure), which is 8 g a tablespoon.
func TestRecipes(t *testing.T) {
	maize, err := StarchOf(scheme.Maize)
	if err != nil {
		t.Fatal(err)
	}
	const quart, cup = 0.946353, 0.2365882
	if g := maize.Density_gpmL * cup * 1000; !close2(g, 128, 0.01) {
		t.Errorf("a cup of maize starch is %.1f g, want 128 (USDA figure)", g)
	}
	for _, r := range []struct {
		what             string
		spoons, litres   float64
		least_gL, most_g float64
	}{
		{"1 tablespoon a litre, 'light' (vanessashomekitchen.blogspot.com 2010/03)", 1, 1, 7.5, 8.5},
		{"2 tablespoons a litre, 'strong' (same)", 2, 1, 15.5, 16.6},
		{"2 tablespoons a quart (The Ladies Book of Useful Information)", 2, quart, 16.5, 17.5},
		{"3 tablespoons a quart (same)", 3, quart, 25, 26},
		{"1/4 cup, 1 cup cold, 1 quart boiling (oureverydaylife.com)", 4, quart + cup, 26.5, 28},
		{"the same and 1 quart more", 4, 2*quart + cup, 14.5, 15.5},
		{"the same and 2 quarts more", 4, 3*quart + cup, 10, 10.6},
		{"1/2 cup a quart, 'ordinary' (The Complete Home)", 8, quart, 67, 70},
		{"2 tablespoons to 2 cups, cold starch for collars (Ontario Teachers' Manuals)", 2, 2 * cup, 33, 35},
	} {
		if g := maize.Grams(r.spoons) / r.litres; g < r.least_gL || g > r.most_g {
			t.Errorf("%s: %.1f g/L, want %.1f to %.1f", r.what, g, r.least_gL, r.most_g)
		}
	}
	// A recipe's share of cold water: 1 cup beside 1 quart.
	if got := cup / (cup + quart); math.Abs(got-coldShare) > 0.005 {
		t.Errorf("cold share %.3f, the recipe has %.3f", coldShare, got)
	}
	if g := maize.Grams(maize.Spoons(31)); !close2(g, 31, 1e-12) {
		t.Errorf("31 g and back: %g", g)
	}
}

// TestBath holds the bath against the published add-on rule (80 % pick-up of a 6 %
// bath leaves 4.8 %: questions.collegedunia.com, worked example), scaled to the
// pick-up used here, and against its own sums.
func TestBath(t *testing.T) {
	b, err := NewBath(scheme.Maize, 60, 0.4, 100)
	if err != nil {
		t.Fatal(err)
	}
	if want := 0.048 * pickUp / 0.8; !close2(b.AddOn, want, 1e-12) {
		t.Errorf("add-on %.4f, want %.4f", b.AddOn, want)
	}
	if !close2(b.Dry_g, 40, 1e-12) || !close2(b.Taken_L, 0.048, 1e-12) || b.Cook_L != 0.5 {
		t.Errorf("0.4 m² at 100 g/m²: %g g, %g L taken, %g L cooked", b.Dry_g, b.Taken_L, b.Cook_L)
	}
	for _, area := range []float64{0.001, 0.3, 1.2, 2.5, 50} {
		for _, gL := range []float64{1, 35, 150} {
			b, err := NewBath(scheme.Potato, gL, area, 72)
			if err != nil {
				t.Fatal(err)
			}
			if !close2(b.Cold_L+b.Hot_L, b.Cook_L, 1e-12) || b.Cook_L < 2*b.TakenMost_L-1e-9 || b.Cook_L < cookLeast_L ||
				!close2(b.Starch_g, gL*b.Cook_L, 1e-12) || math.Abs(math.Mod(b.Cook_L*4, 1)) > 1e-9 {
				t.Errorf("%g m² at %g g/L: %+v", area, gL, b)
			}
		}
	}
	for _, bad := range [][3]float64{{0, 1, 70}, {151, 1, 70}, {35, 0, 70}, {35, 51, 70}, {35, 1, 0}, {math.NaN(), 1, 70}, {35, math.NaN(), 70}, {35, 1, math.Inf(1)}} {
		var e scheme.Error
		if _, err := NewBath(scheme.Rice, bad[0], bad[1], bad[2]); !errors.As(err, &e) || e.Field == "" || e.Allowed.Empty() {
			t.Errorf("%v: %v, want an error that names field and range", bad, err)
		}
	}
	if _, err := NewBath("sago", 35, 1, 70); err == nil {
		t.Error("a starch that is not on the list was taken")
	}
}

// TestStarches: the published order (Food Chemistry 81 (2003) 219, abstract) is
// maize and rice above wheat and potato.
func TestStarches(t *testing.T) {
	end := map[scheme.StarchKind]float64{}
	for _, s := range Starches() {
		end[s.Kind] = s.To_C
		if s.From_C < 55 || s.To_C > 85 || s.From_C >= s.To_C || s.RangeSource == "" || s.DensitySource == "" {
			t.Errorf("%+v", s)
		}
	}
	for _, high := range []scheme.StarchKind{scheme.Maize, scheme.Rice} {
		for _, low := range []scheme.StarchKind{scheme.Wheat, scheme.Potato} {
			if end[high] <= end[low] {
				t.Errorf("%s gelatinises at %g, %s at %g", high, end[high], low, end[low])
			}
		}
	}
}

// TestFirstStrength: one of the strengths of cloth.Baths, more for more, none where
// the cloth itself does.
func TestFirstStrength(t *testing.T) {
	if g, _ := FirstStrength(20, 20); g != 0 {
		t.Errorf("no starch is needed, got %g", g)
	}
	if g, name := FirstStrength(20, 40); g != 35 || name != "medium" { // 5 % ÷ 1.2 = 42 g/L
		t.Errorf("to double: %g g/L, %s", g, name)
	}
	last := 0.0
	for target := 21.0; target < 250; target++ {
		g, _ := FirstStrength(20, target)
		if g < last {
			t.Errorf("target %g mm: %g g/L after %g", target, g, last)
		}
		last = g
		known := false
		for _, b := range cloth.Baths() {
			known = known || b.Starch_gL == g
		}
		if !known {
			t.Errorf("%g g/L is none of the strengths", g)
		}
	}
	for _, x := range []float64{0, -1, math.NaN()} {
		if g, _ := FirstStrength(x, 40); g != 0 {
			t.Errorf("cloth %g: %g", x, g)
		}
	}
	if g, _ := FirstStrength(20, math.Inf(1)); g != 0 {
		t.Errorf("endless target: %g", g)
	}
}

// TestTarget: the overhang on the cards is the exact heavy elastica's, twice the
// bending length at 41.5° within 0.02 % (testdata cantilever.csv: l/c = 2.000350).
func TestTarget(t *testing.T) {
	in := input(t, cases()[1].set, scheme.Millimetres) // starch.bend 45
	j, err := newJob(in)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := j.target(); err != nil || !got.known || !got.fromScheme || !close2(got.overhang_mm, 45*2.00035, 1e-5) {
		t.Errorf("from the scheme: %+v, %v", got, err)
	}
	j.Need = &Need{Bend_mm: 50, Overhang_mm: 97}
	if got, err := j.target(); err != nil || !got.fromScheme || got.bend_mm != 45 {
		t.Errorf("the scheme's own beside a need: %+v, %v", got, err)
	}
	j.s.Starch.Bend = 0
	if got, err := j.target(); err != nil || got.fromScheme || got.overhang_mm != 97 || got.beyond {
		t.Errorf("from the need: %+v, %v", got, err)
	}
	j.Need = &Need{Bend_mm: 233} // strips of 250 mm, 50 of them held
	if got, err := j.target(); err != nil || !got.beyond {
		t.Errorf("more than the strips show: %+v, %v", got, err)
	}
	j.Need = &Need{}
	if got, err := j.target(); err != nil || !got.none {
		t.Errorf("no starch needed: %+v, %v", got, err)
	}
	j.Need, j.s.Starch.Bend = nil, 0
	if got, err := j.target(); err != nil || got.known {
		t.Errorf("not solved: %+v, %v", got, err)
	}
}

func TestStick(t *testing.T) {
	for _, c := range []struct {
		loop, want float64
		u          scheme.Units
	}{{17.6, 15, scheme.Millimetres}, {3.9, 0, scheme.Millimetres}, {4, 3, scheme.Centimetres}, {200, 50, scheme.Millimetres}, {17.6, 15.875, scheme.Inches}, {math.NaN(), 0, scheme.Millimetres}} {
		if got := stick(c.loop, c.u); got != c.want {
			t.Errorf("loop %g: stick %g, want %g", c.loop, got, c.want)
		}
	}
}
