package tell

import (
	"fmt"
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
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
	remark := say.Text("solved")
	if !m.Converged {
		remark = say.Text("solved, but not come to rest")
	}
	likely := map[string]string{}
	for _, q := range t.Ruff.Sure() {
		likely[q.Figure.Row().Key] = say.In(q.Likely(t.Units))
	}
	var rows []numberRow
	show := func(field *float64, label, note string) {
		q := measure.Row(&m, field)
		if l, ok := likely[q.Key]; ok && note == remark {
			note = l
		} else if ok {
			note = say.Text("%s; %s", l, note)
		}
		if q.Known(&m) && !(q.Untucked && t.Ruff.Plan.Row.Tucked()) {
			rows = append(rows, numberRow{label, t.measured(q, &m), note})
		}
	}
	show(&m.PitchOuter_mm, say.Text("Room for a set at the outer edge"), remark)
	show(&m.HeightOuter_mm, say.Text("Height at the outer edge, hanging"), remark)
	show(&m.HeightInner_mm, say.Text("Height at the inner edge"), remark)
	show(&m.Loop_mm, say.Text("Narrower loop’s clear width, hanging"), meeting(m.LoopsMeet))
	show(&m.Reach_mm, say.Text("Outer edge from the neck"), remark)
	show(&m.Droop_mm, say.Text("Droop of the outer edge, its mean"), say.Text("as set on the sticks, less as released"))
	show(&m.Tilt_deg, say.Text("Slope from neck to outer edge"), say.Slope(m.Tilt_deg))
	show(&m.Bow_mm, say.Text("Moves when the wearer bows"), say.Text("the outer edge, at 60°"))
	show(&m.Vertical_mm_per_g, say.Text("Gives up and down"), say.Text("the outer edge, for its own weight once more"))
	show(&m.Lateral_mm_per_g, say.Text("Gives sideways"), say.Text("likewise, all loops leaning the same way"))
	if m.OtherFound {
		rows = append(rows, numberRow{say.Text("Lying the other way"), say.Text("%s to %s", say.Length(m.OtherHeights[1], t.Units), say.Length(m.OtherHeights[0], t.Units)), undecided(m.OtherShare)})
	}
	show(&m.Thread_N, say.Text("Pull on the most loaded stitch"), remark)
	return append(rows, numberRow{say.Text("How it was solved"), m.Mesh, cells(len(r.Sets), m.Iterations+m.Extra)})
}

// cells says how many half sets were solved, in how many steps.
func cells(n, steps int) string {
	if n == 1 {
		return say.Text("cells of each half set; all half sets alike, %d steps", steps)
	}
	return say.Text("cells of each half set; %d different ones, %d steps", n, steps)
}

// measured writes what a measure comes to.
func (t Tell) measured(q *measure.Measure, of *measure.Values) string {
	x, known := q.Number(of)
	switch {
	case !known:
		return say.Text("does not hold")
	case q.Unit == "degrees":
		return say.Text("%s°", word.Number{Value: x, Decimals: 1})
	case q.Unit == "N":
		return say.Text("%s N", word.Written(fmt.Sprintf("%.2g", x)))
	}
	return say.Length(x, t.Units)
}

func undecided(share float64) string {
	if math.Abs(share) <= 0.1 {
		return say.Text("outer edge’s bottom and top; it may flip from one to the other")
	}
	if share < 0 {
		return say.Text("outer edge’s bottom and top; it lies easier so")
	}
	return say.Text("outer edge’s bottom and top; it takes a push to lie so")
}

// limits are what the solver leaves out, said for this ruff.
func (t Tell) limits() []string {
	s := t.Ruff.Plan.Scheme
	out := []string{
		say.Text("Every set is solved as if its neighbours were its mirror images. A single odd set, the ends at the opening and the closure are outside it."),
		say.Text("Friction between the loops, damp, wind and wear are left out; so is the starch’s giving way with time."),
		say.Text("The bow is the pull of gravity turned by 60° to the front and back of the neck. How the neck itself bends is left out."),
	}
	if c, ok := scheme.ClothNamed(s.Cloth.Name); ok && guessed(t.Scheme) {
		out = append(out, say.Text("The cloth is not measured: what is entered as 0 is a guess for %s (%s). Stiffness that follows from it may be half or twice as much; your own swatch tells.", say.Text(c.Name), c.Source))
	}
	if t.Ruff.Plan.MarksOwn {
		out = append(out, say.Text("Your own marks are solved as regular sets of their mean length fold to fold: what single marks do is not seen."))
	}
	if t.Ruff.Plan.Row.OneEdge() {
		out = append(out, say.Text("Sewn at one edge only, a ruff may lie in more than one way. The numbers tell of the other way if one was found; there may be more."))
	}
	if t.Ruff.Plan.Row.Tucked() && s.Starch.Bend == 0 {
		out = append(out, say.Text("Tucked and not starched, cloth can lie in several ways that cost it much the same. What is shown is one of them."))
	}
	if t.Ruff.Plan.Row.Tucked() {
		out = append(out, say.Text("How tucked sets give sideways is not told: the answer hangs on how finely they are solved."))
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
