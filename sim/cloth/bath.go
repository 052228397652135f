package cloth

import (
	"cmp"
	"fmt"
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Kitchen guidance, not measurement: how much starch a litre of water takes, and how
// much to cook. No source gives the stiffness that a bath leaves in a cloth (it
// depends on the cloth, the wringing and the iron), so nothing here enters a
// calculation: the swatch decides. Who shows these shows the caution of boiling
// starch with them.

// Strength is a strength of boiled starch to begin a swatch with.
type Strength struct {
	Name      word.Text
	Starch_gL float64 // g of dry starch per litre of water
}

// strengths lists them, weakest first: the steps are a judgement among the recipes
// named beside them, in grams per litre at 8 g a level 15 mL spoon of maize starch.
var strengths = []Strength{
	{word.Say("soft"), 10},        // 1 to 2 spoons a litre: 8 to 16 (vanessashomekitchen.blogspot.com, March 2010)
	{word.Say("light"), 20},       // 2 to 3 spoons a quart: 17 to 25 (The Ladies Book of Useful Information); halved for lawns: 34 (The Complete Home)
	{word.Say("medium"), 35},      // raw starch for collars: 34 (Ontario Teachers' Manuals: Household Management)
	{word.Say("stiff"), 70},       // boiled 'ordinary', half a cup a quart: 68 (The Complete Home)
	{word.Say("very stiff"), 100}, // doubled for collars: 135 (The Complete Home)
}

// StrengthName is the name of the nearest of strengths, by ratio.
func StrengthName(gL float64) (name word.Text) {
	best := math.Inf(1)
	for _, s := range strengths {
		if d := math.Abs(math.Log(gL / s.Starch_gL)); d < best {
			name, best = s.Name, d
		}
	}
	return name
}

// doublesAt is the add-on that doubles the bending length: a working guess, for
// which no usable number was found. Nothing but the first swatch leans on it.
const doublesAt = 0.05

// FirstStrength is the bath to begin the swatches with: the guess that 5 % of starch
// on the cloth doubles its bending length and each further 5 % doubles it again, at
// the pick-up of cloth wrung by hand; then the one of strengths that lies next below,
// because starch is sooner added than taken out. From bending lengths (mm, above 0)
// of the cloth and of the target; none, 0 g/L, where the cloth itself reaches the
// target.
func FirstStrength(cloth_mm, target_mm float64) Strength {
	if !(cloth_mm > 0 && target_mm > cloth_mm) || math.IsInf(target_mm, 0) {
		return Strength{Name: word.Say("none")}
	}
	guess := doublesAt * math.Log2(target_mm/cloth_mm) / PickUp * 1000
	best := strengths[0]
	for _, s := range strengths {
		if s.Starch_gL <= guess*1.05 {
			best = s
		}
	}
	return best
}

// StarchedMost_mm is the bending length that starched cloth is expected to show at
// most (40 to 90 mm by this project's estimate from masses and overhangs, no source).
const StarchedMost_mm = 90

// Starch is what is known of a dry starch.
type Starch struct {
	Kind         scheme.StarchKind
	Density_gpmL float64 // dry, spooned and level; packing changes it by a fifth either way: weigh it
	// Gelatinisation, °C: where the grains begin to swell and where the last have.
	From_C, To_C float64
	RangeSource  word.Text
}

// starches are the four of the scheme.
//
// Densities: maize 128 g a US cup of 236.6 mL (a USDA figure), potato about 160 g a
// cup; the others from memory of handbooks. The order of the four ranges is published
// (Food Chemistry 81 (2003) 219): maize and rice above wheat and potato.
var starches = []Starch{
	{scheme.Maize, 0.54, 62, 72, word.Say("handbooks, from memory")},
	{scheme.Wheat, 0.55, 58, 64, word.Say("handbooks, from memory")},
	{scheme.Potato, 0.67, 58, 68, word.Say("handbooks, from memory")},
	{scheme.Rice, 0.55, 68, 78, word.Say("handbooks, from memory; by calorimetry 56 to 82 by variety")},
}

// What a bath is reckoned with.
const (
	// Spoon_mL is a level tablespoon in mL, as the recipes take it.
	Spoon_mL = 15
	// PickUp: wet cloth wrung by hand carries so many times its dry mass, from the
	// least to the most (from memory of handbooks).
	PickUpLeast, PickUp, PickUpMost = 1.0, 1.2, 1.5
	// liquor: litres that cover a kilogram of cloth so that it can be moved about, far
	// more than it takes up; cookLeast: no less is worth boiling. Common practice, no
	// source.
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
	Cook_L      float64 // to cook: covers the cloth
	Starch_g    float64
	Spoons      float64 // level, of Spoon_mL
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
// with 1 kg of bath taken for 1 L. What is cooked covers the cloth (10 L a kg) and is
// at least half a litre, rounded up to a quarter.
func NewBath(kind scheme.StarchKind, strength_gL, area_m2, mass_gm2 float64) (Bath, error) {
	b := Bath{Strength_gL: strength_gL, Area_m2: area_m2, Dry_g: area_m2 * mass_gm2}
	for _, s := range starches {
		if s.Kind == kind {
			b.Starch = s
		}
	}
	if b.Starch.Kind == "" {
		return Bath{}, fmt.Errorf("starch.kind %q is none of maize, wheat, potato and rice", kind)
	}
	if err := cmp.Or(within("starch.bath", strength_gL, 1, 150, "g/L"), within("area", area_m2, 0.001, 50, "m²"), checkMass(mass_gm2)); err != nil {
		return Bath{}, err
	}
	b.Taken_L = b.Dry_g / 1000 * PickUp
	b.Cook_L = math.Ceil(4*math.Max(cookLeast_L, b.Dry_g/1000*liquor_Lpkg)-1e-9) / 4
	b.Starch_g = strength_gL * b.Cook_L
	b.Spoons = b.Starch_g / (b.Starch.Density_gpmL * Spoon_mL)
	b.Cold_L = coldShare * b.Cook_L
	b.Hot_L = b.Cook_L - b.Cold_L
	b.AddOn = PickUp * strength_gL / 1000
	return b, nil
}
