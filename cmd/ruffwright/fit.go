package main

import (
	"flag"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

func fitVerb() verb {
	var from source
	var how solving
	var asJSON bool
	var units unitsFlag
	return verb{
		name: "fit", args: "[SCHEME]", most: 1,
		does: "finds fold to fold for the height wanted, as the cloth hangs",
		help: `
Finds the length fold to fold whose solved height at the outer edge is the one
that the scheme wants (ruff.height), and gives it as the --set that makes it.
What the scheme says of fold to fold, and marks of its own, are left aside.

Exit code 0: found. 1: there is none, and why. 2: the scheme cannot be read, or
cannot be solved.`,
		flags: func(f *flag.FlagSet) {
			from.flags(f)
			how.flags(f)
			f.BoolVar(&asJSON, "json", false, "print the answer as JSON; ruffwright schema describes the keys")
			f.Var(&units, "units", "`unit` of the lengths: mm, cm or in")
		},
		prints: fitted{},
		keys: []key{
			{"name", "text", "", "of the scheme; may be empty"},
			{"code", "text", "", "the scheme's share code"},
			{"fit.found", truth, "", "a length fold to fold was found; the exit code is 1 where not"},
			{"fit.reason", "text", "", "why none was found; else left out"},
			{"fit.panel_mm", "number", "mm", "fold to fold; where none was found the nearest tried"},
			{"fit.height_outer_mm", "number", "mm", "the solved height that it gives"},
			{"fit.wanted_mm", "number", "mm", "the height wanted"},
			{"fit.rule_of_thumb_panel_mm", "number", "mm", "by the rule that a set takes twice its height (common practice, no source)"},
			{"fit.closed_form_panel_mm", "number", "mm", "by geometry alone"},
			{"fit.solves", "number", "", "half sets solved on the way"},
			{"changes", "list", "", "what to set in the scheme; empty where none was found"},
			{"changes.key", "text", "", "the field's key"},
			{"changes.value", "text", "", "what to set it to, lengths in mm: --set key=value"},
		},
		run: func(j job, args []string) error {
			s, err := from.scheme(j, args)
			if err != nil {
				return err
			}
			p := newProgress(j, how.tell)
			got, err := sim.Fit(j.ctx, s, how.grid.grid(), func(panel_mm, height_mm float64) {
				p.tell("fold to fold %.1f mm: %.1f mm high", panel_mm, height_mm)
			})
			p.done()
			if err != nil {
				return unsolvable(s, err)
			}
			answer := fitted{s.Name, s.Code(), got, []check.Change{}}
			if got.Found {
				answer.Changes = append(answer.Changes, check.Change{Key: "pleat.panel", Value: tenths(got.Panel_mm)})
				if s.OwnMarks() > 0 {
					answer.Changes = append(answer.Changes, check.Change{Key: "pleat.marks"})
				}
			}
			if asJSON {
				err = printJSON(j.out, answer)
			} else {
				err = answer.print(j.out, units.Units)
			}
			if err == nil && !got.Found {
				return errStops
			}
			return err
		},
	}
}

// fitted is what fit says.
type fitted struct {
	Name    string         `json:"name"`
	Code    string         `json:"code"`
	Fit     sim.Fitted     `json:"fit"`
	Changes []check.Change `json:"changes"`
}

// tenths writes a length for the scheme to 0.1 mm, finer than anybody marks.
func tenths(mm float64) string { return strconv.FormatFloat(math.Round(mm*10)/10, 'f', -1, 64) }

func (a fitted) print(out io.Writer, u scheme.Units) error {
	var b strings.Builder
	f := a.Fit
	length := func(mm float64) string { return roundedLength(mm, u) }
	if a.Name != "" {
		fmt.Fprintln(&b, a.Name)
	}
	if f.Found {
		fmt.Fprintf(&b, "Fold every %s: as the cloth hangs, the outer edge then stands %s high; wanted %s.\n",
			length(f.Panel_mm), length(f.Height_mm), length(f.Wanted_mm))
	} else {
		b.WriteString(wrapped(fmt.Sprintf("No length fold to fold gives a height of %s: %s.", length(f.Wanted_mm), strings.TrimSuffix(f.Reason.String(), ".")), 80, ""))
		if f.Panel_mm > 0 && f.Height_mm > 0 {
			fmt.Fprintf(&b, "The nearest tried: %s, which stands %s high.\n", length(f.Panel_mm), length(f.Height_mm))
		}
	}
	fmt.Fprintf(&b, "Geometry alone says %s; the rule of thumb, half a set for the height, %s.\n", length(f.Drawn_mm), length(f.ByEye_mm))
	if len(a.Changes) > 0 {
		fmt.Fprintf(&b, "  %s\n", sets(a.Changes))
	}
	_, err := io.WriteString(out, b.String())
	return err
}
