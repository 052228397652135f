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
	"ruffwright/sim/measure"
)

func solveVerb() verb {
	var from source
	var how solving
	var asJSON, each bool
	var units unitsFlag
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
			from.flags(f)
			how.flags(f)
			f.BoolVar(&asJSON, "json", false, "print the measures as JSON; ruffwright schema describes the keys")
			f.BoolVar(&each, "each", false, "show every kind of half set, not the least and the most curved alone")
			f.Var(&units, "units", "`unit` of the lengths: mm, cm or in")
		},
		prints: solved{},
		keys: slices.Concat([]key{
			{"name", "text", "", "of the scheme; may be empty"},
			{"code", "text", "", "the scheme's share code; empty where its own marks are too many for one"},
			{"converged", truth, "", "every half set came to rest; the exit code is 1 where not"},
			{"alike", truth, "", "the scheme's own marks were solved as regular sets of their mean panel"},
			{"limits", "text", "", "what the numbers leave out"},
			{"totals.strip_mm", "number", "mm", "the strip with its end hems, without joins and spare"},
			{"totals.mass_g", "number", "g", "what hangs on the neck: strip and band before starch, without seams, thread and closure"},
			{"totals.outer_breadth_mm", "number", "mm", "over all from left to right"},
			{"totals.outer_depth_mm", "number", "mm", "over all from front to back"},
		}, measureKeys("ruff"), []key{
			{"sets", "list", "", "the measures of every distinct half set, least curved first"},
		}, measureKeys("sets"), []key{
			{"of", "list", "", "for every panel along the strip, which of sets it is, counted from 0"},
		}),
		run: func(j job, args []string) error {
			s, err := from.scheme(j, args)
			if err != nil {
				return err
			}
			r, err := how.solve(j, "", s, sim.Options{})
			if err != nil {
				return unsolvable(s, err)
			}
			answer := solvedAnswer(s, r)
			if asJSON {
				err = printJSON(j.out, answer)
			} else {
				err = answer.print(j.out, units.Units, each)
			}
			if err == nil && !answer.Converged {
				return errStops
			}
			return err
		},
	}
}

// solved is what solve says. Its keys are described with the verb.
type solved struct {
	Name      string           `json:"name"`
	Code      string           `json:"code"`
	Converged bool             `json:"converged"`
	Alike     bool             `json:"alike"`
	Limits    string           `json:"limits"`
	Totals    sim.Totals       `json:"totals"`
	Ruff      measure.Values   `json:"ruff"`
	Sets      []measure.Values `json:"sets"`
	Of        []int            `json:"of"`
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

// print writes the measures for people.
func (a solved) print(out io.Writer, u scheme.Units, each bool) error {
	var b strings.Builder
	if a.Name != "" {
		fmt.Fprintln(&b, a.Name)
	}
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
	_, err := io.WriteString(out, b.String())
	return err
}
