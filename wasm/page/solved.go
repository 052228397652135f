package page

import (
	"fmt"
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// solvedRows are the solved ruff's figures.
func (p *Page) solvedRows() []numberRow {
	r := p.ruff.Solved
	if r == nil {
		return nil
	}
	m := r.Ruff
	remark := say.Word("sum.solved")
	if !m.Converged {
		remark = say.Word("sum.restless")
	}
	rows := []numberRow{
		{say.Word("sum.pitchouter"), say.Length(m.PitchOuter_mm, p.units), remark},
		{say.Word("sum.heighthangs"), say.Length(m.HeightOuter_mm, p.units), remark},
		{say.Word("sum.inner"), say.Length(m.HeightInner_mm, p.units), remark},
		{say.Word("sum.loophangs"), say.Length(m.Loop_mm, p.units), meeting(m.LoopsMeet)},
		{say.Word("sum.reach"), say.Length(m.Reach_mm, p.units), remark},
		{say.Word("sum.droop"), say.Length(m.Droop_mm, p.units), say.Word("sum.droop.note")},
		{say.Word("sum.slope"), scheme.Minus(fmt.Sprintf("%.1f°", m.Tilt_deg+0)), slope(m.Tilt_deg)},
	}
	if m.BowDone {
		rows = append(rows, numberRow{say.Word("sum.bow"), say.Length(m.Bow_mm, p.units), say.Word("sum.bow.note")})
	}
	if m.TangentsDone {
		rows = append(rows, numberRow{say.Word("sum.vertical"), p.gives(m.Vertical_mm_per_g, m.VerticalStable), say.Word("sum.vertical.note")})
		if !p.ruff.Plan.Row.Tucked() {
			rows = append(rows, numberRow{say.Word("sum.lateral"), p.gives(m.Lateral_mm_per_g, m.LateralStable), say.Word("sum.lateral.note")})
		}
	}
	if m.OtherFound {
		rows = append(rows, numberRow{say.Word("sum.other"), say.Word("sum.other.is", "bottom", say.Length(m.OtherHeights[1], p.units), "top", say.Length(m.OtherHeights[0], p.units)), undecided(m.OtherShare)})
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

func (p *Page) gives(mm float64, stable bool) string {
	if !stable {
		return say.Word("sum.unstable")
	}
	return say.Length(mm, p.units)
}

func slope(deg float64) string {
	switch {
	case math.Abs(deg) < 0.5:
		return say.Word("slope.level")
	case deg > 0:
		return say.Word("slope.rises")
	}
	return say.Word("slope.falls")
}

// slopes is the same as a part of a sentence.
func slopes(deg float64) string {
	if math.Abs(deg) < 0.5 {
		return say.Word("slope.islevel")
	}
	return slope(deg)
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
func (p *Page) limits() []string {
	s := p.ruff.Plan.Scheme
	out := []string{
		say.Word("limits.odd"),
		say.Word("limits.time"),
		say.Word("limits.bow"),
	}
	if c, ok := scheme.ClothNamed(s.Cloth.Name); ok && guessed(p.scheme) {
		out = append(out, say.Word("limits.cloth", "cloth", say.Theirs(c.Name), "source", say.Theirs(c.Source)))
	}
	if p.ruff.Plan.MarksOwn {
		out = append(out, say.Word("limits.marks"))
	}
	if p.ruff.Plan.Row.OneEdge() {
		out = append(out, say.Word("limits.single"))
	}
	if p.ruff.Plan.Row.Tucked() && s.Starch.Bend == 0 {
		out = append(out, say.Word("limits.unstarched"))
	}
	if p.ruff.Plan.Row.Tucked() {
		out = append(out, say.Word("limits.tucked"))
	}
	return out
}

// guessed reports that the table fills in some of the cloth's figures.
func guessed(s scheme.Scheme) bool {
	c := s.Cloth
	return c.Mass == 0 || c.Thickness == 0 || c.BendWarp == 0 || c.BendWeft == 0
}

// limitNodes is the list of limits.
func (p *Page) limitNodes() []doc.Node {
	list := doc.El("ul", "")
	for _, l := range p.limits() {
		list.Nodes = append(list.Nodes, doc.El("li", "").Say(l))
	}
	return []doc.Node{list}
}
