package draw

import (
	"image/color"
	"math"
	"math/rand/v2"
	"testing"
)

// weighed is the slow reference of zbuffer.triangle: every pixel centre of the
// whole buffer is weighed, in float64.
func weighed(w, h int, p, q, r Vertex, visit func(x, y int, least float64)) {
	px, py, qx, qy, rx, ry := float64(p.X), float64(p.Y), float64(q.X), float64(q.Y), float64(r.X), float64(r.Y)
	area := (qx-px)*(ry-py) - (qy-py)*(rx-px)
	if area == 0 {
		return
	}
	for y := range h {
		for x := range w {
			fx, fy := float64(x)+0.5, float64(y)+0.5
			wq := ((fx-px)*(ry-py) - (fy-py)*(rx-px)) / area
			wr := ((qx-px)*(fy-py) - (qy-py)*(fx-px)) / area
			visit(x, y, math.Min(1-wq-wr, math.Min(wq, wr)))
		}
	}
}

// Rows walked from edge to edge paint what weighing every pixel paints: triangles
// of all shapes, slivers and level edges, inside the buffer and half out of it. A
// centre within a thousandth of an edge's weight may fall either way in float32.
func TestSpans(t *testing.T) {
	const w, h = 40, 30
	rnd := rand.New(rand.NewPCG(7, 11))
	at := func() float32 { return float32(rnd.Float64()*70 - 15) }
	painted := 0
	for n := range 3000 {
		p, q, r := Vertex{X: at(), Y: at()}, Vertex{X: at(), Y: at()}, Vertex{X: at(), Y: at()}
		switch n % 5 {
		case 1: // a sliver
			r.X, r.Y = (p.X+q.X)/2+float32(rnd.Float64()), (p.Y+q.Y)/2+float32(rnd.Float64())
		case 2: // a level edge, on centres or not
			q.Y = p.Y
			if n%2 == 0 {
				p.Y, q.Y = 10.5, 10.5
			}
		case 3: // corners on pixel centres
			p.X, p.Y, q.X, q.Y = 4.5, 7.5, 20.5, 7.5
		case 4: // small
			q.X, q.Y, r.X, r.Y = p.X+q.X/30, p.Y+q.Y/30, p.X+r.X/30, p.Y+r.Y/30
		}
		b := zbuffer{w: w, h: h, near: make([]float32, w*h), pix: make([]color.NRGBA, w*h)}
		for i := range b.near {
			b.near[i] = float32(math.Inf(-1))
		}
		b.triangle(p, q, r)
		weighed(w, h, p, q, r, func(x, y int, least float64) {
			got := b.pix[y*w+x].A > 0
			if got {
				painted++
			}
			if math.Abs(least) > 1e-3 && got != (least > 0) {
				t.Errorf("triangle %d %v %v %v: pixel %d, %d painted %v, its least weight is %g", n, p, q, r, x, y, got, least)
			}
		})
		if t.Failed() {
			return
		}
	}
	if painted < 10000 {
		t.Errorf("only %d pixels were painted: the test tells little", painted)
	}
}

// Corners that no picture has (NaN, infinite, far away) paint nothing wrong and
// end; corners in one line paint nothing.
func TestSpansOddCorners(t *testing.T) {
	line := zbuffer{w: 8, h: 8, near: make([]float32, 64), pix: make([]color.NRGBA, 64)}
	line.triangle(Vertex{X: 0.5, Y: 0.5, Z: 1}, Vertex{X: 6.5, Y: 6.5, Z: 1}, Vertex{X: 3.5, Y: 3.5, Z: 1})
	for i, c := range line.pix {
		if c.A != 0 {
			t.Errorf("a line paints pixel %d", i)
		}
	}
	nan, inf := float32(math.NaN()), float32(math.Inf(1))
	for _, v := range []float32{nan, inf, -inf, 1e30, -1e30, 1e-40} {
		b := zbuffer{w: 8, h: 8, near: make([]float32, 64), pix: make([]color.NRGBA, 64)}
		b.triangle(Vertex{X: v, Y: 1}, Vertex{X: 5, Y: 2}, Vertex{X: 3, Y: 6})
		b.triangle(Vertex{X: 1, Y: v}, Vertex{X: 5, Y: 2}, Vertex{X: 3, Y: 6})
		b.triangle(Vertex{X: 1, Y: v}, Vertex{X: 5, Y: v + 1e-40}, Vertex{X: 3, Y: v})
	}
}
