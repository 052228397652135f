package pleat

import (
	"fmt"
	"math"

	"ruffwright/geom"
	"ruffwright/geom/scheme"
)

// The grids that Fold draws on: below 4 cells along a panel its two tucks have no room.
const (
	minNU, maxNU = 4, 256
	minNV, maxNV = 1, 256
)

// fadeDepths is how far from the neck a tuck is still folded in, in tuck depths: as
// far as the solved half set's pressed crease. Chosen, not measured.
const fadeDepths = 4

// Fold draws the whole ruff in closed form: nu cells along each panel (4 to 256)
// and nv from the neck to the outer edge (1 to 256).
//
// Each half set lies in its own wedge, between the planes that stand upright on
// the neckline at its crest and its trough, and mirrors its neighbours in them.
// The outer edge is the elastica of the panel's length and outer half pitch
// rolled onto the upright wall that runs parallel to the neckline at the ruff's
// depth, which keeps its length; the inner edge likewise on the neckline.
// Straight lines join the two edges, each to the point at the same length of
// strip; the tuck's cloth lies folded inward in the fold's own plane and fades
// over 4 tuck depths. The outer edge's middle stands as high as the inner edge's.
// Lines from neck to outer edge differ from the strip's width.
//
// Panels that differ, by own marks or (slightly) on an ellipse, would alone stand at
// different heights on the fold they share. It is drawn at the mean of the two and
// each panel's height fitted to its folds: lengths along the outer edge are then near,
// not exact (to 0.3 % for 16 sets on an ellipse of 0.8; TestEdgesKeepTheirLength).
// With nothing sewn at all the inner edge is centred on the band.
//
// Where no inner curve exists (slack below 1) the inner edge is the straight
// line between the sewn points (Measure.InnerStraight); where a panel is shorter
// than its room at the outer edge, that edge is level (Measure.OuterStraight).
func (p Plan) Fold(nu, nv int) (Folded, error) {
	row, err := p.layOut(nu, nv)
	if err != nil {
		return Folded{}, err
	}
	f := Folded{
		Shape: Shape{NU: nu, NV: nv, Panels: make([]Panel, len(row.panels))},
		Half:  make([]Measure, len(row.panels)),
	}
	size := (nu + 1) * (nv + 1)
	nodes := make([]geom.Vec3, size*len(row.panels))
	for i := range row.panels {
		v := nodes[i*size : (i+1)*size : (i+1)*size]
		p.draw(v, row, i, nu, nv)
		f.Shape.Panels[i].V = v
		f.Half[i] = p.measure(row, i)
	}
	f.Mean = mean(f.Half)
	return f, nil
}

// layout is the whole row of folds, drawn half set by half set.
type layout struct {
	folds        Row
	stations     []geom.Station
	panels       []panelCut
	outer, inner []float64 // heights of the folds at the two edges, mm
}

// panelCut is one panel of the row: the curves of its half set and its wedge.
type panelCut struct {
	cut
	u            []float64 // places along the panel, mm from the crest
	outer, inner *edge
	turn         float64 // angle between its two planes
}

