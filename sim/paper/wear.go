package paper

import (
	"ruffwright/geom/scheme"
	"ruffwright/sim/paper/sheet"
)

// wear is the wear-and-keep card: the cautions for whoever wears the ruff, how it
// is put on, and how it is kept.
func (j *job) wear() ([]*sheet.Page, error) {
	f := sheet.NewFlow("Wear and keep")
	f.Page.Holds = "for the wearer and the wardrobe"
	f.Para(sheet.Plain("This card goes with the " + map[bool]string{true: "cuffs", false: "ruff"}[j.Pattern.Made > 1] + ", to the wearer and to whoever dresses them. Where local rules (fire, workplace, children) say more, they come first."))
	done := map[string]bool{}
	f.Head("Cautions", 20)
	j.warnAll(f, done, StepWear)

	f.Head("Putting it on", 16)
	if j.s.Wearer.Part == scheme.Wrist {
		f.Tick(sheet.Plain("The opening lies at the inner side of the wrist. Close the band so that a finger passes all round."))
	} else {
		f.Tick(sheet.Plain("It opens at the chin. " + j.overlapWords() + " Close the band so that two fingers pass all round, then let the wearer turn, swallow, sing and bow."))
	}
	f.Tick(sheet.Plain("Mount " + j.supportWords()))
	f.Tick(sheet.Plain("Show the wearer, and one other person, how it is opened at one pull."))
	beneath := "a thin collar or kerchief"
	if j.s.Wearer.Part == scheme.Wrist {
		beneath = "a thin sleeve"
	}
	f.Tick(sheet.Plain("A newly starched edge scratches: " + beneath + " beneath, and a pause when the skin reddens."))
	f.Tick(sheet.Plain("Damp air, sweat and rain soften starch: carry it boxed, put it on late, take it off first."))

	f.Head("After wearing", 16)
	f.Tick(sheet.Plain("Let it dry on its block. Look for lost stitches, pins, scorched or stained places."))
	f.Tick(sheet.Plain("Short rest: flat or on its support, uncrushed, dry, away from make-up and food."))
	f.Tick(sheet.Plain("Long rest: wash the starch out (about three tepid baths of 20 minutes), dry it, store it unstarched, with this card. Silverfish and firebrats eat starch, and starched cloth yellows and breaks in its creases."))
	f.Tick(sheet.Plain("Each hard starching wears the linen: shirts washed without starch tested 20 to 29 % stronger than heavily starched ones after 10 to 50 washes (a laundry institute). Use no more than the target asks for."))
	j.warnAll(f, done, StepKeep)

	f.Head("Worn, washed, mended", 30)
	f.Form([]sheet.Col{sheet.Words("day", 16), sheet.Words("worn by, where", 40), sheet.Words("starched with (g/L)", 20), sheet.Words("seen, mended", 44)}, "", "", "", "")
	return f.Pages, nil
}
