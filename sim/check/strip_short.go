package check

import (
	"math"

	"ruffwright/geom/word"
)

var stripShortLaw = law{Rule: Rule{"strip-short", "The strip at hand is too short", Stop, 0, "sets", "at least the sets of the scheme", geometry, WhereStrip, FromGeometry},
	find: (*view).stripShort}

// stripShort: the strip at hand must give every set.
func (v *view) stripShort() (seen, bool) {
	sets := float64(v.p.Sets)
	s := seen{value: v.p.SetsHave, limit: sets}
	if v.s.Strip.Have == 0 || v.p.SetsHave > sets-1e-9 {
		return s, false
	}
	s.atMarks(v.nearestMark(v.s.Strip.Have - (v.p.Strip_mm - v.p.Marked_mm)))
	missing := int(math.Ceil(sets - v.p.SetsHave - 1e-9))
	lack := v.p.Strip_mm - v.s.Strip.Have
	s.says("The strip of %s makes %s of the %d that the band takes: it runs out %s early, for want of %s.",
		v.len(v.s.Strip.Have), setsOf(int(v.p.SetsHave+1e-9)), v.p.Sets, setsOf(missing), v.len(lack))
	have := math.Ceil(v.p.Strip_mm + 2*v.s.Strip.Join)
	s.offer([]Change{toMM("strip.have", have)}, "Join on at least %s.", v.len(have-v.s.Strip.Have))
	// Fewer sets take longer panels where those are fitted, so each number is
	// planned before it is offered.
	for n, _ := v.fourfold(v.p.SetsHave); n >= 8; n -= quarterSets {
		changes := v.setsTo(n)
		if p, ok := v.planWith(changes); ok && p.SetsHave >= float64(n) {
			s.offer(changes, "Make %d sets, each with more of the band.", n)
			break
		}
	}
	hems := v.p.Strip_mm - v.p.Marked_mm
	panel := math.Floor((v.s.Strip.Have-hems)/float64(v.p.Panels)*10) / 10
	if !v.hasSlack() || panel-v.p.Panel_mm+v.p.InnerPanel_mm >= slackLeast*v.straight() {
		v.offerPanel(&s, panel)
	}
	return s, true
}

// takeupLeast: one tutorial runs its first gathering row 6.35 mm from the raw
// edge, rounded down.
const takeupLeast = 6 // mm

// setsOf counts sets.
func setsOf(n int) word.Text { return word.Count(n, "%d set", "%d sets", n) }

var cutWidthLaw = law{Rule: Rule{"cut-width", "The cut width does not add up", Mend, takeupLeast, "mm", "at least", "one maker's tutorial gathers 6.35 mm from the raw edge", WhereStrip, FromGeometry},
	find: (*view).cutWidth}

// cutWidth: the width that is cut must leave the band something to hold.
func (v *view) cutWidth() (seen, bool) {
	s := seen{value: v.s.Strip.Takeup, limit: takeupLeast}
	if s.value >= takeupLeast {
		return s, false
	}
	hems := float64(v.s.Strip.HemTurns) * v.s.Strip.Hem
	s.says("Of the cut width only %s go into the band, beside %s of depth and %s of hem: the stitches lie too near to the raw edge and pull out.",
		v.len(s.value), v.len(v.s.Ruff.Depth), v.len(hems))
	s.offer([]Change{toMM("strip.takeup", takeupLeast)}, "Cut the strip %s wider and let the band take up %s.", v.len(takeupLeast-s.value), v.len(takeupLeast))
	return s, true
}
