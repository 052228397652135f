package paper

import (
	"fmt"
	"strconv"
	"strings"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/sim/paper/sheet"
)

// cuttingSteps are the steps from the printed sheets to the joined strip, hemmed,
// its inner edge turned in.
func (j *job) cuttingSteps(f *sheet.Flow) {
	st, cut := j.Pattern.Strip, j.Pattern.Cut
	f.Head("Before cutting", 16)
	f.Tick(sheet.Strong("Print and measure. "), sheet.Plain("Sheet 1: the square, both ways. Tick each sheet's bars before you use it."))
	wash := "Wash, dry and iron the whole cloth. Straighten both ends along a thread."
	if j.s.Strip.ShrinkWarp == 0 && j.s.Strip.ShrinkWeft == 0 {
		wash = "The scheme takes the cloth as washed already. If it is not, wash, dry and iron the whole of it. Straighten both ends along a thread."
	}
	f.Tick(sheet.Strong("Wash before cutting. "), sheet.Plain(wash))
	f.Tick(sheet.Strong("Test the washed cloth. "), sheet.Plain("Cut a swatch strip each way, hang it on the swatch card, enter what you read in the scheme, and print anew if the "+j.thing()+" changes."))

	f.Head("Cut and join", 16)
	f.Tick(sheet.Strong("Cut. "), sheet.Plain("Along drawn threads: "+j.cutWords()))
	if st.Have_mm > 0 {
		f.Tick(sheet.Strong("Measure the strip at hand: "), sheet.Plain(fmt.Sprintf("the scheme takes it as %s long, its outer edge finished, and %s from its raw inner edge to that.", j.len(st.Have_mm), j.len(st.Depth_mm+st.Takeup_mm))))
	}
	if n := len(cut.Joins); n > 0 {
		hidden := 0
		for _, x := range cut.Joins {
			if x.Hidden {
				hidden++
			}
		}
		lay := "Lay the pieces end to end in their order and oversew the "
		if st.Have_mm > 0 {
			lay = "Undo the hem of the end where the strip at hand is joined. " + lay
		}
		joins := "join"
		if n > 1 {
			joins = plural(n, "join", "joins")
		}
		how := ", " + j.len(j.s.Strip.Join) + " allowed on each side"
		if j.s.Strip.Join == 0 {
			how = ", edge to edge, nothing allowed"
		}
		if j.s.Strip.Selvedge == 0 && cut.Along == scheme.Weft {
			how = ", selvedge to selvedge where both are" + how
		}
		f.Tick(sheet.Strong("Join before hemming. "), sheet.Plain(lay+joins+map[bool]string{true: " of each strip"}[j.Pattern.Made > 1]+how+". "+j.hiddenWords(hidden, n)))
	}
	j.hemStep(f)
	if st.Takeup_mm > 0 {
		f.Tick(sheet.Strong("Turn in the inner edge: its fold is the stitch line. "), sheet.Plain(fmt.Sprintf("Fold the raw edge to the wrong side, %s wide all along ('taken up by the band'), press it, and oversew it down loosely. Everything is marked and sewn at this fold. From it to the outer edge the strip is now %s, the depth: sewn at the raw edge the %s would be %s deeper.",
			j.len(st.Takeup_mm), j.len(st.Depth_mm), j.thing(), j.len(st.Takeup_mm))))
	} else {
		f.Tick(sheet.Strong("The inner edge is the stitch line. "), sheet.Plain("The scheme leaves nothing to turn in: oversew the edge closely, or let it be a selvedge. Everything is marked and sewn there."))
	}
}

// cutWords lists what is cut.
func (j *job) cutWords() string {
	var what []string
	if n := j.toCut(); n > 0 {
		each := ""
		if n*j.Pattern.Made > 1 {
			each = "each "
		}
		what = append(what, fmt.Sprintf("%s of strip, %s%s wide", plural(n*j.Pattern.Made, "piece", "pieces"), each, j.len(j.Pattern.Strip.Width_mm)))
	}
	switch {
	case j.Pattern.Band.AtHand:
	case j.Pattern.Made > 1:
		what = append(what, "two bands")
	default:
		what = append(what, "the band")
	}
	what = append(what, "the swatches that are left")
	words := list(what) + "."
	if j.toCut() > 1 {
		words += " Number the strips in pencil at one end."
	}
	return words
}

