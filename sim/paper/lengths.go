package paper

import (
	"math"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// How lengths, volumes and weights are written on the sheets.

// len writes a length as a maker measures it, with its unit: to 0.5 mm; in inches to
// 1/16, as a tape measure shows it, below 1/2 in to 1/32. What must be exact is drawn,
// not written.
func (j *job) len(mm float64) word.Text { return word.Say("%s %s", j.bare(mm), j.Units.Symbol()) }

func (j *job) bare(mm float64) word.Text {
	if !finite(mm) {
		return word.Name("–")
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
func thirtySeconds(n int) word.Text {
	return word.Say("%s", word.Written(scheme.BareLength(float64(n)*25.4/32, scheme.Inches)))
}

func (j *job) place(p pattern.Place) word.Text {
	return word.Say("%s %s", j.placed(p), j.Units.Symbol())
}

func (j *job) placed(p pattern.Place) word.Text {
	return word.Say("%s", word.Written(j.table.Text(p)))
}

// near writes a length that is computed, not to be measured off: to 0.1 mm, in
// inches to 1/32.
func (j *job) near(mm float64) word.Text {
	switch {
	case !finite(mm):
		return j.len(mm)
	case j.Units == scheme.Centimetres:
		return word.Say("%s cm", trim(mm/10, 2))
	case j.Units == scheme.Millimetres:
		return word.Say("%s mm", trim(mm, 1))
	}
	return j.len(mm)
}

// move writes a small move in mm, whatever the unit of the sheets: it is looked
// for in tenths.
func move(mm float64) word.Text {
	return when(mm != 0 && math.Abs(mm) < 0.05, word.Say("under 0.1 mm"), word.Say("%s mm", trim(mm, 1)))
}

// long writes a long length in m or yards.
func (j *job) long(mm float64) word.Text {
	places := func(x float64) int {
		if x < 1 {
			return 2
		}
		return 1
	}
	return when(j.Units == scheme.Inches, word.Say("%s yd", trim(mm/914.4, places(mm/914.4))), word.Say("%s m", trim(mm/1000, places(mm/1000))))
}

// swatchLen writes a length of a test strip. Its exact length does not matter, so in
// inches it is a round one, no shorter: 25 mm is 1 in, 250 mm 10 in.
func (j *job) swatchLen(mm float64) word.Text {
	if j.Units == scheme.Inches {
		return word.Say("%s in", thirtySeconds(8*int(math.Ceil(mm/25.4*4-1e-9))))
	}
	return j.len(mm)
}

// litres writes a volume: in mL below a litre, with cups for inches (US cup
// 236.588 mL).
func (j *job) litres(l float64) word.Text {
	s := when(l < 1, word.Say("%d mL", 5*int(math.Round(200*l))), word.Say("%s L", trim(l, 2)))
	if j.Units == scheme.Inches {
		s = word.Say("%s (%s US cups)", s, trim(math.Round(4*l/0.236588)/4, 2))
	}
	return s
}

// grams writes a weight that a kitchen balance can show.
func grams(g float64) word.Text {
	return when(g < 50, word.Say("%s g", trim(math.Round(2*g)/2, 1)), word.Say("%s g", trim(g, 0)))
}
