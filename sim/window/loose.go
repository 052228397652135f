package window

import (
	"math"

	"ruffwright/sim/shell"
)

// loose is a window whose panels are free of their walls and press on each other:
// cloth on cloth, that of the next panel or of the image that stands for it.
type loose struct {
	sheet *shell.Sheet
	f     *frame
	walls []shell.Contact // of the frame's walls: how firm they are, node by node
	own   []shell.Pair    // inside tucks, where each node faces its like
	nv    int
	r0    float64 // the neckline's radius, mm
	scale float64 // weight × depth, µJ
}

// guard is how many grid lines apart cloth must be to count as another layer.
const guard = 3

// repeat makes of a half set that is solved the window of n panels that its mirrors
// make of it, at rest as it is.
func (s *solver) repeat(c *Window, n int, ends End) (*solver, *Window, error) {
	f := newFrame(&c.Design, c.Design.repeated(n, ends, ends), c.Grid)
	w := &Window{Design: c.Design, Grid: c.Grid, U: f.u[:f.lines()], V: f.v, Formed: f.repeat(c.Formed), Shape: f.repeat(c.Shape)}
	r := &solver{ctx: s.ctx, set: s.set, f: f, sh: s.sh, count: s.count}
	if z := c.frozen; z != nil {
		if err := r.sh.Reset(f.sheet(1, upright, false, nil, s.set)); err != nil {
			return nil, nil, err
		}
		w.frozen = r.sh.Freeze(w.Formed, z.BendU, z.BendV, 0, z.Shear, c.Design.Quality)
	}
	return r, w, nil
}

// loosen takes the walls from a window's sheet.
func (f *frame) loosen(sheet *shell.Sheet) *loose {
	n := len(f.walls)
	w := &loose{sheet: sheet, f: f, walls: sheet.Contacts[:n], nv: len(f.v) - 1, r0: f.r0, scale: sheet.Weight() * f.d.Width_mm}
	sheet.Contacts = sheet.Contacts[n:]
	for k := range f.walls {
		w.face(k, f.walls[k].p.inTuck)
	}
	return w
}

// face keeps nodes of a panel, those of its lines that are told of, clear of their
// likes across a wall: as many lines from the fold on the other side. While the two
// move alike that is contact with the wall.
func (w *loose) face(wall int, lines func(i int) bool) {
	q, c := &w.f.walls[wall], &w.walls[wall]
	fold, side := w.foldLine(q), 1
	if q.across() > q.panel {
		side = -1
	}
	for m := 1; m < len(q.p.u)-1; m++ {
		if !lines(q.p.from(q.trough, m)) {
			continue
		}
		for j := range w.f.v {
			a := w.sheet.Node(fold+side*m, j)
			like, ok := w.sheet.Corner(fold-side*m, j)
			if c.Weight[a] == 0 || !ok {
				continue
			}
			p := w.sheet.Facing(a, like, c.Normal, w.f.d.Thickness_mm/2)
			p.Stiffness, p.Skin, p.Weight, p.Back = c.Stiffness, c.Skin, c.Weight[a], c.Back[a]
			w.own = append(w.own, p)
		}
	}
}

// foldLine is the grid line of a wall's fold, that of the last fold of a closed
// window beyond its lines.
func (w *loose) foldLine(q *wall) int { return q.at() * (len(q.p.u) - 1) }

