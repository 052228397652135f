package paper

import (
	"ruffwright/geom/scheme"
	"ruffwright/sim/paper/sheet"
)

// order is the order of work: steps with boxes to tick, the figures of this ruff,
// the cautions where their step stands, and the hours as ranges. Every step is of
// what the scheme has: TestSteps reads them over many schemes.
func (j *job) order() ([]*sheet.Page, error) {
	f := sheet.NewFlow("Order of work")
	f.Page.Holds = "steps and hours"
	w := j.work
	done := map[string]bool{}

	if j.Pattern.Made > 1 {
		words := "Every step is done for both, from the same tape and table. The right band is the left one's mirror image: lay its pattern face down."
		if j.Pattern.Band.Overlap_mm > 0 {
			words += " The strip's first mark comes to the band's end without overlap in both."
		}
		f.Para(sheet.Strong("Two are made, left and right. "), sheet.Plain(words))
	}
	f.Head("Hours", 24)
	rows := [][]string{
		{"cutting, joining, hemming, marking, sewing", hours(w.Sewing.Learner), hours(w.Sewing.Practised)},
		{"washing and starching, without drying", hours(w.Washing.Learner), hours(w.Washing.Practised)},
		{"setting " + plural(j.Pattern.Made*j.Ruff.Plan.Sets, "set", "sets"), hours(w.Setting.Learner), hours(w.Setting.Practised)},
		{"in all", hours(w.Total.Learner), hours(w.Total.Practised)},
	}
	f.Table(sheet.Body, []sheet.Col{sheet.Words("", 52), sheet.Numbers("learner", 24), sheet.Numbers("practised hand", 24)}, rows)
	for _, n := range w.Notes {
		f.Small(sheet.Plain(n))
	}
	j.cuttingSteps(f)
	f.Head("Mark, pin, sew", 16)
	j.warnAll(f, done, StepSew)
	j.seamDrawing(f)
	j.bandSteps(f)
	j.warnAll(f, done, StepBand)

	f.Head("Starch, set, wear", 14)
	f.Tick(sheet.Strong("Wash "), sheet.Plain("out all marks. "), sheet.Strong("Starch, dry, damp and set "), sheet.Plain("by the card 'Starch and set'. Its cautions stand there: boiling starch, hot irons, drying."))
	f.Tick(sheet.Strong("Mount "), sheet.Plain(j.supportWords()))
	f.Tick(sheet.Strong("Wear and keep "), sheet.Plain("by the last card."))
	warn(f, j.flame())

	f.Head("Sewing in figures", 24)
	rows = nil
	for _, s := range w.Seams {
		rows = append(rows, []string{s.Name, s.Stitch, j.long(s.Length_mm), thousands(s.Stitches), j.long(s.Thread_mm), j.stitchSource(s.Source)})
	}
	rows = append(rows, []string{"all, with what knots and ends lose", "", "", thousands(w.Stitches), j.long(w.Thread_mm), ""})
	f.Table(sheet.Small, []sheet.Col{sheet.Words("", 30), sheet.Words("stitch", 16), sheet.Numbers("length", 12), sheet.Numbers("stitches", 11), sheet.Numbers("thread", 12), sheet.Words("number of stitches from", 22)}, rows)
	return f.Pages, nil
}

// stitchSource names the scheme's own field in words.
func (j *job) stitchSource(s string) string {
	if s == "hand.stitches" {
		return "the scheme, " + j.stitches()
	}
	return s
}

// stitches is how close the hem's stitches stand: "6 to the cm", "15 to the inch".
func (j *job) stitches() string {
	if j.Units == scheme.Inches {
		return trim(j.s.Hand.Stitches*2.54, 0) + " to the inch"
	}
	return trim(j.s.Hand.Stitches, 1) + " to the cm"
}

// supportWords says what carries the finished piece; it follows the word 'mount'.
func (j *job) supportWords() string {
	if j.s.Wearer.Part == scheme.Wrist {
		return "each at its sleeve's end: a few stitches or a tape hold it there."
	}
	switch j.s.Support.Kind {
	case scheme.Collar:
		return "on the collar it was designed for: pin or tie it at the centre back and both sides."
	case scheme.Supporter:
		return "on its supporter: tie or point it through the holes at the collar's back; no wire end may reach the skin."
	}
	return "it on the wearer's own neckline; nothing else carries it. If it sinks in wear, a collar or a supporter helps."
}
