package tell

import (
	"fmt"
	"math"

	"ruffwright/geom/scheme"
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
	rows := []numberRow{
		{say.Word("sum.pitchouter"), say.Length(m.PitchOuter_mm, t.Units), remark},
		{say.Word("sum.heighthangs"), say.Length(m.HeightOuter_mm, t.Units), remark},
		{say.Word("sum.inner"), say.Length(m.HeightInner_mm, t.Units), remark},
		{say.Word("sum.loophangs"), say.Length(m.Loop_mm, t.Units), meeting(m.LoopsMeet)},
		{say.Word("sum.reach"), say.Length(m.Reach_mm, t.Units), remark},
		{say.Word("sum.droop"), say.Length(m.Droop_mm, t.Units), say.Word("sum.droop.note")},
		{say.Word("sum.slope"), scheme.Minus(fmt.Sprintf("%.1f°", m.Tilt_deg+0)), say.Slope(m.Tilt_deg)},
	}
	if m.BowDone {
		rows = append(rows, numberRow{say.Word("sum.bow"), say.Length(m.Bow_mm, t.Units), say.Word("sum.bow.note")})
	}
	if m.TangentsDone {
		rows = append(rows, numberRow{say.Word("sum.vertical"), t.gives(m.Vertical_mm_per_g, m.VerticalStable), say.Word("sum.vertical.note")})
		if !t.Ruff.Plan.Row.Tucked() {
			rows = append(rows, numberRow{say.Word("sum.lateral"), t.gives(m.Lateral_mm_per_g, m.LateralStable), say.Word("sum.lateral.note")})
		}
	}
	if m.OtherFound {
		rows = append(rows, numberRow{say.Word("sum.other"), say.Word("sum.other.is", "bottom", say.Length(m.OtherHeights[1], t.Units), "top", say.Length(m.OtherHeights[0], t.Units)), undecided(m.OtherShare)})
	}
	rows = append(rows,
		numberRow{say.Word("sum.thread"), fmt.Sprintf("%.2g N", m.Thread_N), remark},
		numberRow{say.Word("sum.mesh"), m.Mesh, cells(len(r.Sets), m.Iterations+m.Extra)})
	return rows
}

// cells says how many half sets were solved, in how many steps.
func cells(n, steps int) string {
	if n == 1 {
		return say.Word("sum.mesh.alike", "steps", steps)
	}
	return say.Word("sum.mesh.differing", "n", n, "steps", steps)
}

func (t Tell) gives(mm float64, stable bool) string {
	if !stable {
		return say.Word("sum.unstable")
	}
	return say.Length(mm, t.Units)
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
