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
		Mass_gm2: c.Mass, Thickness_mm: c.Thickness,
	}, nil
}
