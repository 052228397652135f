package paper

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/cloth"
	"ruffwright/sim/paper/sheet"
)

func (j *job) starch() ([]*sheet.Page, error) {
	f := j.flow(word.Say("Starch and set"), word.Say("bath, swatch loop, sticks, drying"))
	t := j.goal
	b, err := j.bath(t)
	if err != nil {
		return nil, err
	}
	done := map[string]bool{}

	f.Head(word.Say("How stiff"), 16)
	j.howStiff(f, t)

	f.Head(word.Say("The bath"), 30)
	f.Para(word.Say("**Begin with %s g of %s starch to a litre of water** (%s; what the scheme says). %s Kitchen guidance, no standard: published household recipes run from 8 to 135 g/L, and every cloth takes it differently. The swatch decides.", trim(b.Strength_gL, 0), word.Say(string(b.Starch.Kind)), cloth.StrengthName(b.Strength_gL), j.guess(t, b)))
	f.Table(sheet.Body, []sheet.Col{sheet.Words(word.Text{}, 46), sheet.Numbers(word.Text{}, 24), sheet.Words(word.Text{}, 46)}, [][]word.Text{
		{j.starched(), word.Say("%s m², %s g", trim(b.Area_m2, 2), trim(b.Dry_g, 0)), word.Say("at %s g/m²", trim(j.s.Cloth.Mass, 0))},
		{word.Say("takes up, wrung by hand"), j.litres(b.Taken_L), word.Say("%g %% of its weight (%g to %g %%)", 100*cloth.PickUp, 100*cloth.PickUpLeast, 100*cloth.PickUpMost)},
		{word.Say("cook"), j.litres(b.Cook_L), word.Say("so much that it can be moved about in it")},
		{word.Say("dry starch, weighed"), grams(b.Starch_g), word.Say("or %s, level; spoons err by a fifth", j.spoons(b))},
		{word.Say("cold water for the slurry"), j.litres(b.Cold_L), word.Say("a fifth of the water")},
		{word.Say("boiling water"), j.litres(b.Hot_L), word.Text{}},
		{word.Say("stays in the cloth"), word.Say("%s %% of its weight", trim(100*b.AddOn, 1)), word.Say("pick-up × strength")},
	})
	j.warnAll(f, done, StepCook)
	f.Tick(word.Say("**Cold slurry first.** Stir the starch smooth into the cold water. Starch thrown into hot water makes lumps."))
	f.Tick(word.Say("**Then heat to a clear paste.** Pour the slurry into the boiling water, stirring. Keep it near the boil until it turns from milky to clear: 5 to 15 minutes. %s thickens from %s to %s °C (%s); held near the boil till clear every kind is cooked. Strain it.", starches[b.Starch.Kind], trim(b.Starch.From_C, 0), trim(b.Starch.To_C, 0), b.Starch.RangeSource))
	f.Tick(word.Say("**Let it cool till hand-warm** before hands go in."))
	f.Para(word.Say("~~For a tint:~~ a little laundry blue or saffron in the bath, tried on a swatch first."))
	j.warnAll(f, done, StepColour)

	f.Head(word.Say("The swatch loop"), 20)
	f.Tick(word.Say("Starch three strips, wring them as you will wring the %s, dry them flat until hard, let them cool.", j.thing()))
	f.Tick(word.Say("Hang them on the swatch card, compare with the target, write it down."))
	f.Tick(word.Say("Under the target: a third more starch, new strips. More than a tenth over: a third less. Two or three rounds are usual. ~~(Steps: common practice, no source.)~~"))
	f.Tick(word.Say("Only then the %s itself, with the same bath, the same wringing, the same drying.", j.thing()))

	f.Head(word.Say("Starch and dry"), 20)
	f.Tick(word.Say("Wet the washed %s through, squeeze it out, work the paste in from both sides so that no fold stays dry inside. Wipe off what lies on the surface.", j.thing()))
	f.Tick(word.Say("Press the band flat first. Pull the outer edge straight, lay or hang it so that folds do not stick together, and dry it hard, in moving air."))
	j.warnAll(f, done, StepDry)

	j.set(f)
	j.warnAll(f, done, StepSet)

	f.Head(word.Say("Washing it out"), 16)
	f.Para(word.Say("Starch comes out: about three baths of tepid or cold water, some 20 minutes each. Wash it out before it is put away for long: silverfish eat starch."))
	return f.Pages, nil
}

var starches = map[scheme.StarchKind]word.Text{
	scheme.Maize: word.Say("Maize starch"), scheme.Wheat: word.Say("Wheat starch"), scheme.Potato: word.Say("Potato starch"), scheme.Rice: word.Say("Rice starch"),
}

