package pleat

import (
	"math"

	"ruffwright/geom"
)

// Making is a ruff on its way from the strip laid flat, through the pleated
// strip, to the strip drawn up to the band: the closed form of Fold taken apart.
// NewMaking makes it once for a plan; At is cheap and gives any stage of it.
//
// Cloth bends far more easily than it stretches, so the way is made of bending:
// every cell of an edge keeps its length and turns by its angle.
//   - Laid flat to pleated: the angles of the outer edge's curve grow from 0 to
//     what they are, the same from the inner edge to the outer: a cylinder at every
//     moment, an isometry of the flat strip.
//   - Pleated to drawn up: the inner edge's angles go from the outer edge's to its
//     own, its tucks fold in. What the two edges then differ by, over the depth, is the
//     angle by which the row turns: drawn up, it closes around the neck.
//
// At stage 2 it is Fold's shape. How well lengths are kept at every stage is held
// by TestMakingKeepsLengths.
type Making struct {
	nu, nv  int
	depth   float64
	profile []profile // distinct half sets
	of      []int     // panel i's profile
	crestAt []bool    // panel i begins at its crest
	middle  []float64 // height of the middle of panel i's inner edge
	station []geom.Station
	missed  []geom.Vec2 // what joined arcs miss of the neckline, at each fold
	mid     int         // the fold that keeps its place, at the back

	// For the stage at hand:
	moved   []move // per profile
	between []turned
	folds   [2][]float64 // heights of the folds at the outer and at the inner edge
	places  []geom.Station
}

// profile is one half set, crest first: its edges cell by cell.
type profile struct {
	cut
	u            []float64 // places along the panel, mm
	outer, inner []turned
	tuck, reach  []float64 // how far the tuck pulls at u and how far out that fades
	turn         float64
}

// turned is one cell of an edge: its length and its angle above level, in the
// upright plane along the neckline.
type turned struct{ long, angle float64 }

// move is a profile at a stage: nodes along the neckline and up, from the crest
// mark at 0, 0; and what the row turns by.
type move struct {
	xo, yo, xi, yi []float64
	turn           float64
}

// Stages of a Making.
const (
	LaidFlat = 0.0
	Pleated  = 1.0
	DrawnUp  = 2.0
)

// NewMaking takes the plan's closed form apart, on Fold's grid of nu × nv cells
// a panel; errors are Fold's.
func NewMaking(p Plan, nu, nv int) (*Making, error) {
	r, err := p.layOut(nu, nv)
	if err != nil {
		return nil, err
	}
	m := &Making{
		nu: nu, nv: nv, depth: p.Scheme.Ruff.Depth, station: r.stations, mid: p.Panels / 2,
		of: make([]int, p.Panels), crestAt: make([]bool, p.Panels), middle: make([]float64, p.Panels),
		missed: make([]geom.Vec2, p.Panels+1), places: make([]geom.Station, p.Panels+1),
		folds: [2][]float64{make([]float64, p.Panels+1), make([]float64, p.Panels+1)},
	}
	type key struct {
		outer, inner *edge
		fits         [3]float64
	}
	known := map[key]int{}
	for i := range m.of {
		c := r.panels[i]
		crest, trough := r.ends(i)
		m.crestAt[i] = crest == i
		m.middle[i] = (r.inner[i] + r.inner[i+1]) / 2
		outer, inner := fit(c.outer.height, r.outer[crest], r.outer[trough]), fit(c.inner.height, r.inner[crest], r.inner[trough])
		k := key{c.outer, c.inner, [3]float64{round(outer), round(inner), round(c.turn)}}
		n, ok := known[k]
		if !ok {
			n = len(m.profile)
			known[k] = n
			m.profile = append(m.profile, newProfile(c, outer, inner, m.depth))
		}
		m.of[i] = n
	}
	m.moved, m.between = make([]move, len(m.profile)), make([]turned, nu)
	for k := range m.moved {
		for _, x := range []*[]float64{&m.moved[k].xo, &m.moved[k].yo, &m.moved[k].xi, &m.moved[k].yi} {
			*x = make([]float64, nu+1)
		}
	}
	m.move(1, 1)
	m.lay(1)
	for k, st := range m.station {
		m.missed[k] = st.Pos.Sub(m.places[k].Pos)
	}
	return m, nil
}

func round(x float64) float64 { return math.Round(x*1e9) / 1e9 }

func newProfile(c panelCut, outer, inner, depth float64) profile {
	f := profile{cut: c.cut, u: c.u, turn: c.turn}
	n := len(c.u)
	f.tuck, f.reach = make([]float64, n), make([]float64, n)
	x, y := make([]float64, n), make([]float64, n)
	for k, at := range c.outer.points {
		x[k], y[k] = at.x*c.outerHalf, at.y*outer
	}
	f.outer = cells(x, y)
	for k, at := range c.inner.points {
		f.tuck[k], f.reach[k] = c.foldedIn(c.u[k], depth)
		x[k], y[k] = at.x*c.neckHalf, at.y*inner+f.tuck[k]
	}
	f.inner = cells(x, y)
	return f
}

