package paper

import (
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// prediction is one row of the record's table of figures.
type prediction struct{ what, wanted, found, from string }

// shape is the best surface that there is: solved, or in closed form.
func shape(r sim.Ruff) pleat.Shape {
	if r.Solved != nil {
		return r.Solved.Shape
	}
	return r.Folded.Shape
}

// loop is the clear width of a loop at the outer edge, mm: solved, or in closed
// form.
func (j *job) loop() float64 {
	if s := j.Ruff.Solved; s != nil {
		return s.Ruff.Loop_mm
	}
	return j.Ruff.Folded.Mean.Loop_mm
}

// source says where the figures come from.
func (j *job) source() string {
	if j.Ruff.Solved != nil {
		return "solved"
	}
	return "drawn"
}

// near writes a length that is computed, not to be measured off: to 0.1 mm, in
// inches to 1/32.
func (j *job) near(mm float64) string {
	switch {
	case !finite(mm):
		return j.len(mm)
	case j.Units == scheme.Centimetres:
		return trim(mm/10, 2) + " cm"
	case j.Units == scheme.Millimetres:
		return trim(mm, 1) + " mm"
	}
	return j.len(mm)
}

// predictions lists what the ruff is expected to measure.
func (j *job) predictions() []prediction {
	m, p := j.Ruff.Folded.Mean, j.Ruff.Plan
	meets := func(b bool) string {
		if b {
			return "they meet"
		}
		return "they stand apart"
	}
	height, top, bottom, loop, closed := m.HeightOuter_mm, m.TopOuter_mm, m.BottomOuter_mm, m.Loop_mm, m.LoopsMeet
	if s := j.Ruff.Solved; s != nil {
		r := s.Ruff
		height, top, bottom, loop, closed = r.HeightOuter_mm, r.TopOuter_mm, r.BottomOuter_mm, r.Loop_mm, r.LoopsMeet
	}
	src := j.source()
	list := []prediction{
		{"height at the outer edge", j.len(j.s.Ruff.Height), j.near(height), src},
		{"top of the loops over the band's bottom edge", "", j.near(top), src},
		{"bottom of the loops", "", j.near(bottom), src},
		{"clear width of a loop", "", j.near(loop), src},
		{"neighbouring loops", "", meets(closed), src},
		{"room for a set at the neck, at the outer edge", "", j.near(p.Pitch_mm) + ", " + j.near(p.PitchOuter_mm), "plan"},
		{"fold to fold on the strip", "", j.near(p.Panel_mm), "plan"},
	}
	if p.Slack > 0 {
		list = append(list, prediction{"slack between sewn folds", "1 to 1.2", trim(p.Slack, 2), "plan"})
	}
	if s := j.Ruff.Solved; s != nil {
		r := s.Ruff
		list = append(list, prediction{"droop under its own weight", "", trim(r.Droop_mm, 1) + " mm", src})
		if r.BowDone {
			list = append(list, prediction{"moves when the wearer bows 60°", "2 mm at most", trim(r.Bow_mm, 1) + " mm", src})
		}
		if r.TangentsDone {
			list = append(list, prediction{"gives up and down, for its own weight again", "", trim(r.Vertical_mm_per_g, 1) + " mm/g", src})
			list = append(list, prediction{"gives sideways", "5 mm/g at most", trim(r.Lateral_mm_per_g, 1) + " mm/g", src})
		}
		flaps := "stand"
		if r.FlapsFall {
			flaps = "fall"
		}
		list = append(list, prediction{"flaps", string(j.s.Ruff.Flaps), flaps, src})
	}
	list = append(list,
		prediction{"strip, from mark to mark", "", j.near(p.Marked_mm), "plan"},
		prediction{"cloth in it with the band", "", trim(j.area(), 2) + " m², " + trim(j.area()*j.s.Cloth.Mass, 0) + " g", "plan"},
	)
	return list
}
