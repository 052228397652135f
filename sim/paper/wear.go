package paper

import (
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/paper/sheet"
)

// wear is the wear-and-keep card: the cautions for whoever wears the ruff, how it
// is put on, and how it is kept.
func (j *job) wear() ([]*sheet.Page, error) {
	f := j.flow(word.Say("Wear and keep"), word.Say("for the wearer and the wardrobe"))
	f.Para(word.Count(j.Pattern.Made, "This card goes with the ruff, to the wearer and to whoever dresses them. Where local rules (fire, workplace, children) say more, they come first.", "This card goes with the cuffs, to the wearer and to whoever dresses them. Where local rules (fire, workplace, children) say more, they come first."))
	done := map[string]bool{}
	f.Head(word.Say("Cautions"), 20)
	j.warnAll(f, done, StepWear)

	f.Head(word.Say("Putting it on"), 16)
	if j.s.Wearer.Part == scheme.Wrist {
		f.Tick(word.Say("The opening lies at the inner side of the wrist. Close the band so that a finger passes all round."))
	} else {
		f.Tick(word.Say("It opens at the chin. %s Close the band so that two fingers pass all round, then let the wearer turn, swallow, sing and bow.", j.overlapWords()))
	}
	f.Tick(word.Say("Mount %s", j.supportWords()))
	f.Tick(word.Say("Show the wearer, and one other person, how it is opened at one pull."))
	beneath := when(j.s.Wearer.Part == scheme.Wrist, word.Say("a thin sleeve"), word.Say("a thin collar or kerchief"))
	f.Tick(word.Say("A newly starched edge scratches: %s beneath, and a pause when the skin reddens.", beneath))
	f.Tick(word.Say("Damp air, sweat and rain soften starch: carry it boxed, put it on late, take it off first."))

	f.Head(word.Say("After wearing"), 16)
	f.Tick(word.Say("Let it dry on its block. Look for lost stitches, pins, scorched or stained places."))
	f.Tick(word.Say("Short rest: flat or on its support, uncrushed, dry, away from make-up and food."))
	f.Tick(word.Say("Long rest: wash the starch out (about three tepid baths of 20 minutes), dry it, store it unstarched, with this card. Silverfish and firebrats eat starch, and starched cloth yellows and breaks in its creases."))
	f.Tick(word.Say("Each hard starching wears the linen: shirts washed without starch tested 20 to 29 %% stronger than heavily starched ones after 10 to 50 washes (a laundry institute). Use no more than the target asks for."))
	j.warnAll(f, done, StepKeep)

	f.Head(word.Say("Worn, washed, mended"), 30)
	f.Form([]sheet.Col{sheet.Words(word.Say("day"), 16), sheet.Words(word.Say("worn by, where"), 40), sheet.Words(word.Say("starched with (g/L)"), 20), sheet.Words(word.Say("seen, mended"), 44)}, word.Text{}, word.Text{}, word.Text{}, word.Text{})
	return f.Pages, nil
}
