package paper

import (
	"fmt"
	"strconv"

	"ruffwright/geom/scheme"
)

// order is the order of work: steps with boxes to tick, the figures of this ruff,
// the cautions where their step stands, and the hours as ranges.
func (j *job) order() ([]*Page, error) {
	f := newFlow("order", "Order of work")
	f.page.Holds = "steps and hours"
	w, st := j.work, j.Pattern.Strip
	cut := j.Pattern.Cut
	done := map[string]bool{}

	f.head("Hours", 24)
	rows := [][]string{
		{"cutting, joining, hemming, marking, sewing", hours(w.Sewing.Learner), hours(w.Sewing.Practised)},
		{"washing and starching, without drying", hours(w.Washing.Learner), hours(w.Washing.Practised)},
		{"setting " + plural(j.Ruff.Plan.Sets, "set", "sets"), hours(w.Setting.Learner), hours(w.Setting.Practised)},
		{"in all", hours(w.Total.Learner), hours(w.Total.Practised)},
	}
	f.table(sizeBody, []tableColumn{{"", 52, false}, {"learner", 24, true}, {"practised hand", 24, true}}, rows)
	for _, n := range w.Notes {
		f.small(plain(n))
	}

	f.head("Before cutting", 16)
	f.tick(strong("Print and measure. "), plain("Sheet 1: the square, both ways. Tick each sheet's bars before you use it."))
	f.tick(strong("Test the cloth. "), plain("Cut a swatch strip each way, hang it on the swatch card, enter what you read in the scheme, and print anew if the "+j.thing()+" changes."))
	f.tick(strong("Wash before cutting. "), plain("Wash, dry and iron the whole cloth. Straighten both ends along a thread."))

	f.head("Cut and join", 16)
	f.tick(strong("Cut. "), plain(fmt.Sprintf("Along drawn threads: %s of strip, each %s wide, the band, the swatches. Number the strips in pencil at one end.", plural(j.toCut(), "piece", "pieces"), j.len(st.Width_mm))))
	if n := len(cut.Joins); n > 0 {
		hidden := 0
		for _, x := range cut.Joins {
			if x.Hidden {
				hidden++
			}
		}
		f.tick(strong("Join before hemming. "), plain(fmt.Sprintf("Lay the pieces end to end in their order and oversew the %s (selvedge to selvedge where there is one), %s allowed on each side. %s",
			plural(n, "join", "joins"), j.len(j.s.Strip.Join), hiddenWords(hidden, n))))
	}
	f.tick(strong("Hem. "), plain(fmt.Sprintf("The outer edge and both ends: %s of %s, %s stitches to the cm. The raw inner edge is oversewn loosely.", turns(j.s.Strip.HemTurns), j.len(j.s.Strip.Hem), trim(j.s.Hand.Stitches, 1))))

	f.head("Mark, pin, sew", 16)
	j.warnAll(f, done, StepSew)
	f.tick(strong("Mark from one end. "), plain("The marking tape or the table: every mark from the hemmed end, never step by step. "+plural(len(j.Ruff.Plan.Marks), "mark", "marks")+"."))
	f.tick(strong("Make the band. "), plain(fmt.Sprintf("Mark quarters and centres from the pattern, fold along the middle and press. Finished %s × %s.", j.len(j.Pattern.Band.Length_mm), j.len(j.Pattern.Band.Height_mm))))
	if pins := j.pinsWords(); len(pins) > 0 {
		f.tick(strong("Pin at the quarters, not at every fold: "), plain(list(pins)+"."))
	} else {
		f.tick(strong("Pin both ends and the middle, "), plain("not every fold: the sets do not divide into quarters. Then halve each stretch by eye."))
	}
	j.sewSteps(f)
	f.tick(strong("Count. "), plain(fmt.Sprintf("%s, %s and %s on the band? Then cut off the spare beyond the last mark, leave %s and hem that end.",
		plural(j.Ruff.Plan.Sets, "set", "sets"), plural(j.Ruff.Plan.Crests, "top fold", "top folds"), plural(j.Ruff.Plan.Troughs, "bottom fold", "bottom folds"), j.len(st.Hem_mm))))
	f.tick(strong("Close the band. "), plain("Turn in the seam allowances, fold the inner half over the sewn edge and hem it down; oversew the ends."))
	f.tick(strong("Closures. "), plain("Sew on "+closureName(j.s.Band.Closure)+" at the places of the pattern."))
	f.tick(strong("Try it on, unstarched. "), plain("Nothing presses, no pin left in it, the ends lie as wished."))
	j.warnAll(f, done, StepBand)

	f.head("Starch, set, wear", 14)
	f.tick(strong("Wash "), plain("out all marks. "), strong("Starch, dry, damp and set "), plain("by the card 'Starch and set'. Its cautions stand there: boiling starch, hot irons, drying."))
	f.tick(strong("Mount "), plain(j.supportWords()))
	f.tick(strong("Wear and keep "), plain("by the last card."))
	for _, c := range []Caution{j.flame()} {
		f.warn(c)
	}

	f.head("Sewing in figures", 24)
	rows = nil
	for _, s := range w.Seams {
		rows = append(rows, []string{s.Name, s.Stitch, j.long(s.Length_mm), thousands(s.Stitches), j.long(s.Thread_mm), j.stitchSource(s.Source)})
	}
	rows = append(rows, []string{"all, with what knots and ends lose", "", "", thousands(w.Stitches), j.long(w.Thread_mm), ""})
	f.table(sizeSmall, []tableColumn{{"", 30, false}, {"stitch", 16, false}, {"length", 12, true}, {"stitches", 11, true}, {"thread", 12, true}, {"number of stitches from", 22, false}}, rows)
	return f.pages, nil
}

