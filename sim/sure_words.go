package sim

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/cloth"
	"ruffwright/sim/measure"
)

// step_mm is how exactly the length of a made ruff is said: to half a millimetre, and in
// inches to 1/32, as rulers show them.
func step_mm(u scheme.Units) float64 {
	if u == scheme.Inches {
		return 25.4 / 32
	}
	return 0.5
}

// Told are the figure and the ends of its interval as they are said, mm. The ends are
// rounded outward, so that the interval is never narrower than it is known.
func (s Sure) Told(u scheme.Units) (value, low, high float64) {
	step := step_mm(u)
	return math.Round(s.Value_mm/step)*step + 0, math.Floor(s.Low_mm/step)*step + 0, math.Ceil(s.High_mm/step)*step + 0
}

// Says is the figure with its interval in words.
func (s Sure) Says(u scheme.Units) word.Text {
	value, _, _ := s.Told(u)
	return word.Say("%s, %s", scheme.Length(value, u), s.Likely(u))
}

// Likely is the interval alone.
func (s Sure) Likely(u scheme.Units) word.Text {
	_, low, high := s.Told(u)
	bare := func(mm float64) any { return word.Written(scheme.BareLength(mm, u)) }
	return word.Say("likely %s to %s", bare(low), bare(high))
}

// Named is what the figure is called in a sentence.
func (s Sure) Named() word.Text {
	return [measure.Figures]word.Text{
		word.Say("the height"), word.Say("the droop"), word.Say("the swing when the wearer bows"),
		word.Say("the loop’s width"), word.Say("the outer edge’s distance from the neck"),
	}[s.Figure]
}

// Narrows is the sentence that says what would narrow the widest of the intervals of height,
// droop and swing most; empty where nothing is told.
func (r *Ruff) Narrows(all []Sure) word.Text {
	var of Sure
	var most Doubt
	for _, s := range all {
		if d := s.Doubts[0]; s.Figure <= measure.Bow && d.Less+d.More > most.Less+most.More {
			of, most = s, d
		}
	}
	switch most.By {
	case ByCloth:
		switch cloth.HowSure(r.Plan.Given).From {
		case cloth.ByName:
			return word.Say("The cloth is a guess: a swatch of your own would narrow %s most.", of.Named())
		case cloth.ByLength:
			return word.Say("How sure your bending lengths are is not told: several readings of a swatch would narrow %s most.", of.Named())
		}
		return word.Say("More readings of the cloth would narrow %s most.", of.Named())
	case ByHand:
		return word.Say("More exact marks would narrow %s most: use the marking tape.", of.Named())
	case ByShapes:
		return word.Say("Of %s most is in doubt because the inside of the tucks can lie in several ways.", of.Named())
	case ByNear:
		return word.Say("Of %s most is in doubt because a ruff 1 %% larger may take another shape.", of.Named())
	case ByMesh:
		return word.Say("Most of what is in doubt of %s is the solver’s own.", of.Named())
	}
	return word.Text{}
}
