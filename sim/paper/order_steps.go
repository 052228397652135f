package paper

import (
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/paper/sheet"
)

// cuttingSteps are the steps from the printed sheets to the joined strip, hemmed,
// its inner edge turned in.
func (j *job) cuttingSteps(f *sheet.Flow) {
	st, cut := j.Pattern.Strip, j.Pattern.Cut
	f.Head(word.Say("Before cutting"), 16)
	f.Tick(word.Say("**Print and measure.** Sheet 1: the square, both ways. Tick each sheet's bars before you use it."))
	wash := when(j.s.Strip.ShrinkWarp == 0 && j.s.Strip.ShrinkWeft == 0,
		word.Say("The scheme takes the cloth as washed already. If it is not, wash, dry and iron the whole of it. Straighten both ends along a thread."),
		word.Say("Wash, dry and iron the whole cloth. Straighten both ends along a thread."))
	f.Tick(word.Say("**Wash before cutting.** %s", wash))
	f.Tick(word.Say("**Test the washed cloth.** Cut a swatch strip each way and hang it on the swatch card. Enter what you read in the scheme, and print anew if the %s changes.", j.thing()))

	f.Head(word.Say("Cut and join"), 16)
	f.Tick(word.Say("**Cut.** Along drawn threads: %s", j.cutWords()))
	if st.Have_mm > 0 {
		f.Tick(word.Say("**Measure the strip at hand:** the scheme takes it as %s long, its outer edge finished, and %s from its raw inner edge to that.", j.len(st.Have_mm), j.len(st.Depth_mm+st.Takeup_mm)))
	}
	if n := len(cut.Joins); n > 0 {
		hidden := 0
		for _, x := range cut.Joins {
			if x.Hidden {
				hidden++
			}
		}
		undo := when(st.Have_mm > 0, word.Say("Undo the hem of the end where the strip at hand is joined."), word.Text{})
		joins := word.Say("the join")
		if n > 1 {
			joins = word.Count(n, "the %s join", "the %s joins", thousands(n))
		}
		how := when(j.s.Strip.Join == 0, word.Say("edge to edge, nothing allowed"), word.Say("%s allowed on each side", j.len(j.s.Strip.Join)))
		if j.s.Strip.Selvedge == 0 && cut.Along == scheme.Weft {
			how = word.Say("selvedge to selvedge where both are, %s", how)
		}
		lay := word.Count(j.Pattern.Made, "Lay the pieces end to end in their order and oversew %s, %s.", "Lay the pieces end to end in their order and oversew %s of each strip, %s.", joins, how)
		f.Tick(word.Join(" ", word.Say("**Join before hemming.**"), undo, lay, j.hiddenWords(hidden, n)))
	}
	j.hemStep(f)
	if st.Takeup_mm > 0 {
		f.Tick(word.Say("**Turn in the inner edge: its fold is the stitch line.** Fold the raw edge to the wrong side, %s wide all along ('taken up by the band'). Press it, and oversew it down loosely. Everything is marked and sewn at this fold. From it to the outer edge the strip is now %s, the depth: sewn at the raw edge the %s would be %s deeper.", j.len(st.Takeup_mm), j.len(st.Depth_mm), j.thing(), j.len(st.Takeup_mm)))
	} else {
		f.Tick(word.Say("**The inner edge is the stitch line.** The scheme leaves nothing to turn in: oversew the edge closely, or let it be a selvedge. Everything is marked and sewn there."))
	}
}

func (j *job) cutWords() word.Text {
	var what []word.Text
	if n := j.Pattern.Cut.ToCut(); n > 0 {
		n *= j.Pattern.Made
		what = append(what, word.Count(n, "%s piece of strip, %s wide", "%s pieces of strip, each %s wide", thousands(n), j.len(j.Pattern.Strip.Width_mm)))
	}
	switch {
	case j.Pattern.Band.AtHand:
	case j.Pattern.Made > 1:
		what = append(what, word.Say("two bands"))
	default:
		what = append(what, word.Say("the band"))
	}
	what = append(what, word.Say("the swatches that are left"))
	words := word.Say("%s.", list(what))
	if j.Pattern.Cut.ToCut() > 1 {
		words = word.Join(" ", words, word.Say("Number the strips in pencil at one end."))
	}
	return words
}

