package compare

import (
	"math"
	"slices"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/check"
	"ruffwright/sim/measure"
)

// compared is one thing that is measured on both: what it is of a contender, and
// what makes it better.
type compared struct {
	key, label string
	of         func(*contender) (float64, bool) // mm, unless write says otherwise; not known
	write      func(*contender, float64) word.Text
	mechanics  bool                                       // of the solved ruff: why it lacks is said
	alike      func(x, y *contender, big float64) float64 // how far two may lie apart, the larger being big
	weighs     weight
	skip       func(x, y *contender) bool // leaves it out for this pair; nil: never
}

// weight is what the nearer to 0 of two amounts speaks for.
type weight uint8

const (
	taste weight = iota // for nothing: a matter of taste
	firm                // for a ruff that holds better
	wish                // for one that comes nearer to the maker's wish
	cost                // for one that takes less
)

// The measures of which sentences speak.
var (
	values    measure.Values
	bow       = measure.Row(&values, &values.Bow_mm)
	height    = measure.Row(&values, &values.HeightOuter_mm)
	heightOff = "height_off_mm"
	buy       = "buy_mm"
	hours     = "hours"
)

// What two ruffs may differ by beside the measures before anything is said of it.
// The common error of the hours falls out of their ratio; that 5 % of it says
// nothing is this project's judgement, no source.
const (
	alikeWork   = 0.05
	alikeCut_mm = 1 // of what is cut: as exactly as it is marked
)

// unstable is what a give counts as where the edge does not hold at all.
const unstable = 1e6

// alikeOf is the model's error, for two ruffs.
func alikeOf(a measure.Alike) func(x, y *contender, big float64) float64 {
	return func(x, y *contender, big float64) float64 { return a.Within(setsOf(x, y), big) }
}

// setsOf is what the model's error hangs on, for two ruffs.
func setsOf(x, y *contender) measure.Sets {
	sets := measure.Sets{Known: true}
	for _, c := range []*contender{x, y} {
		sets.Loose = sets.Loose || check.Loose(c.r.Plan)
		if !c.r.Plan.Row.Tucked() {
			continue
		}
		sets.Tucked = true
		m := c.r.Measured()
		sets.Known = sets.Known && m != nil && m.MeshDone
		folds, moves := check.Doubt(m)
		sets.Folds_mm, sets.Moves_mm = measure.Together(sets.Folds_mm, folds), measure.Together(sets.Moves_mm, moves)
		if m != nil {
			sets.Slope_deg = measure.Together(sets.Slope_deg, check.SlopeDoubt(m))
		}
	}
	return sets
}

func exactly(tolerance float64) func(x, y *contender, _ float64) float64 {
	return func(*contender, *contender, float64) float64 { return tolerance }
}

func little(_, _ *contender, big float64) float64 { return alikeWork * big }

// solvedRow is a measure of the solved ruff.
func solvedRow(q *measure.Measure) compared {
	c := compared{key: q.Key, label: q.Compare, mechanics: true, alike: alikeOf(q.Alike)}
	if q.Small {
		c.weighs = firm
	}
	c.of = func(c *contender) (float64, bool) {
		m := c.r.Measured()
		switch {
		case m == nil || !q.Known(m):
			return 0, false
		case !q.Holds(m):
			return unstable, true
		}
		return q.Number(m)
	}
	c.write = func(c *contender, v float64) word.Text {
		switch {
		case v >= unstable:
			return word.Say("does not hold")
		case q.Unit == "degrees":
			return word.Say("%s°", check.Number(v, 1))
		}
		return c.about(v)
	}
	if q.Untucked {
		c.skip = func(x, y *contender) bool { return x.r.Plan.Row.Tucked() || y.r.Plan.Row.Tucked() }
	}
	return c
}

