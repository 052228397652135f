package sim

import (
	"math"
	"slices"

	"ruffwright/sim/window"
)

// A half set knows no contact of its panel with itself: it keeps between the planes of its
// folds. So the two layers of a tuck may pass through each other, near the ridge by up to
// 2 mm. What is measured does not ask which of them lies before which; but an eye sees the
// one stand out of the other. For drawing they are laid beside each other.

const (
	// layersApart_mm lie between the middles of two layers that touch: more than the curves
	// through the nodes leave their chords by.
	layersApart_mm = 0.3
	// ridgeOpens is how fast two layers part beside their common ridge: by so much of the
	// cloth between them.
	ridgeOpens = 0.25
	laySweeps  = 400
	layDone_mm = 0.01
)

// lay gives a shape of a half set with the layers of its tucks beside each other: of all
// such shapes the nearest, in the sum of squares, to layDone_mm. The folds, the stitches and
// the outer edge stay where they are, and every node keeps its height and its distance from
// the neck's axis: seen from beside, along the neckline, nothing moves. Wherever two layers
// are seen from there, the one nearer to the fold along the strip must lie nearer to the
// fold's plane. Where no tuck is sewn it is the shape itself. TestLayers holds it.
func lay(c *window.Window, shape []float64) []float64 {
	var l *layers
	for n, fold := range c.Design.Run().Folds {
		if fold.Sewn && fold.Tuck_mm > 0 {
			if l == nil {
				l = newLayers(c, shape)
			}
			newTuck(l, c.U, fold.Tuck_mm, n == 1).find()
		}
	}
	if l == nil {
		return shape
	}
	l.between(c.Design.Kappa_1pmm * c.Design.Pitch_mm / 2)
	l.settle()
	return l.shape(shape)
}

// layers is a half set seen from beside.
type layers struct {
	nv    int         // grid lines from the inner edge to the outer
	r0    float64     // the neckline's radius, mm
	at    []aside     // of every node: where it is seen
	along []float64   // of every node: how far round the neck from the crest it lies, mm at its own distance from the axis
	free  []bool      // of every node: it may be moved
	rules []layerRule // what must hold
}

// aside is a place as it is seen from beside: from the neck's axis, and up, mm.
type aside struct{ out, up float64 }

// layerRule says that some nodes, each by its weight, lie at least so far along.
type layerRule struct {
	node   [6]int
	weight [6]float64
	n      int
	least  float64 // mm
	pushed float64 // how far it has moved them already
}

func (r *layerRule) add(p spread, sign float64) {
	for i, k := range p.node[:p.n] {
		r.node[r.n], r.weight[r.n] = k, sign*p.weight[i]
		r.n++
	}
}

// spread is a place of a layer: the mean of some nodes by their weights.
type spread struct {
	node   [3]int
	weight [3]float64
	n      int
}

func newLayers(c *window.Window, shape []float64) *layers {
	l := &layers{nv: len(c.V), r0: 1 / c.Design.Kappa_1pmm}
	for k := range len(c.U) * l.nv {
		p := [3]float64(shape[3*k:])
		a := aside{math.Hypot(l.r0+p[0], p[1]), p[2]}
		l.at, l.along = append(l.at, a), append(l.along, a.out*math.Atan2(p[1], l.r0+p[0]))
		l.free = append(l.free, k >= l.nv && k < (len(c.U)-1)*l.nv && k%l.nv < l.nv-1)
	}
	return l
}

// between keeps what may move between the planes of the folds, turn apart.
func (l *layers) between(turn float64) {
	for k, a := range l.at {
		if l.free[k] {
			from := layerRule{n: 1, node: [6]int{k}, weight: [6]float64{1}}
			to := layerRule{n: 1, node: [6]int{k}, weight: [6]float64{-1}, least: -a.out * turn}
			l.rules = append(l.rules, from, to)
		}
	}
}

