package trial

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Step is one step of making a trial: what to do, and whether it can scald and burn, or
// prick.
type Step struct {
	Do         word.Text
	Hot, Sharp bool
}

// Steps are the order of work, with lengths in the unit u.
func (c *Card) Steps(u scheme.Units) []Step {
	mm := func(x float64) word.Text { return scheme.Length(math.Round(x*10)/10, u) }
	set := word.Say("Draw every damp loop snugly over its stick, %s thick, as you will for the ruff, and let it dry.", mm(c.Stick_mm))
	if c.Hung {
		set = word.Say("Let the damp loops dry hung up, as you will those of the ruff.")
	}
	stitch := word.Say("Take one stitch through each fold’s point, so that the fold can turn about it.")
	if c.oneEdge {
		stitch = word.Say("Sew each as you will sew the ruff: the trial then tells how firmly your stitch holds.")
	}
	return []Step{
		{Do: word.Say("Cut a strip of the ruff’s cloth the same way of the thread, %s long and %s wide. Weigh it as cut.", mm(c.CutLong_mm), mm(c.CutWide_mm))},
		{Do: word.Say("Hem it as the ruff. Mark %d folds, %s apart: a lower fold at each end, upper and lower in turn.", 2*c.Sets+1, mm(c.Panel_mm))},
		{Do: word.Join(" ", word.Say("Starch it in the ruff’s own bath."), set), Hot: true},
		{Do: word.Say("Cut card, curve and fins after the drawing, from board that does not give. Glue them: the curve has a radius of %s, and the fins point away from its middle.", mm(c.Radius_mm))},
		{Do: word.Join(" ", word.Say("Sew the %d upper folds to the card’s upper edge, %s apart. Leave the lower folds free; no tucks.", c.Sets, mm(c.Pitch_mm)), stitch), Sharp: true},
		{Do: word.Say("The lower folds at both ends rest on the fins, unsewn. Tap the card before each reading, so that nothing sticks.")},
		{Do: word.Say("Read the %d lower folds in the middle, at their outer ends, along the scale of the fin. Nought is the sewn edge; below it, minus.", c.Middle)},
	}
}

// Pose is how to hold the card for a reading, and where the ruler goes.
type Pose struct {
	Key   string
	Label word.Text
	Hold  word.Text
	Tells word.Text
}

// Poses lists them in their order.
var Poses = [Readings]Pose{
	Height:  {Keys[Height], word.Say("Upright"), word.Say("Card upright. Read from the upper folds down to the lower folds, at their outer ends."), word.Say("how snugly the sets were formed")},
	Tipped:  {Keys[Tipped], word.Say("Tipped by 60°"), word.Say("Tip the card outward by 60°, so that the sets point down. Read where the lower folds stand on the fin’s scale."), word.Say("how well they were set")},
	Hanging: {Keys[Hanging], word.Say("Hanging"), word.Say("Tip it farther, to 90°: the sets hang straight down. Read the same."), word.Say("how firmly the stitch holds")},
	Over:    {Keys[Over], word.Say("Upside down"), word.Say("Turn it over, to 180°: the upper edge lies below, and the sets sink past it. Read the same."), word.Say("how stiff the starched cloth is")},
}
