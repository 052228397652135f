package page

import (
	"fmt"
	"math"

	"ruffwright/geom/scheme"
)

// solvedRows are the solved ruff's figures.
func (p *Page) solvedRows() []numberRow {
	r := p.ruff.Solved
	if r == nil {
		return nil
	}
	m := r.Ruff
	remark := "solved"
	if !m.Converged {
		remark = "solved, but not come to rest"
	}
	rows := []numberRow{
		{"Height at the outer edge, hanging", p.about(m.HeightOuter_mm), remark},
		{"Loop’s clear width, hanging", p.about(m.Loop_mm), meeting(m.LoopsMeet)},
		{"Outer edge from the neck", p.about(m.Reach_mm), remark},
		{"Droop of the outer edge", p.about(m.Droop_mm), "as set on the sticks, less as released"},
		{"Slope from neck to outer edge", fmt.Sprintf("%.1f°", m.Tilt_deg+0), slope(m.Tilt_deg)},
	}
	if m.BowDone {
		rows = append(rows, numberRow{"Moves when the wearer bows", p.about(m.Bow_mm), "the outer edge, at 60°"})
	}
	if m.TangentsDone {
		rows = append(rows, numberRow{"Gives up and down", p.gives(m.Vertical_mm_per_g, m.VerticalStable), "the outer edge, for its own weight once more"})
		if !tucked(p.ruff.Plan) {
			rows = append(rows, numberRow{"Gives sideways", p.gives(m.Lateral_mm_per_g, m.LateralStable), "likewise, all loops leaning the same way"})
		}
	}
	if m.OtherFound {
		rows = append(rows, numberRow{"Lying the other way", fmt.Sprintf("%s to %s", p.about(m.OtherHeights[1]), p.about(m.OtherHeights[0])), undecided(m.OtherShare)})
	}
	rows = append(rows,
		numberRow{"Pull on the most loaded stitch", fmt.Sprintf("%.2g N", m.Thread_N), remark},
		numberRow{"How it was solved", m.Mesh, fmt.Sprintf("cells of each half set; %s, %d steps", differing(len(r.Sets)), m.Iterations+m.Extra)})
	return rows
}

func differing(n int) string {
	if n == 1 {
		return "all half sets alike"
	}
	return fmt.Sprintf("%d different ones", n)
}

func (p *Page) gives(mm float64, stable bool) string {
	if !stable {
		return "does not hold"
	}
	return p.about(mm)
}

func slope(deg float64) string {
	switch {
	case math.Abs(deg) < 0.5:
		return "level"
	case deg > 0:
		return "rises outward"
	}
	return "falls outward"
}

func undecided(share float64) string {
	if math.Abs(share) <= 0.1 {
		return "outer edge's bottom and top; it may flip from one to the other"
	}
	if share < 0 {
		return "outer edge's bottom and top; it lies easier so"
	}
	return "outer edge's bottom and top; it takes a push to lie so"
}

// limits are what the solver leaves out, said for this ruff.
func (p *Page) limits() []string {
	s := p.ruff.Plan.Scheme
	out := []string{
		"Every set is solved as if its neighbours were its mirror images. A single odd set, the ends at the opening and the closure are outside it.",
		"Friction between the loops, damp, wind and wear are left out; so is the starch's giving way with time.",
		"The bow is the pull of gravity turned by 60° to the front and back of the neck; how the neck itself bends is left out.",
	}
	if c, ok := scheme.ClothNamed(s.Cloth.Name); ok && guessed(p.scheme) {
		out = append(out, fmt.Sprintf("The cloth is not measured: what is entered as 0 is a guess for %s (%s). Stiffness that follows from it may be half or twice as much; your own swatch tells.", c.Name, c.Source))
	}
	if p.ruff.Plan.MarksOwn {
		out = append(out, "Your own marks are solved as regular sets of their mean length fold to fold: what single marks do is not seen.")
	}
	if isSingle(p.ruff.Plan) {
		out = append(out, "Sewn at one edge only, a ruff may lie in more than one way. The numbers tell of the other way if one was found; there may be more.")
	}
	if tucked(p.ruff.Plan) && s.Starch.Bend == 0 {
		out = append(out, "Tucked and not starched, cloth can lie in several ways that cost it much the same. What is shown is one of them.")
	}
	if tucked(p.ruff.Plan) {
		out = append(out, "How tucked sets give sideways is not told: the answer hangs on how finely they are solved.")
	}
	return out
}

// guessed reports that the table fills in some of the cloth's figures.
func guessed(s scheme.Scheme) bool {
	c := s.Cloth
	return c.Mass == 0 || c.Thickness == 0 || c.BendWarp == 0 || c.BendWeft == 0
}

// limitNodes is the list of limits.
func (p *Page) limitNodes() []Node {
	list := el("ul", "")
	for _, l := range p.limits() {
		list.Nodes = append(list.Nodes, el("li", "").say(l))
	}
	return []Node{list}
}
