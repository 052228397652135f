package main

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// starching is what the flags of need ask for.
type starching struct {
	asked
	limits sim.Limits
}

// bound is a limit that need keeps, by the name of its flag.
type bound struct {
	name, means string
	mm          *float64
}

func (n *starching) bounds() []bound {
	return []bound{
		{"droop", "how far the outer edge may sink, `mm`", &n.limits.Droop_mm},
		{"bow", "how far it may move when the wearer bows, `mm`", &n.limits.Bow_mm},
		{"lean", "how far it may give sideways for its own weight, `mm`; of tucked sets only that they stand up again", &n.limits.Lean_mm_per_g},
		{"apart", "how far the folds of tucked sets may lie elsewhere, by how sticks are put in, `mm`", &n.limits.Apart_mm},
	}
}

func needVerb() verb {
	n := starching{limits: check.Limits()}
	return verb{
		name: "need", args: "[SCHEME]", most: 1,
		does: "finds the least starch with which the ruff holds",
		help: `
Finds the least stiffness of the starched cloth with which droop, bow and lean
stay within their limits and tucked sets come alike, and the overhang by which a
swatch shows it: cut it along the strip, starch it, dry it flat, and slide it over
a table's edge until the line from edge to tip slopes by 41.5°. The limits are
those of check; 0 leaves one out. What the scheme says of starch.bend is left
aside. The answer is solved once more as the whole ruff, and so is half a
millimetre of bending length less and more: all three keep the limits. So are a
twentieth less and a seventh more: where more starch is not firmer, it says so.

Exit code 0: found. 1: no starch answers it, or none that holds, and why. 2: the
scheme cannot be read, or cannot be solved.`,
		flags: func(f *flag.FlagSet) {
			n.flags(f, "the answer", "the lengths")
			for _, b := range n.bounds() {
				f.Float64Var(b.mm, b.name, *b.mm, b.means)
			}
		},
		prints: needed{},
		run:    n.run,
	}
}

// run looks for the starch and prints it.
func (n *starching) run(j job, args []string) error {
	var wrong []error
	for _, b := range n.bounds() {
		if !(*b.mm >= 0 && *b.mm <= 100) { // NaN fails too
			wrong = append(wrong, fmt.Errorf("--%s %g: expected 0 to 100 mm; 0 leaves it out", b.name, *b.mm))
		}
	}
	s, err := n.from.scheme(j, args)
	if err = errors.Join(append(wrong, err)...); err != nil {
		return err
	}
	p := newProgress(j, n.how.tell)
	got, err := sim.Need(j.ctx, s, n.how.grid.grid(), n.limits, func(bend_mm float64, holds bool) {
		p.tell("bending length %.0f mm: holds %v", bend_mm, holds)
	})
	p.done()
	if err != nil {
		return unsolvable(s, err)
	}
	answer, err := neededAnswer(s, n.limits, got, n.units.Units)
	if err != nil {
		return err
	}
	return say(j, n.asJSON, answer, answer.text(n.units.Units), got.Found)
}

// needed is what need says.
type needed struct {
	Name     string         `json:"name" means:"of the scheme; may be empty"`
	Code     string         `json:"code" means:"the scheme's share code"`
	Limits   neededLimits   `json:"limits"`
	Need     sim.Needed     `json:"need"`
	Cautions []string       `json:"cautions" means:"what can hurt in starching and setting"`
	Changes  []check.Change `json:"changes" means:"what to set in the scheme; empty where none was found"`

	model string // what the numbers leave out
}

type neededLimits struct {
	Droop_mm      float64 `json:"droop_mm" unit:"mm" means:"the limit of droop; 0 leaves it out"`
	Bow_mm        float64 `json:"bow_mm" unit:"mm" means:"of the move when the wearer bows"`
	Lean_mm_per_g float64 `json:"lateral_mm_per_g" unit:"mm/g" means:"of the give sideways for its own weight (1 g of gravity); of tucked sets it is asked only that they stand up again"`
	Apart_mm      float64 `json:"apart_mm" unit:"mm" means:"how far the folds of tucked sets may lie elsewhere, by how their sticks are put in"`
}

// neededAnswer gathers the answer; its stiffness is rounded up to 0.1 mm.
func neededAnswer(s scheme.Scheme, l sim.Limits, got sim.Needed, u scheme.Units) (needed, error) {
	a := needed{Name: s.Name, Code: s.Code(), Limits: neededLimits{l.Droop_mm, l.Bow_mm, l.Lean_mm_per_g, l.Apart_mm}, Need: got,
		Cautions: []string{}, Changes: []check.Change{}}
	if got.Found {
		value := tenths(math.Ceil(got.Bend_mm*10) / 10)
		if got.Bend_mm != s.Starch.Bend {
			a.Changes = append(a.Changes, check.Change{Key: "starch.bend", Value: value})
		}
		if err := s.Set("starch.bend", value); err != nil {
			return a, err
		}
	}
	r, err := sim.Draw(s)
	if err != nil {
		return a, err
	}
	a.model = modelLimits(s, r)
	if got.Bend_mm > 0 {
		a.Cautions = append(a.Cautions, cautions(r, u, "hot")...)
	}
	return a, nil
}

func (a needed) text(u scheme.Units) string {
	var b strings.Builder
	n := a.Need
	heading(&b, a.Name)
	way := "sinks"
	if n.Droop_mm < 0 {
		way = "rises"
	}
	moves := fmt.Sprintf("Then the outer edge %s by %s", way, solvedLength(math.Abs(n.Droop_mm), u))
	if a.Limits.Bow_mm > 0 {
		moves += fmt.Sprintf(" and moves by %s when the wearer bows", solvedLength(n.Bow_mm, u))
	}
	if n.Lean_mm_per_g > 0 {
		moves += fmt.Sprintf("; sideways it gives %s for its own weight", solvedLength(n.Lean_mm_per_g, u))
	}
	switch {
	case !n.Found:
		reason := strings.TrimSuffix(n.Reason.String(), ".")
		b.WriteString(wrapped(strings.ToUpper(reason[:1])+reason[1:]+".", 80, ""))
	case n.Bend_mm == 0:
		b.WriteString(wrapped(fmt.Sprintf("No starch is needed. %s.", strings.Replace(moves, "Then the", "The", 1)), 80, ""))
		if !n.Doubt.Empty() {
			b.WriteString(wrapped("But: "+n.Doubt.String(), 80, ""))
		}
	default:
		asks := "It is the " + n.Governs + " that asks for it."
		if n.Governs == "alike" {
			asks = "Less leaves the sets unlike."
		}
		b.WriteString(wrapped(fmt.Sprintf("Starch until a swatch cut along the strip reaches the slope of 41.5° at an overhang of %s: a bending length of %s. %s",
			roundedLength(n.Overhang_mm, u), roundedLength(n.Bend_mm, u), asks), 80, ""))
		b.WriteString(wrapped(moves+".", 80, ""))
		if !n.Doubt.Empty() {
			b.WriteString(wrapped("But: "+n.Doubt.String(), 80, ""))
		}
		b.WriteString(wrapped("That is at the mass before starching; the swatch hangs under its starch as well. Weigh it, and let ruffwright swatch --starched tell.", 80, ""))
	}
	if len(a.Changes) > 0 {
		fmt.Fprintf(&b, "  %s\n", sets(a.Changes))
	}
	fmt.Fprintln(&b)
	b.WriteString(wrapped(a.model, 80, ""))
	for _, c := range a.Cautions {
		b.WriteString(wrapped("Caution: "+c, 80, ""))
	}
	return b.String()
}
