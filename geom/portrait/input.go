// Package portrait turns points placed on a picture into the millimetres of a ruff: a
// face gives the scale, the ellipse of the ruff's outer edge gives how it lies, and every
// number comes with an interval.
//
// Pictures are in pixels, x to the right and y down. All that is said to be off by some
// amount is so 19 times in 20 (two standard deviations, nearly), and so is every interval.
package portrait

import "ruffwright/geom"

// Point is a place in a picture, px: x to the right, y down.
type Point [2]float64

func (p Point) vec() geom.Vec2 { return geom.Vec2{X: p[0], Y: p[1]} }

// Line runs from one point of a picture to another.
type Line struct {
	From Point `json:"from"`
	To   Point `json:"to"`
}

func (l Line) px() float64 { return l.To.vec().Sub(l.From.vec()).Norm() }

// Reference is a line over a face.
type Reference struct {
	Kind Kind `json:"kind"` // which measure of the face it is
	Line
}

// Kind is a measure of the face.
type Kind string

// The measures of a face that can be a ruler.
const (
	FaceHeight  Kind = "face_height"  // under the chin to the deepest point of the nose's root
	FaceBreadth Kind = "face_breadth" // across the cheekbones
	Pupils      Kind = "pupils"       // from pupil to pupil
	Nose        Kind = "nose"         // the nose's root to where it meets the lip
)

// Arc is a run of sets that was counted along the outer edge.
type Arc struct {
	Count     float64 `json:"count"`     // sets counted, 1 to 400; halves are allowed
	CountOff  float64 `json:"count_off"` // how far the count may be off, sets, up to half of it; 0: half a set
	From      Point   `json:"from"`      // where the run begins; without share
	To        Point   `json:"to"`        // and ends: by the shorter way round
	Share     float64 `json:"share"`     // its share of the way round, 0.02 to 1; 0: by from and to
	ShareOff  float64 `json:"share_off"` // how far the share may be off, up to half of it; 0: 0.02
	markedArc bool    // the share is taken from the points
}

// Head is how a head is held to the picture, degrees.
type Head struct {
	Turn    float64 `json:"turn_deg"`     // to either side, −75 to 75; 0 looks straight out
	TurnOff float64 `json:"turn_off_deg"` // how far that may be off, up to 30; 0: 10
	Nod     float64 `json:"nod_deg"`      // up or down, −60 to 60
	NodOff  float64 `json:"nod_off_deg"`  // how far that may be off, up to 30; 0: 10
}

// Source is the picture of the ruff that is wanted.
type Source struct {
	Placing    float64     `json:"placing_px"`        // how far a point may be off, each way, 0.1 to 200 px; 0: 2 px
	Distance   float64     `json:"distance_mm"`       // of the painter from the face, 300 to 20,000; 0: 2,000
	Factor     float64     `json:"distance_factor"`   // by which the distance may be off, 1 to 3; 0: 1.5
	Ahead      float64     `json:"face_ahead_mm"`     // how far the face lies before the ruff's middle, −100 to 250; 0: 80
	AheadOff   float64     `json:"face_ahead_off_mm"` // how far that may be off, 0.1 to 200; 0: 40
	Freedom    float64     `json:"freedom"`           // by which a painter may have drawn the ruff too large or small, 1 to 3; 0: 1.1
	Near       string      `json:"near"`              // which side of the ellipse is nearer: "below" (also if empty) or "above"
	Head       Head        `json:"head"`
	References []Reference `json:"references"` // 1 to 8
	Edge       []Point     `json:"edge"`       // points on the outer edge, 5 to 200
	Depths     []Line      `json:"depths"`     // from the band to the outer edge, up to 20
	Heights    []Line      `json:"heights"`    // from bottom fold to top fold at the outer edge, up to 20
	Sets       []Arc       `json:"sets"`       // up to 10
}

// Shot is a photograph of the wearer with a ruler in the plane of the face.
type Shot struct {
	Placing    float64     `json:"placing_px"`  // as in Source
	Distance   float64     `json:"distance_mm"` // of the camera from the face, 300 to 20,000; 0: 2,000
	Factor     float64     `json:"distance_factor"`
	Ruler      Line        `json:"ruler"`         // its ends
	Length     float64     `json:"ruler_mm"`      // from end to end, 20 to 2,000
	Behind     float64     `json:"behind_mm"`     // how far the ruler lies behind the face, −200 to 300
	BehindOff  float64     `json:"behind_off_mm"` // how far that may be off, 0.1 to 200; 0: 20
	Head       Head        `json:"head"`
	References []Reference `json:"references"` // 1 to 8
}

// Wearer is who will wear the ruff. Measured lengths hold before the picture's, the
// picture's before the middle of a people.
type Wearer struct {
	People  string           `json:"people"`  // whose faces are taken where none is measured: "women", "men" or, also if empty, "either"
	Face    map[Kind]float64 `json:"face_mm"` // own measures, mm
	Tape    float64          `json:"tape_mm"` // how far they may be off, 0.1 to 20 mm; 0: 2
	Picture *Shot            `json:"picture"` // nil without one
}

// Sheet is all that was placed and said.
type Sheet struct {
	Source Source `json:"source"`
	Wearer Wearer `json:"wearer"`
}

// set gives *at its usual value where nothing was said.
func set(at *float64, usual float64) {
	if *at == 0 {
		*at = usual
	}
}

// usual fills in what was left out. The figures are common practice, no source, but for
// the painter's freedom: ±10 % is the least that is told of any portrait.
func (s *Sheet) usual() {
	p := &s.Source
	set(&p.Placing, 2)
	set(&p.Distance, 2000)
	set(&p.Factor, 1.5)
	set(&p.Ahead, 80)
	set(&p.AheadOff, 40)
	set(&p.Freedom, 1.1)
	p.Head.usual()
	if p.Near == "" {
		p.Near = "below"
	}
	for i := range p.Sets {
		a := &p.Sets[i]
		set(&a.CountOff, 0.5)
		set(&a.ShareOff, 0.02)
		a.markedArc = a.Share == 0
	}
	w := &s.Wearer
	if w.People == "" {
		w.People = "either"
	}
	set(&w.Tape, 2)
	if q := w.Picture; q != nil {
		set(&q.Placing, 2)
		set(&q.Distance, 2000)
		set(&q.Factor, 1.2)
		set(&q.BehindOff, 20)
		q.Head.usual()
	}
}

func (h *Head) usual() {
	set(&h.TurnOff, 10)
	set(&h.NodOff, 10)
}
