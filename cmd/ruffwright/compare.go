package main

import (
	"flag"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

func compareVerb() verb {
	var from source
	var how solving
	var change repeated
	var topOnly, asJSON bool
	var units unitsFlag
	return verb{
		name: "compare", args: "[A] [B]", most: 2,
		does: "solves two schemes, and shows how they differ",
		help: `
Solves two schemes and shows side by side what differs: what was decided, what
is measured, what check finds; and says in one sentence what it comes to. A and B
are schemes; without B it is A with changes, or (the first comparison that
everybody needs) A sewn in two ways:

  ruffwright compare sound wide
  ruffwright compare sound --change ruff.sets=44
  ruffwright compare sound --top-only

--top-only compares the scheme sewn at the top and bottom edge, with tucks that
suit, with the same scheme sewn at the top edge alone. --set changes both.

Exit code 0: compared. 1: the cloth of one did not come to rest. 2: a scheme
cannot be read, or cannot be solved.`,
		flags: func(f *flag.FlagSet) {
			from.flags(f)
			f.Var(&change, "change", "change a field of the second scheme alone: `key=value`, again for each field")
			f.BoolVar(&topOnly, "top-only", false, "compare top and bottom edge sewn with the top edge alone")
			how.flags(f)
			f.BoolVar(&asJSON, "json", false, "print the comparison as JSON; ruffwright schema describes the keys")
			f.Var(&units, "units", "`unit` of the lengths: mm, cm or in")
		},
		prints: comparison{},
		keys: slices.Concat([]key{
			{"sentence", "text", "", "what the comparison comes to"},
			{"decided", "list", "", "the fields of the schemes that differ"},
			{"decided.key", "text", "", "the field's key"},
			{"decided.a", "text", "", "in the first, lengths in mm"},
			{"decided.b", "text", "", "in the second"},
			{"measured", "list", "", "what was measured on both, as numbers"},
			{"measured.key", "text", "", "the measure's key under ruff"},
			{"measured.unit", "text", "", "its unit"},
			{"measured.a", "number", "measured.unit", "of the first"},
			{"measured.b", "number", "measured.unit", "of the second"},
			{"measured.difference", "number", "measured.unit", "the second's less the first's"},
		}, sideKeys("a", "the first scheme"), sideKeys("b", "the second scheme")),
		run: func(j job, args []string) error {
			a, b, err := pair(j, from, args, change, topOnly)
			if err != nil {
				return err
			}
			c, err := compared(j, how, a, b, units.Units)
			if err != nil {
				return err
			}
			c.sewn = topOnly
			c.Sentence = c.sentence(units.Units)
			if asJSON {
				err = printJSON(j.out, c)
			} else {
				err = c.print(j.out, units.Units)
			}
			if err == nil && !(c.A.Ruff.Converged && c.B.Ruff.Converged) {
				return errStops
			}
			return err
		},
	}
}

func sideKeys(under, which string) []key {
	return slices.Concat([]key{
		{under + ".name", "text", "", "of " + which + "; may be empty"},
		{under + ".code", "text", "", "its share code; empty where its own marks are too many for one"},
		{under + ".stops", truth, "", "some finding stops"},
		{under + ".findings", "list", "", "ids of what check finds, without cautions, worst first"},
		{under + ".strip_mm", "number", "mm", "length of the strip as marked, with its end hems"},
	}, measureKeys(under+".ruff"))
}

// pair reads the two schemes.
func pair(j job, from source, args []string, change repeated, topOnly bool) (a, b scheme.Scheme, err error) {
	switch {
	case topOnly && (len(args) > 1 || len(change) > 0):
		return a, b, usageError{"compare", "--top-only compares one scheme sewn in two ways: leave out the other and --change"}
	case !topOnly && len(args) < 2 && len(change) == 0:
		return a, b, usageError{"compare", "compare needs a second scheme, --change key=value, or --top-only"}
	case len(args) == 2 && args[0] == "-" && args[1] == "-":
		return a, b, usageError{"compare", "standard input holds one scheme: name a file for the other"}
	}
	if a, err = from.scheme(j, args); err != nil {
		return a, b, err
	}
	if topOnly {
		return twins(a)
	}
	b = a
	if len(args) == 2 {
		if b, err = from.scheme(j, args[1:]); err != nil {
			return a, b, err
		}
	}
	if err = changed(&b, "--change", change); err != nil {
		return a, b, err
	}
	return a, b, b.Validate()
}

// comparison is what compare says.
type comparison struct {
	Sentence string     `json:"sentence"`
	Decided  []decided  `json:"decided"`
	Measured []measured `json:"measured"`
	A        side       `json:"a"`
	B        side       `json:"b"`

	sewn bool // one scheme sewn in two ways
}

// decided is a field that differs.
type decided struct {
	Key string `json:"key"`
	A   string `json:"a"`
	B   string `json:"b"`

	field scheme.Field
}

// measured is a number of both.
type measured struct {
	Key        string  `json:"key"`
	Unit       string  `json:"unit"`
	A          float64 `json:"a"`
	B          float64 `json:"b"`
	Difference float64 `json:"difference"`
}

// side is one of the two ruffs.
type side struct {
	Name     string       `json:"name"`
	Code     string       `json:"code"`
	Stops    bool         `json:"stops"`
	Findings []string     `json:"findings"`
	Strip_mm float64      `json:"strip_mm"`
	Ruff     sim.Measures `json:"ruff"`

	scheme scheme.Scheme
	tucked bool
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
	for _, f := range scheme.Differ(a, b) {
		if f.Key != "name" {
			c.Decided = append(c.Decided, decided{f.Key, f.Get(a), f.Get(b), f})
		}
	}
	for _, q := range measures {
		if q.number == nil || q.inside || c.undecided(q) {
			continue
		}
		x, known := q.number(&c.A.Ruff)
		y, also := q.number(&c.B.Ruff)
		if known && also {
			c.Measured = append(c.Measured, measured{q.key, q.unit, x, y, y - x})
		}
	}
	return c, nil
}

// undecided says that the measure decides nothing here: how tucked sets give
// sideways hangs on the mesh.
func (c comparison) undecided(q measure) bool {
	return strings.HasPrefix(q.key, "lateral_") && (c.A.tucked || c.B.tucked)
}

func sideOf(s scheme.Scheme, r sim.Ruff, u scheme.Units) side {
	d := side{Name: s.Name, Code: s.Code(), Findings: []string{}, Strip_mm: r.Plan.Strip_mm, Ruff: r.Solved.Ruff, scheme: s, limits: modelLimits(s, r)}
	d.tucked = r.Plan.Scheme.Pleat.TuckTop > 0 || r.Plan.Scheme.Pleat.TuckBottom > 0
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

// sentence says what the comparison comes to.
func (c comparison) sentence(u scheme.Units) string {
	a, b := &c.A.Ruff, &c.B.Ruff
	if !a.Converged || !b.Converged {
		return "The cloth of one of the two did not come to rest: compare them with care."
	}
	length := func(mm float64) string { return solvedLength(mm, u) }
	var parts []string
	switch {
	case !a.BowDone || !b.BowDone:
		parts = append(parts, "the bow test of one of the two did not come to rest")
	case c.sewn:
		parts = append(parts, fmt.Sprintf("sewn at the top edge only, the outer edge moves by %s when the wearer bows; sewn at top and bottom, by %s", length(b.Bow_mm), length(a.Bow_mm)))
	default:
		parts = append(parts, fmt.Sprintf("when the wearer bows, the outer edge of the first moves by %s, of the second by %s", length(a.Bow_mm), length(b.Bow_mm)))
	}
	which := "the second"
	if c.sewn {
		which = "at the top edge only it"
	}
	if d := b.HeightOuter_mm - a.HeightOuter_mm; math.Abs(d) >= 1 {
		way := "taller"
		if d < 0 {
			way = "lower"
		}
		parts = append(parts, fmt.Sprintf("%s stands %s %s", which, length(math.Abs(d)), way))
	}
	if c.A.Stops != c.B.Stops {
		stops := map[bool]string{true: "the first", false: "the second"}[c.A.Stops]
		if c.sewn {
			stops = map[bool]string{true: "sewn at both", false: "sewn at the top only"}[c.A.Stops]
		}
		parts = append(parts, "check says not to sew "+stops)
		if c.sewn {
			parts[len(parts)-1] = "check says stop to the one " + stops
		}
	}
	words := strings.Join(parts, "; ") + "."
	return strings.ToUpper(words[:1]) + words[1:]
}

func (c comparison) print(out io.Writer, u scheme.Units) error {
	var b strings.Builder
	heads := []string{"", "first", "second", "difference"}
	if c.sewn {
		heads[1], heads[2] = "top and bottom", "top only"
	} else {
		for i, d := range []side{c.A, c.B} {
			if d.Name != "" {
				fmt.Fprintf(&b, "%s: %s\n", heads[1+i], d.Name)
			}
		}
	}
	b.WriteString(wrapped(c.Sentence, 80, ""))
	fmt.Fprintln(&b)
	rows := [][]string{heads}
	for _, d := range c.Decided {
		if d.field.Kind == scheme.KindMarks || d.field.Kind == scheme.KindText {
			rows = append(rows, []string{d.Key, "-", "-", "differs"})
			continue
		}
		rows = append(rows, []string{d.Key, shownField(d.field, c.A.scheme, u), shownField(d.field, c.B.scheme, u)})
	}
	length := func(mm float64) string { return roundedLength(mm, u) }
	rows = append(rows, []string{"strip", length(c.A.Strip_mm), length(c.B.Strip_mm), difference(c.A.Strip_mm, c.B.Strip_mm, length)})
	for _, q := range measures {
		if q.inside || c.undecided(q) {
			continue
		}
		x, y := q.say(&c.A.Ruff, u), q.say(&c.B.Ruff, u)
		if x == "-" && y == "-" {
			continue
		}
		row := []string{q.label, x, y}
		if x == y {
			row = append(row, "same")
		} else if q.number != nil && x != "-" && y != "-" {
			v, _ := q.number(&c.A.Ruff)
			w, _ := q.number(&c.B.Ruff)
			row = append(row, difference(v, w, func(d float64) string { return quantity(d, q.unit, u) }))
		}
		rows = append(rows, row)
	}
	table(&b, rows)
	fmt.Fprintln(&b)
	c.A.printFound(&b, heads[1])
	c.B.printFound(&b, heads[2])
	fmt.Fprintln(&b)
	b.WriteString(wrapped(c.A.limits, 80, ""))
	_, err := io.WriteString(out, b.String())
	return err
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

// shownField writes a field as the form shows it, with its unit.
func shownField(f scheme.Field, s scheme.Scheme, u scheme.Units) string {
	if v := f.Number(s); f.Kind == scheme.KindLength && v != 0 {
		return roundedLength(v, u)
	}
	return strings.TrimSpace(f.Show(s, u) + " " + f.UnitIn(u))
}

// difference writes b less a, with its sign.
func difference(a, b float64, say func(float64) string) string {
	switch {
	case say(a) == say(b), say(math.Abs(b-a)) == say(0), strings.HasPrefix(say(b-a), "<"):
		return "same"
	case b < a:
		return "-" + say(a-b)
	}
	return "+" + say(b-a)
}