// stitchSource names the scheme's own field in words.
func (j *job) stitchSource(s string) string {
	if s == "hand.stitches" {
		return "the scheme, " + trim(j.s.Hand.Stitches, 1) + " to the cm"
	}
	return s
}

// long writes a long length in m or yards.
func (j *job) long(mm float64) string {
	places := func(x float64) int {
		if x < 1 {
			return 2
		}
		return 1
	}
	if j.Units == scheme.Inches {
		return trim(mm/914.4, places(mm/914.4)) + " yd"
	}
	return trim(mm/1000, places(mm/1000)) + " m"
}

func (j *job) toCut() int {
	n := 0
	for _, p := range j.Pattern.Cut.Pieces {
		if !p.AtHand {
			n++
		}
	}
	return n
}

func hiddenWords(hidden, all int) string {
	switch {
	case hidden == all:
		return "Each lies on an inner fold or in the spare, where it does not show."
	case hidden == 0:
		return "None lies on an inner fold: they will show."
	}
	return strconv.Itoa(hidden) + " of them lie on inner folds or in the spare; the others will show."
}

func turns(n int) string {
	if n == 1 {
		return "one turn"
	}
	return "two turns"
}

// sewSteps says which edge is sewn first.
func (j *job) sewSteps(f *flow) {
	p := j.s.Pleat
	lines := ""
	if p.Lines == 2 {
		lines = fmt.Sprintf(" Then a second line of stitches, %s from the first, parallel to the band.", j.len(p.LineGap))
	}
	tuck := ""
	if j.tuckWords() != "" {
		tuck = " At each mark first bring the two places of the tuck together, then sew through both."
	}
	if j.Ruff.Plan.MarksOwn {
		f.tick(strong("Sew "), plain("each fold to the edge that the table of marks gives, the top edge first all the way round."+tuck+lines))
		return
	}
	if p.Anchor == scheme.AnchorBoth {
		f.tick(strong("Sew the top edge first. "), plain("All the way round, every top fold at its stroke on the band's top edge, four stitches to a fold."+tuck))
		f.tick(strong("Then the bottom edge. "), plain("Every bottom fold at its stroke, halfway between its neighbours."+tuck+lines))
		return
	}
	edge := "top"
	if p.Anchor == scheme.AnchorBottom {
		edge = "bottom"
	}
	f.tick(strong("Sew the "+foldNames(j.sewnFold())+" "), plain("to the band's "+edge+" edge, all the way round, four stitches to a fold. Sew these folds only: the other side turns the flaps over."+tuck+lines))
}

// supportWords says what carries the finished piece; it follows the word 'mount'.
func (j *job) supportWords() string {
	if j.s.Wearer.Part == scheme.Wrist {
		return "it at the sleeve's end: a few stitches or a tape hold it to the sleeve."
	}
	switch j.s.Support.Kind {
	case scheme.Collar:
		return "on the collar it was designed for: pin or tie it at the centre back and both sides."
	case scheme.Supporter:
		return "on its supporter: tie or point it through the holes at the collar's back; no wire end may reach the skin."
	}
	return "it on the wearer's own neckline; nothing else carries it. If it sinks in wear, a collar or a supporter helps."
}
