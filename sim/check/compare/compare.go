// Package compare holds two ruffs against each other: what was decided otherwise,
// what differs in what is measured, what check finds in either, which is better, and
// why. It solves nothing.
package compare

import (
	"slices"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/check"
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
	Sentence word.Text  // which is better and why, for the reader
	Waits    bool       // mechanics are still to come on one side or both
}

// Decided is a field that was decided otherwise. Own marks are written as how many
// there are.
type Decided struct {
	Field scheme.Field
	A, B  word.Text
}

// Measured is one measure of both ruffs.
type Measured struct {
	Key, Label string
	A, B       Amount
	// Difference is B less A with its sign and unit; "same" where that is no more
	// than the model can tell, "" where one of the two is not known.
	Difference word.Text
	apart      word.Text // the same without its sign
	Same       bool
	weighs     weight
	Better     Which // the better by this measure alone; Neither for what is a matter of taste
}

// Amount is what one ruff measures.
type Amount struct {
	Value float64   // in mm, degrees, hours or a count; 0 where it is not known
	Text  word.Text // for the reader: the value with its unit, or why there is none
	Known bool
}

// Trouble is a finding that stops or is to be mended in A or B. Severity "" says
// that it is not found there, Pending that it is not known yet.
type Trouble struct {
	ID, Title          string
	A, B               check.Severity
	PendingA, PendingB bool
}

// Of holds b (B) against a (A), with lengths in sentences in u. It solves
// nothing: what is not solved yet is said to be so, and nothing is claimed of it;
// where two measures differ by no more than the model can tell, nothing is claimed
// of them either.
func Of(a, b Side, u scheme.Units) Comparison {
	x, y := contend(First, &a, u), contend(Second, &b, u)
	c := Comparison{Waits: x.pending() || y.pending()}
	differ := scheme.Differ(a.Ruff.Plan.Scheme, b.Ruff.Plan.Scheme)
	for _, f := range differ {
		if f.Kind != scheme.KindText {
			c.Fields = append(c.Fields, Decided{f, shown(f, *x.scheme(), u), shown(f, *y.scheme(), u)})
		}
	}
	for _, m := range rows {
		if d, ok := m.hold(x, y); ok {
			c.Measures = append(c.Measures, d)
		}
	}
	c.Troubles = troubles(x, y)
	c.Better, c.Sentence = judge(x, y, c.Measures)
	if len(differ) == 0 && x.unrest == y.unrest {
		c.Better, c.Sentence = Neither, word.Say("A and B are the same ruff. Change something in A, and see here what it does.")
	}
	return c
}

// shown writes a field as the form shows it, with its unit.
func shown(f scheme.Field, s scheme.Scheme, u scheme.Units) word.Text {
	if f.Kind == scheme.KindMarks {
		if n := s.OwnMarks(); n > 0 {
			return word.Count(n, "%d own mark", "%d own marks", n)
		}
		return word.Say("as planned")
	}
	if x := f.Number(s); f.Kind == scheme.KindLength && x != 0 {
		return check.Length(x, u)
	}
	return word.Join(" ", word.Name(f.Show(s, u)), word.Say(f.UnitIn(u)))
}

// troubles lists what stops or is to be mended in either, worst first.
func troubles(x, y *contender) []Trouble {
	var out []Trouble
	for _, l := range check.Table() {
		t := Trouble{ID: l.ID, Title: l.Title}
		for _, of := range []struct {
			c       *contender
			s       *check.Severity
			pending *bool
		}{{x, &t.A, &t.PendingA}, {y, &t.B, &t.PendingB}} {
			*of.pending = of.c.pending() && slices.Contains(of.c.waits, l.ID)
			for _, f := range of.c.found {
				if f.ID == l.ID && (f.Severity == check.Stop || f.Severity == check.Mend) {
					*of.s = f.Severity
				}
			}
		}
		if t.A != "" || t.B != "" {
			out = append(out, t)
		}
	}
	worst := func(t Trouble) int {
		if t.A == check.Stop || t.B == check.Stop {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(out, func(s, t Trouble) int { return worst(s) - worst(t) })
	return out
}
