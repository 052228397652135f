package light

import (
	"image/color"
	"math"
	"slices"
)

// Line is a line of a picture that shows: a fold's outline, a hem, a border between two
// tints, a thread.
type Line struct {
	V        [][2]float32 // sheet mm
	Width_mm float64      // sheet mm
	Ink      color.NRGBA
}

const (
	hidden_mm  = 0.6 // what hides a line is nearer to the eye by so much
	leastLine  = 2.0 // sheet mm: shorter lines are not drawn
	stepNone   = 0.8 // mm from the cloth's edge down to what lies behind: a fold's outline begins to show,
	stepFull   = 5.0 // and is drawn in full
	bridge_mm  = 3.0 // sheet mm: so long a line may show too little, and goes on
	leastShown = 0.3 // of an outline's full width; what is less is not drawn
)

// lines gives the lines of a scene that show.
func (s *Scene) lines(f *fine, d *depths, c *Camera, w window) []Line {
	var all []Line
	for i := range s.Sheets {
		t := &s.Sheets[i]
		if t.Fold_mm > 0 {
			widest := s.widest(i)
			for _, way := range f.zero(i, f.turn, 0) {
				all = append(all, d.outline(f, i, widest, smooth(way), w, t.Fold_mm, t.Ink)...)
			}
		}
		if t.Lined {
			for k := 1; k < len(t.Tints); k++ {
				for _, way := range f.zero(i, f.pick, float32(k)) {
					all = append(all, d.shown(way, w, d.farthest, hidden_mm, t.Fold_mm, t.Ink)...)
				}
			}
		}
	}
	for _, p := range f.patches {
		t := &s.Sheets[p.sheet]
		for _, h := range f.hems(t, p) {
			if h.row {
				all = append(all, d.hem(f, p.sheet, h, w, t.Ink)...)
			} else {
				all = append(all, d.shown(h.way, w, d.farthest, hidden_mm, h.width_mm, t.Ink)...)
			}
		}
	}
	for i := range s.Threads {
		t := &s.Threads[i]
		way := make([]spot, 0, len(t.V)+1)
		for _, v := range t.V {
			x, y, near := c.See(v)
			px, py := w.at(x, y)
			way = append(way, spot{x: px, y: py, q: float32(c.depth(near))})
		}
		if t.Closed && len(way) > 2 {
			way = append(way, way[0])
		}
		all = append(all, d.shown(way, w, d.farthest, t.Lift_mm, t.Width_mm, t.Ink)...)
	}
	return all
}

// spot is a place of a line: pixels, how near, and how far along the strip, mm.
type spot struct{ x, y, q, along float32 }

// hem is a line where a sheet ends, its width, and whether it is a row, of many columns, one
// before the other: then out is how far it lies from the first, mm.
type hem struct {
	way      []spot
	width_mm float64
	row      bool
	out      float32
}

// hems are the ends of a patch that are ends of its sheet and have a line.
func (f *fine) hems(t *Sheet, p patch) (hems []hem) {
	add := func(end, first, step, n int, is bool) {
		if t.Hem_mm[end] <= 0 || !is {
			return
		}
		way := make([]spot, n)
		for i := range way {
			k := p.first + first + i*step
			way[i] = spot{f.x[k], f.y[k], f.q[k], f.along[k]}
		}
		hems = append(hems, hem{way, t.Hem_mm[end], end == FirstRow || end == LastRow, f.out[p.first+first]})
	}
	add(FirstRow, 0, p.rows, p.cols, true)
	add(LastRow, p.rows-1, p.rows, p.cols, true)
	add(FirstCol, 0, 1, p.rows, p.col == 0)
	add(LastCol, (p.cols-1)*p.rows, 1, p.rows, p.lastCol == t.Cols-1)
	return hems
}

// zero follows the lines on which a value of a sheet's nodes is at: through the
// triangles, from edge to edge.
func (f *fine) zero(sheet int, value []float32, at float32) [][]spot {
	var ways [][]spot
	for _, p := range f.patches {
		if p.sheet == sheet {
			z := zeros{fine: f, value: value, at: at, patch: p}
			ways = append(ways, z.follow()...)
		}
	}
	return ways
}

type zeros struct {
	*fine
	patch
	value   []float32
	at      float32
	next    [][2]int32 // of every edge that is crossed: the edges beside it on the line, plus one
	crossed []int32    // edges, in the order they were met
	used    []bool
}

