package light

import (
	"image/color"
	"math"
	"testing"

	"ruffwright/geom"
)

// TestBridges: where a line shows too little for less than bridge_mm it goes on; where it
// does so for longer, or something lies before it, it ends, and no line ends in what
// shows too little.
func TestBridges(t *testing.T) {
	d := blank(400, 40)
	w := window{px: 5, w: 400, h: 40}
	for _, c := range []struct {
		from, to float64 // mm of 70, in which it shows so much
		much     float32
		want     []float64 // lengths, mm
	}{
		{30, 32, 0, []float64{60}}, {30, 36, 0, []float64{25, 29}}, {30, 32, hides, []float64{25, 33}},
		{5, 7, 0, []float64{58}}, {30, 31, hides, []float64{60}}, {60, 65, 0, []float64{55}}, {6, 6, 0, []float64{60}},
	} {
		lines := d.stretches([]spot{{x: 25, y: 20}, {x: 325, y: 20}}, w, 0.2, color.NRGBA{A: 255}, func(at spot, _, _ float32) float32 {
			if x := float64(at.x) / w.px; x > c.from && x < c.to {
				return c.much
			}
			return 1
		})
		ok := len(lines) == len(c.want)
		for i := range min(len(lines), len(c.want)) {
			ok = ok && math.Abs(span(lines[i].V)-c.want[i]) < 0.7 && lines[i].Width_mm == 0.2
		}
		if !ok {
			t.Errorf("%g from %g to %g mm: %v, want lengths %v", c.much, c.from, c.to, lines, c.want)
		}
	}
}

// TestHemBelow: of two sheets of one outline, one over the other, the lower one's first and
// last rows do not show beside the upper one's.
func TestHemBelow(t *testing.T) {
	s := Scene{Sheets: []Sheet{
		plane(geom.Vec3{Z: 12}, geom.Vec3{X: 1}, geom.Vec3{Y: 1}, 20, 5),
		plane(geom.Vec3{}, geom.Vec3{X: 1}, geom.Vec3{Y: 1}, 20, 5),
	}}
	for i := range s.Sheets {
		s.Sheets[i].Hem_mm = [4]float64{FirstRow: 0.2, LastRow: 0.2}
	}
	c := NewCamera(17, 90)
	c.X, c.Y = 40, 40
	long := 0.0
	for _, l := range s.Draw(Look{Camera: c, W: 600, H: 600, PxPerMM: 7.5}).Lines {
		long += span(l.V)
	}
	if math.Abs(long-80) > 2 {
		t.Errorf("hems show for %.1f mm, want the upper one's 80", long)
	}
}

// TestNarrowGap: folds that stand close to each other have their outlines on both sides of
// the gap, the lighter where it is too narrow for two.
func TestNarrowGap(t *testing.T) {
	for _, c := range []struct{ gap, width float64 }{{2, 0.2}, {0.4, 0.2 * (0.45 + 0.55*0.35)}} {
		s := Scene{Sheets: []Sheet{tube(20, -15, 15, 48, 6), tube(20, -15, 15, 48, 6)}}
		for i := range s.Sheets {
			s.Sheets[i].Fold_mm = 0.2
			for k := range s.Sheets[i].V {
				s.Sheets[i].V[k].X += (20 + c.gap/2) * float64(2*i-1)
			}
		}
		eye := NewCamera(0, 0)
		eye.X, eye.Y = 60, 40
		within := 0
		for _, l := range s.Draw(Look{Camera: eye, W: 600, H: 400, PxPerMM: 5}).Lines {
			if math.Abs(float64(l.V[0][0])-60) < 3 {
				within++
				if math.Abs(l.Width_mm-c.width) > 0.02 {
					t.Errorf("a gap of %g mm: an outline is %.3f mm wide, want %.3f", c.gap, l.Width_mm, c.width)
				}
			}
		}
		if within != 2 {
			t.Errorf("a gap of %g mm: %d outlines beside it, want 2", c.gap, within)
		}
	}
}

// TestSmooth: through the places of a circle the curve keeps to it, and passes through them.
func TestSmooth(t *testing.T) {
	var line []geom.Vec3
	for i := range 25 {
		s, k := math.Sincos(2 * math.Pi * float64(i) / 24)
		line = append(line, geom.Vec3{X: 10 * k, Z: 10 * s})
	}
	made := Smooth(line, 6)
	if len(made) != 24*6+1 {
		t.Fatalf("%d places", len(made))
	}
	for i, v := range made {
		// Beyond the ends the curve goes on as it came: it bends less there.
		if off := math.Abs(v.Norm() - 10); off > 0.01 && i > 6 && i < len(made)-7 || off > 0.1 || i%6 == 0 && v != line[i/6] {
			t.Errorf("place %d is %.4f mm off", i, off)
		}
	}
	if again := Smooth(line[:1], 6); len(again) != 1 {
		t.Errorf("%d places of one", len(again))
	}
}

// span is how long a line is, mm.
func span(way [][2]float32) float64 {
	long := 0.0
	for i := 1; i < len(way); i++ {
		long += math.Hypot(float64(way[i][0]-way[i-1][0]), float64(way[i][1]-way[i-1][1]))
	}
	return long
}

