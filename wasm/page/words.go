package page

import "ruffwright/geom/scheme"

// Words that the page itself says. The fields' words are the scheme's, the
// findings' the check's.
const (
	onDrawing = "Show where"
	takeCare  = "Take care"
)

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