// settle moves the nodes until the rules hold, as little as that takes (Hildreth, Naval
// Research Logistics Quarterly 4 (1957) 79). Rules that cannot hold leave something between.
func (l *layers) settle() {
	for range laySweeps {
		worst := 0.0
		for n := range l.rules {
			worst = max(worst, l.hold(&l.rules[n]))
		}
		if worst < layDone_mm {
			return
		}
	}
}

// hold lets one rule push, or give back what it pushed; short is how far it did not hold.
func (l *layers) hold(r *layerRule) (short float64) {
	sum, lies := 0.0, 0.0
	for i, k := range r.node[:r.n] {
		lies += r.weight[i] * l.along[k]
		if l.free[k] {
			sum += r.weight[i] * r.weight[i]
		}
	}
	if sum < 1e-6 {
		return 0
	}
	more := max(-r.pushed, (r.least-lies)/sum)
	if more == 0 {
		return 0
	}
	r.pushed += more
	for i, k := range r.node[:r.n] {
		if l.free[k] {
			l.along[k] += more * r.weight[i]
		}
	}
	return r.least - lies
}

// shape is the shape that was given, as it is laid.
func (l *layers) shape(was []float64) []float64 {
	now := slices.Clone(was)
	for k, a := range l.at {
		if l.free[k] {
			sin, half := math.Sin(l.along[k]/a.out), math.Sin(l.along[k]/a.out/2)
			now[3*k] = a.out - l.r0 - 2*a.out*half*half // out·cos − r0 without its cancellation
			now[3*k+1] = a.out * sin
		}
	}
	return now
}

// tuckLayers are the layers of a tuck as flat triangles between nodes: the inner, from the
// fold to the ridge, the stitch's line, and the outer, from there on.
type tuckLayers struct {
	*layers
	strip        []float64 // of every grid line: mm along the strip from the fold
	sign         float64   // +1 where the outer layer lies farther along: at a crest; at a trough −1
	inner, outer [][3]int
}

func newTuck(l *layers, u []float64, tuck_mm float64, trough bool) *tuckLayers {
	t := &tuckLayers{layers: l, sign: 1, strip: slices.Clone(u)}
	if trough {
		t.sign = -1
		for i := range u {
			t.strip[i] = u[len(u)-1] - u[i]
		}
	}
	for i := range len(u) - 1 {
		inner := max(t.strip[i], t.strip[i+1]) < tuck_mm+1e-6
		for j := range l.nv - 1 {
			a := i*l.nv + j
			b := a + l.nv
			// Both ways in which a cell is two triangles: it is drawn by either.
			cell := [][3]int{{a, b, b + 1}, {a, b + 1, a + 1}, {a, b, a + 1}, {b, b + 1, a + 1}}
			if inner {
				t.inner = append(t.inner, cell...)
			} else {
				t.outer = append(t.outer, cell...)
			}
		}
		if ridge := i * l.nv; math.Abs(t.strip[i]-tuck_mm) < 1e-6 {
			l.free[ridge] = false // the stitch
		}
	}
	return t
}

// find lists what must hold: at all places where what lies between two flat layers may be
// least. Those are the corners of what both cover: nodes of one, and where edges cross.
func (t *tuckLayers) find() {
	outer := t.beside(t.inner, t.outer)
	for _, with := range [2][][3]int{outer, t.inner} {
		t.nodes(t.inner, with)
		t.edges(edges(t.inner), edges(with))
	}
	t.nodes(outer, t.inner)
}

// beside are the triangles of one layer no higher and no lower than another reaches.
func (t *tuckLayers) beside(of, layer [][3]int) [][3]int {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, tri := range of {
		for _, k := range tri {
			lo, hi = min(lo, t.at[k].up), max(hi, t.at[k].up)
		}
	}
	return slices.DeleteFunc(layer, func(tri [3]int) bool {
		a, b, c := t.at[tri[0]].up, t.at[tri[1]].up, t.at[tri[2]].up
		return max(a, b, c) < lo || min(a, b, c) > hi
	})
}

