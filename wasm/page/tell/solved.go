package tell

import (
	"fmt"
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// solvedRows are the solved ruff's figures.
func (t Tell) solvedRows() []numberRow {
	r := t.Ruff.Solved
	if r == nil {
		return nil
	}
	m := r.Ruff
	remark := say.Word("sum.solved")
	if !m.Converged {
		remark = say.Word("sum.restless")
	}
	var rows []numberRow
	show := func(field *float64, label, note string) {
		q := measure.Row(&m, field)
		if q.Known(&m) && !(q.Untucked && t.Ruff.Plan.Row.Tucked()) {
			rows = append(rows, numberRow{label, t.measured(q, &m), note})
		}
	}
	show(&m.PitchOuter_mm, say.Word("sum.pitchouter"), remark)
	show(&m.HeightOuter_mm, say.Word("sum.heighthangs"), remark)
	show(&m.HeightInner_mm, say.Word("sum.inner"), remark)
	show(&m.Loop_mm, say.Word("sum.loophangs"), meeting(m.LoopsMeet))
	show(&m.Reach_mm, say.Word("sum.reach"), remark)
	show(&m.Droop_mm, say.Word("sum.droop"), say.Word("sum.droop.note"))
	show(&m.Tilt_deg, say.Word("sum.slope"), say.Slope(m.Tilt_deg))
	show(&m.Bow_mm, say.Word("sum.bow"), say.Word("sum.bow.note"))
	show(&m.Vertical_mm_per_g, say.Word("sum.vertical"), say.Word("sum.vertical.note"))
	show(&m.Lateral_mm_per_g, say.Word("sum.lateral"), say.Word("sum.lateral.note"))
	if m.OtherFound {
		rows = append(rows, numberRow{say.Word("sum.other"), say.Word("sum.other.is", "bottom", say.Length(m.OtherHeights[1], t.Units), "top", say.Length(m.OtherHeights[0], t.Units)), undecided(m.OtherShare)})
	}
	show(&m.Thread_N, say.Word("sum.thread"), remark)
	return append(rows, numberRow{say.Word("sum.mesh"), m.Mesh, cells(len(r.Sets), m.Iterations+m.Extra)})
}

// cells says how many half sets were solved, in how many steps.
func cells(n, steps int) string {
	if n == 1 {
		return say.Word("sum.mesh.alike", "steps", steps)
	}
	return say.Word("sum.mesh.differing", "n", n, "steps", steps)
}

// measured writes what a measure comes to.
func (t Tell) measured(q *measure.Measure, of *measure.Values) string {
	x, known := q.Number(of)
	switch {
	case !known:
		return say.Word("sum.unstable")
	case q.Unit == "degrees":
		return scheme.Minus(fmt.Sprintf("%.1f°", x+0))
	case q.Unit == "N":
		return fmt.Sprintf("%.2g N", x)
	}
	return say.Length(x, t.Units)
}

func undecided(share float64) string {
	if math.Abs(share) <= 0.1 {
		return say.Word("sum.other.flip")
	}
	if share < 0 {
		return say.Word("sum.other.easier")
	}
	return say.Word("sum.other.push")
}

// limits are what the solver leaves out, said for this ruff.
func (t Tell) limits() []string {
	s := t.Ruff.Plan.Scheme
	out := []string{
		say.Word("limits.odd"),
		say.Word("limits.time"),
		say.Word("limits.bow"),
	}
	if c, ok := scheme.ClothNamed(s.Cloth.Name); ok && guessed(t.Scheme) {
		out = append(out, say.Word("limits.cloth", "cloth", say.Theirs(c.Name), "source", say.Theirs(c.Source)))
	}
	if t.Ruff.Plan.MarksOwn {
		out = append(out, say.Word("limits.marks"))
	}
	if t.Ruff.Plan.Row.OneEdge() {
		out = append(out, say.Word("limits.single"))
	}
	if t.Ruff.Plan.Row.Tucked() && s.Starch.Bend == 0 {
		out = append(out, say.Word("limits.unstarched"))
	}
	if t.Ruff.Plan.Row.Tucked() {
		out = append(out, say.Word("limits.tucked"))
	}
	return out
}

// guessed reports that the table fills in some of the cloth's figures.
func guessed(s scheme.Scheme) bool {
	c := s.Cloth
	return c.Mass == 0 || c.Thickness == 0 || c.BendWarp == 0 || c.BendWeft == 0
}

// LimitNodes is the list of limits.
func (t Tell) LimitNodes() []doc.Node {
	list := doc.El("ul", "")
	for _, l := range t.limits() {
		list.Nodes = append(list.Nodes, doc.El("li", "").Say(l))
	}
	return []doc.Node{list}
}
