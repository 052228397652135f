package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// measure is one number of a solved half set or ruff: how the tables call it,
// what it means. The keys are those of sim.Measures.
type measure struct {
	key, kind, unit string
	label           string // in tables
	means           string // in schema
	// number is what it comes to, and whether it is known; nil for what is no number.
	number func(*sim.Measures) (float64, bool)
	// word stands for it where number is nil.
	word func(*sim.Measures, scheme.Units) string
	// inside marks how the solver fared, which says nothing of the cloth.
	inside bool
}

func plain(get func(*sim.Measures) float64) func(*sim.Measures) (float64, bool) {
	return func(m *sim.Measures) (float64, bool) { return get(m), true }
}

func yes(get func(*sim.Measures) bool) func(*sim.Measures, scheme.Units) string {
	return func(m *sim.Measures, _ scheme.Units) string {
		if get(m) {
			return "yes"
		}
		return "no"
	}
}

const truth = "true or false"

// measures lists them in the order in which --json prints them.
var measures = []measure{
	{key: "panels", kind: "number", label: "half sets", means: "half sets of the strip that it speaks for",
		number: plain(func(m *sim.Measures) float64 { return float64(m.Panels) })},
	{key: "kappa_1_per_mm", kind: "number", unit: "1/mm", label: "curvature of the neckline", means: "curvature of the neckline there",
		number: plain(func(m *sim.Measures) float64 { return m.Kappa_1pmm })},
	{key: "panel_mm", kind: "number", unit: "mm", label: "fold to fold", means: "fold to fold along the strip",
		number: plain(func(m *sim.Measures) float64 { return m.Panel_mm })},
	{key: "pitch_mm", kind: "number", unit: "mm", label: "room for a set at the neck", means: "room a set takes along the neckline",
		number: plain(func(m *sim.Measures) float64 { return m.Pitch_mm })},
	{key: "pitch_outer_mm", kind: "number", unit: "mm", label: "room at the outer edge", means: "room a set takes along the outer edge's curve",
		number: plain(func(m *sim.Measures) float64 { return m.PitchOuter_mm })},
	{key: "height_outer_mm", kind: "number", unit: "mm", label: "height, outer edge", means: "top fold to bottom fold at the outer edge",
		number: plain(func(m *sim.Measures) float64 { return m.HeightOuter_mm })},
	{key: "height_inner_mm", kind: "number", unit: "mm", label: "height, inner edge", means: "top fold to bottom fold at the inner edge",
		number: plain(func(m *sim.Measures) float64 { return m.HeightInner_mm })},
	{key: "top_outer_mm", kind: "number", unit: "mm", label: "top folds' height", means: "outer edge's top fold over the band's bottom edge",
		number: plain(func(m *sim.Measures) float64 { return m.TopOuter_mm })},
	{key: "bottom_outer_mm", kind: "number", unit: "mm", label: "bottom folds' height", means: "outer edge's bottom fold over the band's bottom edge",
		number: plain(func(m *sim.Measures) float64 { return m.BottomOuter_mm })},
	{key: "loop_mm", kind: "number", unit: "mm", label: "loop's clear width", means: "clear width of a loop at the outer edge: the stick that fits",
		number: plain(func(m *sim.Measures) float64 { return m.Loop_mm })},
	{key: "loops_meet", kind: truth, label: "neighbours meet", means: "neighbouring loops touch at the outer edge: closed; not: gaping",
		word: yes(func(m *sim.Measures) bool { return m.LoopsMeet })},
	{key: "contact", kind: "number", label: "touching, of the depth", means: "part of the depth over which a panel touches its neighbour, 0 to 1",
		number: plain(func(m *sim.Measures) float64 { return m.Contact })},
	{key: "reach_mm", kind: "number", unit: "mm", label: "outer edge from the neck", means: "how far the outer edge stands from the neckline",
		number: plain(func(m *sim.Measures) float64 { return m.Reach_mm })},
	{key: "tilt_deg", kind: "number", unit: "degrees", label: "slope, + up", means: "slope of the mean line from neck to outer edge, + up",
		number: plain(func(m *sim.Measures) float64 { return m.Tilt_deg })},
	{key: "droop_mm", kind: "number", unit: "mm", label: "droop", means: "mean height of the outer edge as formed less as released, + down",
		number: plain(func(m *sim.Measures) float64 { return m.Droop_mm })},
	{key: "flaps_fall", kind: truth, label: "flaps fall", means: "the loops hang; false: they stand",
		word: yes(func(m *sim.Measures) bool { return m.FlapsFall })},
	{key: "bow_done", kind: truth, label: "bow tested, came to rest", means: "the bow test was made and came to rest at each step",
		word: yes(func(m *sim.Measures) bool { return m.BowDone }), inside: true},
	{key: "bow_mm", kind: "number", unit: "mm", label: "moves when the wearer bows", means: "largest move of the outer edge when the wearer bows by 60°; only where bow_done",
		number: func(m *sim.Measures) (float64, bool) { return m.Bow_mm, m.BowDone }},
	{key: "bow_return_mm", kind: "number", unit: "mm", label: "and is off afterwards", means: "how far off the outer edge is when the wearer stands again; only where bow_done",
		number: func(m *sim.Measures) (float64, bool) { return m.BowReturn_mm, m.BowDone }},
	{key: "tangents_done", kind: truth, label: "give was measured", means: "how the outer edge gives was measured",
		word: yes(func(m *sim.Measures) bool { return m.TangentsDone }), inside: true},
	{key: "vertical_mm_per_g", kind: "number", unit: "mm/g", label: "give (up and down)", means: "move of the outer edge, down, for its own weight once more (1 g of gravity)",
		number: func(m *sim.Measures) (float64, bool) { return m.Vertical_mm_per_g, m.TangentsDone && m.VerticalStable }},
	{key: "vertical_stable", kind: truth, label: "holds up and down", means: "it returns from a small push up or down",
		word: yes(func(m *sim.Measures) bool { return m.VerticalStable })},
	{key: "lateral_mm_per_g", kind: "number", unit: "mm/g", label: "give (sideways)", means: "move sideways for its own weight sideways (1 g of gravity), all loops leaning alike; decides nothing where sets are tucked",
		number: func(m *sim.Measures) (float64, bool) { return m.Lateral_mm_per_g, m.TangentsDone && m.LateralStable }},
	{key: "lateral_stable", kind: truth, label: "holds sideways", means: "it returns from a small push sideways",
		word: yes(func(m *sim.Measures) bool { return m.LateralStable })},
	{key: "leans", kind: "text", label: "stays leaning, pushed over", means: "where it does not hold sideways, what loops do that are all pushed over alike and let go: no (they stand up again), yes, inner (only near the band they do not), undecided; empty where it was not asked",
		word: func(m *sim.Measures, _ scheme.Units) string {
			if m.Leans == "" {
				return "-"
			}
			return m.Leans
		}},
	{key: "leans_mm", kind: "number", unit: "mm", label: "leans by", means: "how far sideways the folds of the outer edge then stay, followed to 10 mm; only where leans is yes",
		number: func(m *sim.Measures) (float64, bool) { return m.Leans_mm, m.Leans == sim.LeansYes }},
	{key: "mesh_done", kind: truth, label: "tried on a finer mesh", means: "tucked sets were solved on a finer mesh as well",
		word: yes(func(m *sim.Measures) bool { return m.MeshDone }), inside: true},
	{key: "mesh_mm", kind: "number", unit: "mm", label: "heights uncertain by", means: "how far the outer edge's folds lie from where the finer mesh has them, at most; only where mesh_done",
		number: func(m *sim.Measures) (float64, bool) { return m.Mesh_mm, m.MeshDone }},
	{key: "other_done", kind: truth, label: "another way to lie looked for", means: "another shape to rest in was looked for: only where one edge is sewn",
		word: yes(func(m *sim.Measures) bool { return m.OtherDone }), inside: true},
	{key: "other_found", kind: truth, label: "another way to lie", means: "and was found",
		word: func(m *sim.Measures, _ scheme.Units) string {
			switch {
			case m.OtherFound:
				return "yes"
			case m.OtherDone:
				return "none found"
			}
			return "-"
		}},
	{key: "other_share", kind: "number", label: "its energy above this one's", means: "its energy less this one's, over a panel's weight × depth; within ± 0.1 either may come",
		number: func(m *sim.Measures) (float64, bool) { return m.OtherShare, m.OtherFound }},
	{key: "other_top_bottom_outer_mm", kind: "list", unit: "mm", label: "its top and bottom folds", means: "its outer edge's top and bottom fold over the band's bottom edge",
		word: func(m *sim.Measures, u scheme.Units) string {
			if !m.OtherFound {
				return "-"
			}
			return solvedLength(m.OtherHeights[0], u) + ", " + solvedLength(m.OtherHeights[1], u)
		}},
	{key: "popped", kind: truth, label: "a tuck stands outward", means: "a tuck stands outward instead of inward",
		word: yes(func(m *sim.Measures) bool { return m.Popped })},
	{key: "thread_n", kind: "number", unit: "N", label: "pull on a stitch", means: "largest pull on a sewn fold",
		number: plain(func(m *sim.Measures) float64 { return m.Thread_N })},
	{key: "strain", kind: "number", label: "largest strain", means: "largest stretch of the cloth, as a part of its length",
		number: plain(func(m *sim.Measures) float64 { return m.Strain }), inside: true},
	{key: "status", kind: "text", label: "how the solve ended", means: "how the solve ended",
		word: func(m *sim.Measures, _ scheme.Units) string { return m.Status }, inside: true},
	{key: "converged", kind: truth, label: "came to rest", means: "the cloth came to rest",
		word: yes(func(m *sim.Measures) bool { return m.Converged }), inside: true},
	{key: "iterations", kind: "number", label: "steps to the rest shape", means: "factorisations to the rest shape",
		number: plain(func(m *sim.Measures) float64 { return float64(m.Iterations) }), inside: true},
	{key: "extra", kind: "number", label: "and for the rest", means: "factorisations for bow, give and the other way to lie",
		number: plain(func(m *sim.Measures) float64 { return float64(m.Extra) }), inside: true},
	{key: "residual_mn", kind: "number", unit: "mN", label: "residual", means: "largest force left on a node of the mesh",
		number: plain(func(m *sim.Measures) float64 { return m.Residual_mN }), inside: true},
	{key: "deepest_mm", kind: "number", unit: "mm", label: "deepest contact", means: "how far cloth reaches into what it touches",
		number: plain(func(m *sim.Measures) float64 { return m.Deepest_mm }), inside: true},
	{key: "mesh", kind: "text", label: "mesh", means: "cells along the strip × from neck to outer edge, of one half set",
		word: func(m *sim.Measures, _ scheme.Units) string { return m.Mesh }, inside: true},
}