// near lists for every node the cloth across the walls of its panel that it may
// touch before any node has moved by more than reach mm.
func (w *loose) near(x []float64, reach float64) (list []shell.Near) {
	if len(w.walls) == 0 {
		return nil
	}
	nu, n := len(w.f.panels[0].u)-1, len(w.f.panels)
	quads := w.sheet.Quads(x, -nu, (n+1)*nu)
	held := make([]bool, w.sheet.Nodes())
	for _, h := range w.sheet.Held {
		held[w.sheet.Node(h.I, h.J)] = true
	}
	for k := range w.walls {
		q, c := &w.f.walls[k], &w.walls[k]
		// nearer than this now, cloth may come within the skin
		most := 2*(w.f.d.Thickness_mm/2+c.Skin) + 2*reach
		across := quads[(q.across()+1)*nu : (q.across()+2)*nu]
		for i := q.panel * nu; i < (q.panel+1)*nu; i++ {
			for j := range w.f.v {
				a := w.sheet.Node(i, j)
				weight := c.Weight[a]
				if i == q.panel*nu { // on a fold: as beside it
					weight = c.Weight[w.sheet.Node(i+nu/2, j)]
				}
				if weight == 0 || held[a] {
					continue
				}
				near := shell.Near{Node: a, Clear: w.f.d.Thickness_mm / 2, Stiffness: c.Stiffness, Skin: c.Skin, Weight: weight, Back: c.Back[a]}
				near.Patch = w.patch(q, i, [3]float64(x[3*a:]), across, most)
				if len(near.Patch) > 0 {
					list = append(list, near)
				}
			}
		}
	}
	return list
}

// patch lists the triangles across a wall that are nearer than most mm to a node of
// grid line i at p: not those so few lines on that they are the same layer, nor
// what lies in the same tuck, which faces its like.
func (w *loose) patch(q *wall, i int, p [3]float64, across [][]shell.Quad, most float64) (list [][3]int32) {
	fold, tuck := w.foldLine(q), q.p.tuckLines(q.trough)
	inTuck := max(i-fold, fold-i) <= tuck
	for _, row := range across {
		for k := range row {
			c := &row[k]
			if c.I < i+guard && c.I+1 > i-guard || inTuck && c.I+1 >= fold-tuck && c.I <= fold+tuck {
				continue
			}
			if c.Distance(p) < most {
				t := c.Triangles()
				list = append(list, t[:]...)
			}
		}
	}
	return list
}

// sideways is how far node (i, j) has gone round the neck from shape a to b, mm.
func (w *loose) sideways(a, b []float64, i, j int) float64 {
	k := 3 * w.sheet.Node(i, j)
	px, py := w.r0+a[k], a[k+1]
	return (px*(b[k+1]-a[k+1]) - py*(b[k]-a[k])) / math.Hypot(px, py)
}

// outer is how far a fold has gone sideways at the outer edge, whichever most.
func (w *loose) outer(a, b []float64) (m float64) {
	for i := 0; i < len(w.sheet.U); i += len(w.f.panels[0].u) - 1 {
		m = max(m, math.Abs(w.sideways(a, b, i, w.nv)))
	}
	return
}

// most is how far any node has.
func (w *loose) most(a, b []float64) (m float64) {
	for i := range w.sheet.U {
		for j := range w.sheet.V {
			m = max(m, math.Abs(w.sideways(a, b, i, j)))
		}
	}
	return
}

// through counts where one panel passes through another by more than deep mm.
// What is pressed together inside a tuck does not count.
func (w *loose) through(x []float64, deep float64) (n int) {
	for _, c := range w.sheet.Crossings(x, deep) {
		if !w.oneTuck(c.I, c.AtI) {
			n++
		}
	}
	return n
}

// oneTuck reports that two grid lines are of one panel or lie in one tuck.
func (w *loose) oneTuck(i, at int) bool {
	if len(w.walls) == 0 {
		return true
	}
	nu := len(w.f.panels[0].u) - 1
	p, q := i/nu, int(math.Floor(float64(at)/float64(nu)))
	if p == q {
		return true
	}
	for k := range w.f.walls {
		v := &w.f.walls[k]
		if v.panel != p || v.across() != q {
			continue
		}
		fold, tuck := w.foldLine(v), v.p.tuckLines(v.trough)+1
		return max(i-fold, fold-i) <= tuck && max(at-fold, fold-at) <= tuck
	}
	return false
}
