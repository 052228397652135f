package check

import (
	"math"
	"slices"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
)

// planWith plans the ruff with these changes; false where the scheme refuses them.
func (v *view) planWith(changes []Change) (pleat.Plan, bool) {
	s, err := Apply(v.p.Given, Remedy{Changes: changes})
	if err != nil {
		return pleat.Plan{}, false
	}
	p, err := pleat.NewPlan(s)
	return p, err == nil
}

// solvable says whether the ruff with these changes has mechanics.
func (v *view) solvable(changes []Change) bool {
	p, ok := v.planWith(changes)
	if !ok {
		return false
	}
	_, err := sim.Design(sim.Ruff{Plan: p})
	return err == nil
}

// smallWays are changes of one thing that may give the sets mechanics, the smallest
// first.
func (v *view) smallWays() []Remedy {
	var s seen
	top, bottom := v.tucks()
	v.offerTucksThatFit(&s, top, bottom)
	if v.twoLines() {
		gap := math.Floor(10*pleat.GapMost*v.s.Ruff.Depth) / 10
		s.offer([]Change{toMM("pleat.line_gap", gap)}, "Sew the second line %s out.", v.len(gap))
		s.offer([]Change{to("pleat.lines", "1")}, "Sew one line only.")
	}
	if deep := math.Ceil(10*max(top, bottom)/pleat.TuckMost) / 10; deep > v.s.Ruff.Depth {
		s.offer([]Change{toMM("ruff.depth", deep)}, "Make the ruff %s deep.", v.len(deep))
	}
	if v.p.MarksOwn {
		top := "Sew all top folds to the top edge, and leave the bottom folds free."
		if v.s.Ruff.Flaps == scheme.Stand {
			top = "Sew all bottom folds to the top edge, and leave the top folds free."
		}
		for _, way := range []struct {
			sewn  scheme.Scheme
			words string
		}{
			{SewnTop(v.s), top},
			{v.s.SewnTo(scheme.EdgeTop, scheme.EdgeBottom), "Sew all top folds to the top edge and all bottom folds to the bottom edge."},
		} {
			s.offer(asIn(way.sewn, "pleat.marks", "pleat.anchor", "pleat.sewn"), way.words)
		}
		s.offer([]Change{to("pleat.marks", "")}, "Leave your own marks, and take planned ones.")
	}
	if h := math.Floor(10*v.bandFor(v.p.Panel_mm-top-bottom, GoodSlack)) / 10; h < v.s.Band.Height {
		s.offer([]Change{toMM("band.height", h)}, "Make the band %s high.", v.len(h))
	}
	if v.s.Pleat.Pitch > 0 {
		s.offer([]Change{to("pleat.pitch", "0")}, "Share the band out evenly among the sets.")
	}
	v.offerPanel(&s, math.Ceil(10*v.leastPanel(top+bottom))/10)
	if v.s.Pleat.Panel > 0 {
		s.offer([]Change{to("pleat.panel", "0")}, "Let fold to fold be fitted to the height.")
	}
	return s.remedies
}

// largeWays are changes of the number of sets, or of several things together, that
// may give the sets mechanics.
func (v *view) largeWays() []Remedy {
	var s seen
	for _, times := range []float64{0.5, 0.25, 1.5, 2, 3, 5} {
		if below, above := v.fourfold(times * float64(v.p.Sets)); above > 0 && times > 1 {
			s.offer(v.setsTo(above), "Make %d sets.", above)
		} else if below > 0 && times < 1 {
			s.offer(v.setsTo(below), "Make %d sets.", below)
		}
	}
	v.offerPlain(&s)
	return s.remedies
}

// waveGood is the part of a panel that half a set's room may take, where they
// choose the panel; pleat.WaveMost is the most that can be solved.
const waveGood = 0.95

// leastPanel is the length from fold to fold, in mm, that leaves a wave at both
// edges and reaches from edge to edge of the band, with so much taken by tucks.
func (v *view) leastPanel(tucks float64) float64 {
	half := v.p.Pitch_mm / 2
	outer := half * (1 + v.s.Ruff.Depth*slices.Max(v.p.Curvatures()))
	least := max(tucks/pleat.TucksGood, (half+tucks)/waveGood, outer/waveGood)
	if v.hasSlack() {
		least = max(least, GoodSlack*v.straight()+tucks)
	}
	return least
}

// offerTucksThatFit offers tucks so shallow that they fit into panel and depth.
func (v *view) offerTucksThatFit(s *seen, top, bottom float64) {
	half := v.p.Pitch_mm / 2
	room := min(pleat.TucksMost*v.p.Panel_mm, waveGood*v.p.Panel_mm-half)
	if v.hasSlack() {
		room = min(room, v.p.Panel_mm-GoodSlack*v.straight())
	}
	if top+bottom == 0 {
		return
	}
	part := min(1, room/(top+bottom), pleat.TuckMost*v.s.Ruff.Depth/max(top, bottom))
	a, b := math.Floor(10*part*top)/10, math.Floor(10*part*bottom)/10
	if part < 0 {
		a, b = 0, 0
	}
	var c []Change
	var said []word.Text
	if top > 0 {
		c, said = append(c, toMM("pleat.tuck_top", a)), append(said, word.Say("%s at the top folds", v.len(a)))
	}
	if bottom > 0 {
		c, said = append(c, toMM("pleat.tuck_bottom", b)), append(said, word.Say("%s at the bottom folds", v.len(b)))
	}
	s.offer(c, "Make the tucks shallower: %s.", word.Join(", ", said...))
}

// offerPlain offers the plainest ruff of this neck: planned marks, fold to fold
// fitted to the height, no tucks, one line of stitches, as many sets as the
// first scheme has in proportion.
func (v *view) offerPlain(s *seen) {
	c := []Change{to("pleat.marks", ""), to("pleat.panel", "0"), to("pleat.pitch", "0"), to("pleat.tuck_top", "0"), to("pleat.tuck_bottom", "0"), to("pleat.lines", "1")}
	s.offer(c, "Fold without tucks, with one line of stitches, and let fold to fold be fitted to the height.")
	first := scheme.Default()
	if _, n := v.fourfold(float64(first.Ruff.Sets) * v.p.Neckline_mm / (first.Wearer.Girth + first.Wearer.Ease)); n > 0 {
		s.offer(append(c, v.setsTo(n)...), "Make %d sets without tucks, with one line of stitches, and let fold to fold be fitted to the height.", n)
	}
}
