package light

import "math"

// window is the part of the sheet that is drawn, in pixels.
type window struct {
	x, y float64 // of its corner on the sheet, mm
	px   float64 // pixels of a sheet mm
	w, h int
}

// at puts a place of the sheet into pixels of the window.
func (w window) at(x, y float64) (px, py float32) {
	return float32((x - w.x) * w.px), float32((y - w.y) * w.px)
}

// depths is what lies nearest at every pixel's middle.
type depths struct {
	w, h int
	q    []float32 // how near it is; nothing: nothing
	face []uint32  // which triangle; nothing there: noFace
}

const noFace = math.MaxUint32

var nothing = float32(math.Inf(-1))

// askEvery is after how many cells it is asked whether they are still wanted.
const askEvery = 1 << 14

// draw finds what lies nearest at every pixel; nil where it was halted.
func (f *fine) draw(w window, halt Halt) *depths {
	d := &depths{w: w.w, h: w.h, q: make([]float32, w.w*w.h), face: make([]uint32, w.w*w.h)}
	for i := range d.q {
		d.q[i], d.face[i] = nothing, noFace
	}
	for i := range f.cells {
		if i%askEvery == askEvery-1 && halt.now() {
			return nil
		}
		e := &f.cells[i]
		a := e.a
		b := a + uint32(e.rows)
		if k := beyond(f.x[a], f.y[a], w, 0) & beyond(f.x[b], f.y[b], w, 0) & beyond(f.x[a+1], f.y[a+1], w, 0) & beyond(f.x[b+1], f.y[b+1], w, 0); k != 0 {
			continue
		}
		d.triangle(f, a, b, b+1, uint32(2*i))
		d.triangle(f, a, b+1, a+1, uint32(2*i+1))
	}
	return d
}

// triangle takes one triangle in. A row of pixels is walked from edge to edge, both
// counted in: what two triangles share is taken by the nearer, and no gap is left.
// Where the edges fall is reckoned from the upper node to the lower whichever triangle
// asks, so that neighbours agree to the last bit.
func (d *depths) triangle(f *fine, a, b, c, t uint32) {
	// By height: every row crosses the long edge from a to c and one of the others.
	if f.y[b] < f.y[a] {
		a, b = b, a
	}
	if f.y[c] < f.y[b] {
		b, c = c, b
		if f.y[b] < f.y[a] {
			a, b = b, a
		}
	}
	ax, ay, bx, by, cx, cy := f.x[a], f.y[a], f.x[b], f.y[b], f.x[c], f.y[c]
	y0, y1 := max(0, ceil(ay-0.5)), min(d.h-1, floor(cy-0.5))
	if y0 > y1 {
		return
	}
	area := (bx-ax)*(cy-ay) - (by-ay)*(cx-ax)
	if area == 0 || area != area {
		return
	}
	qa, qb, qc := f.q[a], f.q[b], f.q[c]
	inv := 1 / area
	dx := ((qb-qa)*(cy-ay) - (qc-qa)*(by-ay)) * inv
	dy := ((qc-qa)*(bx-ax) - (qb-qa)*(cx-ax)) * inv
	// A sliver's slopes mean nothing: what it covers lies between its nodes.
	lo, hi := least(qa, qb, qc), most(qa, qb, qc)
	sliver := abs(dx)+abs(dy) > hi-lo
	long := (cx - ax) / (cy - ay)
	for y := y0; y <= y1; y++ {
		fy := float32(y) + 0.5
		xa := ax + (fy-ay)*long
		var xb float32
		if fy < by {
			xb = ax + (fy-ay)*((bx-ax)/(by-ay))
		} else if cy > by {
			xb = bx + (fy-by)*((cx-bx)/(cy-by))
		} else {
			xb = bx
		}
		if xa > xb {
			xa, xb = xb, xa
		}
		x0, x1 := max(0, ceil(xa-0.5)), min(d.w-1, floor(xb-0.5))
		if x0 > x1 {
			continue
		}
		q := qa + dx*(float32(x0)+0.5-ax) + dy*(fy-ay)
		row, face := d.q[y*d.w+x0:y*d.w+x1+1], d.face[y*d.w+x0:][:x1+1-x0]
		if sliver {
			for x := range row {
				if near := held(q, lo, hi); near > row[x] {
					row[x], face[x] = near, t
				}
				q += dx
			}
			continue
		}
		for x := range row {
			if q > row[x] {
				row[x], face[x] = q, t
			}
			q += dx
		}
	}
}

// held is x kept between lo and hi. Where pixels are counted it is written out: min and
// max of floats are calls in wasm, which took a third of a picture's time.
func held(x, lo, hi float32) float32 {
	if x < lo {
		return lo
	}
	if x > hi {
		return hi
	}
	return x
}

// least and most are those of three.
func least(a, b, c float32) float32 {
	if b < a {
		a = b
	}
	if c < a {
		a = c
	}
	return a
}

func most(a, b, c float32) float32 {
	if b > a {
		a = b
	}
	if c > a {
		a = c
	}
	return a
}

func ceil(x float32) int {
	n := int(x)
	if float32(n) < x {
		n++
	}
	return n
}

func floor(x float32) int {
	n := int(x)
	if float32(n) > x {
		n--
	}
	return n
}
