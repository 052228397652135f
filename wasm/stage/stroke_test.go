package stage

import (
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"ruffwright/geom/draw"
)

func area(line []draw.Point, t [3]int) float64 {
	return cross(line[t[0]], line[t[1]], line[t[2]]) / 2
}

func polygonArea(line []draw.Point) float64 {
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
		line := make([]draw.Point, n)
		for i := range line {
			r := 1 + 9*dice.Float64()
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			line[i] = draw.Point{X: r * cos, Y: r * sin}
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
	p := draw.Point{X: 3, Y: 4}
	for _, line := range [][]draw.Point{nil, {p}, {p, p, p}, {p, {X: 5, Y: 6}}, {p, {X: 5, Y: 6}, p}} {
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
	line := []draw.Point{{X: 0}, {X: 7}, {X: 7, Y: 13}, {X: 40, Y: 13}} // 53 long
	length := func(l []draw.Point) (sum float64) {
		for i := 1; i < len(l); i++ {
			sum += math.Hypot(l[i].X-l[i-1].X, l[i].Y-l[i-1].Y)
		}
		return sum
	}
	got := dashes(line, false, []float64{4, 2})
	if len(got) != 9 { // 53 = 8 × 6 + 5: eight whole dashes and one of 4
		t.Fatalf("%d dashes, want 9", len(got))
	}
	for i, d := range got {
		if math.Abs(length(d)-4) > 1e-9 {
			t.Errorf("dash %d is %g long, want 4", i, length(d))
		}
	}
	for _, pattern := range [][]float64{{0, 0}, {-1, 2}, {math.NaN(), 1}, {0.1, 0.1}} {
		if got := dashes(line, false, pattern); len(got) != 1 || length(got[0]) != 53 {
			t.Errorf("pattern %v: %d strokes", pattern, len(got))
		}
	}
	closed := dashes([]draw.Point{{X: 0}, {X: 10}, {X: 10, Y: 10}, {Y: 10}}, true, []float64{5, 5})
	if len(closed) != 4 {
		t.Errorf("a square of 40 in dashes of 5: %d, want 4", len(closed))
	}
}

// TestStroke: the triangles of a straight line of width w cover length × w,
// and its round ends a circle's area within 5 %: polygons that
// leave at most 0.1 px.
func TestStroke(t *testing.T) {
	var k ink
	k.stroke([]draw.Point{{X: 0}, {X: 100}}, false, 6, color.NRGBA{A: 255})
	sum := 0.0
	for i := 0; i < len(k.index); i += 3 {
		a, b, c := k.index[i], k.index[i+1], k.index[i+2]
		sum += math.Abs(float64((k.x[b]-k.x[a])*(k.y[c]-k.y[a])-(k.y[b]-k.y[a])*(k.x[c]-k.x[a]))) / 2
	}
	whole := 600 + 2*math.Pi*9 // both discs, of which half lies under the line
	if math.Abs(sum-whole) > 0.05*2*math.Pi*9 {
		t.Errorf("a line of 100 × 6 covers %g, want %g", sum, whole)
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

// TestWrite: written text is as wide as figure says it is, within a pixel and
// a half, and has ink.
func TestWrite(t *testing.T) {
	for _, face := range []draw.Face{draw.Upright, draw.Italic, draw.Bold} {
		const px = 40.0
		picture := write("272 mm, 15 ½ in", px, face, color.NRGBA{A: 255})
		if picture == nil {
			t.Fatalf("face %v writes nothing", face)
		}
		want := draw.TextWidth("272 mm, 15 ½ in", px, face)
		if got := float64(picture.Bounds().Dx() - 2*margin); math.Abs(got-want) > 1.5 {
			t.Errorf("face %v: %g px wide, figure says %g", face, got, want)
		}
		inked := 0
		for i := 3; i < len(picture.Pix); i += 4 {
			if picture.Pix[i] > 128 {
				inked++
			}
		}
		if inked < 500 {
			t.Errorf("face %v: %d pixels of ink", face, inked)
		}
	}
	if write("", 20, draw.Upright, color.NRGBA{A: 255}) != nil {
		t.Error("no text gives a picture")
	}
}
