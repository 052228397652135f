package main

import (
	"flag"
	"fmt"
	"io"
	"math"
	"strings"

	"ruffwright/sim/shell/known"
)

func verifyVerb() verb {
	var slow, asJSON, tell bool
	return verb{
		name: "verify",
		does: "solves problems whose answers are known from elsewhere",
		help: `
Runs textbook problems and cases of an independent finite-element program on the
very solver that solves ruffs, and prints each value beside the known one, where
that comes from, how far it is off and how far it may be. The tests run the same
list.

Exit code 0: all within what is allowed. 1: one is not.`,
		flags: func(f *flag.FlagSet) {
			f.BoolVar(&slow, "slow", false, "also those that take more than about a second each")
			f.BoolVar(&tell, "progress", false, "tell how far it is also where standard error is no terminal")
			f.BoolVar(&asJSON, "json", false, "print the outcomes as JSON; ruffwright schema describes the keys")
		},
		prints: verification{},
		keys: []key{
			{"held", truth, "", "all are within what is allowed; the exit code is 1 where not"},
			{"left_out", "number", "", "slow problems that were not run (--slow)"},
			{"problems", "list", "", "the problems in order"},
			{"problems.name", "text", "", "what is solved"},
			{"problems.source", "text", "", "where the known value comes from"},
			{"problems.unit", "text", "", "of both values"},
			{"problems.known", "number", "problems.unit", "the known value"},
			{"problems.value", "number", "problems.unit", "the value solved; 0 where it failed"},
			{"problems.deviation", "number", "", "value less known; divided by known where relative"},
			{"problems.allowed", "number", "", "the largest deviation allowed, either way"},
			{"problems.relative", truth, "", "deviation and allowed are parts of the known value, else in its unit"},
			{"problems.held", truth, "", "it is within what is allowed"},
			{"problems.error", "text", "", "why there is no value; empty where there is one"},
		},
		run: func(j job, _ []string) error {
			v, err := verified(j, slow, tell)
			if err != nil {
				return err
			}
			if asJSON {
				err = printJSON(j.out, v)
			} else {
				err = v.print(j.out)
			}
			if err == nil && !v.Held {
				return errStops
			}
			return err
		},
	}
}

// verification is what verify says.
type verification struct {
	Held     bool      `json:"held"`
	LeftOut  int       `json:"left_out"`
	Problems []outcome `json:"problems"`
}

type outcome struct {
	Name      string  `json:"name"`
	Source    string  `json:"source"`
	Unit      string  `json:"unit"`
	Known     float64 `json:"known"`
	Value     float64 `json:"value"`
	Deviation float64 `json:"deviation"`
	Allowed   float64 `json:"allowed"`
	Relative  bool    `json:"relative"`
	Held      bool    `json:"held"`
	Error     string  `json:"error"`
}

// verified runs the problems.
func verified(j job, slow, tell bool) (verification, error) {
	v := verification{Held: true, Problems: []outcome{}}
	p := newProgress(j, tell)
	defer p.done()
	all := known.All()
	for i, problem := range all {
		if problem.Slow && !slow {
			v.LeftOut++
			continue
		}
		p.tell("%d of %d: %s", i+1, len(all), problem.Name)
		got := known.Check(j.ctx, problem)
		if j.ctx.Err() != nil {
			return v, j.ctx.Err()
		}
		v.add(got)
	}
	return v, nil
}

// add records an outcome; what failed has no value.
func (v *verification) add(got known.Outcome) {
	o := outcome{Name: got.Name, Source: got.Source, Unit: got.Unit, Known: got.Reference,
		Allowed: got.Allowed, Relative: got.Relative, Held: got.Held}
	switch {
	case got.Err != nil:
		o.Error = got.Err.Error()
	case math.IsNaN(got.Deviation) || math.IsInf(got.Deviation, 0):
		o.Held, o.Error = false, "the value is not a number"
	default:
		o.Value, o.Deviation = got.Value, got.Deviation
	}
	v.Held = v.Held && o.Held
	v.Problems = append(v.Problems, o)
}

func (v verification) print(out io.Writer) error {
	var b strings.Builder
	outside := 0
	source := ""
	for _, o := range v.Problems {
		if o.Source != source {
			if source != "" {
				fmt.Fprintln(&b)
			}
			source = o.Source
			fmt.Fprintf(&b, "Known from %s:\n\n", source)
		}
		word := "held"
		if !o.Held {
			word = "OUTSIDE"
			outside++
		}
		fmt.Fprintf(&b, "%-7s  %s\n", word, o.Name)
		if o.Error != "" {
			b.WriteString(wrapped(fmt.Sprintf("failed: %s; known %s", o.Error, number(o.Known, o.Unit)), 80, "         "))
			continue
		}
		fmt.Fprintf(&b, "         %s, known %s; off %s of %s\n", number(o.Value, o.Unit), number(o.Known, o.Unit), o.off(o.Deviation, ""), o.off(o.Allowed, "±"))
	}
	fmt.Fprintf(&b, "\n%d problems, %d held, %d outside.", len(v.Problems), len(v.Problems)-outside, outside)
	if v.LeftOut > 0 {
		fmt.Fprintf(&b, " %d more take longer: --slow.", v.LeftOut)
	}
	fmt.Fprintln(&b)
	_, err := io.WriteString(out, b.String())
	return err
}

// off writes a deviation: as a part of the known value, or in its unit.
func (o outcome) off(x float64, sign string) string {
	if o.Relative {
		return fmt.Sprintf("%s%.3g %%", sign, 100*x)
	}
	return strings.TrimSpace(fmt.Sprintf("%s%.3g %s", sign, x, o.Unit))
}

func number(x float64, unit string) string {
	return strings.TrimSpace(fmt.Sprintf("%.6g %s", x, unit))
}
