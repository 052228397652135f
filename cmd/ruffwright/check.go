package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"slices"
	"strings"

	"ruffwright/assets"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/measure"
)

func checkVerb() verb {
	var a asked
	var drawn, try bool
	return verb{
		name: "check", args: "[SCHEME]", most: 1,
		does: "says what will go wrong with a scheme, by how much, what to change",
		help: `
Lists what will be seen at the work table if the scheme is sewn as it is: what
stops (do not sew this), what to mend, what is worth knowing, and cautions
(what can hurt somebody; they are always there). Each change it offers is given
as the --set that makes it; --try solves the ruff with each, which takes about a
second for every one, says what becomes of the finding, and says first what to
do: the fewest changes that leave nothing to stop for and nothing to mend.

The cloth is solved first; --drawn checks the geometry alone, at once.

Exit code 0: nothing stops. 1: something does. 2: the scheme cannot be read.

The demos: ` + strings.Join(assets.Demos(), ", ") + `.`,
		flags: func(f *flag.FlagSet) {
			a.flags(f, "the findings", "the lengths in sentences")
			f.BoolVar(&drawn, "drawn", false, "check the geometry alone, without solving the cloth")
			f.BoolVar(&try, "try", false, "try each change, and say what it does")
		},
		prints: report{},
		run: a.from.run(func(j job, s scheme.Scheme) error {
			seen, err := checking{a.how, drawn, try, a.units.Units}.look(j, s)
			if err != nil {
				return err
			}
			report := reported(seen.ruff, seen.found)
			report.Unsolved = seen.unsolved
			if try && report.Solved {
				if report.Ways, err = mended(j, a.how, seen.ruff, a.units.Units); err != nil {
					return err
				}
			}
			return say(j, a.asJSON, report, report.text(a.units.Units), !report.Stops)
		}),
	}
}

// checking is how check looks at a scheme.
type checking struct {
	how        solving
	drawn, try bool
	units      scheme.Units
}

// looked is what it sees.
type looked struct {
	ruff     sim.Ruff
	found    []check.Finding
	unsolved string // why the cloth was not solved, where it cannot be
}

// look solves the scheme, unless it is to be drawn alone, and finds what will be
// seen.
func (c checking) look(j job, s scheme.Scheme) (looked, error) {
	var l looked
	drawn, err := sim.Draw(s)
	if err != nil {
		return l, err
	}
	l.ruff = drawn
	if !c.drawn {
		r, err := c.how.solve(j, "", s, sim.Options{})
		switch {
		case errors.Is(err, sim.ErrDesign):
			l.unsolved = "How the cloth hangs cannot be solved for sets that are planned like this; what is said of the geometry tells why."
		case err != nil:
			return l, err
		default:
			l.ruff = r
		}
	}
	l.found = check.Find(l.ruff, c.units)
	if l.unsolved != "" {
		// Nothing more will come: what waits for the mechanics waits in vain.
		l.found = slices.DeleteFunc(l.found, func(f check.Finding) bool { return f.Pending })
	}
	if c.try {
		return l, c.tries(j, l)
	}
	return l, nil
}

// tries solves the ruff with each remedy and writes into it what becomes of its
// finding.
func (c checking) tries(j job, l looked) error {
	all, at := 0, 0
	for _, f := range l.found {
		all += len(f.Remedies)
	}
	for i := range l.found {
		f := &l.found[i]
		for k := range f.Remedies {
			at++
			what := fmt.Sprintf("change %d of %d", at, all)
			solve := func(_ context.Context, s scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
				if c.drawn {
					return sim.Draw(s)
				}
				r, err := c.how.solve(j, what, s, opt)
				if errors.Is(err, sim.ErrDesign) {
					return sim.Draw(s) // geometry tells for itself
				}
				return r, err
			}
			outcome, err := check.Try(j.ctx, l.ruff, *f, f.Remedies[k], solve)
			if j.ctx.Err() != nil {
				return j.ctx.Err()
			}
			if err != nil {
				continue // it cannot be told
			}
			f.Remedies[k].Take(outcome)
		}
		check.Sort(f.Remedies)
	}
	return nil
}

// report is what check says of a scheme.
type report struct {
	Name     string          `json:"name" means:"of the scheme; may be empty"`
	Code     string          `json:"code" means:"the scheme's share code; empty where its own marks are too many for one"`
	Stops    bool            `json:"stops" means:"some finding stops; the exit code is then 1"`
	Solved   bool            `json:"solved" means:"the cloth was solved; false with --drawn and where it cannot be"`
	Unsolved string          `json:"unsolved" means:"why the cloth cannot be solved; empty where it can"`
	Plan     planned         `json:"plan"`
	Ways     []way           `json:"ways" means:"with --try: what to do, best first, each solved as the whole ruff; empty where nothing is wrong, or nothing helps"`
	Sure     []surely        `json:"sure" means:"how sure each figure is that will be measured; empty where the cloth is not solved"`
	Narrows  string          `json:"narrows" means:"what would narrow the widest of them most"`
	Findings []check.Finding `json:"findings" means:"what will be seen, worst first"`

	hangs *measure.Values // as solved, nil if it is not
	sure  []sim.Sure
}