func (j *job) starched() word.Text {
	return when(j.Pattern.Made > 1, word.Say("strips and bands of both"), word.Say("strip and band"))
}

// howStiff says how stiff a starched swatch must be: the scheme's own target first,
// the least that would do beside it.
func (j *job) howStiff(f *sheet.Flow, t target) {
	if !t.reason.Empty() && !t.fromScheme {
		f.Para(word.Say("**Starch alone will not do:** %s", t.reason))
	}
	switch {
	case !t.known && !t.reason.Empty():
		f.Para(word.Say("There is no target. The bath below is where the scheme begins; compare by eye."))
	case !t.known && !j.Unsolved.Empty():
		f.Para(word.Say("**No target:** this %s cannot be solved as it is planned; the record sheet says why. The bath below is where the scheme begins; compare by eye.", j.thing()))
	case !t.known:
		f.Para(word.Say("**Not solved yet.** How stiff this %s must be is found by solving it: on the page ask for the starch target, by command: ruffwright need, with this scheme. It gives the overhang that a starched swatch must show. Until then begin with the bath below and compare by eye.", j.thing()))
	case t.none && !j.manyWays().Empty():
		f.Para(word.Say("**Not needed to hold it up, but starch makes the sets alike.** Solved with this cloth the %s holds itself up. %s", j.thing(), j.manyWays()))
	case t.none:
		f.Para(word.Say("**No starch needed:** solved with this cloth the %s holds itself up. Starch is a choice here.", j.thing()))
	default:
		from, words := word.Say("The least stiffness that holds this %s, as solved", j.thing()), j.needWords()
		if t.fromScheme {
			from, words = word.Say("The scheme's own wish, its bending length starched"), word.Text{}
		}
		f.Para(word.Say("**Target: a starched swatch hangs over by %s** before its tip touches the slope of 41.5° (bending length %s, the cloth alone has about %s). %s. %s", j.len(t.overhang_mm), j.len(t.bend_mm), j.len(j.clothBend()), from, words))
		if t.bend_mm > cloth.StarchedMost_mm {
			var beyond word.Text
			if t.beyond {
				beyond = word.Say("The test strips of %s cannot show this target.", j.swatchLen(j.starchStrip()))
			}
			f.Para(word.Say("**Hardly to be reached:** starched cloth shows bending lengths of up to %s (an estimate, no source). %s Before you cook ever stronger baths, sew the other edge as well, tuck the folds, or support the %s.", j.len(cloth.StarchedMost_mm), beyond, j.thing()))
		}
	}
	if t.fromScheme {
		if words := j.least(); !words.Empty() {
			f.Para(words)
		}
		if !t.reason.Empty() {
			f.Para(word.Say("**Starch alone will not do:** %s", t.reason))
		}
	}
}

// manyWays warns that tucked cloth without starch settles in more shapes than the
// one that was solved.
func (j *job) manyWays() word.Text {
	return when(!j.tucked(), word.Text{}, word.Say("But tucked and not starched, cloth has several ways to lie, and every set finds its own. One of them was solved; starch makes them alike."))
}

func (j *job) needWords() word.Text {
	n := j.Need
	if n == nil || !n.Reason.Empty() {
		return word.Text{}
	}
	var with []word.Text
	if n.Droop_mm > 0 && finite(n.Droop_mm) {
		with = append(with, word.Say("droops by %s mm", trim(n.Droop_mm, 1)))
	}
	if n.Bow_mm > 0 && finite(n.Bow_mm) {
		with = append(with, word.Say("moves by %s mm when the wearer bows", trim(n.Bow_mm, 1)))
	}
	return when(len(with) == 0, word.Text{}, word.Say("With it the %s %s.", j.thing(), list(with)))
}

// guess says what strength the target would ask for by the working guess.
func (j *job) guess(t target, b cloth.Bath) word.Text {
	if !t.known || t.none {
		return word.Text{}
	}
	first := cloth.FirstStrength(j.clothBend(), t.bend_mm)
	return when(first.Starch_gL == 0 || math.Abs(first.Starch_gL-b.Strength_gL) < 1,
		word.Text{},
		word.Say("For this target a rough guess (5 %% of starch doubles the bending length; no source) begins at %s g/L, %s.", trim(first.Starch_gL, 0), first.Name))
}

func (j *job) spoons(b cloth.Bath) word.Text {
	return when(b.Spoons < 1, word.Say("%s teaspoons of 5 mL", trim(math.Round(2*3*b.Spoons)/2, 1)), word.Say("%s spoons of %d mL", trim(math.Round(2*b.Spoons)/2, 1), cloth.Spoon_mL))
}
