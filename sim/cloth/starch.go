package cloth

import "fmt"

// Starch adds rigidity that is frozen at the shape in which the cloth dried; the
// cloth's own rigidity stays elastic from flat. What is measured is the sum, on
// a swatch starched and dried flat.

// Frozen is the frozen part, µN·m: the rigidity of the starched swatch above the
// cloth's own, both at the cloth's unstarched mass,
//
//	F = 9.80665e-6 · mass · (starched³ − cloth³)
//
// mass in g/m² (1 to 2,000), bending lengths in mm (1 to 500). starched = 0 says
// 'no starch' and gives 0. A starched swatch limper than the cloth is refused:
// it was misread, or read the other way of the cloth. A bending length read on
// the swatch under its own, starched mass goes through AtMass first.
func Frozen(mass_gm2, cloth_mm, starched_mm float64) (float64, error) {
	own, err := Rigidity(mass_gm2, cloth_mm)
	if err != nil || starched_mm == 0 {
		return 0, err
	}
	if err := within("starched bending length", starched_mm, cloth_mm, BendMax_mm, "mm"); err != nil {
		return 0, fmt.Errorf("%w: starch does not make the cloth limper than its own %g mm; 0 is no starch", err, cloth_mm)
	}
	return rigidity(mass_gm2, starched_mm) - own, nil
}

// FrozenRatio is the frozen part as a multiple of the cloth's own rigidity,
// (starched/cloth)³ − 1: 0 for starched = 0, 7 where starch doubles the bending
// length. Ranges as in Frozen.
func FrozenRatio(cloth_mm, starched_mm float64) (float64, error) {
	f, err := Frozen(1, cloth_mm, starched_mm)
	if err != nil {
		return 0, err
	}
	return f / rigidity(1, cloth_mm), nil
}