// Edges of the grid are numbered three to a node: to the next column, along the row, and
// across the cell between.
func (z *zeros) follow() (ways [][]spot) {
	n := z.cols * z.rows
	z.next, z.used = make([][2]int32, 3*n), make([]bool, 3*n)
	// Where a line runs along a column, rounding would have it now on one side, now on the
	// other, in many short pieces: what lies on it by less than that is over.
	const rounding = 1e-6
	over := func(k int) bool { return z.value[z.first+k] > z.at-rounding }
	for col := range z.cols - 1 {
		for r := range z.rows - 1 {
			a := col*z.rows + r
			b, c, d := a+z.rows, a+z.rows+1, a+1
			oa, ob, oc, od := over(a), over(b), over(c), over(d)
			if oa == ob && ob == oc && oc == od {
				continue
			}
			z.triangle([3]bool{oa, ob, oc}, [3]int32{int32(3 * a), int32(3*b + 1), int32(3*a + 2)})
			z.triangle([3]bool{oa, oc, od}, [3]int32{int32(3*a + 2), int32(3 * d), int32(3*a + 1)})
		}
	}
	for _, e := range z.crossed { // open lines from an end
		if z.next[e][1] == 0 && !z.used[e] {
			ways = append(ways, z.walk(e))
		}
	}
	for _, e := range z.crossed { // then closed ones
		if !z.used[e] {
			way := z.walk(e)
			ways = append(ways, append(way, way[0]))
		}
	}
	return ways
}

// walk follows a line from an edge on until it ends or comes back.
func (z *zeros) walk(e int32) []spot {
	way := []spot{z.crossing(e)}
	z.used[e] = true
	for {
		k := slices.IndexFunc(z.next[e][:], func(to int32) bool { return to > 0 && !z.used[to-1] })
		if k < 0 {
			return way
		}
		e = z.next[e][k] - 1
		z.used[e] = true
		way = append(way, z.crossing(e))
	}
}

// link notes that a line leads from one edge to another.
func (z *zeros) link(a, b int32) {
	for _, e := range [2][2]int32{{a, b}, {b, a}} {
		if l := &z.next[e[0]]; l[0] == 0 {
			l[0] = e[1] + 1
			z.crossed = append(z.crossed, e[0])
		} else {
			l[1] = e[1] + 1
		}
	}
}

// triangle links the two of its edges that are crossed; edge k leads from corner k to
// the next.
func (z *zeros) triangle(over [3]bool, edge [3]int32) {
	var has []int32
	for k := range 3 {
		if over[k] != over[(k+1)%3] {
			has = append(has, edge[k])
		}
	}
	if len(has) == 2 {
		z.link(has[0], has[1])
	}
}

// crossing is where the value is reached on an edge.
func (z *zeros) crossing(e int32) spot {
	a := z.first + int(e/3)
	b := a + [3]int{z.rows, 1, z.rows + 1}[e%3]
	va, vb := z.value[a], z.value[b]
	t := (z.at - va) / (vb - va)
	mixed := func(list []float32) float32 { return list[a] + t*(list[b]-list[a]) }
	return spot{mixed(z.x), mixed(z.y), mixed(z.q), mixed(z.along)}
}

// smooth takes the steps of the grid out of an outline: each place moves half the way to
// the middle of those beside it, twice.
func smooth(way []spot) []spot {
	for range 2 {
		was := way
		way = make([]spot, len(was))
		copy(way, was)
		for i := 1; i+1 < len(was); i++ {
			a, b, c := was[i-1], was[i], was[i+1]
			way[i] = spot{(a.x + 2*b.x + c.x) / 4, (a.y + 2*b.y + c.y) / 4, (a.q + 2*b.q + c.q) / 4, b.along}
		}
	}
	return way
}

// apartOnLine is how far apart the places of a line are that are looked at, pixels.
const apartOnLine = 1.5

// walked calls step with places along a line, about so far apart, and how far along it they lie.
func walked(way []spot, w window, step func(at spot, dx, dy float32)) {
	for i := 1; i < len(way); i++ {
		a, b := way[i-1], way[i]
		dx, dy := b.x-a.x, b.y-a.y
		if beyond(a.x, a.y, w, 2)&beyond(b.x, b.y, w, 2) != 0 {
			step(spot{a.x, a.y, nothing, 0}, 0, 0)
			continue
		}
		long := float32(math.Hypot(float64(dx), float64(dy)))
		n := min(int(long/apartOnLine)+1, 4000)
		for k := range n {
			t := (float32(k) + 0.5) / float32(n)
			step(spot{a.x + dx*t, a.y + dy*t, a.q + (b.q-a.q)*t, a.along + (b.along-a.along)*t}, dx/max(long, 1e-6), dy/max(long, 1e-6))
		}
	}
	if n := len(way); n > 0 {
		step(way[n-1], 0, 0)
	}
}

// farthest is how near the farthest thing is at a pixel and those about it.
func (d *depths) farthest(x, y float32) float32 {
	q, _ := d.least(x, y, false)
	return q
}