// layOut solves every distinct half set once (an ellipse has a quarter of them,
// a circle one) and finds the height of every fold. An error tells of a grid or a plan
// that cannot be drawn.
func (p Plan) layOut(nu, nv int) (layout, error) {
	if nu < minNU || nu > maxNU || nv < minNV || nv > maxNV {
		return layout{}, fmt.Errorf("pleat: a grid of %d × %d cells, want %d to %d along a panel and %d to %d across",
			nu, nv, minNU, maxNU, minNV, maxNV)
	}
	if p.Panels == 0 || len(p.Row) != p.Panels+1 {
		return layout{}, fmt.Errorf("pleat: a plan of %d marks and %d panels, want one that NewPlan made", len(p.Row), p.Panels)
	}
	r := layout{
		folds:    p.Row,
		stations: make([]geom.Station, len(p.Row)),
		panels:   make([]panelCut, p.Panels),
	}
	for k := range p.Row {
		r.stations[k] = p.station(k)
	}
	outers, inners := make(map[cut]*edge), make(map[cut]*edge)
	for i := range r.panels {
		half := p.Row.Pitch(i)
		turn := turnBetween(r.stations[i], r.stations[i+1], half)
		c := p.cutOf(i, half+p.Scheme.Ruff.Depth*turn)
		u := alongPanel(c, nu)
		key := c.rounded(p.Panel_mm)
		outer := outers[key]
		if outer == nil {
			outer = outerEdge(c, u)
			outers[key] = outer
		}
		key.outerHalf = 0 // of no account for the inner edge
		inner := inners[key]
		if inner == nil {
			inner = innerEdge(c, u)
			inners[key] = inner
		}
		r.panels[i] = panelCut{c, u, outer, inner, turn}
	}
	r.inner = p.innerHeights(r)
	r.outer = outerHeights(r)
	return r, nil
}

// rounded makes cuts that differ by rounding alone the same key. unit is a
// length of the ruff's own size, so that the key does not know the scale.
func (c cut) rounded(unit float64) cut {
	q := unit * 1e-10
	for _, v := range []*float64{&c.panel, &c.outerHalf, &c.length, &c.neckHalf, &c.rise, &c.tuckCrest, &c.tuckTrough} {
		*v = math.Round(*v / q)
	}
	return c
}

// turnBetween is the angle by which the neckline turns from a to b, h mm apart:
// the mean curvature times h settles how often it has gone round.
func turnBetween(a, b geom.Station, h float64) float64 {
	turn := math.Atan2(a.Tangent.Cross(b.Tangent), a.Tangent.Dot(b.Tangent))
	guess := h * (a.Curvature + b.Curvature) / 2
	return turn + 2*math.Pi*math.Round((guess-turn)/(2*math.Pi))
}

// innerHeights finds how high every fold stands at the inner edge: sewn folds on
// their edge of the band, the others as high as the panels between say, from the
// nearest sewn one, the mean where two are as near.
func (p Plan) innerHeights(r layout) []float64 {
	z := make([]float64, len(r.folds))
	far := make([]int, len(z)) // folds to the nearest sewn one
	// up is how far fold k stands over fold k + 1.
	up := func(k int) float64 {
		if r.folds[k].Fold == scheme.Crest {
			return r.panels[k].inner.height
		}
		return -r.panels[k].inner.height
	}
	sewn := false
	for k, f := range r.folds {
		if far[k] = len(z); f.Edge != scheme.EdgeNone {
			z[k], far[k], sewn = p.Edge_mm(f.Edge), 0, true
		}
	}
	if !sewn {
		z[0], far[0] = p.Scheme.Band.Height/2+up(0)/2, 0
	}
	for k := 1; k < len(z); k++ {
		if far[k-1]+1 < far[k] {
			z[k], far[k] = z[k-1]-up(k-1), far[k-1]+1
		}
	}
	for k := len(z) - 2; k >= 0; k-- {
		switch height, n := z[k+1]+up(k), far[k+1]+1; {
		case n < far[k]:
			z[k], far[k] = height, n
		case n == far[k]:
			z[k] = (z[k] + height) / 2
		}
	}
	return z
}

// outerHeights finds how high every fold stands at the outer edge: half its
// panel's height from the middle of the inner edge, the mean of its two panels.
func outerHeights(r layout) []float64 {
	z := make([]float64, len(r.folds))
	for i, c := range r.panels {
		middle := (r.inner[i] + r.inner[i+1]) / 2
		up := c.outer.height / 2
		if r.folds[i].Fold == scheme.Trough {
			up = -up
		}
		z[i] += middle + up
		z[i+1] += middle - up
	}
	for k := 1; k+1 < len(z); k++ {
		z[k] /= 2
	}
	return z
}

