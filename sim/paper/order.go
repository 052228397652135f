package paper

import (
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/paper/sheet"
)

// order is the order of work: steps with boxes to tick, cautions where their step
// stands, hours as ranges. Every step is of what the scheme has: TestSteps.
func (j *job) order() ([]*sheet.Page, error) {
	f := j.flow(word.Say("Order of work"), word.Say("steps and hours"))
	w := j.work
	done := map[string]bool{}

	if j.Pattern.Made > 1 {
		words := word.Say("Every step is done for both, from the same tape and table. The right band is the left one's mirror image: lay its pattern face down.")
		if j.Pattern.Band.Overlap_mm > 0 {
			words = word.Join(" ", words, word.Say("The strip's first mark comes to the band's end without overlap in both."))
		}
		f.Para(word.Say("**Two are made, left and right.** %s", words))
	}
	f.Head(word.Say("Hours"), 24)
	rows := [][]word.Text{
		{word.Say("cutting, joining, hemming, marking, sewing"), hours(w.Sewing.Learner), hours(w.Sewing.Practised)},
		{word.Say("washing and starching, without drying"), hours(w.Washing.Learner), hours(w.Washing.Practised)},
		{word.Count(j.Pattern.Made*j.Ruff.Plan.Sets, "setting %s set", "setting %s sets", thousands(j.Pattern.Made*j.Ruff.Plan.Sets)), hours(w.Setting.Learner), hours(w.Setting.Practised)},
		{word.Say("in all"), hours(w.Total.Learner), hours(w.Total.Practised)},
	}
	f.Table(sheet.Body, []sheet.Col{sheet.Words(word.Text{}, 52), sheet.Numbers(word.Say("learner"), 24), sheet.Numbers(word.Say("practised hand"), 24)}, rows)
	for _, n := range w.Notes {
		f.Small(n)
	}
	j.cuttingSteps(f)
	f.Head(word.Say("Mark, pin, sew"), 16)
	j.warnAll(f, done, StepSew)
	j.seamDrawing(f)
	j.bandSteps(f)
	j.warnAll(f, done, StepBand)

	f.Head(word.Say("Starch, set, wear"), 14)
	f.Tick(word.Say("**Wash** out all marks. **Starch, dry, damp and set** by the card 'Starch and set'. Its cautions stand there: boiling starch, hot irons, drying."))
	f.Tick(word.Say("**Mount** %s", j.supportWords()))
	f.Tick(word.Say("**Wear and keep** by the last card."))
	warn(f, j.flame())

	f.Head(word.Say("Sewing in figures"), 24)
	rows = nil
	for _, s := range w.Seams {
		source := s.Source
		if source.Empty() {
			source = word.Say("the scheme, %s", j.stitches())
		}
		rows = append(rows, []word.Text{s.Name, s.Stitch, j.long(s.Length_mm), thousands(s.Stitches), j.long(s.Thread_mm), source})
	}
	rows = append(rows, []word.Text{word.Say("all, with what knots and ends lose"), word.Text{}, word.Text{}, thousands(w.Stitches), j.long(w.Thread_mm), word.Text{}})
	f.Table(sheet.Small, []sheet.Col{sheet.Words(word.Text{}, 30), sheet.Words(word.Say("stitch"), 16), sheet.Numbers(word.Say("length"), 12), sheet.Numbers(word.Say("stitches"), 11), sheet.Numbers(word.Say("thread"), 12), sheet.Words(word.Say("number of stitches from"), 22)}, rows)
	return f.Pages, nil
}

// stitches is how close the hem's stitches stand: "6 to the cm", "15 to the inch".
func (j *job) stitches() word.Text {
	return when(j.Units == scheme.Inches, word.Say("%s to the inch", trim(j.s.Hand.Stitches*2.54, 0)), word.Say("%s to the cm", trim(j.s.Hand.Stitches, 1)))
}

// supportWords says what carries the finished piece; it follows the word 'mount'.
func (j *job) supportWords() word.Text {
	if j.s.Wearer.Part == scheme.Wrist {
		return word.Say("each at its sleeve's end: a few stitches or a tape hold it there.")
	}
	switch j.s.Support.Kind {
	case scheme.Collar:
		return word.Say("on the collar it was designed for: pin or tie it at the centre back and both sides.")
	case scheme.Supporter:
		return word.Say("on its supporter: tie or point it through the holes at the collar's back; no wire end may reach the skin.")
	}
	return word.Say("it on the wearer's own neckline; nothing else carries it. If it sinks in wear, a collar or a supporter helps.")
}
