package main

import (
	"flag"
	"fmt"
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
that comes from, how far it is off and how far it may be. Half sets of a ruff are
among them, formed, starched, let go and bowed by the code that does so for ruffs.
The tests run the same list.

Exit code 0: all within what is allowed. 1: one is not.`,
		flags: func(f *flag.FlagSet) {
			f.BoolVar(&slow, "slow", false, "also those that take more than about a second each")
			f.BoolVar(&tell, "progress", false, "tell how far it is also where standard error is no terminal")
			f.BoolVar(&asJSON, "json", false, "print the outcomes as JSON; ruffwright schema describes the keys")
		},
		prints: verification{},
		run: func(j job, _ []string) error {
			v, err := verified(j, slow, tell)
			if err != nil {
				return err
			}
			return say(j, asJSON, v, v.text(), v.Held)
		},
	}
}

// verification is what verify says.
type verification struct {
	Held     bool      `json:"held" means:"all are within what is allowed; the exit code is 1 where not"`
	LeftOut  int       `json:"left_out" means:"slow problems that were not run (--slow)"`
	Problems []outcome `json:"problems" means:"the problems in order"`
}

type outcome struct {
	Name      string  `json:"name" means:"what is solved"`
	Source    string  `json:"source" means:"where the known value comes from"`
	Unit      string  `json:"unit" means:"of both values"`
	Known     float64 `json:"known" unit:"problems.unit" means:"the known value"`
	Value     float64 `json:"value" unit:"problems.unit" means:"the value solved; 0 where it failed"`
	Deviation float64 `json:"deviation" means:"value less known; divided by known where relative"`
	Allowed   float64 `json:"allowed" means:"the largest deviation allowed, either way"`
	Relative  bool    `json:"relative" means:"deviation and allowed are parts of the known value, else in its unit"`
	Why       string  `json:"why" means:"why more than a tenth of the known value is allowed; empty where it is not"`
	Held      bool    `json:"held" means:"it is within what is allowed"`
	Error     string  `json:"error" means:"why there is no value; empty where there is one"`
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
		Allowed: got.Allowed, Relative: got.Relative, Why: got.Why, Held: got.Held}
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

func (v verification) text() string {
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
		if o.Why != "" {
			b.WriteString(wrapped(o.Why, 80, "         "))
		}
	}
	fmt.Fprintf(&b, "\n%d problems, %d held, %d outside.", len(v.Problems), len(v.Problems)-outside, outside)
	if v.LeftOut > 0 {
		fmt.Fprintf(&b, " %d more take longer: --slow.", v.LeftOut)
	}
	fmt.Fprintln(&b)
	return b.String()
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
