package check

import (
	"math"

	"ruffwright/geom/pattern"
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
	s.atMarks(v.nearestMark(v.s.Strip.Have - (v.p.Strip_mm - v.p.Marked_mm)))
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

// joins: the pattern moves every join back to a bottom fold, which hides it; one
// shows where no bottom fold is in a piece's reach.
func (v *view) joins() (seen, bool) {
	var s seen
	if !v.joinsMayShow(v.p) {
		return s, false
	}
	n, all, places := shown(v.p)
	if s.value = float64(n); n == 0 {
		return s, false
	}
	for _, mm := range places {
		s.atMarks(v.nearestMark(mm))
	}
	s.says("Of the %s of the strip, %s %s where no bottom fold hides it: a set takes %s, more than the piece before it reaches.",
		count(all, "join", "joins"), number(s.value, 0), map[bool]string{true: "falls", false: "fall"}[n == 1], v.len(2*v.p.Panel_mm))
	offer := func(changes []Change, format string, args ...any) {
		if t, err := Apply(v.s, Remedy{Changes: changes}); err == nil {
			if p, err := pleat.NewPlan(t); err == nil {
				if n, _, _ := shown(&p); n == 0 {
					s.offer(changes, format, args...)
				}
			}
		}
	}
	if v.s.Strip.Along == scheme.Weft {
		offer([]Change{to("strip.along", string(scheme.Warp))}, "Cut the strip along the warp, in pieces as long as it needs.")
	}
	if v.s.Strip.Have > 0 {
		offer([]Change{to("strip.have", "0")}, "Leave the short piece at hand and cut the strip anew.")
	}
	// A piece as wide as the cloth must hold its two joins, the end hem and a set.
	trim := v.s.Strip
	need := v.widestSet(v.p) + 4*trim.Join + 2*trim.Hem*float64(trim.HemTurns)
	if bolt := math.Ceil((need/(1-trim.ShrinkWeft/100)+2*trim.Selvedge)/50) * 50; bolt > trim.Bolt && v.allowed("strip.bolt", bolt) {
		offer([]Change{toMM("strip.bolt", bolt)}, "Take a cloth %s wide.", v.len(bolt))
	}
	return s, true
}

// widestSet is the longest way along the strip from one bottom fold to the next,
// or from an end, mm.
func (v *view) widestSet(p *pleat.Plan) float64 {
	last, widest := 0., 0.
	for _, m := range p.Row {
		if m.Fold == scheme.Trough {
			widest = math.Max(widest, m.Place_mm-last)
			last = m.Place_mm
		}
	}
	return math.Max(widest, p.Marked_mm-last)
}

// joinsMayShow spares the pattern where a piece of any way of cutting reaches a
// bottom fold from whatever bottom fold it begins at: across the cloth a piece is
// as long as the washed bolt is wide, along it pieces are as long as they need be,
// and a strip at hand as long as it is.
func (v *view) joinsMayShow(p *pleat.Plan) bool {
	s := p.Scheme.Strip
	need := v.widestSet(p) + 2*s.Join + 2*s.Hem*float64(s.HemTurns)
	if s.Have > 0 && s.Have < need {
		return true
	}
	return s.Along == scheme.Weft && (s.Bolt-2*s.Selvedge)*(1-s.ShrinkWeft/100) < need
}

// shown counts the joins that the pattern cannot hide, and all of them, and gives
// the places of the former along the strip, mm. A plan that gives no pattern has
// none.
func shown(p *pleat.Plan) (show, all int, places []float64) {
	pat, err := pattern.New(*p)
	if err != nil {
		return 0, 0, nil
	}
	for _, j := range pat.Cut.Joins {
		if !j.Hidden {
			show++
			places = append(places, j.Place_mm)
		}
	}
	return show, len(pat.Cut.Joins), places
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
	s.atMarks(len(v.p.Row))
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