// cells gives the lengths and angles between points. The angle goes on from the
// one before.
func cells(x, y []float64) []turned {
	out := make([]turned, len(x)-1)
	before := 0.0
	for k := range out {
		dx, dy := x[k+1]-x[k], y[k+1]-y[k]
		a := math.Atan2(dy, dx)
		a -= 2 * math.Pi * math.Round((a-before)/(2*math.Pi))
		out[k], before = turned{math.Hypot(dx, dy), a}, a
	}
	return out
}

// At gives the shape at a stage, 0 laid flat, 1 pleated, 2 drawn up to the band
// (beyond: the nearest of them; NaN: 2). into is an earlier answer that is no
// longer needed, or nil.
func (m *Making) At(stage float64, into *Shape) Shape {
	if math.IsNaN(stage) {
		stage = DrawnUp
	}
	stage = min(DrawnUp, max(LaidFlat, stage))
	m.move(min(1, stage), max(0, stage-1))
	m.lay(max(0, stage-1))
	var s Shape
	if into != nil && into.NU == m.nu && into.NV == m.nv && len(into.Panels) == len(m.of) {
		s = *into
	} else {
		size := (m.nu + 1) * (m.nv + 1)
		nodes := make([]geom.Vec3, size*len(m.of))
		s = Shape{NU: m.nu, NV: m.nv, Panels: make([]Panel, len(m.of))}
		for i := range s.Panels {
			s.Panels[i].V = nodes[i*size : (i+1)*size : (i+1)*size]
		}
	}
	for i := range m.of {
		m.draw(s.Panels[i].V, i, max(0, stage-1))
	}
	return s
}

// move bends every profile: a of the folding, b of the drawing up.
//
// Drawn up, the inner edge of a panel must have lost turn × depth against the
// outer one. On the way its tucks only lean over and its loop is undone, and it
// may be longer than either edge of the pleated strip: the outer edge then opens
// with it, its angles a part of what they are, so that the row turns steadily and
// no edge is stretched.
func (m *Making) move(a, b float64) {
	for n := range m.profile {
		p, v := &m.profile[n], &m.moved[n]
		p.bend(p.outer, a, v.xo, v.yo)
		v.turn = 0
		if b == 0 {
			copy(v.xi, v.xo)
			copy(v.yi, v.yo)
			continue
		}
		for k, o := range p.outer {
			i := p.inner[k]
			m.between[k] = turned{o.long + (i.long-o.long)*b, o.angle + (i.angle-o.angle)*b}
		}
		p.bend(m.between, 1, v.xi, v.yi)
		if v.xi[m.nu] < p.neckHalf { // loops that hang over: no closer than the neck lets them
			p.bend(m.between, p.opened(m.between, p.neckHalf), v.xi, v.yi)
		}
		whole, least := v.xo[m.nu], max(0, p.turn)
		v.turn = min(least, max(b*least, (whole-v.xi[m.nu])/m.depth))
		if want := v.xi[m.nu] + v.turn*m.depth; math.Abs(want-whole) > 1e-9*whole {
			p.bend(p.outer, p.opened(p.outer, want), v.xo, v.yo)
		}
	}
}

// bend lays cells out with the part a of their angles, from level at 0 to their
// own at 1.
func (p *profile) bend(cells []turned, a float64, x, y []float64) {
	for k, c := range cells {
		du := p.u[k+1] - p.u[k]
		long := du + (c.long-du)*min(a, 1)
		sin, cos := math.Sincos(a * c.angle)
		x[k+1], y[k+1] = x[k]+long*cos, y[k]+long*sin
	}
}

