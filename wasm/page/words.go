package page

import "ruffwright/geom/scheme"

// Words that the page itself says. The fields' words are the scheme's, the
// findings' the check's.
const (
	onDrawing = "Show where"
	takeCare  = "Take care"
)

// poses in the order of their buttons, and what they are called; the long words
// begin with the label.
var (
	poses     = []Pose{AtRest, Bowed, Turned}
	poseWords = map[Pose]struct{ label, long string }{
		AtRest: {"At rest", "At rest, the wearer upright"},
		Bowed:  {"Bowing", "Bowing: the wearer bows by 60°"},
		Turned: {"Other way", "Other way: how else the cloth may lie"},
	}
)

// haltWords are what the solver's button says, and whether it has nothing to do.
func (p *Page) haltWords() (word string, idle bool) {
	switch {
	case p.solver.stand == gone, p.solver.halted:
		return "Solve again", false
	}
	return "Stop solving", !p.busy()
}

// twinLabel is what the button of the comparison says.
func (p *Page) twinLabel() string {
	return "Compare: " + sewnWords(p.ruff.Plan) + ", or " + p.otherWords()
}

// viewWords is what a view is called.
type viewWords struct {
	view        View
	label, help string
}

var views = []viewWords{
	{InHand, "In the hand", "Drag to turn, pinch or scroll to come nearer. Keys: arrows turn, + and − come nearer and go back, Home returns, Escape leaves."},
	{Above, "From above", "The neck in the middle, the opening at the front. Pinch, scroll or + to come nearer, then drag or use the arrows; Home returns, Escape leaves."},
	{Side, "From the side", "The band upright, the sets across. Pinch, scroll or + to come nearer, then drag or use the arrows; Home returns, Escape leaves."},
	{OneSet, "One set", "The outer edge of one set and its loop's clear width. Pinch, scroll or + to come nearer, then drag or use the arrows; Home returns, Escape leaves."},
	{Flat2, "Laid flat", "The strip with its top and bottom marks. Pinch, scroll or + to come nearer, then drag or use the arrows; Home returns, Escape leaves."},
}

func (p *Page) viewWords() viewWords {
	for _, v := range views {
		if v.view == p.view {
			return v
		}
	}
	return views[0]
}

func fieldsInOrder() []scheme.Field { return scheme.Fields() }
