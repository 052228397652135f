package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math"
	"strings"

	"ruffwright/assets"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

func checkVerb() verb {
	var from source
	var asJSON bool
	var units unitsFlag
	return verb{
		name: "check", args: "[SCHEME]", most: 1,
		does: "says what will go wrong with a scheme, by how much, what to change",
		help: `
Lists what will be seen at the work table if the scheme is sewn as it is: what
stops (do not sew this), what to mend, what is worth knowing, and cautions
(what can hurt somebody; they are always there). Each change it offers is given
as the --set that makes it.

Exit code 0: nothing stops. 1: something does. 2: the scheme cannot be read.

The demos: ` + strings.Join(assets.Demos(), ", ") + `.`,
		flags: func(f *flag.FlagSet) {
			from.flags(f)
			f.BoolVar(&asJSON, "json", false, "print the findings as JSON; ruffwright schema describes the keys")
			f.Var(&units, "units", "`unit` of the lengths in sentences: mm, cm or in")
		},
		prints: report{},
		keys:   checkKeys,
		run: func(j job, args []string) error {
			s, err := from.scheme(j, args)
			if err != nil {
				return err
			}
			ruff, err := sim.Draw(s)
			if err != nil {
				return err
			}
			report := reported(ruff, check.Find(ruff, units.Units))
			if asJSON {
				err = printJSON(j.out, report)
			} else {
				err = report.print(j.out, units.Units)
			}
			if err == nil && report.Stops {
				return errStops
			}
			return err
		},
	}
}

// report is what check says of a scheme. Its keys are described in keys.go.
type report struct {
	Version  int             `json:"version"`
	Name     string          `json:"name"`
	Code     string          `json:"code"`
	Stops    bool            `json:"stops"`
	Plan     planned         `json:"plan"`
	Findings []check.Finding `json:"findings"`
}

// planned is what the strip and the band come to.
type planned struct {
	Sets         int     `json:"sets"`
	Panel_mm     float64 `json:"panel_mm"`
	Pitch_mm     float64 `json:"pitch_mm"`
	Strip_mm     float64 `json:"strip_mm"`
	Band_mm      float64 `json:"band_mm"`
	Slack        float64 `json:"slack"`
	Height_mm    float64 `json:"height_outer_mm"`
	Loop_mm      float64 `json:"loop_mm"`
	PitchOut_mm  float64 `json:"pitch_outer_mm"`
	InnerPane_mm float64 `json:"inner_panel_mm"`
}

// reported gathers the report. A list that is empty is [], not null.
func reported(r sim.Ruff, found []check.Finding) report {
	p, m := r.Plan, r.Folded.Mean
	rep := report{
		Version: scheme.Version,
		Name:    p.Scheme.Name,
		Code:    p.Scheme.Code(),
		Plan: planned{
			Sets: p.Sets, Panel_mm: p.Panel_mm, Pitch_mm: p.Pitch_mm, Strip_mm: p.Strip_mm, Band_mm: p.Band_mm,
			Slack: p.Slack, Height_mm: m.HeightOuter_mm, Loop_mm: m.Loop_mm, PitchOut_mm: p.PitchOuter_mm,
			InnerPane_mm: p.InnerPanel_mm,
		},
		Findings: []check.Finding{},
	}
	for _, f := range found {
		if f.Remedies == nil {
			f.Remedies = []check.Remedy{}
		}
		rep.Stops = rep.Stops || f.Severity == check.Stop && !f.Pending
		rep.Findings = append(rep.Findings, f)
	}
	return rep
}

// printJSON writes v as indented JSON with a newline at its end.
func printJSON(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// print writes the report for people.
func (r report) print(out io.Writer, units scheme.Units) error {
	const hang = "          "
	mm := func(v float64) string { return roundedLength(v, units) }
	var b strings.Builder
	if r.Name != "" {
		fmt.Fprintln(&b, r.Name)
	}
	fmt.Fprintf(&b, "%d sets, %s from fold to fold, height %s at the outer edge, loops %s clear\n",
		r.Plan.Sets, mm(r.Plan.Panel_mm), mm(r.Plan.Height_mm), mm(r.Plan.Loop_mm))
	fmt.Fprintf(&b, "strip %s, band %s", mm(r.Plan.Strip_mm), mm(r.Plan.Band_mm))
	if r.Plan.Slack != 0 {
		fmt.Fprintf(&b, ", slack %.3f", r.Plan.Slack)
	}
	b.WriteString("\n\n")
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
		fmt.Fprintf(&b, "%-8s  %s", word, strings.TrimLeft(wrapped(f.Sentence, 80, hang), " "))
		for _, remedy := range f.Remedies {
			fmt.Fprintf(&b, "%s- %s", hang, strings.TrimLeft(wrapped(remedy.Sentence, 80, hang+"  "), " "))
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
		fmt.Fprintf(&b, "%d more only the mechanics of the cloth can tell; they are not solved yet.\n", waiting)
	}
	_, err := io.WriteString(out, b.String())
	return err
}

// roundedLength writes a length as a ruler reads it: to 0.1 mm, or to 1/32 in.
func roundedLength(mm float64, units scheme.Units) string {
	step := 0.1
	if units == scheme.Inches {
		step = 25.4 / 32
	}
	return scheme.FormatLength(math.Round(mm/step)*step, units)
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
