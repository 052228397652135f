package main

import (
	"flag"
	"fmt"
	"math"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/measure"
)

func solveVerb() verb {
	var a asked
	var each bool
	return verb{
		name: "solve", args: "[SCHEME]", most: 1,
		does: "solves how the cloth hangs, and measures it",
		help: `
Lets the cloth of a scheme find its own shape, and measures it: heights, loops,
droop, how far the outer edge moves when the wearer bows, how it gives, and
another way to lie where there is one. Half sets differ by the curvature of the
neckline; the whole ruff has their means, and the worst of what must stay small.

Exit code 0: solved, whatever there is to find (check says that). 1: the cloth
did not come to rest. 2: the scheme cannot be read, or cannot be solved.`,
		flags: func(f *flag.FlagSet) {
			a.flags(f, "the measures", "the lengths")
			f.BoolVar(&each, "each", false, "show every kind of half set, not the least and the most curved alone")
		},
		prints: solved{},
		run: a.from.run(func(j job, s scheme.Scheme) error {
			r, err := a.how.solve(j, "", s, sim.Options{})
			if err != nil {
				return unsolvable(s, err)
			}
			answer := solvedAnswer(s, r)
			return say(j, a.asJSON, answer, answer.text(a.units.Units, each), answer.Converged)
		}),
	}
}

// solved is what solve says.
type solved struct {
	Name      string           `json:"name" means:"of the scheme; may be empty"`
	Code      string           `json:"code" means:"the scheme's share code; empty where its own marks are too many for one"`
	Converged bool             `json:"converged" means:"every half set came to rest; the exit code is 1 where not"`
	Alike     bool             `json:"alike" means:"the scheme's own marks were solved as regular sets of their mean panel"`
	Limits    string           `json:"limits" means:"what the numbers leave out"`
	Totals    sim.Totals       `json:"totals"`
	Ruff      measure.Values   `json:"ruff"`
	Sets      []measure.Values `json:"sets" means:"the measures of every distinct half set, least curved first"`
	Of        []int            `json:"of" means:"for every panel along the strip, which of sets it is, counted from 0"`
}

func solvedAnswer(s scheme.Scheme, r sim.Ruff) solved {
	return solved{
		Name: s.Name, Code: s.Code(),
		Converged: r.Solved.Converged(), Alike: r.Solved.Alike, Limits: modelLimits(s, r), Totals: r.Totals(),
		Ruff: r.Solved.Ruff, Sets: r.Solved.Sets, Of: r.Solved.Of,
	}
}

// columnsInLine is how many half sets stand beside each other in a table.
const columnsInLine = 5

// text is the measures for people.
func (a solved) text(u scheme.Units, each bool) string {
	var b strings.Builder
	heading(&b, a.Name)
	heads, columns := []string{"whole ruff"}, []*measure.Values{&a.Ruff}
	switch last := len(a.Sets) - 1; {
	case last == 0: // the whole ruff is that half set
	case each:
		for i := range a.Sets {
			heads, columns = append(heads, fmt.Sprint(i+1)), append(columns, &a.Sets[i])
		}
	default:
		heads = append(heads, "least curved", "most curved")
		columns = append(columns, &a.Sets[0], &a.Sets[last])
	}
	for at := 0; at < len(columns); at += columnsInLine {
		end := min(len(columns), at+columnsInLine)
		rows := [][]string{append([]string{""}, heads[at:end]...)}
		for i := range measure.Table {
			q := &measure.Table[i]
			row := []string{q.Label}
			for _, m := range columns[at:end] {
				row = append(row, said(q, m, u))
			}
			rows = append(rows, row)
		}
		if at > 0 {
			fmt.Fprintln(&b)
		}
		table(&b, rows)
	}
	fmt.Fprintln(&b)
	if len(a.Sets) == 1 {
		fmt.Fprintln(&b, "All half sets are alike.")
	} else {
		fmt.Fprintf(&b, "%d kinds of half set, by the curvature of the neckline.\n", len(a.Sets))
	}
	fmt.Fprintf(&b, "Over all %s wide and %s from front to back; %.0f g hang on the neck before starch.\n",
		scheme.FormatLength(math.Round(a.Totals.OuterBreadth_mm), u), scheme.FormatLength(math.Round(a.Totals.OuterDepth_mm), u), a.Totals.Mass_g)
	if !a.Converged {
		b.WriteString("The cloth did not come to rest: these numbers are of a rough shape.\n")
	}
	b.WriteString(wrapped(a.Limits, 80, ""))
	return b.String()
}