// hemStep says what is hemmed before marking. The far end waits where spare is cut
// off beyond it.
func (j *job) hemStep(f *sheet.Flow) {
	st := j.Pattern.Strip
	if j.toCut() == 0 {
		return // the strip at hand is hemmed
	}
	if st.Hem_mm == 0 {
		f.Tick(sheet.Strong("No hem "), sheet.Plain("is planned: outer edge and ends stay as they are. Let them be selvedges, or oversew them finely, or they fray."))
		return
	}
	what := "The outer edge and both ends"
	switch {
	case st.Have_mm > 0 && st.Spare_mm > 0:
		what = "The outer edge where it is not hemmed yet; the far end waits until the spare is cut off"
	case st.Have_mm > 0:
		what = "The outer edge where it is not hemmed yet, and the far end"
	case st.Spare_mm > 0:
		what = "The outer edge and the end that carries the first mark; the far end waits until the spare is cut off"
	}
	f.Tick(sheet.Strong("Hem. "), sheet.Plain(fmt.Sprintf("%s: %s of %s, stitches %s.", what, turns(j.s.Strip.HemTurns), j.len(j.s.Strip.Hem), j.stitches())))
}

// bandSteps are the steps from the marked strip to the closed band.
func (j *job) bandSteps(f *sheet.Flow) {
	b, st := j.Pattern.Band, j.Pattern.Strip
	f.Tick(sheet.Strong("Mark from one end. "), sheet.Plain("The marking tape or the table, along the stitch line: every mark from "+j.zero()+", never step by step. "+plural(len(j.Ruff.Plan.Row), "mark", "marks")+"."))
	size := j.len(b.Length_mm) + " × " + j.len(b.Height_mm)
	marks := " Then mark quarters and strokes on it from the pattern."
	switch {
	case b.AtHand:
		f.Tick(sheet.Strong("Take the band that is made. "), sheet.Plain("Lay it beside the pattern: "+size+". All its edges must be finished, since folds are sewn to them from outside."+marks))
	case b.Seam_mm > 0:
		f.Tick(sheet.Strong("Make the band, finished all round. "), sheet.Plain("Fold it along the middle, right side out, turn the seam allowances in, press, and oversew the bottom edge and the ends. Finished "+size+"."+marks))
	default:
		f.Tick(sheet.Strong("Make the band, finished all round. "), sheet.Plain("Fold it along the middle, right side out, and oversew its raw edges together closely: the scheme gives no seam allowance. Finished "+size+"."+marks))
	}
	if pins := j.pinsWords(); len(pins) > 0 {
		f.Tick(sheet.Strong("Pin at the quarters, not at every fold: "), sheet.Plain(list(pins)+"."))
	} else {
		f.Tick(sheet.Strong("Pin the first and the last sewn fold and the middle, "), sheet.Plain("not every fold: the sets do not divide into quarters. Then halve each stretch by eye."))
	}
	j.sewSteps(f)
	count := fmt.Sprintf("%s: %s?", plural(j.Ruff.Plan.Sets, "set", "sets"), list(j.sewnCounts()))
	if st.Spare_mm > 0 {
		count += " Then cut off the spare beyond the last mark"
		if st.Hem_mm > 0 {
			count += ", leave " + j.len(st.Hem_mm) + " and hem that end"
		}
		count += "."
	}
	f.Tick(sheet.Strong("Count. "), sheet.Plain(count))
	f.Tick(sheet.Strong("Closures. "), sheet.Plain(j.overlapWords()+" "+j.closureWords()))
	f.Tick(sheet.Strong("Try it on, unstarched. "), sheet.Plain("Nothing presses, no pin left in it, the ends lie as wished."))
}

// sewnCounts says how many folds are on which edge: "41 bottom folds on the band's
// bottom edge".
func (j *job) sewnCounts() []string {
	var out []string
	for _, edge := range []scheme.Edge{scheme.EdgeTop, scheme.EdgeBottom} {
		for _, fold := range []scheme.Fold{scheme.Crest, scheme.Trough} {
			n := 0
			for _, m := range j.Ruff.Plan.Row {
				if m.Edge == edge && m.Fold == fold {
					n++
				}
			}
			if n > 0 {
				out = append(out, plural(n, foldName(fold), foldNames(fold))+" on the band's "+edgeName(edge))
			}
		}
	}
	return out
}

