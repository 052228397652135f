package check

import "ruffwright/sim/measure"

// part is a part of the solved mechanics; they come one after the other.
type part uint8

const (
	shapePart    part = 1 << iota // the shape at rest
	bowPart                       // the wearer bows
	tangentsPart                  // bob and lean
	otherPart                     // another shape to rest in
	finerPart                     // on other grids, in other ways, in other conditions; comes with bob and lean, or never
)

func (v *view) measures() *measure.Values { return v.r.Measured() }

// has says whether all of the parts are there.
func (v *view) has(p part) bool {
	m := v.measures()
	return m != nil && (p&bowPart == 0 || m.BowDone) && (p&tangentsPart == 0 || m.TangentsDone) && (p&otherPart == 0 || m.OtherDone)
}

// awaits says whether one of the parts may still come. A bow test that was made
// and did not come to rest is over.
func (v *view) awaits(p part) bool {
	if v.r.Solved == nil {
		return true
	}
	m := v.measures()
	if m == nil {
		return false
	}
	return p&bowPart != 0 && !v.bowTried() || p&tangentsPart != 0 && !m.TangentsDone || p&otherPart != 0 && !m.OtherDone
}

// bowTried says whether the bow test was made, whatever came of it.
func (v *view) bowTried() bool { return v.r.Solved.Ruff.BowDone || v.r.Solved.Bowed != nil }

// Finer reports that the finding of that id is told from what is solved on a finer grid,
// in other ways and in other conditions.
func Finer(id string) bool {
	l, ok := lawOf(id)
	return ok && l.parts&finerPart != 0
}
