package check

import (
	"math"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// compared is one measure: what it is of a contender, and what makes it better.
type compared struct {
	key, label string
	of         func(*contender) (float64, bool) // mm, unless write says otherwise; not known
	write      func(*contender, float64) string // nil: a length
	mechanics  bool                             // of the solved ruff: why it lacks is said
	alike      func(x, y *contender, big float64) float64
	// worse is how bad a value is, to be as small as may be; nil: a matter of taste.
	worse func(*contender, float64) float64
	// skip leaves the measure out for this pair.
	skip func(x, y *contender) bool
}

func solvedOf(get func(*sim.Measures) float64) func(*contender) (float64, bool) {
	return func(c *contender) (float64, bool) {
		if m := c.measures(); m != nil {
			return get(m), true
		}
		return 0, false
	}
}

func shapes(x, y *contender, _ float64) float64 { return max(x.alike(), y.alike()) }

func moves(x, y *contender, big float64) float64 {
	share := alikePlain
	if Tucked(*x.p) || Tucked(*y.p) {
		share = alikeTucked
	}
	return max(alikeMove_mm, share*big)
}

func exactly(tolerance float64) func(x, y *contender, _ float64) float64 {
	return func(*contender, *contender, float64) float64 { return tolerance }
}

func little(_, _ *contender, big float64) float64 { return alikeWork * big }

func itself(_ *contender, v float64) float64 { return v }

// unstable is what a give counts as where the edge does not hold at all.
const unstable = 1e6

func gives(get func(*sim.Measures) (float64, bool)) func(*contender) (float64, bool) {
	return func(c *contender) (float64, bool) {
		m := c.measures()
		if m == nil || !m.TangentsDone {
			return 0, false
		}
		v, stable := get(m)
		if !stable {
			return unstable, true
		}
		return v, true
	}
}

func writeGive(c *contender, v float64) string {
	if v >= unstable {
		return "does not hold"
	}
	return c.about(v)
}

// measures are those that are compared, in the order of the table.
var measures = []compared{
	{key: "bow_mm", label: "Moves when the wearer bows 60°", mechanics: true, alike: moves, worse: itself,
		of: func(c *contender) (float64, bool) {
			m := c.measures()
			if m == nil || !m.BowDone {
				return 0, false
			}
			return m.Bow_mm, true
		}},
	{key: "droop_mm", label: "Droop of the outer edge", mechanics: true, alike: shapes,
		of:    solvedOf(func(m *sim.Measures) float64 { return m.Droop_mm }),
		worse: func(_ *contender, v float64) float64 { return math.Abs(v) }},
	{key: "height_outer_mm", label: "Height at the outer edge, hanging", mechanics: true, alike: shapes,
		of: solvedOf(func(m *sim.Measures) float64 { return m.HeightOuter_mm })},
	{key: "height_off_mm", label: "Off the height wanted", mechanics: true, alike: shapes, worse: itself,
		of: func(c *contender) (float64, bool) {
			if m := c.measures(); m != nil {
				return math.Abs(m.HeightOuter_mm - c.s.Ruff.Height), true
			}
			return 0, false
		}},
	{key: "loop_mm", label: "Narrower loop’s clear width, hanging", mechanics: true, alike: shapes,
		of: solvedOf(func(m *sim.Measures) float64 { return m.Loop_mm })},
	{key: "reach_mm", label: "Outer edge from the neck", mechanics: true, alike: shapes,
		of: solvedOf(func(m *sim.Measures) float64 { return m.Reach_mm })},
	{key: "tilt_deg", label: "Slope from neck to outer edge, + up", mechanics: true, alike: exactly(alikeSlope_deg),
		of:    solvedOf(func(m *sim.Measures) float64 { return m.Tilt_deg }),
		write: func(_ *contender, v float64) string { return number(v, 1) + "°" }},
	{key: "vertical_mm_per_g", label: "Gives up and down for its own weight", mechanics: true, alike: moves, worse: itself, write: writeGive,
		of: gives(func(m *sim.Measures) (float64, bool) { return m.Vertical_mm_per_g, m.VerticalStable })},
	{key: "lateral_mm_per_g", label: "Gives sideways for its own weight", mechanics: true, alike: moves, worse: itself, write: writeGive,
		of:   gives(func(m *sim.Measures) (float64, bool) { return m.Lateral_mm_per_g, m.LateralStable }),
		skip: func(x, y *contender) bool { return Tucked(*x.p) || Tucked(*y.p) }}, // it hangs on the mesh
	{key: "strip_mm", label: "Strip", alike: exactly(alikeCut_mm), worse: itself,
		of: func(c *contender) (float64, bool) { return c.p.Strip_mm, c.p.Panels > 0 }},
	{key: "buy_mm", label: "Cloth to buy, off the bolt", alike: exactly(alikeCut_mm), worse: itself,
		of: func(c *contender) (float64, bool) { return c.cost.Buy_mm, c.cost.Known }},
	{key: "stitches", label: "Stitches", alike: little, worse: itself,
		of:    func(c *contender) (float64, bool) { return float64(c.cost.Stitches), c.cost.Known },
		write: func(_ *contender, v float64) string { return number(v, 0) }},
	{key: "hours", label: "Hours of work, about", alike: little, worse: itself,
		of: func(c *contender) (float64, bool) {
			return (c.cost.Hours.Least + c.cost.Hours.Most) / 2, c.cost.Known
		},
		write: func(_ *contender, v float64) string { return number(v, digits(v)) + " h" }},
}

func digits(hours float64) int {
	if hours < 10 {
		return 1
	}
	return 0
}

// hold compares the measure; not ok: there is nothing to say of it on either side.
func (q compared) hold(x, y *contender) (Measured, bool) {
	if q.skip != nil && q.skip(x, y) {
		return Measured{}, false
	}
	m := Measured{Key: q.key, Label: q.label, A: q.amount(x), B: q.amount(y)}
	switch {
	case !m.A.Known && !m.B.Known && !(x.pending() || y.pending()):
		return m, false
	case !m.A.Known || !m.B.Known:
		return m, true
	}
	v, w := m.A.Value, m.B.Value
	d := math.Abs(w - v)
	m.Same = d <= q.alike(x, y, max(math.Abs(v), math.Abs(w)))
	switch {
	case m.Same:
		m.Difference = "same"
	case v >= unstable || w >= unstable:
		m.Difference = "differs"
	case w > v:
		m.Difference = "+" + q.text(x, d)
	default:
		m.Difference = "−" + q.text(x, d)
	}
	if q.worse != nil && !m.Same {
		m.Better = First
		if q.worse(y, w) < q.worse(x, v) {
			m.Better = Second
		}
		if math.Abs(q.worse(y, w)-q.worse(x, v)) <= q.alike(x, y, max(math.Abs(v), math.Abs(w))) {
			m.Better = Neither // as much to one side as to the other
		}
	}
	return m, true
}

func (q compared) text(c *contender, v float64) string {
	words := ""
	switch {
	case q.write != nil:
		words = q.write(c, v)
	default:
		words = c.about(v)
	}
	return strings.Replace(words, "-", "−", 1)
}

// about writes a length that is compared: to a millimetre or a sixteenth of an
// inch from 100 mm on; what is too little to be written is said to be so.
func (c *contender) about(mm float64) string {
	small, least, round := 0.1, 0.05, 1.0
	if c.u == scheme.Inches {
		small, least, round = 25.4/32, 25.4/32, 25.4/16
	}
	switch a := math.Abs(mm); {
	case a == 0:
	case a < least:
		return "under " + c.len(small)
	case a >= 100:
		mm = math.Round(mm/round) * round
	}
	return c.len(mm)
}

func (q compared) amount(c *contender) Amount {
	v, known := q.of(c)
	switch {
	case known:
		return Amount{v + 0, q.text(c, v+0), true}
	case q.mechanics:
		return Amount{Text: c.lack()}
	}
	return Amount{Text: "not known"}
}