// rows are what is compared, in the order in which it is shown.
var rows = func() []compared {
	var solved, all []compared
	for i := range measure.Table {
		if measure.Table[i].Order > 0 {
			solved = append(solved, solvedRow(&measure.Table[i]))
		}
	}
	slices.SortFunc(solved, func(a, b compared) int { return measure.Named(a.key).Order - measure.Named(b.key).Order })
	for _, q := range solved {
		all = append(all, q)
		if q.key == height.Key {
			all = append(all, compared{key: heightOff, label: "Off the height wanted", mechanics: true, alike: q.alike, write: q.write, weighs: wish,
				of: func(c *contender) (float64, bool) {
					h, known := q.of(c)
					if !known {
						return 0, false
					}
					return math.Abs(h - c.scheme().Ruff.Height), true
				}})
		}
	}
	return append(all,
		compared{key: "strip_mm", label: "Strip", alike: exactly(alikeCut_mm), weighs: cost, write: (*contender).about,
			of: func(c *contender) (float64, bool) { return c.r.Plan.Strip_mm, c.r.Plan.Panels > 0 }},
		compared{key: buy, label: "Cloth to buy, off the bolt", alike: exactly(alikeCut_mm), weighs: cost, write: (*contender).about,
			of: func(c *contender) (float64, bool) { return c.cost.Buy_mm, c.cost.Known }},
		compared{key: "stitches", label: "Stitches", alike: little, weighs: cost,
			of:    func(c *contender) (float64, bool) { return float64(c.cost.Stitches), c.cost.Known },
			write: func(_ *contender, v float64) word.Text { return word.Say("%s", check.Number(v, 0)) }},
		compared{key: hours, label: "Hours of work, about", alike: little, weighs: cost,
			of: func(c *contender) (float64, bool) {
				return (c.cost.Hours.Least + c.cost.Hours.Most) / 2, c.cost.Known
			},
			write: func(_ *contender, v float64) word.Text { return word.Say("%s h", check.Number(v, digits(v))) }},
	)
}()

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
	m := Measured{Key: q.key, Label: q.label, weighs: q.weighs, A: q.amount(x), B: q.amount(y)}
	switch {
	case !m.A.Known && !m.B.Known && !(x.pending() || y.pending()):
		return m, false
	case !m.A.Known || !m.B.Known:
		return m, true
	}
	v, w := m.A.Value, m.B.Value
	d := math.Abs(w - v)
	apart := q.alike(x, y, max(math.Abs(v), math.Abs(w)))
	m.Same, m.apart = d <= apart, q.write(x, d)
	switch {
	case m.Same:
		m.Difference = word.Say("same")
	case v >= unstable || w >= unstable:
		m.Difference = word.Say("differs")
	case w > v:
		m.Difference = word.Say("+%s", m.apart)
	default:
		m.Difference = word.Say("−%s", m.apart)
	}
	if q.weighs != taste && !m.Same {
		m.Better = First
		if math.Abs(w) < math.Abs(v) {
			m.Better = Second
		}
		if math.Abs(math.Abs(w)-math.Abs(v)) <= apart {
			m.Better = Neither // as much to one side as to the other
		}
	}
	return m, true
}

// about writes a length that is compared: to a millimetre or a sixteenth of an
// inch from 100 mm on; what is too little to be written is said to be so.
func (c *contender) about(mm float64) word.Text {
	small, least, round := 0.1, 0.05, 1.0
	if c.u == scheme.Inches {
		small, least, round = 25.4/32, 25.4/32, 25.4/16
	}
	switch a := math.Abs(mm); {
	case a == 0:
	case a < least:
		return word.Say("under %s", check.Length(small, c.u))
	case a >= 100:
		mm = math.Round(mm/round) * round
	}
	return check.Length(mm, c.u)
}

func (q compared) amount(c *contender) Amount {
	v, known := q.of(c)
	switch {
	case known:
		return Amount{v + 0, q.write(c, v+0), true}
	case q.mechanics:
		return Amount{Text: c.lack()}
	}
	return Amount{Text: word.Say("not known")}
}
