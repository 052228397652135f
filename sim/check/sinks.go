package check

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
)

// tiltMost: how far the mean line from neck to outer edge may lie from level,
// or from what a supporter asks. Judgement, no source.
const tiltMost = 10 // °

var sinksLaw = law{Rule: Rule{"sinks", "The ruff sinks or turns up", Stop, tiltMost, "°", "mean line at most so far from level, or from what a supporter asks", judged, WhereWhole, FromMechanics},
	find: (*view).sinks, parts: shapePart}

// sinks: the mean line from neck to outer edge, of the half set that is worst.
func (v *view) sinks() (seen, bool) {
	worst := v.worstTilted()
	s := seen{value: v.beyondLevel(worst), limit: tiltMost}
	if math.Abs(s.value) <= tiltMost {
		return s, false
	}
	s.severity = milder(Stop, math.Abs(s.value)-tiltMost, SlopeDoubt(v.measures()))
	if s.value < 0 {
		s.limit = -tiltMost
		v.onSupport(&s)
		s.says("Let go, the ruff sinks: from the neck out it falls by %s°.", Number(-s.value, 0))
		if far := v.s.Band.Height/2 - (worst.TopOuter_mm+worst.BottomOuter_mm)/2; far > 0 {
			s.says("Let go, the ruff sinks: from the neck out it falls by %s°, and the middle of its outer edge comes to lie %s below the middle of the band.", Number(-s.value, 0), v.giveOrTake(far))
		}
	} else {
		if v.aboutNeck() {
			s.where = WhereChin
		}
		s.says("Let go, the ruff turns up like a bowl, by %s°, instead of lying level about the neck.", Number(s.value, 0))
	}
	v.offerSewnAsWished(&s)
	v.offerBoth(&s)
	v.offerSetting(&s)
	v.offerTuckAndStarch(&s)
	v.offerSupport(&s)
	return s, true
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