// sewSteps says what is sewn to which edge, and which first.
func (j *job) sewSteps(f *sheet.Flow) {
	rest := ""
	if j.tucked() {
		rest = " At a mark with a tuck first bring the two places of the tuck together, then sew through both."
	}
	if j.s.Pleat.Lines == 2 {
		rest += fmt.Sprintf(" Then a second line of stitches, %s from the first, parallel to the band.", j.len(j.s.Pleat.LineGap))
	}
	const whip = "The fold's turned-in edge is whipped to the finished edge of the band from outside, four stitches to a fold."
	edges := map[scheme.Edge]int{}
	for _, m := range j.Ruff.Plan.Row {
		edges[m.Edge]++
	}
	both := edges[scheme.EdgeTop] > 0 && edges[scheme.EdgeBottom] > 0
	switch {
	case j.Ruff.Plan.MarksOwn && both:
		f.Tick(sheet.Strong("Sew "), sheet.Plain("each fold to the edge that the table of marks gives, the top edge first all the way round. "+whip+rest))
	case both:
		f.Tick(sheet.Strong("Sew the top edge first. "), sheet.Plain("All the way round, every top fold at its stroke on the band's top edge. "+whip+rest))
		f.Tick(sheet.Strong("Then the bottom edge. "), sheet.Plain("Every bottom fold at its stroke, halfway between its neighbours, in the same way."))
	case edges[scheme.EdgeTop] == 0 && edges[scheme.EdgeBottom] == 0:
		f.Tick(sheet.Strong("Nothing is sewn: "), sheet.Plain("by its marks no fold goes to the band."))
	default:
		edge := scheme.EdgeTop
		if edges[edge] == 0 {
			edge = scheme.EdgeBottom
		}
		which := "the folds that the table marks as sewn"
		if !j.Ruff.Plan.MarksOwn {
			which = "the " + foldNames(j.Ruff.Plan.Row.Kind())
		}
		only := " Sew these folds only: the others hang free."
		if edges[scheme.EdgeNone] == 0 {
			only = ""
		}
		f.Tick(sheet.Strong("Sew "+which+" "), sheet.Plain("to the band's "+edgeName(edge)+", all the way round, each at its stroke. "+whip+only+rest))
	}
}

// zero is where places along the strip are measured from.
func (j *job) zero() string {
	if j.Pattern.Strip.Hem_mm > 0 {
		return "the hemmed end"
	}
	return "the strip's first end"
}

// overlapWords says which end of the closed band lies over the other.
func (j *job) overlapWords() string {
	switch {
	case j.Pattern.Band.Overlap_mm == 0:
		return "Closed, the band's ends meet."
	case j.s.Wearer.Part == scheme.Wrist:
		return "Closed, the overlap goes under the other end, next to the skin."
	}
	return "Closed, the overlap goes under the other end, next to the skin: worn, the left end lies over the right."
}

// closureWords says what is sewn where to close the band.
func (j *job) closureWords() string {
	on := "on the overlap's outer half"
	if far := j.Pattern.Band.Closures[1]; far.Face == pattern.Inner {
		on = "inside the other end, on its inner half"
	}
	const inside = "inside the end with the first set, on its inner half"
	switch j.s.Band.Closure {
	case scheme.Buttons:
		return "Sew the buttons " + on + ", and work for each a thread loop " + inside + ". No part lies under the sets."
	case scheme.Ties:
		return "Work eyelets through one half of the band only, " + inside + ", and " + on + ". Knot a tie in each, lead the ties out below the band at the opening and tie them there in a bow. No part lies under the sets."
	}
	return "Sew the hooks " + inside + ", and the eyes " + on + ". No part lies under the sets."
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

func (j *job) hiddenWords(hidden, all int) string {
	in := "an inner fold"
	if j.Pattern.Strip.Spare_mm > 0 {
		in += " or in the spare"
	}
	switch {
	case all == 1 && hidden == 1:
		return "It lies on " + in + ", where it does not show."
	case all == 1:
		return "It lies on no inner fold: it will show."
	case hidden == all:
		return "Each lies on " + in + ", where it does not show."
	case hidden == 0:
		return "None lies on an inner fold: they will show."
	}
	return strconv.Itoa(hidden) + " of them lie on " + strings.Replace(in, "an inner fold", "inner folds", 1) + "; the others will show."
}

func turns(n int) string {
	if n == 1 {
		return "one turn"
	}
	return "two turns"
}