// TestTurnsOnTheSpot: a line that goes nowhere is not drawn, however often it turns about
// there: the outline about a pole of the wearer's form is such a one.
func TestTurnsOnTheSpot(t *testing.T) {
	d := blank(400, 400)
	w := window{px: 5, w: 400, h: 400}
	for _, c := range []struct {
		radius float64 // mm
		want   int
	}{{0.6, 0}, {0.9, 1}} {
		var way []spot
		for i := range 49 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 12)
			way = append(way, spot{x: float32(200 + 5*c.radius*cos), y: float32(200 + 5*c.radius*sin)})
		}
		lines := d.stretches(way, w, 0.2, color.NRGBA{A: 255}, func(spot, float32, float32) float32 { return 1 })
		if len(lines) != c.want {
			t.Errorf("four times round %g mm: %d lines, want %d", c.radius, len(lines), c.want)
		}
	}
}

// TestSeam: where a sheet closes, its outline is drawn as well as elsewhere: the cloth beside
// it is its own, though it is counted from the other end.
func TestSeam(t *testing.T) {
	s := Scene{Sheets: []Sheet{tube(20, -15, 15, 48, 6)}}
	s.Sheets[0].Fold_mm = 0.2
	for _, turned := range []float64{-4, -1, 1, 4} {
		c := NewCamera(turned, 20)
		c.X, c.Y = 50, 50
		if p := s.Draw(Look{Camera: c, W: 500, H: 500, PxPerMM: 5}); len(p.Lines) != 2 {
			t.Errorf("turned by %g°: %d outlines, want 2", turned, len(p.Lines))
		}
	}
}

// TestHemMeetsOutline: where a loop's end turns away from the eye, its hem goes on to the
// outline that begins there, though a pixel beside it the cloth is much nearer to the eye.
func TestHemMeetsOutline(t *testing.T) {
	loop := Sheet{Cols: 41, Rows: 13, Ring: true, Tints: []Tint{grey()}, Fold_mm: 0.2, Hem_mm: [4]float64{LastRow: 0.25}}
	for c := range loop.Cols {
		sin, cos := math.Sincos(math.Pi / 20 * float64(c%40))
		for r := range loop.Rows {
			wide := 3 + 0.5*float64(r)
			loop.V = append(loop.V, geom.Vec3{X: wide * cos, Y: 5 * float64(r), Z: wide * sin})
		}
	}
	s := Scene{Sheets: []Sheet{loop}}
	for _, turned := range []float64{-12, -8, -5} {
		c := NewCamera(turned, 25)
		c.X, c.Y, c.Mid.Y, c.Far = 50, 50, 30, 600
		var hems, outlines [][2]float32
		for _, l := range s.Draw(Look{Camera: c, W: 670, H: 670, PxPerMM: 6.7}).Lines {
			if l.Width_mm == 0.25 {
				hems = append(hems, l.V[0], l.V[len(l.V)-1])
			} else {
				outlines = append(outlines, l.V[0], l.V[len(l.V)-1])
			}
		}
		most := 0.0
		for _, h := range hems {
			gap := math.Inf(1)
			for _, o := range outlines {
				gap = min(gap, math.Hypot(float64(h[0]-o[0]), float64(h[1]-o[1])))
			}
			most = max(most, gap)
		}
		if most > 0.6 {
			t.Errorf("turned by %g°: %.2f mm lie between the hem and the outline", turned, most)
		}
	}
}

// TestOutlineAlongAColumn: an outline that runs along a column of nodes is one line, though
// rounding has the nodes face the eye a little or turn away from it.
func TestOutlineAlongAColumn(t *testing.T) {
	s := Scene{Sheets: []Sheet{tube(20, -30, 30, 48, 30)}}
	form := &s.Sheets[0]
	form.Fold_mm = 0.2
	for k, v := range form.V { // turned on a lathe: of another radius at each row
		part := 1 + 0.3*math.Sin(float64(k%form.Rows)/4)
		form.V[k] = geom.Vec3{X: v.X*part + 1.7, Y: v.Y*part - 0.3, Z: v.Z}
	}
	for _, turned := range []float64{0, 90, 180, 270} {
		c := NewCamera(turned, 0)
		c.X, c.Y = 50, 50
		if p := s.Draw(Look{Camera: c, W: 500, H: 500, PxPerMM: 5}); len(p.Lines) != 2 {
			t.Errorf("from %g°: %d outlines, want 2", turned, len(p.Lines))
		}
	}
}

// TestTurnsBack: a line that goes and comes back the same way is left so long, not drawn as
// the dot between its ends.
func TestTurnsBack(t *testing.T) {
	way := [][2]float32{{10, 10}, {11, 10.01}, {14, 10}, {12, 9.99}, {10.1, 10}}
	if got := thinned(way); reach(got) < 3.9 || len(got) != 3 {
		t.Errorf("thinned to %v", got)
	}
	for _, c := range []struct {
		way  [][2]float32
		want bool
	}{
		{[][2]float32{{10, 10}, {14, 10}, {10.1, 10}}, true},
		{[][2]float32{{10, 10}, {12, 10.3}, {14, 10}, {12, 9.7}, {10, 10}}, true},
		{[][2]float32{{10, 10}, {12, 11}, {14, 10}, {12, 9}, {10, 10}}, false},
		{[][2]float32{{10, 10}, {18, 10}, {10.1, 10}}, false},
		{[][2]float32{{10, 10}, {14, 10}, {13, 10.1}}, false},
		{[][2]float32{{10, 10}, {14, 10}}, false},
	} {
		if hairpin(c.way) != c.want {
			t.Errorf("%v is a hairpin: %t", c.way, !c.want)
		}
	}
}
