package light

import (
	"flag"
	"fmt"
	"image/color"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom"
)

var update = flag.Bool("update", false, "write what the pictures hold anew")

// dyed is the ruffle in three tints, picked by how far out its nodes lie.
func dyed(dense []float32) Scene {
	s := ruffle(6)
	t := &s.Sheets[0]
	t.Tints = []Tint{grey(), grey(), grey()}
	for i := range t.Tints[1] {
		t.Tints[1][i], t.Tints[2][i] = color.NRGBA{uint8(i), 0, 0, 255}, color.NRGBA{0, uint8(i), 0, 255}
	}
	t.Lined, t.Dense = true, dense
	for i := range t.V {
		t.Pick = append(t.Pick, 3*float32(i%t.Rows)/float32(t.Rows))
	}
	return s
}

// sewn is the ruffle with a thread round its outer edge and one that its own cloth hides in
// part, in stuff that is darker inward.
func sewn() Scene {
	s := ruffle(6)
	t := &s.Sheets[0]
	for i := range t.V {
		t.Tone = append(t.Tone, 0.6+0.4*float32(i%t.Rows)/float32(t.Rows))
	}
	out, in := Thread{Closed: true, Width_mm: 0.6}, Thread{Width_mm: 0.4, Lift_mm: 3}
	for c := 0; c < t.Cols-1; c += 8 {
		out.V = append(out.V, t.V[c*t.Rows+t.Rows-1])
		in.V = append(in.V, t.V[c*t.Rows+4].Add(geom.Vec3{Z: -2}))
	}
	out.Ink, in.Ink = color.NRGBA{200, 0, 0, 255}, color.NRGBA{0, 0, 200, 255}
	s.Threads = []Thread{out, in}
	return s
}

// TestPictures holds what pictures show of a ruffle: by every light, near and from afar,
// hatched, woven, dyed and sewn. What is held is the mean colour of each part of a picture,
// level by level, and how much ink its lines take; -update writes it anew.
// Half a level of 255 is allowed: single pixels are another between targets.
func TestPictures(t *testing.T) {
	bare := ruffle(6)
	bare.Sheets[0].Hatch_mm, bare.Sheets[0].Through = 0, 0
	fresh, plain, woven, dense, stitched := ruffle(6), ruffle(6), ruffle(6), dyed([]float32{0, 0.4, 1}), sewn()
	woven.Sheets[0].Weave_mm = 0.9
	plain.Bake(nil)
	tinted := dyed(nil)
	for _, s := range []*Scene{&woven, &tinted, &dense, &stitched} {
		s.baked = plain.baked // of the same shape
	}
	bare.Bake(nil)
	eye := func(turn, tilt, scale float64) Camera {
		c := NewCamera(turn, tilt)
		c.Far, c.Scale, c.X, c.Y = 600, scale, 60, 45
		return c
	}
	aside := func(c Camera) Camera { // with the cloth in the middle, not the neck
		c.X -= 95 * c.Scale
		return c
	}
	var got strings.Builder
	for _, c := range []struct {
		name  string
		scene *Scene
		look  Look
	}{
		{"by day, not baked", &fresh, Look{Camera: eye(28, 26, 0.4), Samples: 2}},
		{"by day", &plain, Look{Camera: eye(28, 26, 0.4), Samples: 2}},
		{"by candle", &plain, Look{Camera: eye(28, 26, 0.4), Mood: Candle}},
		{"against the light", &plain, Look{Camera: eye(-40, 15, 0.4), Mood: Against, Flat_px: 0.3}},
		{"from below, bare", &bare, Look{Camera: eye(200, -60, 0.4)}},
		{"from above, near", &plain, Look{Camera: aside(eye(0, 89, 1.4))}},
		{"woven, near", &woven, Look{Camera: aside(eye(10, 60, 3))}},
		{"woven, afar", &woven, Look{Camera: eye(10, 20, 0.4)}},
		{"dyed", &tinted, Look{Camera: eye(28, 26, 0.4)}},
		{"dyed, as dense", &dense, Look{Camera: eye(28, 26, 0.4)}},
		{"sewn", &stitched, Look{Camera: eye(28, 40, 0.5), Samples: 2}},
		{"sewn, without lines", &stitched, Look{Camera: eye(28, 40, 0.5), WithoutLines: true}},
	} {
		c.look.W, c.look.H, c.look.PxPerMM = 240, 180, 2
		fmt.Fprintf(&got, "%s:", c.name)
		p := c.scene.Draw(c.look)
		for _, mean := range means(p, 6, 4) {
			fmt.Fprintf(&got, " %.2f", mean)
		}
		length := 0.0
		for _, l := range p.Lines {
			for k := 1; k < len(l.V); k++ {
				length += math.Hypot(float64(l.V[k][0]-l.V[k-1][0]), float64(l.V[k][1]-l.V[k-1][1])) * l.Width_mm
			}
		}
		fmt.Fprintf(&got, " %.2f\n", length) // mm² of its lines
	}
	const file = "testdata/pictures.txt"
	if *update {
		if err := os.WriteFile(file, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	were := slices.Collect(strings.Lines(string(want)))
	for i, row := range slices.Collect(strings.Lines(got.String())) {
		if i >= len(were) {
			t.Fatalf("%s: %d rows; -update writes it anew", file, len(were))
		}
		name, now, _ := strings.Cut(row, ":")
		before, then, _ := strings.Cut(were[i], ":")
		a, b := strings.Fields(now), strings.Fields(then)
		if name != before || len(a) != len(b) {
			t.Fatalf("%s: row %d is of %q; -update writes it anew", file, i+1, before)
		}
		for k := range a {
			var x, y float64
			fmt.Sscan(a[k], &x)
			fmt.Sscan(b[k], &y)
			if !(math.Abs(x-y) <= 0.5) {
				t.Errorf("%s: number %d is %v, was %v", name, k+1, x, y)
			}
		}
	}
}

// means are the means of the red, green and blue of a picture's parts, so many across and
// down, what nothing covers as white.
func means(p *Picture, across, down int) (out []float64) {
	sums := make([][3]float64, across*down)
	for y := range p.H {
		for x := range p.W {
			at := &sums[y*down/p.H*across+x*across/p.W]
			q := p.Pix[4*(y*p.W+x):]
			for k := range at {
				at[k] += float64(q[k]) + 255 - float64(q[3])
			}
		}
	}
	for _, s := range sums {
		for _, x := range s {
			out = append(out, x*float64(across*down)/float64(p.W*p.H))
		}
	}
	return out
}