// least is farthest, with the triangle that is seen there. shown: among the pixels that show
// something, if one does: beyond the cloth's end, what lies under it is not seen either.
func (d *depths) least(x, y float32, shown bool) (least float32, face uint32) {
	px, py := floor(x), floor(y)
	if px < 0 || py < 0 || px >= d.w || py >= d.h {
		return float32(math.Inf(1)), noFace
	}
	least, face = float32(math.Inf(1)), noFace
	all := true
	for j := max(0, py-1); j <= min(d.h-1, py+1); j++ {
		for i := max(0, px-1); i <= min(d.w-1, px+1); i++ {
			q := d.q[j*d.w+i]
			if q == nothing && shown {
				continue
			}
			all = false
			if q < least {
				least, face = q, d.face[j*d.w+i]
			}
		}
	}
	if all {
		return nothing, noFace
	}
	return least, face
}

func (d *depths) at(x, y float32) float32 {
	px, py := floor(x), floor(y)
	if px < 0 || py < 0 || px >= d.w || py >= d.h {
		return nothing
	}
	return d.q[py*d.w+px]
}

// shown gives the stretches of a line that nothing hides which is nearer by lift mm.
// How near what it is held against lies at a place, far says.
func (d *depths) shown(way []spot, w window, far func(x, y float32) float32, lift, width_mm float64, ink color.NRGBA) []Line {
	return d.stretches(way, w, width_mm, ink, func(at spot, _, _ float32) float32 {
		if far(at.x, at.y) < at.q+float32(lift) {
			return 1
		}
		return hides
	})
}

// hem is shown for a row in which cloth ends, its distance from the first row out mm. Seen
// nearly on its edge, the cloth beside it may be much nearer to the eye a pixel farther on.
// That is its own where a triangle at the row is seen, and hides nothing.
func (d *depths) hem(f *fine, sheet int, h hem, w window, ink color.NRGBA) []Line {
	const most_mm, near_mm = 2, 0.1
	return d.stretches(h.way, w, h.width_mm, ink, func(at spot, _, _ float32) float32 {
		over, face := d.least(at.x, at.y, true)
		nearer := float64(over - at.q)
		if nearer < hidden_mm {
			return 1
		}
		if nearer < most_mm && face != noFace && f.apartOn(sheet, face, at.along) < nearer+near_mm {
			a, b, c, _ := f.triangle(face)
			if least(abs(f.out[a]-h.out), abs(f.out[b]-h.out), abs(f.out[c]-h.out)) < near_mm {
				return 1
			}
		}
		return hides
	})
}

// apartOn is how far along its sheet a place lies from a triangle, mm; no way leads there
// from another sheet's.
func (f *fine) apartOn(sheet int, face uint32, along float32) float64 {
	a, _, _, of := f.triangle(face)
	if of != sheet {
		return math.Inf(1)
	}
	off := math.Abs(float64(f.along[a] - along))
	if round := float64(f.round[sheet]); round > 0 {
		off = min(off, round-off)
	}
	return off
}

// outline is shown for a fold's: the fuller the farther down it is to what lies behind.
// On its nearer side lies the fold itself, bent no wider than of the radius widest mm: what
// ends there otherwise is something else, before it.
func (d *depths) outline(f *fine, sheet int, widest float64, way []spot, w window, width_mm float64, ink color.NRGBA) []Line {
	// Pixels: how far aside of the outline is looked. Nearer too: a gap between two folds may
	// be so narrow that farther off there is the other's cloth.
	const aside, beside = 2.5, 1.2
	return d.stretches(way, w, width_mm, ink, func(at spot, dx, dy float32) float32 {
		if !(d.farthest(at.x, at.y) < at.q+hidden_mm) {
			return hides
		}
		ax, ay, bx, by := at.x-dy*aside, at.y+dx*aside, at.x+dy*aside, at.y-dx*aside
		one, other := d.at(ax, ay), d.at(bx, by)
		if other > one {
			one, other, ax, ay, bx, by = other, one, bx, by, ax, ay
		}
		if one > at.q+hidden_mm { // nearer than the outline: only the fold's own cloth may be
			reach := math.Sqrt(2*widest*float64(one-at.q)) + 2
			if f.apartOn(sheet, d.face[floor(ay)*d.w+floor(ax)], at.along) > reach {
				return hides
			}
		}
		const part, thin = beside / aside, 0.35
		near := d.at(at.x+(bx-at.x)*part, at.y+(by-at.y)*part)
		return float32(max(down(at.q-other), thin*down(at.q-near)))
	})
}

// down is how full an outline is drawn where it lies so far over what is behind it, mm.
func down(step float32) float64 {
	t := clamp((float64(step)-stepNone)/(stepFull-stepNone), 0, 1)
	return t * t * (3 - 2*t)
}

// widest is the radius of a sheet's widest bend, mm: of one that closes its own; of
// cloth a wide loop's.
func (s *Scene) widest(sheet int) float64 {
	const loop = 15
	t := &s.Sheets[sheet]
	if !t.Ring {
		return loop
	}
	far := 0.0
	for _, v := range t.V {
		far = max(far, v.Sub(t.V[0]).Norm())
	}
	return far
}
