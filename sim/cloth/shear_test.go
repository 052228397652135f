package cloth

import (
	"testing"

	"ruffwright/geom/scheme"
)

// TestFrozenShear: what starch adds to the cloth's shear stiffness is what was measured
// less fresh cloth's; where nothing was measured, as many times fresh cloth's 60 N/m as
// starch adds to its rigidity, ten times at most; and nothing where there is no starch.
func TestFrozenShear(t *testing.T) {
	for _, c := range []struct{ bend, shear, want float64 }{
		{0, 0, 0},
		{0, 640, 0},     // measured, but this scheme has no starch
		{20, 0, 0},      // starched to what it was: nothing was added
		{20, 640, 0},    //
		{30, 0, 142.5},  // (30/20)³ − 1 = 2.375 times 60
		{40, 0, 420},    // 7 times
		{44, 0, 578.88}, // 9.648 times
		{45, 0, 600},    // 10.4 times, ten are guessed
		{200, 0, 600},   //
		{45, 640, 580},  // measured, less fresh cloth's
		{30, 640, 580},  // whatever the bending
		{45, 60, 0},     // no stiffer than fresh
		{45, 20000, 19940},
	} {
		s := scheme.Default()
		s.Cloth.Mass, s.Cloth.Thickness, s.Cloth.BendWarp, s.Cloth.BendWeft = 80, 0.2, 25, 20
		s.Starch.Bend, s.Starch.Shear = c.bend, c.shear
		sheet, err := FromScheme(s)
		if err != nil {
			t.Errorf("%+v: %v", c, err)
		}
		near(t, "frozen shear", sheet.FrozenShear_Npm, c.want)
	}
}

// TestGuessOfShear holds the guess to what published figures and reasoning allow: fresh
// cloth lies in the 30 to 170 N/m of the sources beside Shear_Npm, near the 61 of cotton
// plain weave; starched cloth's most, with it, among the 150 to 4,000 N/m of a weave
// whose crossings starch holds.
func TestGuessOfShear(t *testing.T) {
	if Shear_Npm < 30 || Shear_Npm > 170 {
		t.Errorf("fresh cloth: %d N/m", Shear_Npm)
	}
	// E45/(2(1 + ν45)) of 0.821 MPa × 0.318 mm and ν45 1.136.
	if cotton := 0.821e3 * 0.318 / (2 * 2.136); cotton < Shear_Npm-5 || cotton > Shear_Npm+5 {
		t.Errorf("cotton plain weave has %g N/m, the guess is %d", cotton, Shear_Npm)
	}
	if most := Shear_Npm + frozenShear(0, 1e6); most < 150 || most > 4000 {
		t.Errorf("starched cloth: %g N/m", most)
	}
}
