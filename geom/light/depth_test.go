package light

import (
	"math"
	"math/rand/v2"
	"testing"

	"ruffwright/geom"
)

// blank is a picture of nothing yet.
func blank(w, h int) *depths {
	d := &depths{w: w, h: h, q: make([]float32, w*h), face: make([]uint32, w*h)}
	for i := range d.q {
		d.q[i], d.face[i] = nothing, noFace
	}
	return d
}

// corners is a fine grid that is one triangle, its nodes at x, y, q.
func corners(v [3][3]float32) *fine {
	f := &fine{}
	for _, c := range v {
		f.x, f.y, f.q = append(f.x, c[0]), append(f.y, c[1]), append(f.q, c[2])
	}
	return f
}

// TestNoGap: where the cells of a sheet meet no pixel is left between them, wherever
// its nodes lie in their plane.
func TestNoGap(t *testing.T) {
	dice := rand.New(rand.NewPCG(3, 4))
	c := NewCamera(0, 0)
	c.Y = 40
	for range 40 {
		s := plane(geom.Vec3{X: 20, Z: 20}, geom.Vec3{X: 1}, geom.Vec3{Z: 1}, 20, 3)
		t0 := &s
		for col := 1; col < 3; col++ {
			for r := range 4 {
				t0.V[col*4+r].X += 12 * (dice.Float64() - 0.5)
				if r > 0 && r < 3 {
					t0.V[col*4+r].Z += 12 * (dice.Float64() - 0.5)
				}
			}
		}
		p := (&Scene{Sheets: []Sheet{s}}).Draw(Look{Camera: c, W: 40, H: 40, PxPerMM: 1, WithoutLines: true})
		for i := 3; i < len(p.Pix); i += 4 {
			if p.Pix[i] != 255 {
				t.Fatalf("nodes at %v: pixel %d, %d is left", s.V, i/4%40, i/160)
			}
		}
	}
}

// TestRows: rows walked from edge to edge take what weighing every pixel in float64
// takes: triangles of all shapes, slivers and level edges, inside the picture and half
// out of it. A centre within a thousandth of an edge's weight, or of an edge by a
// hundredth of a pixel, may fall either way in float32.
func TestRows(t *testing.T) {
	const w, h = 40, 30
	dice := rand.New(rand.NewPCG(7, 11))
	at := func() float32 { return float32(dice.Float64()*70 - 15) }
	taken := 0
	for n := range 3000 {
		v := [3][3]float32{{at(), at(), 1}, {at(), at(), 2}, {at(), at(), 4}}
		switch n % 5 {
		case 1: // a sliver
			v[2][0], v[2][1] = (v[0][0]+v[1][0])/2+float32(dice.Float64()), (v[0][1]+v[1][1])/2+float32(dice.Float64())
		case 2: // a level edge, on centres or not
			v[1][1] = v[0][1]
			if n%2 == 0 {
				v[0][1], v[1][1] = 10.5, 10.5
			}
		case 3: // corners on pixel centres
			v[0], v[1] = [3]float32{4.5, 7.5, 1}, [3]float32{20.5, 7.5, 2}
		case 4: // small
			v[1][0], v[1][1], v[2][0], v[2][1] = v[0][0]+v[1][0]/30, v[0][1]+v[1][1]/30, v[0][0]+v[2][0]/30, v[0][1]+v[2][1]/30
		}
		d := blank(w, h)
		d.triangle(corners(v), 0, 1, 2, 7)
		for y := range h {
			for x := range w {
				least, off, q := weighed(v, float64(x)+0.5, float64(y)+0.5)
				got := d.face[y*w+x] == 7
				if got {
					taken++
				}
				if math.Abs(least) > 1e-3 && off > 1e-2 && got != (least > 0) {
					t.Fatalf("triangle %d %v: pixel %d, %d taken %v, its least weight is %g", n, v, x, y, got, least)
				}
				if got && least > 1e-3 && off > 1e-2 && math.Abs(float64(d.q[y*w+x])-q) > 2e-3*(1+3/off) {
					t.Fatalf("triangle %d %v: pixel %d, %d lies %g near, want %g", n, v, x, y, d.q[y*w+x], q)
				}
			}
		}
	}
	if taken < 10000 {
		t.Errorf("only %d pixels were taken: the test tells little", taken)
	}
}