// hemStep says what is hemmed before marking. The far end waits where spare is cut
// off beyond it.
func (j *job) hemStep(f *sheet.Flow) {
	st := j.Pattern.Strip
	if j.Pattern.Cut.ToCut() == 0 {
		return // the strip at hand is hemmed
	}
	if st.Hem_mm == 0 {
		f.Tick(word.Say("**No hem** is planned: outer edge and ends stay as they are. Let them be selvedges, or oversew them finely, or they fray."))
		return
	}
	what := word.Say("The outer edge and both ends")
	switch {
	case st.Have_mm > 0 && st.Spare_mm > 0:
		what = word.Say("The outer edge where it is not hemmed yet; the far end waits until the spare is cut off")
	case st.Have_mm > 0:
		what = word.Say("The outer edge where it is not hemmed yet, and the far end")
	case st.Spare_mm > 0:
		what = word.Say("The outer edge and the end that carries the first mark; the far end waits until the spare is cut off")
	}
	f.Tick(word.Say("**Hem.** %s: %s of %s, stitches %s.", what, word.Count(j.s.Strip.HemTurns, "one turn", "two turns"), j.len(j.s.Strip.Hem), j.stitches()))
}

// bandSteps are the steps from the marked strip to the closed band.
func (j *job) bandSteps(f *sheet.Flow) {
	b, st := j.Pattern.Band, j.Pattern.Strip
	f.Tick(word.Say("**Mark from one end.** The marking tape or the table, along the stitch line: every mark from %s, never step by step. %s.", j.zero(), word.Count(len(j.Ruff.Plan.Row), "%s mark", "%s marks", thousands(len(j.Ruff.Plan.Row)))))
	size := word.Say("%s × %s", j.len(b.Length_mm), j.len(b.Height_mm))
	marks := word.Say("Then mark quarters and strokes on it from the pattern.")
	switch {
	case b.AtHand:
		f.Tick(word.Say("**Take the band that is made.** Lay it beside the pattern: %s. All its edges must be finished, since folds are sewn to them from outside. %s", size, marks))
	case b.Seam_mm > 0:
		f.Tick(word.Say("**Make the band, finished all round.** Fold it along the middle, right side out, turn the seam allowances in, and press. Oversew the bottom edge and the ends. Finished %s. %s", size, marks))
	default:
		f.Tick(word.Say("**Make the band, finished all round.** Fold it along the middle, right side out, and oversew its raw edges together closely: the scheme gives no seam allowance. Finished %s. %s", size, marks))
	}
	if pins := j.pinsWords(); len(pins) > 0 {
		f.Tick(word.Say("**Pin at the quarters, not at every fold:** %s.", list(pins)))
	} else {
		f.Tick(word.Say("**Pin the first and the last sewn fold and the middle,** not every fold: the sets do not divide into quarters. Then halve each stretch by eye."))
	}
	j.sewSteps(f)
	count := word.Say("%s: %s?", word.Count(j.Ruff.Plan.Sets, "%s set", "%s sets", thousands(j.Ruff.Plan.Sets)), list(j.sewnCounts()))
	if st.Spare_mm > 0 {
		spare := when(st.Hem_mm > 0, word.Say("Then cut off the spare beyond the last mark, leave %s and hem that end.", j.len(st.Hem_mm)), word.Say("Then cut off the spare beyond the last mark."))
		count = word.Join(" ", count, spare)
	}
	f.Tick(word.Say("**Count.** %s", count))
	f.Tick(word.Say("**Closures.** %s %s", j.overlapWords(), j.closureWords()))
	f.Tick(word.Say("**Try it on, unstarched.** Nothing presses, no pin left in it, the ends lie as wished."))
}

// sewnCounts says how many folds are on which edge: "41 bottom folds on the band's
// bottom edge".
func (j *job) sewnCounts() []word.Text {
	var out []word.Text
	sewn := j.sewn()
	for _, edge := range []scheme.Edge{scheme.EdgeTop, scheme.EdgeBottom} {
		for _, fold := range []scheme.Fold{scheme.Crest, scheme.Trough} {
			n := sewn[edge][fold]
			if n > 0 {
				if fold == scheme.Crest {
					out = append(out, word.Count(n, "%s top fold on the band's %s", "%s top folds on the band's %s", thousands(n), edgeName[edge]))
				} else {
					out = append(out, word.Count(n, "%s bottom fold on the band's %s", "%s bottom folds on the band's %s", thousands(n), edgeName[edge]))
				}
			}
		}
	}
	return out
}

