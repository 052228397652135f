package paper

import (
	"fmt"
	"math"
	"strconv"

	"ruffwright/geom/scheme"
	"ruffwright/sim/cloth"
	"ruffwright/sim/paper/sheet"
)

// starch is the starch-and-set card.
func (j *job) starch() ([]*sheet.Page, error) {
	f := sheet.NewFlow("Starch and set")
	f.Page.Holds = "bath, swatch loop, sticks, drying"
	t, err := j.target()
	if err != nil {
		return nil, err
	}
	b, err := j.bath(t)
	if err != nil {
		return nil, err
	}
	done := map[string]bool{}

	f.Head("How stiff", 16)
	j.howStiff(f, t)

	f.Head("The bath", 30)
	f.Para(sheet.Strong(fmt.Sprintf("Begin with %s g of %s starch to a litre of water", trim(b.Strength_gL, 0), b.Starch.Kind)), sheet.Plain(fmt.Sprintf(" (%s; what the scheme says).%s Kitchen guidance, no standard: published household recipes run from 8 to 135 g/L, and every cloth takes it differently. The swatch decides.", cloth.StrengthName(b.Strength_gL), j.guess(t, b))))
	f.Table(sheet.Body, []sheet.Col{sheet.Words("", 46), sheet.Numbers("", 24), sheet.Words("", 46)}, [][]string{
		{j.starched(), trim(b.Area_m2, 2) + " m², " + trim(b.Dry_g, 0) + " g", "at " + trim(j.s.Cloth.Mass, 0) + " g/m²"},
		{"takes up, wrung by hand", j.litres(b.Taken_L), fmt.Sprintf("%g %% of its weight (%g to %g %%)", 100*cloth.PickUp, 100*cloth.PickUpLeast, 100*cloth.PickUpMost)},
		{"cook", j.litres(b.Cook_L), "so much that it can be moved about in it"},
		{"dry starch, weighed", grams(b.Starch_g), "or " + j.spoons(b) + ", level; spoons err by a fifth"},
		{"cold water for the slurry", j.litres(b.Cold_L), "a fifth of the water"},
		{"boiling water", j.litres(b.Hot_L), ""},
		{"stays in the cloth", trim(100*b.AddOn, 1) + " % of its weight", "pick-up × strength"},
	})
	j.warnAll(f, done, StepCook)
	f.Tick(sheet.Strong("Cold slurry first. "), sheet.Plain("Stir the starch smooth into the cold water. Starch thrown into hot water makes lumps."))
	f.Tick(sheet.Strong("Then heat to a clear paste. "), sheet.Plain(fmt.Sprintf("Pour the slurry into the boiling water, stirring, and keep it near the boil until it turns from milky to clear: 5 to 15 minutes. %s starch thickens from %s to %s °C (%s); held near the boil till clear every kind is cooked. Strain it.",
		capital(string(b.Starch.Kind)), trim(b.Starch.From_C, 0), trim(b.Starch.To_C, 0), b.Starch.RangeSource)))
	f.Tick(sheet.Strong("Let it cool till hand-warm "), sheet.Plain("before hands go in."))
	f.Para(sheet.Slant("For a tint: "), sheet.Plain("a little laundry blue or saffron in the bath, tried on a swatch first."))
	j.warnAll(f, done, StepColour)

	f.Head("The swatch loop", 20)
	f.Tick(sheet.Plain("Starch three strips, wring them as you will wring the " + j.thing() + ", dry them flat until hard, let them cool."))
	f.Tick(sheet.Plain("Hang them on the swatch card, compare with the target, write it down."))
	f.Tick(sheet.Plain("Under the target: a third more starch, new strips. More than a tenth over: a third less. Two or three rounds are usual."), sheet.Slant(" (Steps: common practice, no source.)"))
	f.Tick(sheet.Plain("Only then the " + j.thing() + " itself, with the same bath, the same wringing, the same drying."))

	f.Head("Starch and dry", 20)
	f.Tick(sheet.Plain("Wet the washed " + j.thing() + " through, squeeze it out, work the paste in from both sides so that no fold stays dry inside. Wipe off what lies on the surface."))
	f.Tick(sheet.Plain("Press the band flat first. Pull the outer edge straight, lay or hang it so that folds do not stick together, and dry it hard, in moving air."))
	j.warnAll(f, done, StepDry)

	f.Head("Set", 30)
	f.Para(j.stickRuns()...)
	f.Tick(sheet.Plain("Damp it again, evenly, until it is leathery, and keep it so under a damp cloth: set a quarter at a time and do not stop, or it dries out of shape and must be done again."))
	f.Tick(sheet.Plain("Mount it on a round block or ring of the band's size. Put the stick into each loop from the outer edge, " + j.orderWords() + ", press, hold until it keeps its shape, draw the stick out turning."))
	f.Tick(sheet.Plain("Until it is cold and dry hold the loops apart with "), sheet.Strong("smooth props that do not stick"), sheet.Plain(": polished metal, glass, glazed or waxed rods, smooth plastic. Not card, wood, paper, straw or cloth: paste draws into them and glues them in. Try one on a swatch."))
	f.Tick(sheet.Plain("Setting takes a learner " + hours(j.work.Setting.Learner) + ", a practised hand " + hours(j.work.Setting.Practised) + "."))
	j.warnAll(f, done, StepSet)

	f.Head("Washing it out", 16)
	f.Para(sheet.Plain("Starch comes out: about three baths of tepid or cold water, some 20 minutes each. Wash it out before it is put away for long: silverfish eat starch."))
	return f.Pages, nil
}

