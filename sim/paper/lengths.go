package paper

import (
	"math"
	"strconv"

	"ruffwright/geom/scheme"
)

// How lengths, volumes and weights are written on the sheets.

// len writes a length as a maker measures it, with its unit: to 0.5 mm; in inches to
// 1/16, as a tape measure shows it, below 1/2 in to 1/32. What must be exact is drawn,
// not written.
func (j *job) len(mm float64) string { return j.bare(mm) + " " + j.Units.Symbol() }

// bare is len without the unit.
func (j *job) bare(mm float64) string {
	if !finite(mm) {
		return "–"
	}
	if j.Units == scheme.Inches {
		n := int(math.Round(mm / 25.4 * 32))
		if n <= -16 || n >= 16 {
			n = 2 * int(math.Round(mm/25.4*16))
		}
		return thirtySeconds(n)
	}
	const halves = 2 // of a mm
	if j.Units == scheme.Centimetres {
		return trim(math.Round(mm*halves)/halves/10, 2)
	}
	return trim(math.Round(mm*halves)/halves, 1) // without a mark for thousands, as it may be typed in
}

// thirtySeconds writes n/32 as a mixed fraction in lowest terms: "15 1/2".
func thirtySeconds(n int) string {
	return scheme.Minus(scheme.BareLength(float64(n)*25.4/32, scheme.Inches))
}

// near writes a length that is computed, not to be measured off: to 0.1 mm, in
// inches to 1/32.
func (j *job) near(mm float64) string {
	switch {
	case !finite(mm):
		return j.len(mm)
	case j.Units == scheme.Centimetres:
		return trim(mm/10, 2) + " cm"
	case j.Units == scheme.Millimetres:
		return trim(mm, 1) + " mm"
	}
	return j.len(mm)
}

// move writes a small move in mm, whatever the unit of the sheets: it is looked
// for in tenths.
func move(mm float64) string {
	if mm != 0 && math.Abs(mm) < 0.05 {
		return "under 0.1 mm"
	}
	return trim(mm, 1) + " mm"
}

// long writes a long length in m or yards.
func (j *job) long(mm float64) string {
	places := func(x float64) int {
		if x < 1 {
			return 2
		}
		return 1
	}
	if j.Units == scheme.Inches {
		return trim(mm/914.4, places(mm/914.4)) + " yd"
	}
	return trim(mm/1000, places(mm/1000)) + " m"
}

// swatchLen writes a length of a test strip. Its exact length does not matter, so in
// inches it is a round one, no shorter: 25 mm is 1 in, 250 mm 10 in.
func (j *job) swatchLen(mm float64) string {
	if j.Units == scheme.Inches {
		return thirtySeconds(8*int(math.Ceil(mm/25.4*4-1e-9))) + " in"
	}
	return j.len(mm)
}

// unitWord is the unit in words.
func unitWord(u scheme.Units) string {
	switch u {
	case scheme.Inches:
		return "inches"
	case scheme.Centimetres:
		return "cm"
	}
	return "mm"
}

// litres writes a volume: in mL below a litre, with cups for inches (US cup
// 236.588 mL).
func (j *job) litres(l float64) string {
	s := trim(l, 2) + " L"
	if l < 1 {
		s = strconv.Itoa(5*int(math.Round(200*l))) + " mL"
	}
	if j.Units == scheme.Inches {
		s += " (" + trim(math.Round(4*l/0.236588)/4, 2) + " US cups)"
	}
	return s
}

// grams writes a weight that a kitchen balance can show.
func grams(g float64) string {
	if g < 50 {
		return trim(math.Round(2*g)/2, 1) + " g"
	}
	return trim(g, 0) + " g"
}