// sewSteps says what is sewn to which edge, and which first.
func (j *job) sewSteps(f *sheet.Flow) {
	var tuck, second word.Text
	if j.tucked() {
		tuck = word.Say("At a mark with a tuck first bring the two places of the tuck together, then sew through both.")
	}
	if j.s.Pleat.Lines == 2 {
		second = word.Say("Then a second line of stitches, %s from the first, parallel to the band.", j.len(j.s.Pleat.LineGap))
	}
	whip := word.Say("The fold's turned-in edge is whipped to the finished edge of the band from outside, four stitches to a fold.")
	edges := j.sewn()
	both := edges[scheme.EdgeTop] != nil && edges[scheme.EdgeBottom] != nil
	switch {
	case j.Ruff.Plan.MarksOwn && both:
		f.Tick(word.Join(" ", word.Say("**Sew** each fold to the edge that the table of marks gives, the top edge first all the way round."), whip, tuck, second))
	case both:
		f.Tick(word.Join(" ", word.Say("**Sew the top edge first.** All the way round, every top fold at its stroke on the band's top edge."), whip, tuck, second))
		f.Tick(word.Say("**Then the bottom edge.** Every bottom fold at its stroke, halfway between its neighbours, in the same way."))
	case edges[scheme.EdgeTop] == nil && edges[scheme.EdgeBottom] == nil:
		f.Tick(word.Say("**Nothing is sewn:** by its marks no fold goes to the band."))
	default:
		edge := scheme.EdgeTop
		if edges[edge] == nil {
			edge = scheme.EdgeBottom
		}
		which := when(!j.Ruff.Plan.MarksOwn, word.Say("the %s", foldNames[j.Ruff.Plan.Row.Kind()]), word.Say("the folds that the table marks as sewn"))
		var only word.Text
		if edges[scheme.EdgeNone] != nil {
			only = word.Say("Sew these folds only: the others hang free.")
		}
		f.Tick(word.Join(" ", word.Say("**Sew %s** to the band's %s, all the way round, each at its stroke.", which, edgeName[edge]), whip, only, tuck, second))
	}
}

func (j *job) zero() word.Text {
	return when(j.Pattern.Strip.Hem_mm > 0, word.Say("the hemmed end"), word.Say("the strip's first end"))
}

// overlapWords says which end of the closed band lies over the other.
func (j *job) overlapWords() word.Text {
	switch {
	case j.Pattern.Band.Overlap_mm == 0:
		return word.Say("Closed, the band's ends meet.")
	case j.s.Wearer.Part == scheme.Wrist:
		return word.Say("Closed, the overlap goes under the other end, next to the skin.")
	}
	return word.Say("Closed, the overlap goes under the other end, next to the skin: worn, the left end lies over the right.")
}

func (j *job) closureWords() word.Text {
	on := word.Say("on the overlap's outer half")
	if far := j.Pattern.Band.Closures[1]; far.Face == pattern.Inner {
		on = word.Say("inside the other end, on its inner half")
	}
	inside := word.Say("inside the end with the first set, on its inner half")
	switch j.s.Band.Closure {
	case scheme.Buttons:
		return word.Say("Sew the buttons %s, and work for each a thread loop %s. No part lies under the sets.", on, inside)
	case scheme.Ties:
		return word.Say("Work eyelets through one half of the band only, %s, and %s. Knot a tie in each, lead the ties out below the band at the opening and tie them there in a bow. No part lies under the sets.", inside, on)
	}
	return word.Say("Sew the hooks %s, and the eyes %s. No part lies under the sets.", inside, on)
}

func (j *job) hiddenWords(hidden, all int) word.Text {
	in, inner := word.Say("an inner fold"), word.Say("inner folds")
	if j.Pattern.Strip.Spare_mm > 0 {
		in, inner = word.Say("an inner fold or in the spare"), word.Say("inner folds or in the spare")
	}
	switch {
	case all == 1 && hidden == 1:
		return word.Say("It lies on %s, where it does not show.", in)
	case all == 1:
		return word.Say("It lies on no inner fold: it will show.")
	case hidden == all:
		return word.Say("Each lies on %s, where it does not show.", in)
	case hidden == 0:
		return word.Say("None lies on an inner fold: they will show.")
	}
	return word.Say("%d of them lie on %s; the others will show.", hidden, inner)
}
