package pleat

import (
	"math"

	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
)

// cut is everything that the curves of one half set follow from, lengths in mm.
type cut struct {
	panel, outerHalf float64 // fold to fold, and half pitch at the outer edge
	length, neckHalf float64 // of the inner edge, and half pitch at the neck
	rise             float64 // crest over trough where both are sewn, else 0
	sewn             bool    // both folds are sewn
	tuckCrest        float64
	tuckTrough       float64
}

// edge is one edge of a half set, crest to trough.
type edge struct {
	points  []edgePoint
	height  float64 // mm, crest over trough (negative: under it)
	loop    float64 // outer edge: a loop's width, mm, middle of the cloth to middle
	meet    bool    // outer edge: neighbouring loops touch
	outside float64 // inner edge: how far it reaches out of its sector, mm
	flat    bool    // no curve: drawn straight
}

// edgePoint is a point of an edge: x as a part of the half pitch (0 at the crest
// plane, 1 at the trough plane), y in mm over the crest point.
type edgePoint struct{ x, y float64 }

// outerEdge is the elastica of the panel's length and outer half pitch, touching
// its neighbours where it must (curve.NewElastica); level where the panel is
// shorter than its room. u are the places along the panel.
func outerEdge(c cut, u []float64) *edge {
	o := &edge{points: make([]edgePoint, len(u))}
	e, err := curve.NewElastica(c.panel, c.outerHalf)
	if err != nil {
		o.flat, o.loop = true, 2*c.outerHalf
		straight(o.points, u, 0, c.panel, 0)
		return o
	}
	o.height, o.loop, o.meet = e.Height(), e.LoopWidth(), e.Touching()
	points(o.points, &e, c.outerHalf, u, 0, c.panel)
	return o
}

// innerEdge runs from the crest's tuck to the trough's. With both folds sewn it is
// the elastica through the two sewn points (curve.NewSewnElastica), else the free
// or touching one of its length, hung from the fold that is sewn. Where there is
// no such curve it is straight.
func innerEdge(c cut, u []float64) *edge {
	n := &edge{points: make([]edgePoint, len(u))}
	from, to := c.tuckCrest, c.panel-c.tuckTrough
	if !c.sewn {
		e, err := curve.NewElastica(c.length, c.neckHalf)
		if err != nil {
			n.flat = true
			straight(n.points, u, from, to, 0)
			return n
		}
		n.height = e.Height()
		points(n.points, &e, c.neckHalf, u, from, to)
		return n
	}
	n.height = c.rise
	// A crest under its trough is the same curve upside down.
	e, err := curve.NewSewnElastica(c.length, c.neckHalf, math.Abs(c.rise))
	if err != nil {
		n.flat = true
		straight(n.points, u, from, to, c.rise)
		return n
	}
	n.outside = e.Overlap()
	points(n.points, &e, c.neckHalf, u, from, to)
	if c.rise < 0 {
		for i := range n.points {
			n.points[i].y = -n.points[i].y
		}
	}
	return n
}

// points lays the curve out over the panel: from and to (mm along the panel) are
// where it begins and ends; before and after lie its end points.
func points(dst []edgePoint, e curve.Curve, half float64, u []float64, from, to float64) {
	for i := range dst {
		switch f := part(u[i], from, to); f {
		case 0:
			dst[i] = edgePoint{0, 0}
		case 1:
			dst[i] = edgePoint{1, -e.Height()}
		default:
			p, _ := e.At(e.Length() * f)
			dst[i] = edgePoint{p.X / half, p.Y}
		}
	}
}

// straight lays a straight edge that falls by rise out over the panel.
func straight(dst []edgePoint, u []float64, from, to, rise float64) {
	for i := range dst {
		f := part(u[i], from, to)
		dst[i] = edgePoint{f, -rise * f}
	}
}

// part is where u lies between from and to, 0 before and 1 behind.
func part(u, from, to float64) float64 {
	switch {
	case u <= from:
		return 0
	case u >= to:
		return 1
	}
	return (u - from) / (to - from)
}

// alongPanel is nu + 1 places along the panel from the crest, with a place
// exactly where each tuck ends, and as near equal steps as that allows: at least
// two cells a tuck, one on the coarsest grids.
func alongPanel(c cut, nu int) []float64 {
	cells := func(tuck float64) int {
		if tuck == 0 {
			return 0
		}
		least, most := 1, nu/3
		if nu >= 8 {
			least = 2
		}
		return min(max(int(math.Round(float64(nu)*tuck/c.panel)), least), most)
	}
	a, b := cells(c.tuckCrest), cells(c.tuckTrough)
	u := make([]float64, 0, nu+1)
	lay := func(n int, from, to float64) {
		for i := range n {
			u = append(u, from+(to-from)*float64(i)/float64(n))
		}
	}
	lay(a, 0, c.tuckCrest)
	lay(nu-a-b, c.tuckCrest, c.panel-c.tuckTrough)
	lay(b, c.panel-c.tuckTrough, c.panel)
	return append(u, c.panel)
}

// cutOf is the cut of panel i, whose room at the outer edge is outer mm.
func (p Plan) cutOf(i int, outer float64) cut {
	crest, trough := p.Row[i], p.Row[i+1]
	if crest.Fold == scheme.Trough {
		crest, trough = trough, crest
	}
	c := cut{
		panel: p.Row.Panel(i), outerHalf: outer, neckHalf: p.Row.Pitch(i), length: p.Row.Inner(i),
		tuckCrest: crest.Tuck_mm, tuckTrough: trough.Tuck_mm,
		sewn: crest.Edge != scheme.EdgeNone && trough.Edge != scheme.EdgeNone,
	}
	if c.sewn {
		c.rise = p.Edge_mm(crest.Edge) - p.Edge_mm(trough.Edge)
	}
	return c
}
