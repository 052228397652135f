package compare

import (
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// Side is one of two ruffs that are compared. What it costs does not change when
// it is solved.
type Side struct {
	Ruff sim.Ruff
	Cost Cost
}

// Cost is what a ruff takes; the zero Cost is not known.
type Cost struct {
	Known    bool
	Buy_mm   float64 // cloth off the bolt, rounded up to 10 cm
	Stitches int
	Hours    pattern.Range // of all the work, at the pace of the scheme's hand
}

// SideOf gives a ruff with its cost, which takes some milliseconds to lay out on
// the cloth.
func SideOf(r sim.Ruff) Side {
	s := Side{Ruff: r}
	p, err := pattern.New(r.Plan)
	if err != nil {
		return s
	}
	w := p.Work()
	s.Cost = Cost{Known: true, Buy_mm: p.Cut.Buy.Metric_mm, Stitches: w.Stitches, Hours: w.Chosen}
	return s
}

// contender is one of the two at the comparison.
type contender struct {
	r      *sim.Ruff
	u      scheme.Units // of lengths in sentences
	name   Which
	cost   Cost
	found  []check.Finding
	waits  []string // ids of findings that are not known yet
	cannot bool     // these sets have no mechanics
	unrest bool     // the cloth did not come to rest
}

func contend(name Which, s *Side, u scheme.Units) *contender {
	r := &s.Ruff
	c := &contender{r: r, u: u, name: name, cost: s.Cost, found: check.Find(*r, u)}
	for _, f := range c.found {
		if f.Pending {
			c.waits = append(c.waits, f.Awaits...)
		}
	}
	c.unrest = r.Solved != nil && !r.Solved.Converged()
	if r.Solved == nil {
		_, err := sim.Design(*r)
		c.cannot = err != nil
	}
	return c
}

// pending says that mechanics are still to come.
func (c *contender) pending() bool { return !c.cannot && len(c.waits) > 0 }

// count gives how many findings of the severity there are.
func (c *contender) count(s check.Severity) (n int) {
	for _, f := range c.found {
		if f.Severity == s && !f.Pending {
			n++
		}
	}
	return n
}

// scheme is the filled one.
func (c *contender) scheme() *scheme.Scheme { return &c.r.Plan.Scheme }

// lack says why a measure of the mechanics is not there.
func (c *contender) lack() word.Text {
	switch {
	case c.cannot:
		return word.Say("cannot be solved")
	case c.unrest:
		return word.Say("not at rest")
	case c.pending():
		return word.Say("not solved yet")
	}
	return word.Say("not known")
}
