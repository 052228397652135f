package check

import "ruffwright/geom/scheme"

// layers is how many thicknesses of cloth stand side by side in one set where
// the sewn row is thickest: two for the fold, two more where its tuck is.
func (v *view) layers() int {
	n := 2
	for _, m := range v.p.Row {
		if m.Tuck_mm > 0 {
			n = 4
		}
	}
	return n
}

// neckTaken is what part of a set's room at the neck its cloth takes up, in %.
func (v *view) neckTaken() float64 {
	return 100 * float64(v.layers()) * v.s.Cloth.Thickness / v.p.Pitch_mm
}

// neckFull: cloth laid face to face cannot be thinner than itself. Geometry.
const neckFull = 100 // % of the room for a set

var neckFullLaw = law{Rule: Rule{"neck-full", "More cloth than room at the neck", Stop, neckFull, "%", "at most, of the room for a set", geometry, WhereNeck, FromGeometry},
	find: (*view).neckFull}

// neckCrowded: half the room leaves the needle a way in. Common practice, no
// source.
const neckCrowded = 50 // %

func (v *view) neckFull() (seen, bool) {
	s := seen{value: v.neckTaken(), limit: neckFull}
	if s.value <= neckFull {
		return s, false
	}
	s.says("%d layers of cloth %s thick are %s, but a set has only %s of the band: they do not fit, however tight they are pressed.",
		v.layers(), scheme.Length(v.s.Cloth.Thickness, v.u), v.len(s.value*v.p.Pitch_mm/100), v.len(v.p.Pitch_mm))
	v.offerFewer(&s, neckCrowded)
	return s, true
}

var neckCrowdedLaw = law{Rule: Rule{"neck-crowded", "Crowded at the neck", Mend, neckCrowded, "%", "at most, of the room for a set", practice, WhereNeck, FromGeometry},
	find: (*view).neckCrowded}

func (v *view) neckCrowded() (seen, bool) {
	s := seen{value: v.neckTaken(), limit: neckCrowded}
	if s.value <= neckCrowded || s.value > neckFull {
		return s, false
	}
	s.says("At the neck %d layers of cloth fill %s %% of a set's room of %s: the sets wedge each other open, and the needle hardly gets through.",
		v.layers(), Number(s.value, 0), v.len(v.p.Pitch_mm))
	v.offerFewer(&s, neckCrowded)
	return s, true
}

// offerFewer offers so few sets that the cloth takes at most limit % of the room.
func (v *view) offerFewer(s *seen, limit float64) {
	n, _ := v.fourfold(v.p.Neckline_mm * limit / 100 / (float64(v.layers()) * v.s.Cloth.Thickness))
	if n > 0 && n < v.p.Sets {
		s.offer(v.setsTo(n), "Make %d sets.", n)
	}
}
