package main

import (
	"flag"
	"fmt"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/check/compare"
	"ruffwright/sim/measure"
)

func compareVerb() verb {
	var ask asked
	var change repeated
	var topOnly bool
	return verb{
		name: "compare", args: "[A] [B]", most: 2,
		does: "solves two schemes, and shows how they differ",
		help: `
Solves two schemes and shows side by side what differs: what was decided, what
is measured, what check finds; and says which is better, and why. Nothing is
claimed where they differ by less than the model can tell. A and B are schemes,
or one share code that holds both; without B it is A with changes, or (the first
comparison that everybody needs) A sewn in two ways:

  ruffwright compare sound wide
  ruffwright compare sound --change ruff.sets=44
  ruffwright compare sound --top-only

--top-only compares the scheme sewn at the top and bottom edge, with tucks that
suit, with the same scheme sewn at the top edge alone. --set changes both.

Exit code 0: compared. 1: the cloth of one did not come to rest. 2: a scheme
cannot be read, or cannot be solved.`,
		flags: func(f *flag.FlagSet) {
			ask.flags(f, "the comparison", "the lengths")
			f.Var(&change, "change", "change a field of the second scheme alone: `key=value`, again for each field")
			f.BoolVar(&topOnly, "top-only", false, "compare top and bottom edge sewn with the top edge alone")
		},
		prints: comparison{},
		run: func(j job, args []string) error {
			a, b, err := pair(j, ask.from, args, change, topOnly)
			if err != nil {
				return err
			}
			c, err := compared(j, ask.how, a, b, ask.units.Units)
			if err != nil {
				return err
			}
			return say(j, ask.asJSON, c, c.text(ask.units.Units), c.A.Ruff.Converged && c.B.Ruff.Converged)
		},
	}
}

// pair reads the two schemes.
func pair(j job, from source, args []string, change repeated, topOnly bool) (a, b scheme.Scheme, err error) {
	switch {
	case topOnly && (len(args) > 1 || len(change) > 0):
		return a, b, usageError{"compare", "--top-only compares one scheme sewn in two ways: leave out the other and --change"}
	case len(args) == 1 && strings.Contains(args[0], "~") && !topOnly && len(change) == 0:
		return from.pair(j, args[0])
	case !topOnly && len(args) < 2 && len(change) == 0:
		return a, b, usageError{"compare", "compare needs a second scheme, --change key=value, or --top-only"}
	case len(args) == 2 && args[0] == "-" && args[1] == "-":
		return a, b, usageError{"compare", "standard input holds one scheme: name a file for the other"}
	}
	if a, err = from.scheme(j, args); err != nil {
		return a, b, err
	}
	if topOnly {
		return sewnTwoWays(a)
	}
	b = a
	if len(args) == 2 {
		if b, err = from.scheme(j, args[1:]); err != nil {
			return a, b, err
		}
	}
	if err = changed(j, &b, "--change", change); err != nil {
		return a, b, err
	}
	return a, b, b.Validate()
}

// sewnTwoWays gives one scheme sewn at both edges, with tucks that suit, and at the
// top edge alone. Where it is sewn one of these ways already, that one is the scheme
// as it stands.
func sewnTwoWays(s scheme.Scheme) (both, top scheme.Scheme, err error) {
	r, err := sim.Draw(s)
	if err != nil {
		return s, s, err
	}
	both, top = s, s
	if r.Plan.Row.OneEdge() {
		both, err = check.SewnBoth(s)
	}
	if !r.Plan.Row.OneEdge() || r.Plan.Row.Edge() != scheme.EdgeTop {
		top = check.SewnTop(s)
	}
	return both, top, err
}

// comparison is what compare says.
type comparison struct {
	Sentence string     `json:"sentence" means:"which is better, and why"`
	Better   string     `json:"better" means:"A, B, or empty where nothing can be claimed"`
	Decided  []decided  `json:"decided" means:"the fields of the schemes that differ"`
	Measured []measured `json:"measured" means:"what was measured on both, as numbers"`
	A        side       `json:"a" of:"the first scheme"`
	B        side       `json:"b" of:"the second scheme"`

	judged compare.Comparison
}

// decided is a field that differs.
type decided struct {
	Key string `json:"key" means:"the field's key"`
	A   string `json:"a" means:"in the first, lengths in mm"`
	B   string `json:"b" means:"in the second"`
}