// planned is what the strip and the band come to.
type planned struct {
	Sets         int     `json:"sets" means:"sets of the strip"`
	Panel_mm     float64 `json:"panel_mm" unit:"mm" means:"fold to fold along the strip"`
	Pitch_mm     float64 `json:"pitch_mm" unit:"mm" means:"room a set takes along the neckline, as sewn"`
	Strip_mm     float64 `json:"strip_mm" unit:"mm" means:"length of the strip as marked, with its end hems, without joins and spare"`
	Band_mm      float64 `json:"band_mm" unit:"mm" means:"length of the band, as made or as planned"`
	Slack        float64 `json:"slack" means:"inner edge between two sewn points ÷ their straight distance; 0 where only one edge is sewn"`
	Height_mm    float64 `json:"height_outer_mm" unit:"mm" means:"top fold to bottom fold at the outer edge, closed form, mean of all sets"`
	Loop_mm      float64 `json:"loop_mm" unit:"mm" means:"clear width of a loop at the outer edge, closed form, mean of all sets"`
	PitchOut_mm  float64 `json:"pitch_outer_mm" unit:"mm" means:"room a set takes along the outer edge"`
	InnerPane_mm float64 `json:"inner_panel_mm" unit:"mm" means:"inner edge between two folds, tucks taken out"`
}

// reported gathers the report. A list that is empty is [], not null.
func reported(r sim.Ruff, found []check.Finding) report {
	p, m := r.Plan, r.Folded.Mean
	rep := report{
		Solved: r.Solved != nil,
		Name:   p.Scheme.Name,
		Code:   p.Scheme.Code(),
		Plan: planned{
			Sets: p.Sets, Panel_mm: p.Panel_mm, Pitch_mm: p.Pitch_mm, Strip_mm: p.Strip_mm, Band_mm: p.Band_mm,
			Slack: p.Slack, Height_mm: m.HeightOuter_mm, Loop_mm: m.Loop_mm, PitchOut_mm: p.PitchOuter_mm,
			InnerPane_mm: p.InnerPanel_mm,
		},
		Ways:     []way{},
		Findings: []check.Finding{},
	}
	if r.Solved != nil && r.Solved.Converged() {
		rep.hangs, rep.sure = &r.Solved.Ruff, r.Sure()
		rep.Narrows = r.Narrows(rep.sure).String()
	}
	rep.Sure = surelyOf(rep.sure)
	for _, f := range found {
		if f.Remedies == nil {
			f.Remedies = []check.Remedy{}
		}
		rep.Stops = rep.Stops || f.Severity == check.Stop && !f.Pending
		rep.Findings = append(rep.Findings, f)
	}
	return rep
}

// text is the report for people.
func (r report) text(units scheme.Units) string {
	const hang = "          "
	mm := func(v float64) string { return roundedLength(v, units) }
	var b strings.Builder
	heading(&b, r.Name)
	fmt.Fprintf(&b, "%d sets, %s from fold to fold", r.Plan.Sets, mm(r.Plan.Panel_mm))
	if r.hangs == nil {
		fmt.Fprintf(&b, ", as drawn: height %s at the outer edge, loops %s clear", mm(r.Plan.Height_mm), mm(r.Plan.Loop_mm))
	}
	fmt.Fprintf(&b, "\nstrip %s, band %s", mm(r.Plan.Strip_mm), mm(r.Plan.Band_mm))
	if r.Plan.Slack != 0 {
		fmt.Fprintf(&b, ", slack %.3f", r.Plan.Slack)
	}
	switch m := r.hangs; {
	case m == nil:
	case len(r.sure) > 0:
		fmt.Fprintf(&b, "\nas it hangs\n%s", strings.TrimSuffix(sureText(r.sure, r.Narrows, units), "\n"))
	default:
		fmt.Fprintf(&b, "\nas it hangs: height %s, the narrower loop %s clear, outer edge %s from the neck",
			solvedLength(m.HeightOuter_mm, units), solvedLength(m.Loop_mm, units), solvedLength(m.Reach_mm, units))
		if m.BowDone {
			fmt.Fprintf(&b, ", moves %s when the wearer bows", solvedLength(m.Bow_mm, units))
		}
	}
	b.WriteString("\n\n")
	for i, w := range r.Ways {
		b.WriteString(w.text(i == 0, units))
	}
	counts := map[check.Severity]int{}
	waiting := 0
	for _, f := range r.Findings {
		word := string(f.Severity)
		if f.Pending {
			word = "unknown"
			waiting += max(1, len(f.Awaits))
		} else {
			counts[f.Severity]++
		}
		fmt.Fprintf(&b, "%-8s  %s", word, strings.TrimLeft(wrapped(f.Sentence.String(), 80, hang), " "))
		for _, remedy := range f.Remedies {
			fmt.Fprintf(&b, "%s- %s", hang, strings.TrimLeft(wrapped(remedy.Sentence.String(), 80, hang+"  "), " "))
			if tried := remedy.Outcome(f.Unit, units); !tried.Empty() {
				fmt.Fprintf(&b, "%s  Tried: %s.\n", hang, tried)
			}
			if len(remedy.Changes) > 0 {
				fmt.Fprintf(&b, "%s    %s\n", hang, sets(remedy.Changes))
			}
		}
	}
	answer := "Nothing that stops"
	if r.Stops {
		answer = "Something stops"
	}
	fmt.Fprintf(&b, "\n%s: %d to stop for, %d to mend, %d to note, %d to take care of.\n", answer,
		counts[check.Stop], counts[check.Mend], counts[check.Note], counts[check.Caution])
	if waiting > 0 {
		fmt.Fprintf(&b, "%d more only the mechanics of the cloth can tell; --drawn leaves them out.\n", waiting)
	}
	if r.Unsolved != "" {
		b.WriteString(wrapped(r.Unsolved, 80, ""))
	}
	return b.String()
}

// sets writes changes as the flags that make them, ready for a shell.
func sets(changes []check.Change) string {
	var flags []string
	for _, c := range changes {
		pair := c.Key + "=" + c.Value
		if strings.ContainsAny(pair, " \t'\"\\$`;&|<>()*?[]#~!") {
			pair = "'" + strings.ReplaceAll(pair, "'", `'\''`) + "'"
		}
		flags = append(flags, "--set "+pair)
	}
	return strings.Join(flags, " ")
}
