package check

import (
	"fmt"
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
)

// part is a part of the solved mechanics; they come one after the other.
type part uint8

const (
	shapePart    part = 1 << iota // the shape at rest
	bowPart                       // the wearer bows
	tangentsPart                  // bob and lean
	otherPart                     // another shape to rest in
	finerPart                     // the shape on a finer grid; comes with bob and lean, or never
)

// measures gives the solved ruff's numbers, nil where nothing is solved or the
// cloth did not come to rest: then nothing may rest on them.
func (v *view) measures() *measure.Values {
	if v.r.Solved == nil || !v.r.Solved.Ruff.Converged || len(v.r.Solved.Sets) == 0 {
		return nil
	}
	return &v.r.Solved.Ruff
}

// has says whether all of the parts are there.
func (v *view) has(p part) bool {
	m := v.measures()
	if m == nil {
		return false
	}
	return (p&bowPart == 0 || m.BowDone) && (p&tangentsPart == 0 || m.TangentsDone) && (p&otherPart == 0 || m.OtherDone)
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

func (v *view) oneEdge() bool    { return v.p.Row.OneEdge() }
func (v *view) tucked() bool     { return v.p.Row.Tucked() }
func (v *view) untucked() bool   { return !v.tucked() }
func (v *view) ownMarks() bool   { return v.p.MarksOwn }
func (v *view) limpTucks() bool  { return v.tucked() && v.unstarched() }
func (v *view) twoLines() bool   { return v.s.Pleat.Lines == 2 }
func (v *view) unstarched() bool { return v.s.Starch.Bend == 0 }

// row is the height of the sewn row over the band's bottom edge where one edge is
// sewn, mm.
func (v *view) row() float64 { return v.p.Edge_mm(v.p.Row.Edge()) }

// tucks are the tuck depths at top and at bottom folds, mm; 0 where those hang free.
func (v *view) tucks() (top, bottom float64) {
	return v.p.Row.Tuck(scheme.Crest), v.p.Row.Tuck(scheme.Trough)
}

// bend is the bending length of the cloth along the strip as it hangs, starched
// or not, mm.
func (v *view) bend() float64 {
	own := v.s.Cloth.BendWeft
	if v.s.Strip.Along == scheme.Warp {
		own = v.s.Cloth.BendWarp
	}
	return math.Max(own, v.s.Starch.Bend)
}

// beyondLevel is how far the mean line of a half set lies outside what is level
// or what a supporter asks, in degrees, + up; 0 inside. A supporter asks that the
// mean line go from the band's middle to half a height above the supporter.
func (v *view) beyondLevel(m *measure.Values) float64 {
	low, high := 0.0, 0.0
	if u := v.s.Support; u.Kind != scheme.NoSupport {
		depth := v.s.Ruff.Depth
		rise := depth*math.Tan(u.Slope*math.Pi/180) - u.Drop + math.Abs(m.HeightOuter_mm)/2 - v.s.Band.Height/2
		asked := math.Atan2(rise, depth) * 180 / math.Pi
		low, high = math.Min(low, asked), math.Max(high, asked)
	}
	switch {
	case m.Tilt_deg > high:
		return m.Tilt_deg - high
	case m.Tilt_deg < low:
		return m.Tilt_deg - low
	}
	return 0
}

// sunk says whether the mean line of the whole ruff, or of any half set, lies
// farther from level than a ruff's may; sizes measured on it then say nothing.
func (v *view) sunk() bool { return math.Abs(v.beyondLevel(v.worstTilted())) > tiltMost }

// worstTilted is the half set whose mean line lies farthest from level, or from
// what a supporter asks.
func (v *view) worstTilted() *measure.Values {
	sets := v.r.Solved.Sets
	worst := &sets[0]
	for i := range sets {
		if math.Abs(v.beyondLevel(&sets[i])) > math.Abs(v.beyondLevel(worst)) {
			worst = &sets[i]
		}
	}
	return worst
}

// notAtRest: a solve that ended early.
func (v *view) notAtRest() (seen, bool) {
	var s seen
	if v.r.Solved == nil || v.r.Solved.Ruff.Converged {
		return s, false
	}
	for _, m := range v.r.Solved.Sets {
		if !m.Converged {
			s.value++
		}
	}
	s.says("In the solver the cloth did not come to rest (%s of %d kinds of half set): the shape shown is a rough one, and nothing is said here of how it hangs or holds.",
		number(s.value, 0), len(v.r.Solved.Sets))
	return s, true
}

// alike: the model of the cloth knows regular sets only.
func (v *view) alike() (seen, bool) {
	if !v.r.Solved.Alike {
		return seen{}, false
	}
	s := seen{}
	for k := range v.p.Panels {
		s.value = math.Max(s.value, math.Abs(v.p.Row.Panel(k)-v.p.Panel_mm))
	}
	s.says("Your own marks were solved as regular sets, every fold %s from the next; yours differ from that by up to %s. How single sets stand beside their neighbours is not solved.",
		v.len(v.p.Panel_mm), v.len(s.value))
	return s, true
}

// uncertain: tucked sets that hang by their stitches alone settle with the mesh
// slowly, or another way on every mesh.
func (v *view) uncertain() (seen, bool) {
	m := v.measures()
	s := seen{value: m.Mesh_mm, limit: meshMost}
	if !m.MeshDone || s.value <= meshMost {
		return s, false
	}
	s.says("Take the heights, the droop and the slope of this ruff as uncertain: solved once more on a finer mesh, the folds of its outer edge came to lie up to %s elsewhere, and it may be more.", v.len(s.value))
	v.offerBoth(&s)
	return s, true
}

// giveOrTake is what a sentence about the solved heights adds where they are
// uncertain, else "".
func (v *view) giveOrTake() string {
	if m := v.measures(); m != nil && m.MeshDone && m.Mesh_mm > meshMost {
		return fmt.Sprintf(" (give or take %s or more)", v.len(m.Mesh_mm))
	}
	return ""
}

// severalWays: unstarched tucks leave the cloth several shapes to rest in.
func (v *view) severalWays() (seen, bool) {
	var s seen
	s.says("Tucked and not starched, this cloth has several shapes to rest in, and the one shown is one of them. Every set will find its own; starch makes them alike.")
	v.offerStarch(&s, stiffUsual)
	return s, true
}