// starched is what goes into the bath.
func (j *job) starched() string {
	if j.Pattern.Made > 1 {
		return "strips and bands of both"
	}
	return "strip and band"
}

// howStiff says how stiff a starched swatch must be: the scheme's own target first,
// the least that would do beside it.
func (j *job) howStiff(f *sheet.Flow, t target) {
	if t.reason != "" && !t.fromScheme {
		f.Para(sheet.Strong("Starch alone will not do: "), sheet.Plain(t.reason))
	}
	switch {
	case !t.known && t.reason != "":
		f.Para(sheet.Plain("There is no target. The bath below is where the scheme begins; compare by eye."))
	case !t.known && j.Unsolved != "":
		f.Para(sheet.Strong("No target: "), sheet.Plain("this "+j.thing()+" cannot be solved as it is planned; the record sheet says why. The bath below is where the scheme begins; compare by eye."))
	case !t.known:
		f.Para(sheet.Strong("Not solved yet. "), sheet.Plain("How stiff this "+j.thing()+" must be is found by solving it: on the page ask for the starch target, by command: ruffwright need, with this scheme. It gives the overhang that a starched swatch must show. Until then begin with the bath below and compare by eye."))
	case t.none && j.manyWays() != "":
		f.Para(sheet.Strong("Not needed to hold it up, but starch makes the sets alike. "), sheet.Plain("Solved with this cloth the "+j.thing()+" holds itself up."+j.manyWays()))
	case t.none:
		f.Para(sheet.Strong("No starch needed: "), sheet.Plain("solved with this cloth the "+j.thing()+" holds itself up. Starch is a choice here."))
	default:
		from := "The least stiffness that holds this " + j.thing() + ", as solved"
		if t.fromScheme {
			from = "The scheme's own wish, its bending length starched"
		}
		words := ""
		if !t.fromScheme {
			words = j.needWords()
		}
		f.Para(sheet.Strong("Target: a starched swatch hangs over by "+j.len(t.overhang_mm)+" "), sheet.Plain(fmt.Sprintf("before its tip touches the slope of 41.5° (bending length %s, the cloth alone has about %s). %s.%s",
			j.len(t.bend_mm), j.len(j.clothBend()), from, words)))
		if t.bend_mm > cloth.StarchedMost_mm {
			f.Para(sheet.Strong("Hardly to be reached: "), sheet.Plain(fmt.Sprintf("starched cloth shows bending lengths of up to %s (an estimate, no source). %sBefore you cook ever stronger baths, sew the other edge as well, tuck the folds, or support the %s.", j.len(cloth.StarchedMost_mm), j.beyondWords(t), j.thing())))
		}
	}
	if t.fromScheme {
		if words := j.least(); words != "" {
			f.Para(sheet.Plain(words))
		}
		if t.reason != "" {
			f.Para(sheet.Strong("Starch alone will not do: "), sheet.Plain(t.reason))
		}
	}
}

