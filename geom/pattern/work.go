package pattern

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Work is how much there is to sew and to set, and how long it may take, for all
// that are made (Pattern.Made).
type Work struct {
	Seams     []Seam
	Stitches  int
	Thread_mm float64 // with what is lost at knots and ends
	Sewing    Hours   // all from cutting to the sewn ruff
	Washing   Hours   // washing and starching, without drying
	Setting   Hours   // forming the sets with the hot stick
	Total     Hours
	Chosen    Range       // in all, at the pace of the scheme's hand
	Notes     []word.Text // where the figures come from and how far they may be trusted
}

// Seam is one kind of sewing. What is at hand already is not in the list.
type Seam struct {
	Name      word.Text
	Stitch    word.Text // "oversewing", "hemming", "tacking"
	Length_mm float64
	Stitches  int
	Thread_mm float64   // without what is lost at knots and ends
	Source    word.Text // of the number of stitches; empty: the scheme's hand.stitches
}

// Hours are ranges, for a learner and for a practised hand.
type Hours struct{ Learner, Practised Range }

// Range of hours.
type Range struct{ Least, Most float64 }

// What a stitch is taken to be, in mm; common practice, no source.
const (
	bite         = 2   // depth of an oversewing stitch
	hemBite      = 1.5 // of a hemming stitch
	foldBite     = 4   // thread of one tacking stitch at a fold, there and back: 2 × this
	foldStitches = 4   // tacking stitches at a sewn fold, on each stitch line
	tuckStitches = 2   // more where the fold is tucked
	// rawShare: the inner edge is oversewn this much more loosely than a hem.
	rawShare = 0.5
	// threadLong is cut at a time, threadLost of it goes for knots and ends.
	threadLong, threadLost = 450, 100
	// paceStitches per cm are what the logged pieces are taken to have: the
	// nearest measured hem has 6 (a linen kerchief of the 17th century).
	paceStitches = 6
)

// How fast a practised hand is: all sewing of a metre in 1/1.2 h, derived from 23
// stitches a minute (mid-19th century trials, from memory); a set in 18 s (1 h for
// 200) to 60 s (suggested, no source); washing and starching ½ to 1 h. Learners
// take three times as long to set (suggested, no source) and twice to starch (no
// source).
const (
	practisedFast     = 1 / 1.2 // h/m
	settingLeast_s    = 18
	settingMost_s     = 60
	learnersSetting   = 3
	learnersStarching = 2
)

// Work counts stitches, thread and hours.
//
// Stitches are length × stitches per cm (hand.stitches), and a number for each
// fold. Thread is geometry: an oversewing or hemming stitch of pitch p and bite b
// goes there and back aslant, 2√(b² + (p/2)²).
//
// Hours of sewing go with the metres of strip and with the stitches that this
// ruff has beside what it would have at 6 per cm. A learner's pace is the starter
// ruff's, widened both ways by the factor with which predict misses its third
// piece; a practised hand's lies between 1.2 m an hour and the Icelandic
// ruff's log.
func (p Pattern) Work() Work {
	w := Work{Seams: p.seams(p.Plan.Scheme.Hand.Stitches, false)}
	for _, s := range w.Seams {
		w.Stitches += s.Stitches
		w.Thread_mm += s.Thread_mm
	}
	w.Thread_mm *= float64(threadLong) / (threadLong - threadLost)

	whole := 0
	for _, s := range p.seams(paceStitches, true) {
		whole += s.Stitches
	}
	metres := float64(p.Made) * p.Strip.Length_mm / 1000 * float64(w.Stitches) / float64(whole)
	test := predict()
	perMetre := starterRuff.Sewing.times(1 / starterRuff.Strip_m)
	w.Sewing = Hours{
		Learner:   perMetre.widened(test.sewingMiss).times(metres),
		Practised: Range{practisedFast, icelandic.Sewing.middle() / icelandic.Strip_m}.times(metres),
	}
	w.Washing = Hours{Learner: northGermanWash.times(learnersStarching), Practised: northGermanWash}
	set := Range{settingLeast_s, settingMost_s}.times(float64(p.Made*p.Plan.Sets) / 3600)
	w.Setting = Hours{Learner: set.times(learnersSetting), Practised: set}
	w.Total = Hours{
		Learner:   w.Sewing.Learner.plus(w.Washing.Learner).plus(w.Setting.Learner),
		Practised: w.Sewing.Practised.plus(w.Washing.Practised).plus(w.Setting.Practised),
	}
	w.Chosen = w.Total.Learner
	if p.Plan.Scheme.Hand.Pace == scheme.Practised {
		w.Chosen = w.Total.Practised
	}
	number := func(v float64, decimals int) word.Number { return word.Number{Value: v, Decimals: decimals} }
	w.Notes = []word.Text{
		word.Say("A learner's sewing: %s (%s m in %s to %s h; %s), widened by a factor of %s each way.",
			starterRuff.Name, number(starterRuff.Strip_m, -1), number(starterRuff.Sewing.Least, -1), number(starterRuff.Sewing.Most, -1), starterRuff.Source, number(test.sewingMiss, 2)),
		word.Say("That factor is how far the pace of two logged pieces misses a third (%s; %s): sewing %s h for the %s h told, starching and setting %s h for %s h.",
			icelandic.Name, icelandic.Source, number(test.sewing, 1), number(icelandic.Sewing.middle(), 0), number(test.setting, 1), number(icelandic.Setting.middle(), 0)),
		word.Say("A practised hand's sewing: from 23 stitches a minute (from memory of 19th century trials) to the third piece's log, a day taken as 8 h."),
		word.Say("Setting: %d s a set (%s) to %d s; learners three times that: no source.", settingLeast_s, northGerman.Source, settingMost_s),
		word.Say("Thread and stitches at the folds and at the inner edge: common practice, no source. Drying is not counted."),
	}
	return w
}

