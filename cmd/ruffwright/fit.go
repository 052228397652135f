package main

import (
	"flag"
	"fmt"
	"math"
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

func fitVerb() verb {
	var a asked
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
			a.flags(f, "the answer", "the lengths")
		},
		prints: fitted{},
		run: a.from.run(func(j job, s scheme.Scheme) error {
			p := newProgress(j, a.how.tell)
			got, err := sim.Fit(j.ctx, s, a.how.grid.grid(), func(panel_mm, height_mm float64) {
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
			return say(j, a.asJSON, answer, answer.text(a.units.Units), got.Found)
		}),
	}
}

// fitted is what fit says.
type fitted struct {
	Name    string         `json:"name" means:"of the scheme; may be empty"`
	Code    string         `json:"code" means:"the scheme's share code"`
	Fit     sim.Fitted     `json:"fit"`
	Changes []check.Change `json:"changes" means:"what to set in the scheme; empty where none was found"`
}

// tenths writes a length for the scheme to 0.1 mm, finer than anybody marks.
func tenths(mm float64) string { return strconv.FormatFloat(math.Round(mm*10)/10, 'f', -1, 64) }

func (a fitted) text(u scheme.Units) string {
	var b strings.Builder
	f := a.Fit
	length := func(mm float64) string { return roundedLength(mm, u) }
	heading(&b, a.Name)
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
	return b.String()
}
