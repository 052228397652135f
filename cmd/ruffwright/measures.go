package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
)

// said writes what a measure comes to, with its unit; - where it is not known.
func said(q *measure.Measure, of *measure.Values, u scheme.Units) string {
	value, known := q.Of(of)
	switch v := value.(type) {
	case bool:
		switch {
		case v:
			return "yes"
		case known:
			return q.No
		}
	case string:
		return v
	case measure.Lean:
		if v != measure.LeanUnasked {
			return string(v)
		}
	case [2]float64:
		if known {
			return solvedLengths(v[:], u)
		}
	case measure.Lengths:
		if known {
			return solvedLengths(v[:], u)
		}
	case [measure.Conditions]float64:
		if known {
			return solvedLengths(v[:], u)
		}
	default:
		if x, known := q.Number(of); known {
			return quantity(x, q.Unit, u)
		}
	}
	return "-"
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

// roundedLength writes a length as a ruler reads it: to 0.1 mm, or to 1/32 in.
func roundedLength(mm float64, units scheme.Units) string {
	return scheme.FormatLength(scheme.Rounded(mm, units), units)
}

// solvedLengths writes several.
func solvedLengths(mm []float64, u scheme.Units) string {
	texts := make([]string, len(mm))
	for k, x := range mm {
		texts[k] = solvedLength(x, u)
	}
	return strings.Join(texts, ", ")
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
