package light

import (
	"math"
	"slices"

	"ruffwright/geom"
)

// Through is the part of the light that comes out behind a sheet which scatters by s and
// takes nothing; the rest comes back. Of n such sheets, one behind the other, it is Through(n·s)
// (Kubelka, J. Opt. Soc. Am. 38 (1948) 448 and 44 (1954) 330: R = s/(1+s) of one sheet,
// and of two in a row T = T₁T₂/(1 − R₁R₂), which for equal sheets without absorption
// is 1/(1 + 2s); see TestLayers).
func Through(s float64) float64 { return 1 / (1 + s) }

// Scatters is the s of a sheet through which the part t of the light comes, 0 < t ≤ 1.
func Scatters(t float64) float64 { return 1/t - 1 }

// baking is what of it is done: so many ways that light comes from.
type baking struct {
	of   baked
	ways int
}

// baked is what light reaches where: of every node of every sheet that was looked at,
// and on either side, how much comes from each direction, through all that lies
// between, in harmonics. Between the nodes it changes evenly.
type baked []bakedSheet

type bakedSheet struct {
	col, row    []int // those looked at
	front, back [][terms]float32
	normal      []geom.Vec3 // of each, while it is baked
}

const (
	axes     = 32  // directions, each with its opposite, that light is let in from
	across   = 256 // pixels of the map of layers along its longer side
	apart    = 0.5 // mm from a surface that its own layer is left out
	farApart = 2.5 // and at most
	opaque   = 1e4 // scattering of what nothing comes through
	rowsFew  = 6   // rows of a sheet that are looked at, about
	colsFew  = 900 // and columns: a dozen for a panel of a large ruff
)

// Bake works out what light reaches where. It takes a good part of a second for a
// ruff; Draw then shades by it. It does so once; halted, it goes on from there the next
// time. done: Draw may shade by it.
func (s *Scene) Bake(halt Halt) (done bool) {
	if s.baked != nil {
		return true
	}
	if s.baking == nil {
		s.baking = &baking{of: make(baked, len(s.Sheets))}
		for i := range s.Sheets {
			s.baking.of[i] = newBaked(&s.Sheets[i])
		}
	}
	b, from := s.baking.of, s.baking.ways
	ways := sphere(2 * axes)[2*from:]
	const weight = 4 * math.Pi / (2 * axes)
	// Maps are made beside each other and added in their order: the same scene has the
	// same light to the last bit.
	free := make(chan *deep, crews) // maps that are done with, to make the next of
	for range crews {
		free <- &deep{}
	}
	made := make([]chan *deep, len(ways)/2)
	for k := range made {
		made[k] = make(chan *deep, 1)
	}
	end := make(chan struct{})
	defer close(end)
	go func() {
		for k := range made {
			select {
			case m := <-free:
				go func() { made[k] <- s.layers(ways[2*k], b, m) }()
			case <-end:
				return
			}
		}
	}()
	for k := range made {
		if halt.now() {
			return false
		}
		m := <-made[k]
		for i := range s.Sheets {
			b[i].let(&s.Sheets[i], m, weight)
		}
		s.baking.ways++
		free <- m
	}
	for i := range b {
		b[i].normal = nil
	}
	s.baked, s.baking = &b, nil
	return true
}

func newBaked(t *Sheet) bakedSheet {
	b := bakedSheet{col: few(t.Cols, colsFew), row: few(t.Rows, rowsFew)}
	n := len(b.col) * len(b.row)
	b.front, b.back = make([][terms]float32, n), make([][terms]float32, n)
	b.normal = make([]geom.Vec3, 0, n)
	for _, col := range b.col {
		for _, r := range b.row {
			b.normal = append(b.normal, t.normal(col, r))
		}
	}
	return b
}

// few are about so many of n in a row, the first and the last among them.
func few(n, wanted int) []int {
	step := max(1, (n-1+wanted/2)/wanted)
	var all []int
	for i := 0; i < n-1; i += step {
		all = append(all, i)
	}
	return append(all, n-1)
}

// deep is a map of layers as seen from one direction: per pixel all that lies there.
type deep struct {
	way, right, up geom.Vec3
	x, y, px       float64 // of the map's corner, mm, and pixels a mm
	w, h           int
	first          []int32 // of each pixel's layers; −1: none
	layer          []layer
}

type layer struct {
	depth    float32 // mm along the way to the light
	scatters float32
	next     int32
}

// layers maps the scene's surfaces, as its baked nodes have them, in the memory of
// another map.
func (s *Scene) layers(way geom.Vec3, b baked, of *deep) *deep {
	m := &deep{way: way, right: geom.Vec3{X: way.Y, Y: -way.X}.Unit(), layer: of.layer[:0]}
	if m.right == (geom.Vec3{}) {
		m.right = geom.Vec3{X: 1}
	}
	m.up = way.Cross(m.right)
	lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for i := range s.Sheets {
		for _, v := range s.Sheets[i].V {
			x, y := v.Dot(m.right), v.Dot(m.up)
			lo, hi = [2]float64{min(lo[0], x), min(lo[1], y)}, [2]float64{max(hi[0], x), max(hi[1], y)}
		}
	}
	m.x, m.y = lo[0], lo[1]
	m.px = across / max(hi[0]-lo[0], hi[1]-lo[1], 1)
	m.w, m.h = int((hi[0]-lo[0])*m.px)+1, int((hi[1]-lo[1])*m.px)+1
	m.first = slices.Grow(of.first[:0], m.w*m.h)[:m.w*m.h]
	for i := range m.first {
		m.first[i] = -1
	}
	for i := range s.Sheets {
		t := &s.Sheets[i]
		scatters := float32(t.Through)
		if t.Through == 0 {
			scatters = opaque
		}
		cols, rows := b[i].col, b[i].row
		last, now := make([][3]float32, len(rows)), make([][3]float32, len(rows))
		for c, col := range cols {
			for r, row := range rows {
				now[r] = m.put(t.V[col*t.Rows+row])
			}
			for r := 1; r < len(rows) && c > 0; r++ {
				m.triangle(last[r-1], now[r-1], now[r], scatters)
				m.triangle(last[r-1], now[r], last[r], scatters)
			}
			last, now = now, last
		}
	}
	return m
}