// weighed is the slow reference of depths.triangle: the least weight of a corner at a
// place, how many pixels the nearest edge is off, and how near the triangle is there.
func weighed(v [3][3]float32, x, y float64) (least, off, q float64) {
	least, off = math.Inf(1), math.Inf(1)
	cross := func(i, j int) (area, long float64) {
		ax, ay, bx, by := float64(v[i][0]), float64(v[i][1]), float64(v[j][0]), float64(v[j][1])
		return (bx-ax)*(y-ay) - (by-ay)*(x-ax), math.Hypot(bx-ax, by-ay)
	}
	var of, long [3]float64
	for k := range 3 {
		of[k], long[k] = cross((k+1)%3, (k+2)%3)
	}
	all := of[0] + of[1] + of[2]
	for k := range 3 {
		least, off = min(least, of[k]/all), min(off, math.Abs(of[k])/long[k])
		q += of[k] / all * float64(v[k][2])
	}
	return least, off, q
}

// TestOddCorners: corners that no picture has (NaN, infinite, far away) take no wrong
// place and end; corners in one line take nothing.
func TestOddCorners(t *testing.T) {
	line := blank(8, 8)
	line.triangle(corners([3][3]float32{{0.5, 0.5, 1}, {6.5, 6.5, 1}, {3.5, 3.5, 1}}), 0, 1, 2, 1)
	for i, face := range line.face {
		if face != noFace {
			t.Errorf("a line takes pixel %d", i)
		}
	}
	nan, inf := float32(math.NaN()), float32(math.Inf(1))
	for _, v := range []float32{nan, inf, -inf, 1e30, -1e30, 1e-40} {
		d := blank(8, 8)
		for _, f := range []*fine{corners([3][3]float32{{v, 1, 0}, {5, 2, 0}, {3, 6, 0}}), corners([3][3]float32{{1, v, 0}, {5, 2, 0}, {3, 6, 0}}), corners([3][3]float32{{1, v, 0}, {5, v + 1e-40, 0}, {3, v, 0}})} {
			d.triangle(f, 0, 1, 2, 1)
		}
	}
}

// TestCrossing: of two planes that cross the nearer is seen on either side of where they
// cross; a pixel that is covered in part is painted in part.
func TestCrossing(t *testing.T) {
	c := NewCamera(0, 0)
	black := plane(geom.Vec3{X: 10, Z: -5}, geom.Vec3{X: 1, Y: -0.5}, geom.Vec3{Z: 1}, 10, 4)
	black.Tints[0] = Tint{}
	for i := range black.Tints[0] {
		black.Tints[0][i].A = 255
	}
	white := plane(geom.Vec3{X: 10, Z: -5}, geom.Vec3{X: 1, Y: 0.5}, geom.Vec3{Z: 1}, 10, 4)
	for i := range white.Tints[0] {
		white.Tints[0][i].R = 255
	}
	for _, order := range [][]Sheet{{black, white}, {white, black}} {
		p := (&Scene{Sheets: order}).Draw(Look{Camera: c, W: 40, H: 10, PxPerMM: 1, WithoutLines: true})
		if left, right := p.Pix[4*(5*40+2)], p.Pix[4*(5*40+17)]; left != 255 || right != 0 {
			t.Errorf("left of the crossing %d, right of it %d, want 255 and 0", left, right)
		}
	}
	part := plane(geom.Vec3{X: 5.15, Z: -5}, geom.Vec3{X: 1}, geom.Vec3{Z: 1}, 5.15, 4)
	p := (&Scene{Sheets: []Sheet{part}}).Draw(Look{Camera: c, W: 20, H: 10, PxPerMM: 1, Samples: 2, WithoutLines: true})
	if a := p.Pix[4*(5*20+10)+3]; a != 127 { // 0.25 is a sample, 0.75 the other
		t.Errorf("0.3 of a pixel are covered with alpha %d, want 127", a)
	}
}