// measured is a number of both.
type measured struct {
	Key        string  `json:"key" means:"the measure's key under ruff"`
	Unit       string  `json:"unit" means:"its unit"`
	A          float64 `json:"a" unit:"measured.unit" means:"of the first"`
	B          float64 `json:"b" unit:"measured.unit" means:"of the second"`
	Difference float64 `json:"difference" unit:"measured.unit" means:"the second's less the first's"`
}

// side is one of the two ruffs.
type side struct {
	Name     string         `json:"name" means:"of %s; may be empty"`
	Code     string         `json:"code" means:"its share code; empty where its own marks are too many for one"`
	Stops    bool           `json:"stops" means:"some finding stops"`
	Findings []string       `json:"findings" means:"ids of what check finds, without cautions, worst first"`
	Strip_mm float64        `json:"strip_mm" unit:"mm" means:"length of the strip as marked, with its end hems"`
	Ruff     measure.Values `json:"ruff"`

	of     compare.Side
	limits string
	found  []check.Finding
}

// compared solves both schemes and gathers what differs.
func compared(j job, how solving, a, b scheme.Scheme, u scheme.Units) (comparison, error) {
	c := comparison{Decided: []decided{}, Measured: []measured{}}
	for _, s := range []struct {
		what string
		of   scheme.Scheme
		to   *side
	}{{"first", a, &c.A}, {"second", b, &c.B}} {
		r, err := how.solve(j, s.what, s.of, sim.Options{})
		if err != nil {
			return c, within("the "+s.what+" scheme", unsolvable(s.of, err))
		}
		*s.to = sideOf(s.of, r, u)
	}
	c.judged = compare.Of(c.A.of, c.B.of, u)
	c.Better, c.Sentence = string(c.judged.Better), c.judged.Sentence.String()
	for _, f := range scheme.Differ(a, b) {
		if f.Key != "name" {
			c.Decided = append(c.Decided, decided{f.Key, f.Get(a), f.Get(b)})
		}
	}
	tucked := c.A.of.Ruff.Plan.Row.Tucked() || c.B.of.Ruff.Plan.Row.Tucked()
	for _, q := range measure.Table {
		if q.Solver || q.Untucked && tucked {
			continue
		}
		x, known := q.Number(&c.A.Ruff)
		y, also := q.Number(&c.B.Ruff)
		if known && also {
			c.Measured = append(c.Measured, measured{q.Key, q.Unit, x, y, y - x})
		}
	}
	return c, nil
}

func sideOf(s scheme.Scheme, r sim.Ruff, u scheme.Units) side {
	d := side{Name: s.Name, Code: s.Code(), Findings: []string{}, Strip_mm: r.Plan.Strip_mm, Ruff: r.Solved.Ruff, of: compare.SideOf(r), limits: modelLimits(s, r)}
	for _, f := range check.Find(r, u) {
		if f.Severity == check.Caution || f.Pending {
			continue
		}
		d.Stops = d.Stops || f.Severity == check.Stop
		d.Findings = append(d.Findings, f.ID)
		d.found = append(d.found, f)
	}
	return d
}

func (c comparison) text(u scheme.Units) string {
	var b strings.Builder
	for _, d := range []struct {
		which string
		side
	}{{"A", c.A}, {"B", c.B}} {
		if d.Name != "" {
			fmt.Fprintf(&b, "%s: %s\n", d.which, d.Name)
		}
	}
	b.WriteString(wrapped(c.Sentence, 80, ""))
	fmt.Fprintln(&b)
	rows := [][]string{{"", "A", "B", "difference"}}
	for _, d := range c.judged.Fields {
		rows = append(rows, []string{d.Field.Key, d.A.String(), d.B.String()})
	}
	for _, m := range c.judged.Measures {
		row := []string{m.Label, m.A.Text.String(), m.B.Text.String(), m.Difference.String()}
		if m.Better != compare.Neither {
			row[3] += ", " + string(m.Better) + " better"
		}
		rows = append(rows, row)
	}
	table(&b, rows)
	fmt.Fprintln(&b)
	c.A.printFound(&b, "A")
	c.B.printFound(&b, "B")
	fmt.Fprintln(&b)
	b.WriteString(wrapped(c.A.limits, 80, ""))
	return b.String()
}

// printFound lists what check finds on one side.
func (d side) printFound(b *strings.Builder, head string) {
	if len(d.found) == 0 {
		fmt.Fprintf(b, "%s: check finds nothing\n", head)
		return
	}
	titles := map[string]string{}
	for _, r := range check.Table() {
		titles[r.ID] = r.Title
	}
	for _, f := range d.found {
		b.WriteString(wrapped(fmt.Sprintf("%s: %s: %s", head, f.Severity, titles[f.ID]), 80, ""))
	}
}
