package paper

import (
	"fmt"
	"math"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/cloth"
)

// Spoon_mL is a level tablespoon in mL, as the recipes take it.
const Spoon_mL = 15

// Starch is what is known of a dry starch.
type Starch struct {
	Kind          scheme.StarchKind
	Density_gpmL  float64 // dry, spooned and level; packing changes it by a fifth either way: weigh it
	DensitySource string
	// Gelatinisation, °C: where the grains begin to swell and where the last have.
	From_C, To_C float64
	RangeSource  string
}

// Starches gives the four starches of the scheme.
//
// Maize: 128 g a US cup of 236.6 mL (a USDA figure). Potato about 160 g a cup. The
// others from memory of handbooks, and marked so. The order of the four ranges is
// published (Food Chemistry 81 (2003) 219): maize and rice above wheat and potato.
func Starches() []Starch {
	const (
		memory = "handbooks, from memory"
		usda   = "128 g a US cup (USDA figure)"
	)
	return []Starch{
		{scheme.Maize, 0.54, usda, 62, 72, memory},
		{scheme.Wheat, 0.55, memory, 58, 64, memory},
		{scheme.Potato, 0.67, memory, 58, 68, memory},
		{scheme.Rice, 0.55, memory, 68, 78, memory + "; by calorimetry 56 to 82 by variety"},
	}
}

// StarchOf gives one of Starches.
func StarchOf(kind scheme.StarchKind) (Starch, error) {
	for _, s := range Starches() {
		if s.Kind == kind {
			return s, nil
		}
	}
	return Starch{}, scheme.Error{Field: "starch.kind", Value: word.Name(string(kind)), Allowed: word.Say("maize, wheat, potato or rice"), Why: word.Say("is no starch that the card knows")}
}

// Spoons is how many level tablespoons of 15 mL hold g grams.
func (s Starch) Spoons(g float64) float64 { return g / (s.Density_gpmL * Spoon_mL) }

// Grams is what so many level tablespoons hold.
func (s Starch) Grams(spoons float64) float64 { return spoons * s.Density_gpmL * Spoon_mL }

// What a bath is reckoned with.
const (
	// pickUp: wet cloth wrung by hand carries 100 to 150 % of its dry mass (from
	// memory of handbooks).
	pickUpLeast, pickUp, pickUpMost = 1.0, 1.2, 1.5
	// liquor: litres that cover a kilogram of cloth so that it can be moved about;
	// cookLeast: no less is worth boiling. Common practice, no source.
	liquor_Lpkg, cookLeast_L = 10, 0.5
	// coldShare of the water is kept cold for the slurry: 1 cup beside 1 quart,
	// as in a published recipe (¼ cup of starch, 1 cup cold, 1 quart boiling).
	coldShare = 0.2
)

// Bath is what to cook for a piece of cloth.
type Bath struct {
	Starch      Starch
	Strength_gL float64 // grams of dry starch per litre of water
	Area_m2     float64
	Dry_g       float64 // of the cloth
	Taken_L     float64 // of the bath, that stays in the cloth wrung by hand
	TakenMost_L float64 // wrung least
	Cook_L      float64 // to cook: covers the cloth
	Starch_g    float64
	Spoons      float64 // level, 15 mL
	Cold_L      float64 // of Cook_L, for the slurry
	Hot_L       float64 // the rest
	AddOn       float64 // dry starch that stays, as a fraction of the cloth's dry mass: pick-up × strength
}

// NewBath reckons the bath for area m² (0.001 to 50) of cloth of mass g/m² (1 to
// 2,000) at a strength of 1 to 150 g/L:
//
//	cloth = area · mass;  taken = cloth · pick-up;  starch = strength · cooked
//	add-on = pick-up · strength        (80 % · 6 % = 4.8 %, a published example)
//
// with 1 kg of bath taken for 1 L. What is cooked covers the cloth (10 L a kg), is
// twice what the cloth can take, and at least half a litre, rounded up to a
// quarter.
func NewBath(kind scheme.StarchKind, strength_gL, area_m2, mass_gm2 float64) (Bath, error) {
	st, err := StarchOf(kind)
	if err != nil {
		return Bath{}, err
	}
	for _, f := range []struct {
		field     string
		v, lo, hi float64
		unit      string
	}{
		{"starch.bath", strength_gL, 1, 150, "g/L"},
		{"area", area_m2, 0.001, 50, "m²"},
		{"cloth.mass", mass_gm2, cloth.MassMin_gm2, cloth.MassMax_gm2, "g/m²"},
	} {
		if !(f.v >= f.lo && f.v <= f.hi) { // NaN fails too
			return Bath{}, scheme.Error{Field: f.field, Value: word.Say("%g %s", f.v, f.unit), Allowed: word.Say("%g to %g %s", f.lo, f.hi, f.unit), Why: word.Say("gives no bath")}
		}
	}
	b := Bath{Starch: st, Strength_gL: strength_gL, Area_m2: area_m2, Dry_g: area_m2 * mass_gm2}
	b.Taken_L = b.Dry_g / 1000 * pickUp
	b.TakenMost_L = b.Dry_g / 1000 * pickUpMost
	b.Cook_L = math.Ceil(4*math.Max(cookLeast_L, math.Max(2*b.TakenMost_L, b.Dry_g/1000*liquor_Lpkg))-1e-9) / 4
	b.Starch_g = strength_gL * b.Cook_L
	b.Spoons = st.Spoons(b.Starch_g)
	b.Cold_L = coldShare * b.Cook_L
	b.Hot_L = b.Cook_L - b.Cold_L
	b.AddOn = pickUp * strength_gL / 1000
	return b, nil
}

