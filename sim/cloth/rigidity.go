package cloth

import (
	"cmp"
	"math"
)

// StandardGravity is the standard acceleration of free fall, m/s² (exact by
// definition: 3rd CGPM 1901, in the SI brochure).
const StandardGravity = 9.80665

// rigidityPerMass turns g/m² · mm³ into µN·m: 1e-3 kg/g · g · (1e-3 m/mm)³ ·
// 1e6 µN/N.
const rigidityPerMass = StandardGravity * 1e-6

// Rigidity is the bending rigidity per width, µN·m, of cloth of the mass (1 to
// 2,000 g/m²) and bending length (1 to 500 mm) given:
//
//	B = g · mass · c³ = 9.80665e-6 · mass[g/m²] · c[mm]³
//
// which is BS 3356's 0.10 · W · c³ mg·cm in SI units. The constant 1.421e-5
// printed in ASTM D1388 is 1.449 times that and is not used: it is not what B =
// w c³ gives (a comparison on foil found ASTM's form 72 % too large where
// Peirce's was 18 %: Text. Res. J. 84 (2014) 1307, abstract).
// Exact to rounding (TestRigidity).
func Rigidity(mass_gm2, bend_mm float64) (float64, error) {
	if err := cmp.Or(checkMass(mass_gm2), checkBend("bending length", bend_mm)); err != nil {
		return 0, err
	}
	return rigidity(mass_gm2, bend_mm), nil
}

func rigidity(mass, bend float64) float64 {
	return rigidityPerMass * mass * bend * bend * bend
}

// AtMass is the bending length, mm, that the same rigidity has at another mass:
// c · (from/to)^(1/3). A starched swatch hangs under its own mass, with the
// starch; the scheme's starch.bend is kept at the cloth's unstarched mass, so
// that rigidities compare. Masses may differ by a factor of at most 2.
func AtMass(bend_mm, from_gm2, to_gm2 float64) (float64, error) {
	if err := cmp.Or(checkBend("bending length", bend_mm), checkMass(from_gm2), checkMass(to_gm2),
		within("mass weighed ÷ mass wanted", from_gm2/to_gm2, massRatioMin, massRatioMax, "")); err != nil {
		return 0, err
	}
	return bend_mm * math.Cbrt(from_gm2/to_gm2), nil
}

// Bounds is a value with the interval that it lies in, at 95 % unless said
// otherwise; Low <= Value <= High. It need not be symmetric.
type Bounds struct {
	Value, Low, High float64
}

// RigidityBounds carries an interval of the bending length, and the mass's own
// relative half interval (0 to 0.5, 0 = mass known), to the rigidity, µN·m.
// The rigidity goes with the cube of c, so the interval is not symmetric: c ±
// 10 % is rigidity −27 % to +33 %. Each side combines the side's deviation by c,
// |(c'/c)³ − 1|, with the mass's in quadrature (they are read independently);
// with the mass known the ends are exactly those of Rigidity. Errors: ranges as
// in Rigidity, for all three lengths, and Low <= Value <= High.
func RigidityBounds(mass_gm2, massRel float64, bend_mm Bounds) (Bounds, error) {
	b, err := Rigidity(mass_gm2, bend_mm.Value)
	// The upper end may pass BendMax_mm: it is a doubt, not a cloth.
	if err := cmp.Or(err, within("relative error of the mass", massRel, 0, massErrMax, ""),
		within("bending length, low end", bend_mm.Low, 0, bend_mm.Value, "mm"),
		within("bending length, high end", bend_mm.High, bend_mm.Value, 10*BendMax_mm, "mm")); err != nil {
		return Bounds{}, err
	}
	side := func(end float64) float64 {
		q := end / bend_mm.Value
		return math.Hypot(q*q*q-1, massRel)
	}
	return Bounds{b, b * math.Max(0, 1-side(bend_mm.Low)), b * (1 + side(bend_mm.High))}, nil
}