// part has two places that are seen at one lie in their order along the strip.
func (t *tuckLayers) part(p, q spread) {
	far := t.far(q) - t.far(p)
	if far < 0 {
		p, q, far = q, p, -far
	}
	if meet(p, q) {
		return
	}
	r := layerRule{least: min(layersApart_mm, ridgeOpens*far)}
	r.add(p, -t.sign)
	r.add(q, t.sign)
	t.rules = append(t.rules, r)
}

// far is how far a place is from the fold along the strip, mm.
func (t *tuckLayers) far(p spread) (mm float64) {
	for i, k := range p.node[:p.n] {
		mm += p.weight[i] * t.strip[k/t.nv]
	}
	return mm
}

// meet tells whether two places are of cells beside each other: they share a node.
func meet(p, q spread) bool {
	return slices.ContainsFunc(p.node[:p.n], func(k int) bool { return slices.Contains(q.node[:q.n], k) })
}

// nodes parts the nodes of one layer and the other's triangles.
func (t *tuckLayers) nodes(one, other [][3]int) {
	seen := make([]bool, len(t.at))
	for _, corners := range one {
		for _, k := range corners {
			if seen[k] {
				continue
			}
			seen[k] = true
			for _, tri := range other {
				if w, ok := t.inside(t.at[k], tri); ok {
					t.part(spread{node: [3]int{k}, weight: [3]float64{1}, n: 1}, spread{tri, w, 3})
				}
			}
		}
	}
}

// inside gives the weights of a triangle's corners at a place, if it is seen there.
func (t *tuckLayers) inside(p aside, tri [3]int) (w [3]float64, ok bool) {
	a, b, c := t.at[tri[0]], t.at[tri[1]], t.at[tri[2]]
	if p.out < min(a.out, b.out, c.out) || p.out > max(a.out, b.out, c.out) {
		return w, false
	}
	area := turned(a, b, c)
	if math.Abs(area) < 1e-9 {
		return w, false
	}
	w = [3]float64{turned(p, b, c) / area, turned(a, p, c) / area, turned(a, b, p) / area}
	return w, w[0] >= 0 && w[1] >= 0 && w[2] >= 0
}

// turned is twice the area of the triangle a, b, c, + where it goes round to the left.
func turned(a, b, c aside) float64 {
	return (b.out-a.out)*(c.up-a.up) - (b.up-a.up)*(c.out-a.out)
}

// edges are those of triangles, each once.
func edges(tris [][3]int) (list [][2]int) {
	seen := map[[2]int]bool{}
	for _, tri := range tris {
		for k, a := range tri {
			b := tri[(k+1)%3]
			if e := [2]int{min(a, b), max(a, b)}; !seen[e] {
				seen[e] = true
				list = append(list, e)
			}
		}
	}
	return list
}

// edges parts the edges of two layers where they are seen to cross.
func (t *tuckLayers) edges(one, other [][2]int) {
	for _, e := range one {
		a, b := t.at[e[0]], t.at[e[1]]
		for _, f := range other {
			c, d := t.at[f[0]], t.at[f[1]]
			if max(a.out, b.out) < min(c.out, d.out) || max(c.out, d.out) < min(a.out, b.out) {
				continue
			}
			fromA, fromB, fromC, fromD := turned(c, d, a), turned(c, d, b), turned(a, b, c), turned(a, b, d)
			if fromA*fromB >= 0 || fromC*fromD >= 0 {
				continue
			}
			x, y := fromA/(fromA-fromB), fromC/(fromC-fromD)
			t.part(spread{[3]int{e[0], e[1]}, [3]float64{1 - x, x}, 2}, spread{[3]int{f[0], f[1]}, [3]float64{1 - y, y}, 2})
		}
	}
}
