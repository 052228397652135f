package main

import (
	"image/color"
	"math"
	"math/rand/v2"
	"testing"
)

func area(line []point, t [3]int) float64 {
	return cross(line[t[0]], line[t[1]], line[t[2]]) / 2
}

func polygonArea(line []point) float64 {
	sum := 0.0
	for i, a := range line {
		b := line[(i+1)%len(line)]
		sum += a.X*b.Y - a.Y*b.X
	}
	return sum / 2
}

// TestEars: the triangles of star-shaped polygons, either way round, number
// n − 2 and cover exactly the polygon's area by the shoelace formula.
func TestEars(t *testing.T) {
	dice := rand.New(rand.NewPCG(7, 1))
	for n := 3; n < 60; n++ {
		line := make([]point, n)
		for i := range line {
			r := 1 + 9*dice.Float64()
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			line[i] = point{X: r * cos, Y: r * sin}
		}
		if n%2 == 1 {
			for i, j := 0, n-1; i < j; i, j = i+1, j-1 {
				line[i], line[j] = line[j], line[i]
			}
		}
		triangles := ears(line)
		if len(triangles) != n-2 {
			t.Fatalf("%d corners give %d triangles, want %d", n, len(triangles), n-2)
		}
		sum := 0.0
		for _, tri := range triangles {
			sum += math.Abs(area(line, tri))
		}
		if want := math.Abs(polygonArea(line)); math.Abs(sum-want) > 1e-9*want {
			t.Errorf("%d corners: triangles cover %g of %g", n, sum, want)
		}
	}
}

// TestFillOddities: what is no polygon fills nothing and does not fail.
func TestFillOddities(t *testing.T) {
	p := point{X: 3, Y: 4}
	for _, line := range [][]point{nil, {p}, {p, p, p}, {p, {X: 5, Y: 6}}, {p, {X: 5, Y: 6}, p}} {
		var k ink
		k.fill(line, color.NRGBA{A: 255})
		if len(k.index)%3 != 0 {
			t.Errorf("%v: %d indices", line, len(k.index))
		}
	}
}

// TestDashes: dashes and gaps of a line add up to its length, and each dash has
// the pattern's.
func TestDashes(t *testing.T) {
	line := []point{{X: 0}, {X: 7}, {X: 7, Y: 13}, {X: 40, Y: 13}} // 53 long
	length := func(l []point) (sum float64) {
		for i := 1; i < len(l); i++ {
			sum += math.Hypot(l[i].X-l[i-1].X, l[i].Y-l[i-1].Y)
		}
		return sum
	}
	got := dashes(line, false, []float32{4, 2})
	if len(got) != 9 { // 53 = 8 × 6 + 5: eight whole dashes and one of 4
		t.Fatalf("%d dashes, want 9", len(got))
	}
	for i, d := range got {
		if math.Abs(length(d)-4) > 1e-9 {
			t.Errorf("dash %d is %g long, want 4", i, length(d))
		}
	}
	for _, pattern := range [][]float32{{0, 0}, {-1, 2}, {float32(math.NaN()), 1}, {0.1, 0.1}} {
		if got := dashes(line, false, pattern); len(got) != 1 || length(got[0]) != 53 {
			t.Errorf("pattern %v: %d strokes", pattern, len(got))
		}
	}
	closed := dashes([]point{{X: 0}, {X: 10}, {X: 10, Y: 10}, {Y: 10}}, true, []float32{5, 5})
	if len(closed) != 4 {
		t.Errorf("a square of 40 in dashes of 5: %d, want 4", len(closed))
	}
}

// covered is how much ink lies on the canvas, in pixels all covered: a triangle's area
// by the middle of its corners' cover.
func (k *ink) covered() (sum float64) {
	for i := 0; i < len(k.index); i += 3 {
		a, b, c := k.index[i], k.index[i+1], k.index[i+2]
		at := []point{{float64(k.x[a]), float64(k.y[a])}, {float64(k.x[b]), float64(k.y[b])}, {float64(k.x[c]), float64(k.y[c])}}
		cover := (float64(k.tint[a].A) + float64(k.tint[b].A) + float64(k.tint[c].A)) / 3 / 255
		sum += math.Abs(cross(at[0], at[1], at[2])) / 2 * cover
	}
	return sum
}

// TestStroke: a line of width w lays length × w of ink, thin and thick, straight and
// bent, and its round ends a circle's area within 5 %: polygons that leave at most
// 0.1 px.
func TestStroke(t *testing.T) {
	const turn = 0.2 // rad a corner: few enough that inner and outer side even out
	arc := []point{}
	for i := range 30 {
		sin, cos := math.Sincos(turn * float64(i))
		arc = append(arc, point{100 * cos, 100 * sin})
	}
	long := 29 * 200 * math.Sin(turn/2)
	for _, c := range []struct {
		line  []point
		width float64
		want  float64
	}{
		{[]point{{X: 0}, {X: 100}}, 1, 100},
		{[]point{{X: 0}, {X: 100}}, 6, 600 + 2*math.Pi*9}, // both discs, of which half lies under the line
		{[]point{{X: 0}, {X: 100}, {X: 100, Y: 100}, {X: 200, Y: 100}}, 4, 1200 + 4*math.Pi*4},
		{arc, 1, long},
		{arc, 4, long*4 + 2*math.Pi*4},
	} {
		var k ink
		k.stroke(c.line, false, c.width, color.NRGBA{A: 255})
		if got := k.covered(); math.Abs(got-c.want) > 0.05*2*math.Pi*c.width*c.width/4+0.001*c.want {
			t.Errorf("a line of %d points, %g wide, covers %.2f, want %.2f", len(c.line), c.width, got, c.want)
		}
	}
}

// TestFill: polygons lay their area of ink, either way round; the edge that fades takes
// as much as it gives but at the corners.
func TestFill(t *testing.T) {
	for _, line := range [][]point{
		{{0, 0}, {50, -20}, {100, 0}, {60, 60}},
		{{0, 0}, {80, 0}, {80, 40}, {0, 40}}, {{0, 40}, {80, 40}, {80, 0}, {0, 0}},
		{{0, 0}, {60, 0}, {60, 20}, {20, 20}, {20, 50}, {0, 50}},
	} {
		var k ink
		k.fill(line, color.NRGBA{A: 255})
		if got, want := k.covered(), math.Abs(polygonArea(line)); math.Abs(got-want) > float64(len(line)) {
			t.Errorf("%v covers %.2f, want %.2f", line, got, want)
		}
	}
}

// TestPieces: cut or whole, the same triangles in the same order.
func TestPieces(t *testing.T) {
	dice := rand.New(rand.NewPCG(3, 9))
	const n = 1000
	index := make([]uint32, 3*2500)
	for i := range index {
		index[i] = uint32(dice.IntN(n))
	}
	for _, most := range []int{3, 4, 50, 999, 1000, 1 << 16} {
		var got []uint32
		pieces(index, n, most, func(pick []uint32, small []uint16) {
			if len(pick) > most {
				t.Errorf("most %d: a run of %d vertices", most, len(pick))
			}
			for _, i := range small {
				if pick == nil {
					got = append(got, uint32(i))
				} else {
					got = append(got, pick[i])
				}
			}
		})
		if len(got) != len(index) {
			t.Fatalf("most %d: %d indices, want %d", most, len(got), len(index))
		}
		for i := range got {
			if got[i] != index[i] {
				t.Fatalf("most %d: index %d is %d, want %d", most, i, got[i], index[i])
			}
		}
	}
}