// seams lists the sewing at n stitches per cm; whole counts what is at hand too.
func (p Pattern) seams(n float64, whole bool) []Seam {
	hand, practice := word.Text{}, word.Say("common practice, no source")
	var out []Seam
	s := p.Strip
	along := func(name word.Text, deep, length, perCm float64, source word.Text) {
		if !(length > 0) {
			return
		}
		length *= float64(p.Made)
		pitch := 10 / perCm
		seam := Seam{Name: name, Stitch: word.Say("oversewing"), Length_mm: length, Stitches: int(math.Ceil(length/pitch - 1e-9)), Source: source}
		if deep == hemBite {
			seam.Stitch = word.Say("hemming")
		}
		seam.Thread_mm = float64(seam.Stitches) * 2 * math.Hypot(deep, pitch/2)
		out = append(out, seam)
	}
	// What the hand has hemmed already reaches from the beginning.
	hemmed := 0.0
	if s.Have_mm > 0 && !whole {
		hemmed = math.Min(s.Have_mm, s.Length_mm)
	}
	ends := 2.0
	if hemmed > 0 {
		ends = 1 // the far end is hemmed when the band is full
	}
	along(word.Say("joins"), bite, float64(len(p.Cut.Joins))*s.Width_mm, n, hand)
	if s.Hem_mm > 0 {
		along(word.Say("outer hem"), hemBite, s.Length_mm-hemmed, n, hand)
		along(word.Say("end hems"), hemBite, ends*(s.Depth_mm+s.Takeup_mm), n, hand)
	}
	along(word.Say("inner edge, turned in"), bite, s.Length_mm, n*rawShare, practice)
	folds := Seam{Name: word.Say("folds to the band"), Stitch: word.Say("tacking"), Source: practice}
	lines := max(1, p.Plan.Scheme.Pleat.Lines)
	for _, m := range p.Plan.Row {
		if m.Edge == scheme.EdgeNone {
			continue
		}
		folds.Stitches += lines * foldStitches
		if m.Tuck_mm > tiny {
			folds.Stitches += lines * tuckStitches
		}
	}
	if folds.Stitches > 0 {
		// From fold to fold the thread runs along the band, once for each line.
		folds.Stitches *= p.Made
		folds.Length_mm = float64(p.Made*lines) * p.Plan.Filled_mm
		folds.Thread_mm = float64(folds.Stitches)*2*foldBite + folds.Length_mm
		out = append(out, folds)
	}
	if !p.Band.AtHand || whole {
		along(word.Say("band, bottom edge and ends"), bite, p.Band.Length_mm+2*p.Band.Height_mm, n, hand)
	}
	return out
}