// measureKeys describes the measures under a key, for schema.
func measureKeys(under string) []key {
	var keys []key
	for _, m := range measures {
		keys = append(keys, key{under + "." + m.key, m.kind, m.unit, m.means})
	}
	return keys
}

// say writes what the measure comes to, with its unit; - where it is not known.
func (q measure) say(m *sim.Measures, u scheme.Units) string {
	if q.number == nil {
		return q.word(m, u)
	}
	v, known := q.number(m)
	if !known {
		return "-"
	}
	return quantity(v, q.unit, u)
}

// quantity writes a solved number with its unit: lengths in u.
func quantity(v float64, unit string, u scheme.Units) string {
	v += 0 // no −0
	switch unit {
	case "mm", "mm/g": // for its own weight once more
		return solvedLength(v, u)
	case "degrees":
		return scheme.Minus(fmt.Sprintf("%.1f°", v))
	case "":
		return scheme.Minus(fmt.Sprintf("%.4g", v))
	}
	return scheme.Minus(fmt.Sprintf("%.3g", v)) + " " + unit
}

// solvedLength writes a solved length: as roundedLength, but what is small keeps
// two decimals in mm, since it is the small moves that are looked for.
func solvedLength(mm float64, u scheme.Units) string {
	if math.Abs(mm) < 1 {
		if math.Abs(mm) < 0.005 && mm != 0 {
			return "< 0.01 mm"
		}
		if mm != 0 {
			u = scheme.Millimetres // less than the marks of other rulers
		}
		return scheme.FormatLength(math.Round(mm*100)/100, u)
	}
	return roundedLength(mm, u)
}

// table writes rows in columns, the first to the left, the others to the right.
func table(out io.Writer, rows [][]string) {
	var widths []int
	for _, r := range rows {
		for c, text := range r {
			if c == len(widths) {
				widths = append(widths, 0)
			}
			widths[c] = max(widths[c], utf8.RuneCountInString(text))
		}
	}
	for _, r := range rows {
		var b strings.Builder
		for c, text := range r {
			space := strings.Repeat(" ", widths[c]-utf8.RuneCountInString(text))
			if c == 0 {
				b.WriteString(text + space)
			} else {
				b.WriteString("  " + space + text)
			}
		}
		fmt.Fprintln(out, strings.TrimRight(b.String(), " "))
	}
}
