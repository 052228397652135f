package cloth

import (
	"fmt"
	"math"
)

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

// Starched is the inverse of Frozen: the bending length, mm, at the cloth's
// unstarched mass, that the swatch must show for a frozen part of the µN·m given
// (0 to 3e6). With Overhang it becomes the starch target.
func Starched(mass_gm2, cloth_mm, frozen_uNm float64) (float64, error) {
	own, err := Rigidity(mass_gm2, cloth_mm)
	if err != nil {
		return 0, err
	}
	if err := within("frozen part", frozen_uNm, 0, RigidityMax_uNm, "µN·m"); err != nil {
		return 0, err
	}
	if frozen_uNm == 0 {
		return cloth_mm, nil
	}
	return BendingLength(mass_gm2, own+frozen_uNm)
}

// FrozenBounds carries the intervals of the cloth's and the starched swatch's
// rigidity, µN·m, to their difference, side by side in quadrature (they are read
// independently; the mass that both share is a small part of either). The low
// end is not below 0.
func FrozenBounds(cloth_uNm, starched_uNm Bounds) (Bounds, error) {
	for _, b := range []struct {
		field string
		b     Bounds
	}{{"cloth's rigidity", cloth_uNm}, {"starched rigidity", starched_uNm}} {
		if err := within(b.field, b.b.Value, RigidityMin_uNm, RigidityMax_uNm, "µN·m"); err != nil {
			return Bounds{}, err
		}
		if err := within(b.field+", low end", b.b.Low, 0, b.b.Value, "µN·m"); err != nil {
			return Bounds{}, err
		}
		if err := within(b.field+", high end", b.b.High, b.b.Value, 1e4*RigidityMax_uNm, "µN·m"); err != nil {
			return Bounds{}, err
		}
	}
	f := starched_uNm.Value - cloth_uNm.Value
	if f < 0 {
		return Bounds{}, &RangeError{"starched rigidity", starched_uNm.Value, cloth_uNm.Value, RigidityMax_uNm, "µN·m"}
	}
	down := math.Hypot(starched_uNm.Value-starched_uNm.Low, cloth_uNm.High-cloth_uNm.Value)
	up := math.Hypot(starched_uNm.High-starched_uNm.Value, cloth_uNm.Value-cloth_uNm.Low)
	return Bounds{f, max(0, f-down), f + up}, nil
}