// ends gives the folds of panel i as crest and trough.
func (r layout) ends(i int) (crest, trough int) {
	if r.folds[i].Fold == scheme.Crest {
		return i, i + 1
	}
	return i + 1, i
}

// draw fills panel i's nodes, in the order of the strip.
func (p Plan) draw(v []geom.Vec3, r layout, i, nu, nv int) {
	c := r.panels[i]
	crest, trough := r.ends(i)
	neck := newSpan(r.stations[i], r.stations[i+1], 0, c.neckHalf)
	wall := newSpan(r.stations[i], r.stations[i+1], p.Scheme.Ruff.Depth, c.outerHalf)
	depth := p.Scheme.Ruff.Depth
	outer := fit(c.outer.height, r.outer[crest], r.outer[trough])
	inner := fit(c.inner.height, r.inner[crest], r.inner[trough])
	for k := range c.u {
		e, n := c.outer.points[k], c.inner.points[k]
		at := k
		if crest != i {
			e.x, n.x = 1-e.x, 1-n.x
			at = nu - k
		}
		from, to := neck.at(n.x), wall.at(e.x)
		if n.x < 0 || n.x > 1 {
			// A loop that reaches out of its sector: far out no quintic holds.
			from = p.Neckline.At(p.Row[i].Station_mm + n.x*c.neckHalf).Pos
		}
		a := geom.Vec3{X: from.X, Y: from.Y, Z: r.inner[crest] + inner*n.y}
		b := geom.Vec3{X: to.X, Y: to.Y, Z: r.outer[crest] + outer*e.y}
		if k == nu {
			a.Z, b.Z = r.inner[trough], r.outer[trough]
		}
		folded, reach := c.foldedIn(c.u[k], depth)
		d := b.Sub(a)
		for j := range nv + 1 {
			f := float64(j) / float64(nv)
			q := a.Add(d.Scale(f))
			if j == nv {
				q = b
			}
			if out := f * depth; out < reach {
				w := 1 - out/reach
				q.Z += folded * w * w
			}
			v[at*(nv+1)+j] = q
		}
	}
}

// fit is the factor that brings a curve of the given height between two folds;
// 1 where they already fit, or where the curve has no height of its own.
func fit(height, crest, trough float64) float64 {
	if height == 0 {
		return 1
	}
	return (crest - trough) / height
}

// foldedIn is how far a tuck pulls the cloth at u (mm along the panel from the
// crest) at the neck, down at a crest and up at a trough, and the depth at which
// nothing of it is left, both in mm.
func (c cut) foldedIn(u, depth float64) (dz, reach float64) {
	switch end := c.panel - c.tuckTrough; {
	case u < c.tuckCrest:
		return u - c.tuckCrest, math.Min(fadeDepths*c.tuckCrest, depth)
	case u > end:
		return u - end, math.Min(fadeDepths*c.tuckTrough, depth)
	}
	return 0, 0
}

// measure tells what panel i measures as drawn.
func (p Plan) measure(r layout, i int) Measure {
	c := r.panels[i]
	crest, trough := r.ends(i)
	return Measure{
		Kappa_1pmm:      c.turn / c.neckHalf,
		Pitch_mm:        2 * c.neckHalf,
		PitchOuter_mm:   2 * c.outerHalf,
		Panel_mm:        c.panel,
		HeightOuter_mm:  r.outer[crest] - r.outer[trough],
		HeightInner_mm:  r.inner[crest] - r.inner[trough],
		TopOuter_mm:     r.outer[crest],
		BottomOuter_mm:  r.outer[trough],
		Loop_mm:         math.Max(0, c.outer.loop-p.Scheme.Cloth.Thickness),
		LoopsMeet:       c.outer.meet,
		InnerOutside_mm: c.inner.outside,
		InnerStraight:   c.inner.flat,
		OuterStraight:   c.outer.flat,
	}
}
