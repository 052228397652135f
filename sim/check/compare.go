package check

import (
	"slices"
	"strings"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// Which of two ruffs that are compared.
type Which string

// The two, and none of them.
const (
	Neither Which = ""
	First   Which = "A"
	Second  Which = "B"
)

// Comparison is what two ruffs, A and B, differ in, which is better, and why.
type Comparison struct {
	Fields   []Decided  // decided otherwise, in the order of the table of fields
	Measures []Measured // what is measured on both, those of the mechanics first
	Troubles []Trouble  // what stops or is to be mended in either
	Better   Which      // Neither where nothing can be claimed
	Sentence string     // which is better and why, for the reader
	Waits    bool       // mechanics are still to come on one side or both
}

// Decided is a field that was decided otherwise. Own marks are written as how many
// there are.
type Decided struct {
	Field scheme.Field
	A, B  string
}

// Measured is one measure of both ruffs.
type Measured struct {
	Key, Label string
	A, B       Amount
	// Difference is B less A with its sign and unit; "same" where that is no more
	// than the model can tell, "" where one of the two is not known.
	Difference string
	Same       bool
	weighs     weight
	Better     Which // the better by this measure alone; Neither for what is a matter of taste
}

// Amount is what one ruff measures.
type Amount struct {
	Value float64 // in mm, degrees, hours or a count; 0 where it is not known
	Text  string  // for the reader: the value with its unit, or why there is none
	Known bool
}

// Trouble is a finding that stops or is to be mended in A or B. Severity "" says
// that it is not found there, Pending that it is not known yet.
type Trouble struct {
	ID, Title          string
	A, B               Severity
	PendingA, PendingB bool
}

// What two ruffs may differ by beside the measures before anything is said of it.
// The common error of the hours falls out of their ratio; that 5 % of it says
// nothing is this project's judgement, no source.
const (
	alikeWork   = 0.05
	alikeCut_mm = 1 // of what is cut: as exactly as it is marked
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
	s.Cost = Cost{Known: true, Buy_mm: p.Cut.Buy.Metric_mm, Stitches: w.Stitches, Hours: w.Total.Learner}
	if r.Plan.Scheme.Hand.Pace == scheme.Practised {
		s.Cost.Hours = w.Total.Practised
	}
	return s
}

// contender is one of the two at the comparison.
type contender struct {
	view
	name   Which
	cost   Cost
	found  []Finding
	waits  []string // ids of findings that are not known yet
	cannot bool     // these sets have no mechanics
	unrest bool     // the cloth did not come to rest
}

func contend(name Which, s *Side, u scheme.Units) *contender {
	r := s.Ruff
	c := &contender{view: view{r: r, p: &r.Plan, s: r.Plan.Scheme, u: u}, name: name, cost: s.Cost, found: Find(r, u)}
	for _, f := range c.found {
		if f.Pending {
			c.waits = append(c.waits, f.Awaits...)
		}
	}
	c.unrest = r.Solved != nil && !r.Solved.Converged()
	if r.Solved == nil {
		_, err := sim.Design(r)
		c.cannot = err != nil
	}
	return c
}

// pending says that mechanics are still to come.
func (c *contender) pending() bool { return !c.cannot && !c.unrest && len(c.waits) > 0 }

// count gives how many findings of the severity there are.
func (c *contender) count(s Severity) (n int) {
	for _, f := range c.found {
		if f.Severity == s && !f.Pending {
			n++
		}
	}
	return n
}

// lack says why a measure of the mechanics is not there.
func (c *contender) lack() string {
	switch {
	case c.cannot:
		return "cannot be solved"
	case c.unrest:
		return "not at rest"
	case c.pending():
		return "not solved yet"
	}
	return "not known"
}

// Compare holds b (B) against a (A), with lengths in sentences in u. It solves
// nothing: what is not solved yet is said to be so, and nothing is claimed of it;
// where two measures differ by no more than the model can tell, nothing is claimed
// of them either.
func Compare(a, b Side, u scheme.Units) Comparison {
	x, y := contend(First, &a, u), contend(Second, &b, u)
	c := Comparison{Waits: x.pending() || y.pending()}
	differ := scheme.Differ(a.Ruff.Plan.Scheme, b.Ruff.Plan.Scheme)
	for _, f := range differ {
		if f.Kind != scheme.KindText {
			c.Fields = append(c.Fields, Decided{f, shownField(f, x.s, u), shownField(f, y.s, u)})
		}
	}
	for _, m := range measures {
		if d, ok := m.hold(x, y); ok {
			c.Measures = append(c.Measures, d)
		}
	}
	c.Troubles = troubles(x, y)
	c.Better, c.Sentence = judge(x, y, c.Measures)
	if len(differ) == 0 && x.unrest == y.unrest {
		c.Better, c.Sentence = Neither, "A and B are the same ruff. Change something in A, and see here what it does."
	}
	return c
}

// shownField writes a field as the form shows it, with its unit.
func shownField(f scheme.Field, s scheme.Scheme, u scheme.Units) string {
	if f.Kind == scheme.KindMarks {
		if n := s.OwnMarks(); n > 0 {
			return count(n, "own mark", "own marks")
		}
		return "as planned"
	}
	v := &view{u: u}
	if x := f.Number(s); f.Kind == scheme.KindLength && x != 0 {
		return v.len(x)
	}
	return strings.TrimSpace(f.Show(s, u) + " " + f.UnitIn(u))
}

// troubles lists what stops or is to be mended in either, worst first.
func troubles(x, y *contender) []Trouble {
	var out []Trouble
	for _, l := range rules {
		t := Trouble{ID: l.ID, Title: l.Title}
		for _, of := range []struct {
			c       *contender
			s       *Severity
			pending *bool
		}{{x, &t.A, &t.PendingA}, {y, &t.B, &t.PendingB}} {
			*of.pending = of.c.pending() && slices.Contains(of.c.waits, l.ID)
			for _, f := range of.c.found {
				if f.ID == l.ID && (f.Severity == Stop || f.Severity == Mend) {
					*of.s = f.Severity
				}
			}
		}
		if t.A != "" || t.B != "" {
			out = append(out, t)
		}
	}
	slices.SortStableFunc(out, func(s, t Trouble) int { return s.worst() - t.worst() })
	return out
}

func (t Trouble) worst() int {
	r := Caution.rank()
	for _, s := range []Severity{t.A, t.B} {
		if s != "" {
			r = min(r, s.rank())
		}
	}
	return r
}
