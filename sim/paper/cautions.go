package paper

import (
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/paper/sheet"
)

// Caution is something that can hurt somebody, and the step at which it stands.
// Local rules come first wherever they say more.
type Caution struct {
	ID    string
	Title word.Text
	Text  word.Text
	Steps []Step // every place where it is printed
}

// Step is a place of the work where cautions stand.
type Step string

// The steps that carry cautions.
const (
	StepCloth  Step = "cloth"  // choosing and cutting cloth
	StepSew    Step = "sew"    // pins and needles
	StepBand   Step = "band"   // fitting the band
	StepCook   Step = "cook"   // weighing and boiling starch
	StepDry    Step = "dry"    // drying
	StepSet    Step = "set"    // hot sticks and irons
	StepColour Step = "colour" // tinting the starch
	StepWear   Step = "wear"
	StepKeep   Step = "keep"
)

// Cautions gives every caution, worded for the part of the body: at a wrist
// nothing presses a throat, the rest stays. Flame is always the first.
func Cautions(part scheme.Part) []Caution {
	tight, children, needles := word.Say("It must pass two fingers all round. Loosen it at once if the wearer is dizzy, sees badly, is hoarse or short of breath. Tight neckwear has been measured to raise the pressure in the eye and to lessen the blood flow to the brain. Studies differ on how much. Never sleep in it; not for anyone who cannot undo it alone. For the stage use a closure that opens at one pull."),
		word.Say("No ties, strings or cords at a child's neck (EN 14682: none under 7 years, no free ends to 14; costume counts as clothing). Use a hook, snap or other closure that gives way. Never unattended, never in a play area. Assess it for yourself even where the standard does not apply."),
		word.Say("Count pins out and count them in again; run a magnet or your eyes along every fold before anybody tries it on. Pins and needles that stay in a ruff go into a neck.")
	if part == scheme.Wrist {
		tight = word.Say("It must pass a finger all round and must not leave a mark. Loosen it at once if the hand tingles, swells or goes pale. Never sleep in it.")
		children = word.Say("Long ties at a child's wrist catch and pull: use a hook, snap or other closure that gives way. Never unattended, never in a play area. EN 14682 sets limits to cords on children's clothes, costume among them: assess it for yourself even where the standard does not apply.")
		needles = word.Say("Count pins out and count them in again; run a magnet or your eyes along every fold before anybody tries it on. Pins and needles that stay in a cuff go into a wrist.")
	}
	return []Caution{
		{"flame", word.Say("keep away from flame"), word.Say("No candles, matches, smoking, stoves or stage flame while it is worn or near. Wide, light cloth near the face catches fire before the wearer sees it. Fine cotton (lawn, batiste, voile, muslin, organdie) and organza are lighter than the cloth that fire rules treat as safe. Fine linen lies near the line. For the stage ask the venue's fire officer; local fire rules come first."), []Step{StepCloth, StepWear}},
		{"tight", word.Say("a tight band"), tight, []Step{StepBand, StepWear}},
		{"children", word.Say("children"), children, []Step{StepBand, StepWear}},
		{"needles", word.Say("pins and needles"), needles, []Step{StepSew}},
		{"scald", word.Say("boiling starch"), word.Say("Water at 60 °C scalds in 3 seconds, at 55 °C in 17 to 30. Paste clings and holds its heat, so it burns worse than water, and a child's skin burns sooner: keep children away, turn the handle inwards, and let it cool until it is hand-warm (below about 43 °C) before hands go in."), []Step{StepCook}},
		{"dust", word.Say("starch and flour dust"), word.Say("Do not breathe it: it causes asthma and rashes (workplaces keep flour dust below 10 mg in a cubic metre). It is a dust that explodes: never shake or sieve it near a flame. Spoon it gently into cold water."), []Step{StepCook}},
		{"wheat", word.Say("wheat"), word.Say("Wheat starch may keep traces of protein. For a wearer or helper with coeliac disease or wheat allergy take maize, potato or rice, and tell performers what is in it."), []Step{StepCook, StepWear}},
		{"air", word.Say("fresh air"), word.Say("Open a window when starch boils, and when starched linen is ironed or scorches."), []Step{StepCook, StepSet}},
		{"colours", word.Say("old colours"), word.Say("Do not use smalt (blue glass with cobalt, may hold arsenic) or orpiment (arsenic). Saffron or laundry blue instead; try a swatch for stains on skin and cloth."), []Step{StepColour}},
		{"oven", word.Say("never dry it in an oven"), word.Say("One ruff was burnt to a crisp within minutes in a closed electric oven; plastic lace has melted in another. Dry it in moving air, away from radiators with a glow."), []Step{StepDry}},
		{"hot", word.Say("hot sticks and irons"), word.Say("Irons run to 200 °C, and metal above about 65 °C burns at a touch of a second. Wear a glove on the hand that holds the cloth, lay hot tools on a stand that cannot tip, and set nothing on a person: never shape a ruff while it is worn."), []Step{StepSet}},
		{"old", word.Say("old textiles"), word.Say("Never starch, wash or wear a historical object. Ask a textile conservator."), []Step{StepKeep}},
	}
}

func (j *job) at(step Step) []Caution {
	var some []Caution
	for _, c := range Cautions(j.s.Wearer.Part) {
		for _, s := range c.Steps {
			if s == step {
				some = append(some, c)
			}
		}
	}
	return some
}

func (c Caution) words() word.Text { return word.Say("**Caution: %s.** %s", c.Title, c.Text) }

func warn(f *sheet.Flow, c Caution) {
	f.Skip(1)
	f.Flagged(c.words())
	f.Skip(1)
}

// warnAll sets the cautions of a step that this sheet has not had yet.
func (j *job) warnAll(f *sheet.Flow, done map[string]bool, step Step) {
	for _, c := range j.at(step) {
		if !done[c.ID] {
			done[c.ID] = true
			warn(f, c)
		}
	}
}