// beyondWords says that the test strips are too short for the target.
func (j *job) beyondWords(t target) string {
	if !t.beyond {
		return ""
	}
	return "The test strips of " + j.swatchLen(j.starchStrip()) + " cannot show this target. "
}

// manyWays warns that tucked cloth without starch settles in more shapes than the
// one that was solved.
func (j *job) manyWays() string {
	if !j.tucked() {
		return ""
	}
	return " But tucked and not starched, cloth has several ways to lie, of which one was solved, and every set finds its own; starch makes them alike."
}

// needWords says what the ruff does with that stiffness.
func (j *job) needWords() string {
	n := j.Need
	if n == nil || n.Reason != "" {
		return ""
	}
	var with []string
	if n.Droop_mm > 0 && finite(n.Droop_mm) {
		with = append(with, "droops by "+trim(n.Droop_mm, 1)+" mm")
	}
	if n.Bow_mm > 0 && finite(n.Bow_mm) {
		with = append(with, "moves by "+trim(n.Bow_mm, 1)+" mm when the wearer bows")
	}
	if len(with) == 0 {
		return ""
	}
	return " With it the " + j.thing() + " " + list(with) + "."
}

// guess says what strength the target would ask for by the working guess.
func (j *job) guess(t target, b cloth.Bath) string {
	if !t.known || t.none {
		return ""
	}
	first := cloth.FirstStrength(j.clothBend(), t.bend_mm)
	if first.Starch_gL == 0 || math.Abs(first.Starch_gL-b.Strength_gL) < 1 {
		return ""
	}
	return fmt.Sprintf(" For this target a rough guess (5 %% of starch doubles the bending length; no source) begins at %s g/L, %s.", trim(first.Starch_gL, 0), first.Name)
}

// spoons writes level spoons, to a half.
func (j *job) spoons(b cloth.Bath) string {
	if b.Spoons < 1 {
		return trim(math.Round(2*3*b.Spoons)/2, 1) + " teaspoons of 5 mL"
	}
	return trim(math.Round(2*b.Spoons)/2, 1) + " spoons of " + strconv.Itoa(cloth.Spoon_mL) + " mL"
}

func (j *job) stickRuns() []sheet.Run {
	loop := j.loop()
	d := stick(loop, j.Units)
	from := "drawn, not solved"
	if j.Ruff.Solved != nil {
		from = "as solved"
	}
	if d == 0 {
		return []sheet.Run{sheet.Strong("Stick: "), sheet.Plain(fmt.Sprintf("the loops are only %s wide inside (%s): no stick fits. Shape them with a blunt needle or over fine straw.", j.near(loop), from))}
	}
	return []sheet.Run{sheet.Strong("Stick: " + j.len(d) + " thick. "), sheet.Plain(fmt.Sprintf("The loops are %s wide inside at the outer edge (%s); the next rod below goes in with room for damp cloth. Smooth metal, round, longer than the %s is deep (%s); warm, not scorching: it must not brown a scrap of white paper.", j.near(loop), from, j.thing(), j.len(j.s.Ruff.Depth)))}
}

// orderWords says which loops are set first.
func (j *job) orderWords() string {
	if j.s.Ruff.Flaps == scheme.Stand {
		return "the lower row first, then the upper"
	}
	return "the upper row first, then the lower"
}