// opened is the part of its angles with which an edge takes want mm along the
// neckline: by bisection to 2e-9, in which its room falls from the panel's length
// as the part grows. Beyond 1 it is folded closer than it will lie.
func (p *profile) opened(cells []turned, want float64) float64 {
	lo, hi := 0.0, 1.25
	for range 30 {
		mid, x := (lo+hi)/2, 0.0
		for k, c := range cells {
			du := p.u[k+1] - p.u[k]
			x += (du + (c.long-du)*min(mid, 1)) * math.Cos(mid*c.angle)
		}
		if x > want {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// lay puts the folds in their places: along the row, turning as it turns, from
// the middle fold outward; and finds their heights at both edges.
func (m *Making) lay(b float64) {
	n := len(m.of)
	at := m.station[m.mid]
	theta := math.Atan2(at.Tangent.Y, at.Tangent.X)
	m.places[m.mid] = at
	put := func(k int, pos geom.Vec2, theta float64) {
		sin, cos := math.Sincos(theta)
		m.places[k] = geom.Station{S: m.station[k].S, Pos: pos, Tangent: geom.Vec2{X: cos, Y: sin}, Normal: geom.Vec2{X: sin, Y: -cos}}
	}
	for _, way := range []int{1, -1} {
		pos, t := at.Pos, theta
		for k := m.mid; k+way >= 0 && k+way <= n; k += way {
			i := k
			if way < 0 {
				i = k - 1
			}
			v := &m.moved[m.of[i]]
			half := v.xi[m.nu]
			if q := v.turn / 2; q > 1e-9 {
				half *= math.Sin(q) / q
			}
			sin, cos := math.Sincos(t + float64(way)*v.turn/2)
			pos = pos.Add(geom.Vec2{X: cos, Y: sin}.Scale(float64(way) * half))
			t += float64(way) * v.turn
			put(k+way, pos, t)
		}
	}
	// Curvature at the folds, and what the arcs miss where they close.
	for k := range m.places {
		var now, whole float64
		for _, i := range []int{k - 1, k} {
			if i < 0 || i >= n {
				continue
			}
			p, v := &m.profile[m.of[i]], &m.moved[m.of[i]]
			now += v.turn / max(v.xi[m.nu], 1e-3*p.panel)
			whole += p.turn / p.neckHalf
		}
		s := &m.places[k]
		s.Curvature = m.station[k].Curvature
		if whole > 0 {
			s.Curvature *= now / whole
		}
		s.Pos = s.Pos.Add(m.missed[k].Scale(b))
	}
	for e := range m.folds {
		z := m.folds[e]
		clear(z)
		for i := range m.of {
			v, p := &m.moved[m.of[i]], &m.profile[m.of[i]]
			up, middle := -v.yo[m.nu]/2, m.middle[i]
			if e == 1 {
				up, middle = -v.yi[m.nu]/2, middle+b*(p.tuckTrough-p.tuckCrest)/2
			}
			if !m.crestAt[i] {
				up = -up
			}
			z[i] += middle + up
			z[i+1] += middle - up
		}
		for k := 1; k < n; k++ {
			z[k] /= 2
		}
	}
}

// draw fills panel i's nodes, in the order of the strip.
func (m *Making) draw(v []geom.Vec3, i int, b float64) {
	p, w := &m.profile[m.of[i]], &m.moved[m.of[i]]
	crest, trough := i, i+1
	if !m.crestAt[i] {
		crest, trough = trough, crest
	}
	halfO, halfI := w.xo[m.nu], w.xi[m.nu]
	neck := newSpan(m.places[i], m.places[i+1], 0, halfI)
	wall := newSpan(m.places[i], m.places[i+1], m.depth, halfI+m.depth*w.turn)
	// Two panels that differ meet their fold halfway; the difference fades along
	// each.
	missO := m.folds[0][trough] - m.folds[0][crest] - w.yo[m.nu]
	missI := m.folds[1][trough] - m.folds[1][crest] - w.yi[m.nu]
	for k := range p.u {
		part := p.u[k] / p.panel
		xo, xi, at := w.xo[k]/halfO, w.xi[k]/halfI, k
		if crest != i {
			xo, xi, at = 1-xo, 1-xi, m.nu-k
		}
		to, from := wall.at(xo), neck.at(xi)
		switch { // beyond its own folds a loop goes on along the circle there
		case xi < 0:
			from = onward(m.places[i], xi*halfI)
		case xi > 1:
			from = onward(m.places[i+1], (xi-1)*halfI)
		}
		q := geom.Vec3{X: from.X, Y: from.Y, Z: m.folds[1][crest] + w.yi[k] + missI*part}
		r := geom.Vec3{X: to.X, Y: to.Y, Z: m.folds[0][crest] + w.yo[k] + missO*part}
		d := r.Sub(q)
		for j := range m.nv + 1 {
			f := float64(j) / float64(m.nv)
			x := q.Add(d.Scale(f))
			if tuck := p.tuck[k]; tuck != 0 && b > 0 {
				fade := 0.0
				if out := f * m.depth; out < p.reach[k] {
					fade = 1 - out/p.reach[k]
				}
				x.Z += b * tuck * (fade*fade - (1 - f))
			}
			v[at*(m.nv+1)+j] = x
		}
	}
}

// onward is the place s mm along the circle that touches the row at a station.
func onward(st geom.Station, s float64) geom.Vec2 {
	a := s * st.Curvature
	along, in := s, s*a/2
	if math.Abs(a) > 1e-6 {
		along, in = math.Sin(a)/st.Curvature, (1-math.Cos(a))/st.Curvature
	}
	return st.Pos.Add(st.Tangent.Scale(along)).Sub(st.Normal.Scale(in))
}
