package check

import (
	"math"
	"slices"

	"ruffwright/geom/word"
)

// From tells what can make a finding.
type From string

const (
	FromGeometry  From = "geometry"  // the plan and the closed form
	FromHand      From = "hand"      // how exactly the maker works
	FromMechanics From = "mechanics" // the solved ruff alone
	FromSafety    From = "safety"    // cautions
)

// Rule is one row of the table: what a finding is, how much it weighs at most
// (Against says where its value makes it weigh less), and where its limit comes
// from.
type Rule struct {
	ID       string   `json:"id"`
	Title    string   `json:"title"` // a few words, for a list
	Severity Severity `json:"severity"`
	Limit    float64  `json:"limit"` // in Unit; 0 where Against says that the scheme sets it
	Unit     string   `json:"unit"`
	Against  string   `json:"against"` // how the value is held against the limit
	Source   string   `json:"source"`  // where the limit comes from
	Where    Where    `json:"where"`
	From     From     `json:"from"`
}

// Table gives every finding there can be, in the order in which Find lists those
// of one severity.
func Table() []Rule {
	t := make([]Rule, len(rules))
	for i, l := range rules {
		t[i] = l.Rule
	}
	return slices.Clip(t)
}

const (
	practice = "common practice, no source"
	judged   = "this project's judgement, no source"
	geometry = "geometry"
	asked    = "the maker's own wish in the scheme"
	solved   = "half sets solved for this project"
)

// law is a row of the table and what finds it.
type law struct {
	Rule
	find func(*view) (seen, bool) // gives its value whether it finds something or not

	parts part             // of the mechanics that it reads; find is not called before they are there
	when  func(*view) bool // what it is asked of; nil: of every ruff
}

// lawOf gives the law of that id.
func lawOf(id string) (law, bool) {
	i := slices.IndexFunc(rules, func(l law) bool { return l.ID == id })
	if i < 0 {
		return law{}, false
	}
	return rules[i], true
}

// Title is the few words of a finding.
func Title(id string) word.Text {
	l, _ := lawOf(id)
	return word.Say(l.Title)
}

// applies says whether the law is asked of the ruff.
func (l *law) applies(v *view) bool { return l.when == nil || l.when(v) }

// look gives what the law finds, and whether it finds anything.
func (l *law) look(v *view) (seen, bool) {
	switch {
	case l.From != FromSafety && len(v.r.Folded.Half) == 0,
		l.parts != 0 && (!v.has(shapePart) || v.awaits(l.parts)),
		!l.applies(v):
		return seen{}, false
	}
	s, ok := l.find(v)
	return s, ok && !math.IsNaN(s.value)
}

// rules are all findings, in the order in which Find lists those of one severity.
// They are put together at start, because one of them (not-solved) reads them.
var rules []law

func init() {
	rules = []law{
		// From geometry.
		endsLaw, flapsLaw, slackShortLaw, outerShortLaw, cannotSolveLaw, neckFullLaw, stripShortLaw,
		bandShortLaw, rowLongLaw, rowShortLaw, bandTightLaw, slackLongLaw, neckCrowdedLaw, heightLaw,
		marksStepLaw, marksSewnLaw, joinsLaw, cutWidthLaw, loopsCrowdedLaw, gapingLaw, fittedLaw,
		quartersLaw, girthLaw,
		// From the hand.
		markingLaw, driftLaw,
		// From mechanics.
		bowLaw, flapsSolvedLaw, flapsUndecidedLaw, sinksLaw, bobsLaw, poppedLaw, dentedLaw,
		softSidewaysLaw, leansLaw, clothStiffnessLaw, depthLaw, loopsSolvedLaw, secondLineLaw,
		stickLaw, threadLaw, severalWaysLaw, uncertainLaw, settingLaw, alikeLaw, notAtRestLaw, notSolvedLaw,
		// Cautions.
		flameLaw, breathingLaw, cordsLaw, hotLaw, needlesLaw,
	}
}
