package paper

import (
	"fmt"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/cloth"
)

type target struct {
	known       bool
	fromScheme  bool      // the scheme's own starch.bend, not the mechanics'
	none        bool      // no starch is needed
	reason      word.Text // why no starch answers it; the scheme's own target may still stand
	bend_mm     float64   // at the cloth's unstarched mass
	overhang_mm float64   // as the starched swatch hangs
	beyond      bool      // longer than the test strips can show: nothing to look for on the card
}

func (j *job) target() (target, error) {
	t := target{}
	found := j.Need != nil && j.Need.Reason.Empty()
	if j.Need != nil {
		t.reason = j.Need.Reason
	}
	switch {
	case j.s.Starch.Bend > 0:
		t.known, t.fromScheme, t.bend_mm = true, true, j.s.Starch.Bend
	case found && j.Need.Bend_mm == 0:
		return target{known: true, none: true}, nil
	case found:
		t.known, t.bend_mm, t.overhang_mm = true, j.Need.Bend_mm, j.Need.Overhang_mm
	default:
		return t, nil
	}
	if t.overhang_mm == 0 {
		l, err := cloth.Overhang(t.bend_mm, cloth.Slope_deg)
		if err != nil {
			return t, fmt.Errorf("paper: starch target: %w", err)
		}
		t.overhang_mm = l
	}
	t.beyond = t.overhang_mm > j.starchStrip()-pattern.HoldLong_mm+1
	return t, nil
}

func (j *job) starchStrip() float64 {
	for _, w := range j.Pattern.Swatches() {
		if w.Kind == pattern.KindStarch {
			return w.Long_mm
		}
	}
	return 0
}

// least says what the least starch that would do is, beside the scheme's own target.
func (j *job) least() word.Text {
	n := j.Need
	switch {
	case n == nil && !j.Unsolved.Empty(), n != nil && !n.Reason.Empty():
		return word.Text{}
	case n == nil:
		return word.Say("The least that would do is not solved yet.")
	case n.Bend_mm == 0:
		return word.Say("The least that would do, as solved: none, this cloth holds the %s up by itself. %s", j.thing(), j.manyWays())
	}
	l := n.Overhang_mm
	if l == 0 {
		l = 2 * n.Bend_mm
	}
	words := word.Say("The least that would do, as solved: an overhang of %s (bending length %s). %s", j.len(l), j.len(n.Bend_mm), j.needWords())
	if n.Bend_mm > j.s.Starch.Bend+0.5 {
		words = word.Join(" ", words, word.Say("The scheme's target is less: with it the %s does not hold up.", j.thing()))
	}
	return words
}

// clothBend is the unstarched bending length along the strip, mm.
func (j *job) clothBend() float64 {
	if j.s.Strip.Along == scheme.Warp {
		return j.s.Cloth.BendWarp
	}
	return j.s.Cloth.BendWeft
}

// bath is the bath for all that is starched: strip and band of all that are made.
func (j *job) bath(t target) (cloth.Bath, error) {
	strength := j.s.Starch.Bath
	if strength < 1 { // 0: the maker leaves it to the card
		target_mm := 2 * j.clothBend()
		if t.known && !t.none {
			target_mm = max(t.bend_mm, target_mm)
		}
		strength = cloth.FirstStrength(j.clothBend(), target_mm).Starch_gL
	}
	return cloth.NewBath(j.s.Starch.Kind, strength, j.area(), j.s.Cloth.Mass)
}

// area of strip and band of all that are made, m².
func (j *job) area() float64 {
	var mm2 float64
	for _, p := range j.Pattern.Cut.Pieces {
		mm2 += p.Length_mm * p.Width_mm
	}
	b := j.Pattern.Band
	mm2 += (b.Length_mm + 2*b.Seam_mm) * (2*b.Height_mm + 2*b.Seam_mm)
	return float64(j.Pattern.Made) * mm2 / 1e6
}
