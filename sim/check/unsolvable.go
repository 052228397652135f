package check

import (
	"errors"
	"math"
	"slices"
	"strings"

	"ruffwright/geom/curve"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// unsolvableWays is how many ways out of a ruff without mechanics are offered.
const unsolvableWays = 3

// cannotSolve: sets that the solver refuses. Where slackShort or outerShort says
// the same and has a way out, that is enough.
func (v *view) cannotSolve() (seen, bool) {
	_, err := sim.Design(v.r)
	if err == nil {
		return seen{}, false
	}
	for _, said := range []func(*view) (seen, bool){(*view).slackShort, (*view).outerShort} {
		if s, ok := said(v); ok && slices.ContainsFunc(s.remedies, func(r Remedy) bool { return v.solvable(r.Changes) }) {
			return seen{}, false
		}
	}
	var s seen
	var m sim.Misfit
	var field scheme.Error
	switch {
	case errors.As(err, &m):
		v.sayMisfit(&s, m)
	case errors.As(err, &field):
		s.says("Sewn like this (%s) it cannot be told how the ruff hangs.", field.Value)
	}
	for _, ways := range [][]Remedy{v.smallWays(), v.largeWays()} {
		for _, way := range ways {
			if len(s.remedies) < unsolvableWays && v.solvable(way.Changes) {
				s.remedies = append(s.remedies, way)
			}
		}
		if len(s.remedies) > 0 {
			break
		}
	}
	return s, true
}

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

// sayMisfit says in a maker's words why the half set has no mechanics.
func (v *view) sayMisfit(s *seen, m sim.Misfit) {
	s.value, s.limit = m.Value, m.Most
	depth, panel := v.len(v.s.Ruff.Depth), v.len(v.p.Panel_mm)
	switch m.Kind {
	case sim.TucksLong:
		s.says("The tucks take %s of the %s between two folds: nothing is left to stand as a loop at the band.", v.len(m.Value), panel)
	case sim.TuckDeep:
		s.says("A tuck %s deep runs through nearly the whole depth of %s: the loop has no room to open.", v.len(m.Value), depth)
	case sim.GapWide:
		s.says("The second stitch line, %s out, holds nearly the whole depth of %s: too little is left to open into loops.", v.len(m.Value), depth)
	case sim.NoWave:
		s.says("Between two folds the inner edge is %s long, and half a set takes %s of the band: the edge lies flat and makes no loop.", v.len(v.p.InnerPanel_mm), v.len(m.Value/2))
	case sim.NoOuterWave:
		s.says("Fold to fold is %s, and at the outer edge half a set has %s to span: the edge lies flat and makes no loop.", panel, v.len(m.Value/2))
	case sim.TooShort:
		s.value, s.limit = m.Value, m.Least
		s.unit = "slack"
		s.says("Between the sewn folds the cloth is shorter than the way from edge to edge of the band: it cannot reach.")
	default:
		s.says("No such sets can be solved: %s must be between %s and %s, and is %s.", misfitWords[m.Field], number(m.Least, 3), number(m.Most, 3), number(m.Value, 3))
	}
}

// misfitWords name the figures of a half set that a scheme of valid fields can
// bring out of the solver's range.
var misfitWords = map[string]string{
	"Panel_mm": "fold to fold, in mm,", "Pitch_mm": "the room for a set, in mm,",
	"Kappa_1pmm": "the curve of the neck, one over its radius in mm,",
	"BendU_uNm":  "the cloth's stiffness along the strip, in µN·m,", "BendV_uNm": "the cloth's stiffness across the strip, in µN·m,",
	"FrozenU_uNm": "the starch's stiffness along the strip, in µN·m,", "FrozenV_uNm": "the starch's stiffness across the strip, in µN·m,",
}

// smallWays are changes of one thing that may give the sets mechanics, the smallest
// first.
func (v *view) smallWays() []Remedy {
	var s seen
	top, bottom := v.tucks()
	half := v.p.Pitch_mm / 2
	inner := v.p.Panel_mm - top - bottom
	v.offerTucksThatFit(&s, top, bottom)
	if v.twoLines() {
		if gap := math.Floor(10*pleat.GapMost*v.s.Ruff.Depth) / 10; v.allowed("pleat.line_gap", gap) {
			s.offer([]Change{toMM("pleat.line_gap", gap)}, "Sew the second line %s out.", v.len(gap))
		}
		s.offer([]Change{to("pleat.lines", "1")}, "Sew one line only.")
	}
	if deep := math.Ceil(10*max(top, bottom)/pleat.TuckMost) / 10; deep > v.s.Ruff.Depth {
		s.offer([]Change{toMM("ruff.depth", deep)}, "Make the ruff %s deep.", v.len(deep))
	}
	if v.p.MarksOwn {
		top := "Sew all top folds to the top edge, and leave the bottom folds free"
		if v.s.Ruff.Flaps == scheme.Stand {
			top = "Sew all bottom folds to the top edge, and leave the top folds free"
		}
		for _, way := range []struct {
			sewn  scheme.Scheme
			words string
		}{
			{SewnTop(v.s), top},
			{sewnAtBothEdges(v.s), "Sew all top folds to the top edge and all bottom folds to the bottom edge"},
		} {
			s.offer(asIn(way.sewn, "pleat.marks", "pleat.anchor", "pleat.sewn"), "%s.", way.words)
		}
		s.offer([]Change{to("pleat.marks", "")}, "Leave your own marks, and take planned ones.")
	}
	if h := math.Floor(10*sqrtOf(math.Pow(inner/slackGood, 2)-half*half)) / 10; h < v.s.Band.Height && v.allowed("band.height", h) {
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

// leastPanel is the length from fold to fold, in mm, that leaves a wave at both
// edges and reaches from edge to edge of the band, with so much taken by tucks.
func (v *view) leastPanel(tucks float64) float64 {
	half := v.p.Pitch_mm / 2
	outer := half * (1 + v.s.Ruff.Depth*slices.Max(v.p.Curvatures()))
	least := max(tucks/pleat.TucksGood, (half+tucks)/waveGood, outer/waveGood)
	if v.held() {
		least = max(least, slackGood*v.straight()+tucks)
	}
	return least
}

// offerTucksThatFit offers tucks so shallow that they fit into panel and depth.
func (v *view) offerTucksThatFit(s *seen, top, bottom float64) {
	half := v.p.Pitch_mm / 2
	room := min(pleat.TucksMost*v.p.Panel_mm, waveGood*v.p.Panel_mm-half)
	if v.held() {
		room = min(room, v.p.Panel_mm-slackGood*v.straight())
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
	var said []string
	for _, k := range []struct {
		key, word string
		was, is   float64
	}{{"pleat.tuck_top", "top folds", top, a}, {"pleat.tuck_bottom", "bottom folds", bottom, b}} {
		if k.was > 0 {
			c, said = append(c, toMM(k.key, k.is)), append(said, v.len(k.is)+" at the "+k.word)
		}
	}
	s.offer(c, "Make the tucks shallower: %s.", strings.Join(said, ", "))
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

// fitted: what the plan changed so that a fitted length from fold to fold can be
// sewn.
func (v *view) fitted() (seen, bool) {
	p := v.p
	if !p.TucksFitted && !p.PanelReaches {
		return seen{}, false
	}
	given := p.AsGiven()
	givenTop, givenBottom := given.Tuck(scheme.Crest), given.Tuck(scheme.Trough)
	s := seen{value: p.Panel_mm, limit: v.s.Ruff.Height}
	if p.PanelReaches {
		s.says("For a height of %s the folds would lie too near together to be sewn: fold to fold is made %s, and the ruff stands taller.", v.len(v.s.Ruff.Height), v.len(p.Panel_mm))
	} else {
		top, bottom := v.tucks()
		s.value, s.limit = max(top, bottom), max(givenTop, givenBottom)
		s.says("At this height there is not cloth enough between the folds for tucks as deep as given: they are made %s.", v.tuckWords(top, bottom))
	}
	if !v.held() {
		return s, true
	}
	tucks := givenTop + givenBottom
	asked, err := curve.PanelForHeight(v.s.Ruff.Height, p.PitchOuter_mm/2)
	if err != nil {
		return s, true
	}
	offer := func(c []Change, format string, mm float64) {
		if q, ok := v.planWith(c); ok && !q.TucksFitted && !q.PanelReaches {
			s.offer(c, format, v.len(mm))
		}
	}
	inner := (asked - tucks) / slackGood
	if h := math.Floor(10*sqrtOf(inner*inner-math.Pow(p.Pitch_mm/2, 2))) / 10; h > 0 {
		offer([]Change{toMM("band.height", h)}, "Make the band %s high: then nothing need give way.", h)
	}
	if e, err := curve.NewElastica(slackGood*v.straight()+tucks, p.PitchOuter_mm/2); err == nil {
		h := math.Ceil(10*e.Height()) / 10
		offer([]Change{toMM("ruff.height", h)}, "Take a ruff %s high: then nothing need give way.", h)
	}
	return s, true
}

// tuckWords say how deep the sewn tucks are.
func (v *view) tuckWords(top, bottom float64) string {
	given := v.p.AsGiven()
	switch {
	case given.Tuck(scheme.Trough) == 0 || top == bottom:
		return v.len(top)
	case given.Tuck(scheme.Crest) == 0:
		return v.len(bottom)
	}
	return v.len(top) + " at the top folds and " + v.len(bottom) + " at the bottom folds"
}
