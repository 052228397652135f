package paper

import (
	"ruffwright/geom/word"
	"ruffwright/sim/check"
	"ruffwright/sim/measure"
)

// prediction is a row of the record's table: what, wanted, found, from what.
type prediction [4]word.Text

// loop is the clear width of a loop at the outer edge, mm: solved, or in closed
// form.
func (j *job) loop() float64 {
	if s := j.Ruff.Solved; s != nil {
		return s.Ruff.Loop_mm
	}
	return j.Ruff.Folded.Mean.Loop_mm
}

func (j *job) predictions() []prediction {
	m, p := j.Ruff.Folded.Mean, j.Ruff.Plan
	height, top, bottom, loop, closed := m.HeightOuter_mm, m.TopOuter_mm, m.BottomOuter_mm, m.Loop_mm, m.LoopsMeet
	which, src := word.Say("a loop"), word.Say("drawn")
	if s := j.Ruff.Solved; s != nil {
		r := s.Ruff
		which, src = word.Say("the narrower loop"), word.Say("solved")
		height, top, bottom, loop, closed = r.HeightOuter_mm, r.TopOuter_mm, r.BottomOuter_mm, r.Loop_mm, r.LoopsMeet
	}
	list := []prediction{
		{word.Say("height at the outer edge"), j.len(j.s.Ruff.Height), j.likely(measure.Height, j.near(height)), src},
		{word.Say("top of the loops over the band's bottom edge"), word.Text{}, j.near(top), src},
		{word.Say("bottom of the loops"), word.Text{}, j.near(bottom), src},
		{word.Say("clear width of %s", which), word.Text{}, j.likely(measure.Loop, j.near(loop)), src},
		{word.Say("neighbouring loops"), word.Text{}, when(closed, word.Say("they meet"), word.Say("they stand apart")), src},
		{word.Say("room for a set at the neck, at the outer edge"), word.Text{}, word.Say("%s, %s", j.near(p.Pitch_mm), j.near(p.PitchOuter_mm)), word.Say("plan")},
		{word.Say("fold to fold on the strip"), word.Text{}, j.near(p.Panel_mm), word.Say("plan")},
	}
	if p.Slack > 0 {
		list = append(list, prediction{word.Say("slack between sewn folds"), word.Say("1 to 1.2"), trim(p.Slack, 2), word.Say("plan")})
	}
	if s := j.Ruff.Solved; s != nil {
		list = append(list, j.hanging(s.Ruff)...)
	}
	list = append(list,
		prediction{word.Say("strip, from mark to mark"), word.Text{}, j.place(j.lastMark().Place), word.Say("plan")},
		prediction{word.Say("cloth in %s", j.starched()), word.Text{}, word.Say("%s m², %s g", trim(j.area(), 2), trim(j.area()*j.s.Cloth.Mass, 0)), word.Say("plan")},
	)
	return list
}

// likely is a figure with its interval where that is known, else as it is written there.
func (j *job) likely(f measure.Figure, otherwise word.Text) word.Text {
	for _, s := range j.sure {
		if s.Figure == f {
			return s.Says(j.Units)
		}
	}
	return otherwise
}

// hanging lists what only the solved cloth can tell, beside the limits of the
// findings. How tucked sets give sideways hangs on the mesh and is left out.
func (j *job) hanging(r measure.Values) []prediction {
	solved := word.Say("solved")
	limits := check.Limits()
	most := func(mm float64) word.Text { return word.Say("%s mm at most", trim(mm, 1)) }
	gives := func(mm float64, stable bool) word.Text { return when(stable, move(mm), word.Say("does not hold")) }
	list := []prediction{{word.Say("outer edge from the neck"), word.Text{}, j.likely(measure.Reach, j.near(r.Reach_mm)), solved}, {word.Say("droop under its own weight"), most(limits.Droop_mm), j.likely(measure.Droop, move(r.Droop_mm)), solved}}
	if r.BowDone {
		list = append(list, prediction{word.Say("moves when the wearer bows 60°"), most(limits.Bow_mm), j.likely(measure.Bow, move(r.Bow_mm)), solved})
	}
	if r.TangentsDone {
		list = append(list, prediction{word.Say("gives up and down, for its own weight again"), word.Text{}, gives(r.Vertical_mm_per_g, r.VerticalStable), solved})
		if !j.Ruff.Plan.Row.Tucked() {
			list = append(list, prediction{word.Say("gives sideways, for its own weight"), most(limits.Lean_mm_per_g), gives(r.Lateral_mm_per_g, r.LateralStable), solved})
		}
	}
	flaps := when(r.FlapsFall, word.Say("fall"), word.Say("stand"))
	list = append(list, prediction{word.Say("flaps"), word.Say(string(j.s.Ruff.Flaps)), flaps, solved})
	if r.OtherFound {
		list = append(list, prediction{word.Say("may also lie the other way: top, bottom of the loops"), word.Text{}, word.Say("%s, %s", j.near(r.OtherHeights[0]), j.near(r.OtherHeights[1])), solved})
	}
	return list
}

func (j *job) restsOn() word.Text {
	s := j.Ruff.Solved
	switch {
	case s == nil && !j.Unsolved.Empty():
		return word.Say("The %s is drawn in closed form, since it cannot be solved: %s", j.thing(), j.Unsolved)
	case s == nil:
		return word.Say("The %s is drawn in closed form: the cloth's weight and stiffness are not reckoned in; solve the scheme to have them.", j.thing())
	}
	words := word.Say("The %s is as solved from the cloth's weight and stiffness, for regular sets; the opening and single odd sets lie outside what is solved.", j.thing())
	if s.Alike {
		words = word.Join(" ", words, word.Say("The maker's own marks were solved as regular sets."))
	}
	if !s.Converged() {
		words = word.Join(" ", words, word.Say("The cloth did not come to rest: pictures and figures are rough."))
	}
	return words
}
