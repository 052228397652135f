package cloth

import (
	"cmp"
	"fmt"

	"ruffwright/geom/scheme"
)

// Sheet is the strip's cloth as the mechanics takes it. u runs along the strip
// (along the neckline), v across it (neck to outer edge).
type Sheet struct {
	BendU_uNm, BendV_uNm     float64 // elastic rigidity per width, µN·m: curving along u, along v
	FrozenU_uNm, FrozenV_uNm float64 // frozen (starched) rigidity, µN·m; 0 = none
	FrozenShear_Npm          float64 // frozen shear stiffness, N/m; 0 = none
	Mass_gm2                 float64 // unstarched
	Thickness_mm             float64
}

// Along sorts what was measured along warp and weft into along and across the
// strip: u takes the warp's value where the strip's length runs along the warp.
func Along(warp, weft float64, along scheme.Along) (u, v float64, err error) {
	switch along {
	case scheme.Warp:
		return warp, weft, nil
	case scheme.Weft:
		return weft, warp, nil
	}
	return 0, 0, fmt.Errorf("strip.along %q is neither %s nor %s", along, scheme.Warp, scheme.Weft)
}

// FromScheme is the strip's cloth of a scheme whose cloth is filled in (by name
// or measured). Bending lengths become rigidities at the cloth's mass.
// starch.bend is along the strip; across it, where no swatch is asked for, the
// frozen part is taken as the same multiple of the cloth's own rigidity (an
// assumption, no source). Errors name the scheme's field, the value and the range.
func FromScheme(s scheme.Scheme) (Sheet, error) {
	c := s.Cloth
	u, v, err := Along(c.BendWarp, c.BendWeft, s.Strip.Along)
	if err := cmp.Or(within("cloth.mass", c.Mass, MassMin_gm2, MassMax_gm2, "g/m²"),
		within("cloth.thickness", c.Thickness, ThicknessMin_mm, ThicknessMax_mm, "mm"),
		checkBend("cloth.bend_warp", c.BendWarp), checkBend("cloth.bend_weft", c.BendWeft), err); err != nil {
		return Sheet{}, err
	}
	ratio, err := FrozenRatio(u, s.Starch.Bend)
	if err != nil {
		return Sheet{}, fmt.Errorf("starch.bend, with the strip along the %s: %w", s.Strip.Along, err)
	}
	bu, bv := rigidity(c.Mass, u), rigidity(c.Mass, v)
	return Sheet{
		BendU_uNm: bu, BendV_uNm: bv,
		FrozenU_uNm: ratio * bu, FrozenV_uNm: ratio * bv,
		FrozenShear_Npm: frozenShear(s.Starch.Shear, ratio),
		Mass_gm2:        c.Mass, Thickness_mm: c.Thickness,
	}, nil
}

// Shear_Npm is fresh cloth's shear stiffness, N/m. A cotton plain weave of 150 g/m² has
// 61 to 66 by its moduli at 0, 45 and 90° (Penava, Šimić Penava and Knezić, Fibres and
// Textiles in Eastern Europe 22(2), 2014, tables 1 and 3, read as others quote them);
// denim by KES has 84 to 191 (Journal of Textiles 2016, article 4614168, table 5). For
// linen no figure was found. 30 to 170 is usual.
const Shear_Npm = 60

// starchedShear is how many times as stiff in shear as fresh cloth the guess lets starch
// make it at most. No measured figure of starched cloth was found. By reasoning alone a
// weave with rigid crossings has 6B/p² (B its bending rigidity, p its threads' distance)
// and fresh cloth a sixth of that, for shear and bending go together (Alam, Majumdar and
// Ghosh, Indian Journal of Fibre and Textile Research 44, 2019, by its abstract): 150 to
// 4,000 N/m, of which 600 is a middle.
const starchedShear = 10

// frozenShear is the part of the shear stiffness that starch adds, N/m: of what was
// measured, or where nothing was, in proportion to what it adds to the stiffness against
// bending, up to the guess's most.
func frozenShear(measured_Npm, ratio float64) float64 {
	if measured_Npm > 0 && ratio > 0 {
		return max(0, measured_Npm-Shear_Npm)
	}
	return Shear_Npm * min(ratio, starchedShear)
}