// doublesAt is the add-on that doubles the bending length: a working guess, for
// which no usable number was found. Nothing but the first swatch leans on it.
const doublesAt = 0.05

// FirstStrength is the bath to begin the swatches with, g/L: the guess that 5 % of
// starch on the cloth doubles its bending length and each further 5 % doubles it
// again, at the pick-up of cloth wrung by hand; then the strength of cloth.Baths
// that lies next below, because starch is sooner added than taken out. From
// bending lengths (mm, above 0) of the cloth and of the target; 0 where the cloth
// itself reaches the target.
func FirstStrength(cloth_mm, target_mm float64) (strength_gL float64, name string) {
	if !(cloth_mm > 0 && target_mm > cloth_mm) || math.IsInf(target_mm, 0) {
		return 0, "none"
	}
	guess := doublesAt * math.Log2(target_mm/cloth_mm) / pickUp * 1000
	baths := cloth.Baths()
	best := baths[0]
	for _, b := range baths {
		if b.Starch_gL <= guess*1.05 {
			best = b
		}
	}
	return best.Starch_gL, best.Name
}

// reached_mm is the bending length that starched cloth is expected to reach at most
// (this project's estimate from masses and overhangs, no source).
const reached_mm = 90

// slope_deg is the angle of the swatch test: there the overhang is twice the
// bending length (cloth.Span(41.5) = 2.0003).
const slope_deg = 41.5

// target is the starch target that the cards print.
type target struct {
	known       bool
	fromScheme  bool    // the scheme's own starch.bend, not the mechanics'
	none        bool    // no starch is needed
	reason      string  // why no starch answers it; the scheme's own target may still stand
	bend_mm     float64 // at the cloth's unstarched mass
	overhang_mm float64 // as the starched swatch hangs
	beyond      bool    // longer than the test strips can show: nothing to look for on the card
}

// target finds it: the scheme's own, else the least that would do by need.
func (j *job) target() (target, error) {
	t := target{}
	found := j.Need != nil && j.Need.Reason == ""
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
		l, err := cloth.Overhang(t.bend_mm, slope_deg)
		if err != nil {
			return t, fmt.Errorf("paper: starch target: %w", err)
		}
		t.overhang_mm = l
	}
	t.beyond = t.overhang_mm > j.starchStrip()-pattern.HoldLong_mm+1
	return t, nil
}

// starchStrip is how long the strips for starch are cut, mm.
func (j *job) starchStrip() float64 {
	for _, w := range j.Pattern.Swatches() {
		if w.Name == pattern.StarchSwatch {
			return w.Long_mm
		}
	}
	return 0
}

// least says what the least starch that would do is, beside the scheme's own target.
func (j *job) least() string {
	n := j.Need
	switch {
	case n == nil && j.Unsolved != "", n != nil && n.Reason != "":
		return ""
	case n == nil:
		return "The least that would do is not solved yet."
	case n.Bend_mm == 0:
		return "The least that would do, as solved: none, this cloth holds the " + j.thing() + " up by itself." + j.manyWays()
	}
	l := n.Overhang_mm
	if l == 0 {
		l = 2 * n.Bend_mm
	}
	words := "The least that would do, as solved: an overhang of " + j.len(l) + " (bending length " + j.len(n.Bend_mm) + ")." + j.needWords()
	if n.Bend_mm > j.s.Starch.Bend+0.5 {
		words += " The scheme's target is less: with it the " + j.thing() + " does not hold up."
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
func (j *job) bath(t target) (Bath, error) {
	strength := j.s.Starch.Bath
	if strength < 1 { // 0: the maker leaves it to the card
		target_mm := 2 * j.clothBend()
		if t.known && !t.none {
			target_mm = max(t.bend_mm, target_mm)
		}
		strength, _ = FirstStrength(j.clothBend(), target_mm)
	}
	return NewBath(j.s.Starch.Kind, strength, j.area(), j.s.Cloth.Mass)
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

// stick is the thickest round rod to be had that goes into a loop of the clear
// width given: 1 mm of room for cloth that is still damp. 0: none is thin enough.
func stick(loop_mm float64, u scheme.Units) float64 {
	rods := []float64{3, 4, 5, 6, 8, 10, 12, 15, 18, 20, 22, 25, 28, 30, 35, 40, 45, 50}
	if u == scheme.Inches {
		rods = nil
		for n := 1.0; n <= 16; n++ { // eighths of an inch
			rods = append(rods, n*25.4/8)
		}
	}
	best := 0.0
	for _, r := range rods {
		if r <= loop_mm-1 {
			best = r
		}
	}
	return best
}
