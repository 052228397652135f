// Package trial is a trial set: a few untucked sets, formed, starched and set on the maker's
// own sticks, sewn to a stiff card and held in four ways, where a ruler tells how far
// their free folds stand off. From a scheme it says what to make (Card), what the ruler
// would read (Table), and from what it did read how stiff the starched cloth is, how well
// the sets were set, and how firmly the stitch holds them (Table.Answer).
//
// # Why these sets
//
// Measured on the first ruff, by the model. Sewn to both edges the outer edge stands within
// 0.5 mm, upside down too, whether the cloth is half or twice as stiff: nothing to read. Sewn
// to the top edge alone a set turns about its stitches, and the ring that it is part of turns
// inside out when it is held upside down; how far, the starch decides, by 9 to 12 mm for
// twice the stiffness. So the card is curved as the neckline: along a straight one the sets
// would swing freely. The free folds move two to three times as far as the sewn ones, and
// are read.
//
// The fins at the card's ends, in the end folds' radial planes, stand for the neighbours.
// Without them the end flaps turn over and hold the others: tipped by 90°, the middle of eight sets
// stands 40 mm off where it would between fins. With them any number of sets does the
// same, by the model, which knows no friction; six keep the three folds in the middle away from the fins.
//
// Tucks are left out: their inside may lie in several ways.
//
// # The four poses
//
// Upright the folds stay as they were formed: the height tells how snugly the sets were
// drawn over their sticks. Tipped outward by 60° the quality of the setting shows, at
// 90°, hanging down, the stitch, upside down the stiffness. A stitch about which folds turn tells most: the stiffness
// to ± 13 %. Where it holds them, they move less, and the starched cloth's shear,
// which is a guess, counts: then ± 80 %.
//
// # What it leaves out
//
// As package window: neighbours that are unlike, friction, damp. The fins at the card's ends
// stand for the mirrors of the model. No cloth was tried: all is by the model, on the grid
// by which ruffs are solved.
package trial

import (
	"math"

	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/cloth"
	"ruffwright/sim/window"
)

// Card is what to make for a trial, in mm.
type Card struct {
	Sets, Middle int     // sets in all; free folds in their middle that are read
	Panel_mm     float64 // from fold to fold along the strip
	Depth_mm     float64 // from the card to the outer edge
	Pitch_mm     float64 // of the card's edge that a set takes
	Radius_mm    float64 // of the card's curve
	Stick_mm     float64 // thickness of the sticks
	Tall_mm      float64 // height of the sets that are drawn snugly over them
	Hung         bool    // the sets dry hung up, without sticks

	CutLong_mm, CutWide_mm float64 // the strip, cut
	Cloth_gm2              float64 // mass by the scheme

	Bend_mm float64 // bending length of the starched cloth that is expected: the scheme's

	given, scheme scheme.Scheme // as it came in, and filled
	oneEdge       bool          // the ruff is sewn to one edge of its band
	design        window.Design
	own_mm        float64 // bending length of the cloth itself, along the strip
}

const (
	sets, middle = 6, 3
	// depthLeast is how deep the trial's sets are at least, as a share of the bending length
	// expected: in shallower ones the cloth's weight moves the folds too little to be read.
	depthLeast = 1
	// least is by how much starch must make the cloth longer in bending for its sets to
	// keep a shape that can be read.
	least = 1.15
)

// New designs the trial of a scheme: sets as long from fold to fold as the ruff's, as
// closely sewn, formed on the same sticks. Errors name the scheme's field.
func New(s scheme.Scheme) (Card, error) {
	r, err := sim.Draw(s)
	if err != nil {
		return Card{}, err
	}
	d, err := sim.Design(r)
	if err != nil {
		return Card{}, err
	}
	f := r.Plan.Scheme
	own, _, err := cloth.Along(f.Cloth.BendWarp, f.Cloth.BendWeft, f.Strip.Along)
	if err != nil {
		return Card{}, err
	}
	if f.Starch.Bend < least*own {
		return Card{}, scheme.Error{
			Field: "starch.bend", Value: word.Say("%s mm", word.Number{Value: f.Starch.Bend, Decimals: 1, Short: true}),
			Why:     word.Say("leaves nothing for a trial to tell: its sets must keep the shape they are set in"),
			Allowed: word.Say("what you expect of the starched cloth, %s to %d mm", word.Number{Value: least * own, Decimals: 1, Short: true}, bendMost_mm),
		}
	}
	d.Anchor, d.Sewn, d.TuckTop_mm, d.TuckBottom_mm, d.Support, d.LineGap_mm = window.Top, window.Crests, 0, 0, false, 0
	d.Width_mm = math.Min(math.Max(d.Width_mm, math.Ceil(depthLeast*f.Starch.Bend/5)*5), depthMost_mm)
	if d.StickReach_mm > 0 {
		d.StickReach_mm = math.Min(d.StickReach_mm, d.Width_mm)
	}
	hem := f.Strip.Hem * float64(f.Strip.HemTurns)
	c := Card{
		Sets: sets, Middle: middle, Panel_mm: d.Panel_mm, Depth_mm: d.Width_mm, Pitch_mm: d.Pitch_mm, Radius_mm: 1 / d.Kappa_1pmm,
		Stick_mm: d.Stick_mm, Hung: d.Hung, Cloth_gm2: f.Cloth.Mass, Bend_mm: f.Starch.Bend,
		CutLong_mm: math.Ceil(2*sets*d.Panel_mm + 2*hem), CutWide_mm: math.Ceil(d.Width_mm + f.Strip.Takeup + hem),
		given: s, scheme: f, oneEdge: r.Plan.Row.OneEdge(), design: d, own_mm: own,
	}
	if err := d.Validate(); err != nil {
		return Card{}, err
	}
	if c.Stick_mm == 0 {
		c.Stick_mm = window.OwnStick(c.Panel_mm, c.room_mm(), d.Thickness_mm)
	}
	c.Tall_mm, err = curve.TautHeight(c.Panel_mm, c.room_mm(), (c.Stick_mm+d.Thickness_mm)/2)
	return c, err
}

// room_mm is the room of half a set at the outer edge.
func (c *Card) room_mm() float64 { return window.Room_mm(c.Pitch_mm/2, 1/c.Radius_mm, c.Depth_mm) }

// Below_mm and Above_mm are how far the fins must reach below the sewn edge and above it:
// no fold stands farther off in any pose.
func (c *Card) Below_mm() float64 { return math.Ceil(c.Tall_mm/5)*5 + 10 }

// Above_mm is told of with Below_mm.
func (c *Card) Above_mm() float64 { return math.Ceil(c.Depth_mm/5)*5 + 10 }

// bendMost_mm is the longest starch.bend that a scheme may hold, depthMost_mm the greatest
// ruff.depth.
const bendMost_mm, depthMost_mm = 250, 300

// Arc_mm is the length of the card's curved edge, from fin to fin.
func (c *Card) Arc_mm() float64 { return sets * c.Pitch_mm }
