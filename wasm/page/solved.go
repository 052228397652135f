package page

import (
	"fmt"
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
)

// solvedRows are the solved ruff's figures.
func (p *Page) solvedRows() []numberRow {
	r := p.ruff.Solved
	if r == nil {
		return nil
	}
	m := r.Ruff
	remark := word("sum.solved")
	if !m.Converged {
		remark = word("sum.restless")
	}
	rows := []numberRow{
		{word("sum.pitchouter"), p.about(m.PitchOuter_mm), remark},
		{word("sum.heighthangs"), p.about(m.HeightOuter_mm), remark},
		{word("sum.inner"), p.about(m.HeightInner_mm), remark},
		{word("sum.loophangs"), p.about(m.Loop_mm), meeting(m.LoopsMeet)},
		{word("sum.reach"), p.about(m.Reach_mm), remark},
		{word("sum.droop"), p.about(m.Droop_mm), word("sum.droop.note")},
		{word("sum.slope"), scheme.Minus(fmt.Sprintf("%.1f°", m.Tilt_deg+0)), slope(m.Tilt_deg)},
	}
	if m.BowDone {
		rows = append(rows, numberRow{word("sum.bow"), p.about(m.Bow_mm), word("sum.bow.note")})
	}
	if m.TangentsDone {
		rows = append(rows, numberRow{word("sum.vertical"), p.gives(m.Vertical_mm_per_g, m.VerticalStable), word("sum.vertical.note")})
		if !check.Tucked(p.ruff.Plan) {
			rows = append(rows, numberRow{word("sum.lateral"), p.gives(m.Lateral_mm_per_g, m.LateralStable), word("sum.lateral.note")})
		}
	}
	if m.OtherFound {
		rows = append(rows, numberRow{word("sum.other"), word("sum.other.is", "bottom", p.about(m.OtherHeights[1]), "top", p.about(m.OtherHeights[0])), undecided(m.OtherShare)})
	}
	rows = append(rows,
		numberRow{word("sum.thread"), fmt.Sprintf("%.2g N", m.Thread_N), remark},
		numberRow{word("sum.mesh"), m.Mesh, cells(len(r.Sets), m.Iterations+m.Extra)})
	return rows
}

// cells says how many half sets were solved, in how many steps.
func cells(n, steps int) string {
	if n == 1 {
		return word("sum.mesh.alike", "steps", steps)
	}
	return word("sum.mesh.differing", "n", n, "steps", steps)
}

func (p *Page) gives(mm float64, stable bool) string {
	if !stable {
		return word("sum.unstable")
	}
	return p.about(mm)
}

func slope(deg float64) string {
	switch {
	case math.Abs(deg) < 0.5:
		return word("slope.level")
	case deg > 0:
		return word("slope.rises")
	}
	return word("slope.falls")
}

// slopes is the same as a part of a sentence.
func slopes(deg float64) string {
	if math.Abs(deg) < 0.5 {
		return word("slope.islevel")
	}
	return slope(deg)
}

func undecided(share float64) string {
	if math.Abs(share) <= 0.1 {
		return word("sum.other.flip")
	}
	if share < 0 {
		return word("sum.other.easier")
	}
	return word("sum.other.push")
}

// limits are what the solver leaves out, said for this ruff.
func (p *Page) limits() []string {
	s := p.ruff.Plan.Scheme
	out := []string{
		word("limits.odd"),
		word("limits.time"),
		word("limits.bow"),
	}
	if c, ok := scheme.ClothNamed(s.Cloth.Name); ok && guessed(p.scheme) {
		out = append(out, word("limits.cloth", "cloth", theirs(c.Name), "source", theirs(c.Source)))
	}
	if p.ruff.Plan.MarksOwn {
		out = append(out, word("limits.marks"))
	}
	if check.OneEdge(p.ruff.Plan) {
		out = append(out, word("limits.single"))
	}
	if check.Tucked(p.ruff.Plan) && s.Starch.Bend == 0 {
		out = append(out, word("limits.unstarched"))
	}
	if check.Tucked(p.ruff.Plan) {
		out = append(out, word("limits.tucked"))
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

// about writes a length that was solved: to 0.1 mm, in inches to 1/32.
func (p *Page) about(mm float64) string {
	step := 0.1
	if p.units == scheme.Inches {
		step = 25.4 / 32
	}
	return scheme.FormatLength(math.Round(mm/step)*step+0, p.units)
}
