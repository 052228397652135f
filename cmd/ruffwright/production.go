package main

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/measure"
)

// The tables of a production: CSV, lengths in mm as the heads say, numbers with
// a point, an empty cell where something is not known.

// turned is a wearer made, as far as the tables need it.
type turned struct {
	wearer
	folder       string
	unsolved     bool
	ruff         *measure.Values // nil: not solved, or not come to rest
	need         *sim.Needed
	pattern      pattern.Pattern
	stops, mends int
}

// orderCSV is what to buy for all together, a line for each cloth.
func orderCSV(o pattern.Order, good []turned) []byte {
	rows := [][]string{{"cloth", "g/m2", "bolt (mm)", "wearers", "needed (mm)", "to buy (m)", "to buy (yd)", "bought for each by itself (m)", "bought for each by itself (yd)", "cut from other cloth", "for"}}
	for _, l := range o.Lines {
		rows = append(rows, []string{
			l.Cloth.Name, decimal(l.Cloth.Mass, 1), decimal(l.Bolt_mm, 1), strconv.Itoa(len(l.Of)),
			decimal(l.Together.Need_mm, 1), decimal(l.Together.Metric_mm/1000, 1), yards(l.Together.Eighths),
			decimal(l.Apart_mm/1000, 1), yards(l.ApartEighths), strconv.Itoa(l.Left), namesOf(l.Of, good),
		})
	}
	return []byte(pattern.CSV(rows))
}

func namesOf(of []int, good []turned) string {
	var names []string
	for _, i := range of {
		names = append(names, good[i].scheme.Name)
	}
	return strings.Join(names, "; ")
}

// summaryCSV is a line for each wearer.
func summaryCSV(good []turned) []byte {
	rows := [][]string{{
		"name", "folder", "part", "girth (mm)", "sets", "depth (mm)", "height wanted (mm)", "height solved (mm)",
		"moves when the wearer bows (mm)", "swatch overhang to reach (mm)", "findings that stop", "findings to mend",
		"fold to fold (mm)", "strip (mm)", "pieces", "joins", "band (mm)", "cloth", "bolt (mm)", "cloth to buy (m)", "cloth to buy (yd)",
		"hours least", "hours most", "share code",
	}}
	for _, t := range good {
		p, s := t.pattern, t.pattern.Plan.Scheme
		height, bow, overhang := "", "", ""
		if t.ruff != nil {
			height = decimal(t.ruff.HeightOuter_mm, 1)
			if t.ruff.BowDone {
				bow = decimal(t.ruff.Bow_mm, 2)
			}
		}
		switch n := t.need; {
		case n == nil || !n.Reason.Empty():
		case n.Bend_mm == 0:
			overhang = "0"
		default:
			overhang = decimal(n.Overhang_mm, 0)
		}
		hours := p.Work().Chosen
		rows = append(rows, []string{
			t.scheme.Name, t.folder, string(s.Wearer.Part), decimal(s.Wearer.Girth, 1), strconv.Itoa(p.Plan.Sets),
			decimal(s.Ruff.Depth, 1), decimal(s.Ruff.Height, 1), height, bow, overhang, strconv.Itoa(t.stops), strconv.Itoa(t.mends),
			decimal(p.Plan.Panel_mm, 2), decimal(p.Strip.Length_mm, 1), strconv.Itoa(len(p.Cut.Pieces)), strconv.Itoa(len(p.Cut.Joins)),
			decimal(p.Band.Length_mm, 1), s.Cloth.Name, decimal(s.Strip.Bolt, 1), decimal(p.Cut.Buy.Metric_mm/1000, 1), yards(p.Cut.Buy.Eighths),
			decimal(hours.Least, 1), decimal(hours.Most, 1), t.scheme.Code(),
		})
	}
	return []byte(pattern.CSV(rows))
}

// summaryText is the same in short, for people.
func summaryText(o pattern.Order, good []turned, u scheme.Units) []byte {
	var b bytes.Buffer
	rows := [][]string{{"", "sets", "strip", "height", "starch: overhang", "cloth", "hours", "findings"}}
	for _, t := range good {
		p, s := t.pattern, t.pattern.Plan.Scheme
		height := "-"
		if t.ruff != nil {
			height = roundedLength(t.ruff.HeightOuter_mm, u)
		}
		starch := "-"
		switch n := t.need; {
		case n == nil:
		case !n.Reason.Empty():
			starch = "none answers"
		case n.Bend_mm == 0:
			starch = "none needed"
		default:
			starch = roundedLength(n.Overhang_mm, u)
		}
		h := p.Work().Chosen
		name := t.scheme.Name
		if s.Wearer.Part == scheme.Wrist {
			name += " (cuff)"
		}
		rows = append(rows, []string{
			name, strconv.Itoa(p.Plan.Sets), roundedLength(p.Strip.Length_mm, u), height, starch,
			sold(p.Cut.Buy, u), fmt.Sprintf("%.0f to %.0f", h.Least, h.Most), t.finds(),
		})
	}
	table(&b, rows)
	b.WriteString("\nHeights as solved; what stops or needs mending stands on each record sheet.\n")
	if len(o.Lines) > 0 {
		b.WriteString("\nCloth for all together, each cut from its own length of it:\n")
	}
	for _, l := range o.Lines {
		fmt.Fprintf(&b, "  %s of %s, %s g/m2, %s wide, for %s; bought for each by itself %s\n", sold(l.Together, u), l.Cloth.Name, decimal(l.Cloth.Mass, 1),
			roundedLength(l.Bolt_mm, u), counted(len(l.Of), "wearer", "wearers"),
			sold(pattern.Buy{Metric_mm: l.Apart_mm, Eighths: l.ApartEighths}, u))
		if n := l.Left; n > 0 {
			fmt.Fprintf(&b, "    and %s that this width is too narrow for, from other cloth: see the cutting sheets\n", counted(n, "piece", "pieces"))
		}
	}
	if u == scheme.Inches {
		fmt.Fprintf(&b, "Sewing thread: %.0f yd\n", o.Thread_mm/914.4)
	} else {
		fmt.Fprintf(&b, "Sewing thread: %.0f m\n", o.Thread_mm/1000)
	}
	io.WriteString(&b, "\n"+wrapped("Buy from one roll, and wash all of it before it is cut: the lengths are of cloth as sold, with what the first wash takes.", 80, ""))
	return b.Bytes()
}

// finds says in short what was found.
func (t turned) finds() string {
	switch {
	case t.stops > 0:
		return fmt.Sprintf("do not sew: %d", t.stops)
	case t.unsolved:
		return "not solved"
	case t.mends > 0:
		return fmt.Sprintf("%d to mend", t.mends)
	}
	return "-"
}

// sold is cloth as it is sold: in m, or in yards by the eighth.
func sold(c pattern.Buy, u scheme.Units) string {
	if u != scheme.Inches {
		return decimal(c.Metric_mm/1000, 1) + " m"
	}
	return pattern.Yards(c.Eighths)
}

func yards(eighths int) string { return decimal(float64(eighths)/8, 3) }

// decimal writes a number with at most n decimals.
func decimal(x float64, n int) string {
	text := strconv.FormatFloat(x, 'f', n, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}
