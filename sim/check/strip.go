package check

import (
	"math"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// stripShort: the strip at hand must give every set.
func (v *view) stripShort() (seen, bool) {
	sets := float64(v.p.Sets)
	s := seen{value: v.p.SetsHave, limit: sets}
	if v.s.Strip.Have == 0 || v.p.SetsHave > sets-1e-9 {
		return s, false
	}
	missing := int(math.Ceil(sets - v.p.SetsHave - 1e-9))
	lack := v.p.Strip_mm - v.s.Strip.Have
	s.says("The strip of %s makes %s of the %d that the band takes: it runs out %s early, for want of %s.",
		v.len(v.s.Strip.Have), count(int(v.p.SetsHave+1e-9), "set", "sets"), v.p.Sets, count(missing, "set", "sets"), v.len(lack))
	if have := math.Ceil(v.p.Strip_mm + 2*v.s.Strip.Join); v.allowed("strip.have", have) {
		s.offer([]Change{toMM("strip.have", have)}, "Join on at least %s.", v.len(have-v.s.Strip.Have))
	}
	// Fewer sets take longer panels where those are fitted, so each number is
	// planned before it is offered.
	for n, _ := v.fourfold(v.p.SetsHave); n >= 8; n -= quarterSets {
		r := Remedy{Changes: v.setsTo(n)}
		t, err := Apply(v.s, r)
		if err != nil {
			break
		}
		if p, err := pleat.NewPlan(t); err == nil && p.SetsHave >= float64(n) {
			s.offer(r.Changes, "Make %d sets, each with more of the band.", n)
			break
		}
	}
	hems := v.p.Strip_mm - v.p.Marked_mm
	panel := math.Floor((v.s.Strip.Have-hems)/float64(v.p.Panels)*10) / 10
	if !v.held() || panel-v.p.Panel_mm+v.p.InnerPanel_mm >= slackLeast*v.straight() {
		v.offerPanel(&s, panel)
	}
	return s, true
}

// joins: a join's layers keep a top fold from turning round. A longer trim at the
// selvedges brings every join to another place; the first that helps is offered.
func (v *view) joins() (seen, bool) {
	s := seen{value: float64(v.joinsAtCrests(v.p))}
	if s.value == 0 {
		return s, false
	}
	n := int(s.value)
	it := "it makes that fold thick"
	if n > 1 {
		it = "they make those folds thick"
	}
	s.says("Pieces cut at the full width of the cloth are joined at %s of the strip; %s on a top fold, where %s and cannot be hidden.",
		count(len(v.p.Joins()), "place", "places"), count(n, "join falls", "joins fall"), it)
	p := *v.p
	for k := 1; ; k++ {
		trim := math.Ceil(v.s.Strip.Selvedge) + float64(k)/2
		if !v.allowed("strip.selvedge", trim) {
			break
		}
		p.Scheme.Strip.Selvedge = trim
		if v.joinsAtCrests(&p) == 0 {
			s.offer([]Change{toMM("strip.selvedge", trim)}, "Cut %s off at each selvedge instead of %s: the joins then fall away from the top folds.",
				v.len(trim), v.len(v.s.Strip.Selvedge))
			break
		}
	}
	if v.s.Strip.Along == scheme.Weft {
		s.offer([]Change{to("strip.along", string(scheme.Warp))}, "Cut the strip along the warp: it needs no joins.")
	}
	return s, true
}

// joinsAtCrests counts the joins of p that lie too near to a crest.
func (v *view) joinsAtCrests(p *pleat.Plan) int {
	near := joinNear * v.s.Strip.Join
	n := 0
	for _, j := range p.Joins() {
		for _, m := range p.Marks {
			if m.Fold == scheme.Crest && math.Abs(m.Place_mm-j) < near {
				n++
				break
			}
		}
	}
	return n
}

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

// drift: marks stepped off one from the next run away together.
func (v *view) drift() (seen, bool) {
	all := v.s.Hand.Drift * float64(v.p.Sets)
	s := seen{value: all, limit: v.p.Panel_mm}
	if math.Abs(all) <= s.limit {
		return s, false
	}
	end := "short of its end, with cloth left over"
	if all > 0 {
		end = "beyond its end"
	}
	s.says("Marked one from the next, %s out at each set, the last mark lies %s %s: more than one fold to fold length.", v.len(math.Abs(v.s.Hand.Drift)), v.len(math.Abs(all)), end)
	s.offer([]Change{to("hand.drift", "0")}, "Measure every mark from one end, or use the marking tape.")
	return s, true
}

// marking: errors of single marks make sets of different height. A mark off by
// 1 mm moves the two folds beside it by 0.6 mm, one up, one down; the height
// between two folds hangs on four marks, so that independent errors of e give it
// a spread of 0.6 √4 e.
func (v *view) marking() (seen, bool) {
	h := v.r.Folded.Mean.HeightOuter_mm
	spread := 2 * neighbourMoves * v.s.Hand.Error
	s := seen{value: 100 * spread / h, limit: viewerSees}
	if !(h > 0) || s.value <= viewerSees {
		return s, false
	}
	s.says("Marks out by %s make sets whose heights differ by about %s, %s %% of the height: a viewer sees that from %s on.",
		v.len(v.s.Hand.Error), v.len(spread), number(s.value, 0), v.len(viewerSees*h/100))
	if e := math.Floor(10*viewerSees*h/100/(2*neighbourMoves)) / 10; e > 0 {
		s.offer([]Change{toMM("hand.error", e)}, "Mark to %s: with the marking tape and a hard pencil.", v.len(e))
	}
	return s, true
}