func (m *deep) put(v geom.Vec3) [3]float32 {
	return [3]float32{float32((v.Dot(m.right) - m.x) * m.px), float32((v.Dot(m.up) - m.y) * m.px), float32(v.Dot(m.way))}
}

// triangle adds a layer at every pixel whose middle the triangle covers.
func (m *deep) triangle(a, b, c [3]float32, scatters float32) {
	if b[1] < a[1] {
		a, b = b, a
	}
	if c[1] < b[1] {
		b, c = c, b
		if b[1] < a[1] {
			a, b = b, a
		}
	}
	area := (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
	if area == 0 {
		return
	}
	lo, hi := least(a[2], b[2], c[2]), most(a[2], b[2], c[2])
	dx := ((b[2]-a[2])*(c[1]-a[1]) - (c[2]-a[2])*(b[1]-a[1])) / area
	dy := ((c[2]-a[2])*(b[0]-a[0]) - (b[2]-a[2])*(c[0]-a[0])) / area
	for y := max(0, ceil(a[1]-0.5)); y <= min(m.h-1, floor(c[1]-0.5)); y++ {
		fy := float32(y) + 0.5
		xa := a[0] + (fy-a[1])*(c[0]-a[0])/(c[1]-a[1])
		xb := b[0]
		if fy < b[1] {
			xb = a[0] + (fy-a[1])*(b[0]-a[0])/(b[1]-a[1])
		} else if c[1] > b[1] {
			xb = b[0] + (fy-b[1])*(c[0]-b[0])/(c[1]-b[1])
		}
		if xa > xb {
			xa, xb = xb, xa
		}
		for x := max(0, ceil(xa-0.5)); x <= min(m.w-1, ceil(xb-0.5)-1); x++ { // the right edge is the next one's
			depth := held(a[2]+dx*(float32(x)+0.5-a[0])+dy*(fy-a[1]), lo, hi)
			m.layer = append(m.layer, layer{depth, scatters, m.first[y*m.w+x]})
			m.first[y*m.w+x] = int32(len(m.layer) - 1)
		}
	}
}

// between is the scattering of all that lies from a place towards the light, and of all
// that lies the other way.
func (m *deep) between(v geom.Vec3, ahead, behind float32) (front, back float32) {
	at := m.put(v)
	x, y := min(max(int(at[0]), 0), m.w-1), min(max(int(at[1]), 0), m.h-1)
	for k := m.first[y*m.w+x]; k >= 0; k = m.layer[k].next {
		l := &m.layer[k]
		if l.depth > at[2]+ahead {
			front += l.scatters
		}
		if l.depth < at[2]-behind {
			back += l.scatters
		}
	}
	return front, back
}

// let lets the light of a map's direction, and of its opposite, onto a sheet.
func (b *bakedSheet) let(t *Sheet, m *deep, weight float64) {
	y := harmonics(m.way)
	var with, against [terms]float32
	for k := range y {
		with[k] = float32(y[k])
		against[k] = with[k]
		if k > 0 && k < 4 || k > 8 { // of odd degree: the opposite way it is the opposite
			against[k] = -with[k]
		}
	}
	for i, col := range b.col {
		for j, r := range b.row {
			k := i*len(b.row) + j
			cosine := b.normal[k].Dot(m.way)
			// From a place just off the cloth: a layer of its own does not count. Where the
			// light runs along the cloth, so much further that it clears it, by half a pixel
			// of the map at least.
			flat := max(math.Abs(cosine), 0.05)
			off := float32(min(apart/flat+0.7/m.px*math.Sqrt(1-flat*flat)/flat, farApart))
			front, back := m.between(t.V[col*t.Rows+r], off, off)
			if cosine < 0 {
				cosine, front, back = -cosine, back, front
				b.add(k, weight*cosine, front, back, &against, &with)
			} else {
				b.add(k, weight*cosine, front, back, &with, &against)
			}
		}
	}
}

func (b *bakedSheet) add(k int, weight float64, front, back float32, with, against *[terms]float32) {
	f, g := float32(weight)/(1+front), float32(weight)/(1+back)
	to, from := &b.front[k], &b.back[k]
	for i := range terms {
		to[i] += f * with[i]
		from[i] += g * against[i]
	}
}

// normal is the unit normal at a node; zero where the surface has none.
func (t *Sheet) normal(col, r int) geom.Vec3 {
	return t.node(col+1, r).Sub(t.node(col-1, r)).Cross(t.node(col, r+1).Sub(t.node(col, r-1))).Unit()
}
