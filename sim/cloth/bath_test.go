package cloth

import (
	"errors"
	"math"
	"testing"

	"ruffwright/geom/scheme"
)

// TestRecipes holds the spoons against published household recipes, as grams per
// litre of water: the sources' own numbers of spoons and quarts (US quart 0.946353
// L, US cup 0.2365882 L = 16 tablespoons). Published density: 128 g of cornstarch a
// cup (USDA figure), which is 8 g a tablespoon.
func TestRecipes(t *testing.T) {
	maize := starches[0]
	const quart, cup = 0.946353, 0.2365882
	if g := maize.Density_gpmL * cup * 1000; math.Abs(g-128) > 1.28 {
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
		if g := r.spoons * maize.Density_gpmL * Spoon_mL / r.litres; g < r.least_gL || g > r.most_g {
			t.Errorf("%s: %.1f g/L, want %.1f to %.1f", r.what, g, r.least_gL, r.most_g)
		}
	}
	// A recipe's share of cold water: 1 cup beside 1 quart.
	if got := cup / (cup + quart); math.Abs(got-coldShare) > 0.005 {
		t.Errorf("cold share %.3f, the recipe has %.3f", coldShare, got)
	}
}

// TestBath holds the bath against the published add-on rule (80 % pick-up of a 6 %
// bath leaves 4.8 %: questions.collegedunia.com, worked example), scaled to the
// pick-up used here, and its volumes against sums by hand: 10 L a kg of cloth, half a
// litre at least, up to the next quarter; a fifth of it cold.
func TestBath(t *testing.T) {
	b, err := NewBath(scheme.Maize, 60, 0.4, 100)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "add-on", b.AddOn, 0.048*PickUp/0.8)
	near(t, "dry", b.Dry_g, 40)
	near(t, "taken", b.Taken_L, 0.048)
	for _, c := range []struct{ area, mass, cook float64 }{
		{0.001, 1, 0.5}, {0.4, 100, 0.5}, {0.5, 100, 0.5}, {0.501, 100, 0.75}, {2.5, 72, 2}, {1.25, 100, 1.25}, {3, 120, 3.75}, {50, 2000, 1000},
	} {
		for _, gL := range []float64{1, 35, 150} {
			b, err := NewBath(scheme.Potato, gL, c.area, c.mass)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "cooked", b.Cook_L, c.cook)
			near(t, "cold", b.Cold_L, c.cook/5)
			near(t, "hot", b.Hot_L, c.cook*4/5)
			near(t, "starch", b.Starch_g, gL*c.cook)
			near(t, "spoons", b.Spoons, gL*c.cook/(0.67*15))
			if b.Cook_L < b.Dry_g/1000*PickUpMost {
				t.Errorf("%g m²: the cloth takes up more than the %g L cooked", c.area, b.Cook_L)
			}
		}
	}
	for _, bad := range [][3]float64{{0, 1, 70}, {151, 1, 70}, {35, 0, 70}, {35, 51, 70}, {35, 1, 0}, {math.NaN(), 1, 70}, {35, math.NaN(), 70}, {35, 1, math.Inf(1)}} {
		var e *RangeError
		if _, err := NewBath(scheme.Rice, bad[0], bad[1], bad[2]); !errors.As(err, &e) {
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
	for _, s := range starches {
		end[s.Kind] = s.To_C
		if s.From_C < 55 || s.To_C > 85 || s.From_C >= s.To_C || s.RangeSource.Empty() {
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

// TestStrengths: each is called by its own name, another by the nearest's, and all
// can be made.
func TestStrengths(t *testing.T) {
	last := 0.0
	for _, s := range strengths {
		if !(s.Starch_gL > last && s.Starch_gL <= 150) || StrengthName(s.Starch_gL).String() != s.Name.String() {
			t.Errorf("%+v is called %s", s, StrengthName(s.Starch_gL))
		}
		last = s.Starch_gL
	}
	for gL, want := range map[float64]string{1: "soft", 14: "soft", 14.2: "light", 49: "medium", 50: "stiff", 150: "very stiff"} {
		if got := StrengthName(gL).String(); got != want {
			t.Errorf("%g g/L is called %s, want %s", gL, got, want)
		}
	}
}

// TestFirstStrength: one of the strengths of strengths, more for more, none where
// the cloth itself does.
func TestFirstStrength(t *testing.T) {
	if s := FirstStrength(20, 20); s.Starch_gL != 0 || s.Name.String() != "none" {
		t.Errorf("no starch is needed, got %+v", s)
	}
	// 5 % ÷ 1.2 = 42 g/L doubles, twice that doubles again.
	for target, want := range map[float64]string{40: "medium", 80: "stiff", 21: "soft", 200: "very stiff"} {
		if s := FirstStrength(20, target); s.Name.String() != want {
			t.Errorf("from 20 mm to %g: %+v, want %s", target, s, want)
		}
	}
	last := 0.0
	for target := 21.0; target < 250; target++ {
		g := FirstStrength(20, target).Starch_gL
		if g < last {
			t.Errorf("target %g mm: %g g/L after %g", target, g, last)
		}
		last = g
		known := false
		for _, s := range strengths {
			known = known || s.Starch_gL == g
		}
		if !known {
			t.Errorf("%g g/L is none of the strengths", g)
		}
	}
	for _, x := range []float64{0, -1, math.NaN()} {
		if g := FirstStrength(x, 40).Starch_gL; g != 0 {
			t.Errorf("cloth %g: %g", x, g)
		}
	}
	if g := FirstStrength(20, math.Inf(1)).Starch_gL; g != 0 {
		t.Errorf("endless target: %g", g)
	}
}
