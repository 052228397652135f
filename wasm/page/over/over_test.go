package over

import (
	"image"
	"math"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/light"
	"ruffwright/geom/portrait"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/wasm/painting"
)

// seen is a circle of a radius, mm, whose plane is tilted and rolled, as a pinhole far_mm
// away sees it at px pixels a mm: the very geometry, apart from portrait's closed forms.
func seen(radius, tilt_deg, roll_deg, far_mm, px float64, n int) (all []portrait.Point) {
	st, ct := math.Sincos(tilt_deg * math.Pi / 180)
	sr, cr := math.Sincos(roll_deg * math.Pi / 180)
	for i := range n {
		s, c := math.Sincos((-20 + float64(i)*220/float64(n-1)) * math.Pi / 180)
		v := geom.Vec3{X: radius * c, Y: radius * s * st, Z: far_mm - radius*s*ct} // right, down, away
		v.X, v.Y = cr*v.X-sr*v.Y, sr*v.X+cr*v.Y
		all = append(all, portrait.Point{600 + px*far_mm*v.X/v.Z, 500 + px*far_mm*v.Y/v.Z})
	}
	return all
}

// TestOver: a ruff that is painted over a picture covers the fitted ellipse of its outer
// edge, within 2 % of the long axis, however it is tilted and rolled.
func TestOver(t *testing.T) {
	r, err := sim.Draw(scheme.First())
	if err != nil {
		t.Fatal(err)
	}
	shape := r.Folded.Shape
	scene := figure.Bare(r.Plan, shape)
	for _, c := range []struct {
		tilt, roll float64
		near       string
	}{{25, 5, "below"}, {40, -12, "below"}, {12, 0, "below"}, {30, 8, "above"}} {
		tilt := c.tilt
		if c.near == "above" {
			tilt = -tilt
		}
		sheet := portrait.Sheet{Source: portrait.Source{Near: c.near, Edge: seen(170, tilt, c.roll, 2080, 2, 12), Distance: 2000,
			References: []portrait.Reference{{Kind: portrait.FaceHeight, Line: portrait.Line{From: portrait.Point{600, 100}, To: portrait.Point{600, 100 + 118*2.08}}}}}}
		got, err := portrait.Measure(sheet)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got.Lies.Tilt_deg-tilt) > 1 || math.Abs(got.Lies.Roll_deg-c.roll) > 0.5 || math.Hypot(got.Lies.Middle[0]-600, got.Lies.Middle[1]-500) > 3 {
			t.Errorf("%+v: lies %+v", c, got.Lies)
		}
		l := got.Lies
		eye := figure.Over(shape, figure.Lying{Middle: draw.Pt(l.Middle[0], l.Middle[1]), Radius_mm: l.Radius_px, Far_mm: l.Distance_px, Tilt_deg: l.Tilt_deg, Roll_deg: l.Roll_deg})
		long := 2 * l.Radius_px
		radius := l.Radius_px / eye.Scale
		for i, want := range seen(170, tilt, c.roll, 2080, 2, 12) { // the same angles round the ruff
			s, cos := math.Sincos((-20 + float64(i)*20) * math.Pi / 180)
			p := eye.Point(eye.Mid.Add(geom.Vec3{X: radius * cos, Y: -radius * s}))
			if off := math.Hypot(p.X-want[0], p.Y-want[1]); off > 0.02*long {
				t.Errorf("%+v: at %d° its edge is seen at %.0f, %.0f, in the picture at %.0f", c, -20+20*i, p.X, p.Y, want)
			}
		}
		picture, at, _ := draw.Solid{Scene: scene, Eye: eye, Mood: light.Daylight, Plain: true}.Seen(1200, 1000, 1)
		if picture == nil {
			t.Fatal("nothing is painted")
		}
		// The outline's box, and the painted one's. The cloth stands as far above and below the
		// edge's plane as half its height is seen.
		lo, hi := portrait.Point{1e9, 1e9}, portrait.Point{-1e9, -1e9}
		for _, p := range got.Outline {
			lo, hi = portrait.Point{min(lo[0], p[0]), min(lo[1], p[1])}, portrait.Point{max(hi[0], p[0]), max(hi[1], p[1])}
		}
		box := painted(picture).Add(at)
		stands := scheme.First().Ruff.Height / 2 * eye.Scale * 1.1
		for _, side := range []struct {
			what        string
			got, want   float64
			least, most float64
		}{
			{"left", float64(box.Min.X), lo[0], -stands * math.Abs(math.Sin(c.roll*math.Pi/180)), 0}, {"right", float64(box.Max.X), hi[0], 0, stands * math.Abs(math.Sin(c.roll*math.Pi/180))},
			{"top", float64(box.Min.Y), lo[1], -stands, 0}, {"bottom", float64(box.Max.Y), hi[1], 0, stands},
		} {
			if off := side.got - side.want; off < side.least-0.02*long || off > side.most+0.02*long {
				t.Errorf("%+v: its %s side is at %g, the ellipse's at %g: off by %.1f %% of the long axis", c, side.what, side.got, side.want, 100*off/long)
			}
		}
	}
}

// painted is the box of what is painted.
func painted(m *image.RGBA) (box image.Rectangle) {
	for y := m.Rect.Min.Y; y < m.Rect.Max.Y; y++ {
		for x := m.Rect.Min.X; x < m.Rect.Max.X; x++ {
			if m.RGBAAt(x, y).A > 128 {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return box
}

// line is between what lies over the picture and a painter.
type line struct {
	o      *Over
	artist *painting.Painter
	said   []said
	asked  func(n int) // called after the n-th wish was answered
}

type said struct {
	head string
	body []byte
}

// runs carries wishes and answers until there are none, and tells how many bytes of scenes
// each wish had, and how many pictures were shown.
func (l *line) runs(t *testing.T) (sizes []int, shows int) {
	t.Helper()
	for len(l.said) > 0 {
		m := l.said[0]
		l.said = l.said[1:]
		for _, p := range l.o.Hear(m.head, m.body) {
			switch p.Name {
			case "paint ask":
				sizes = append(sizes, len(p.Body))
				l.artist.Take(p.Value, p.Body)
				l.asked(len(sizes))
			case "paint show":
				if shows++; len(p.Body) < 20 || p.Size < 1000 {
					t.Errorf("shows %d bytes, %d of pixels", len(p.Body), p.Size)
				}
			}
		}
	}
	return sizes, shows
}

// TestAsks: a painter is started, asked plainly, then in full; a newer wish waits for the
// answer to the one before; what the painter has is not sent twice; ended, nothing is asked.
func TestAsks(t *testing.T) {
	r, err := sim.Draw(scheme.First())
	if err != nil {
		t.Fatal(err)
	}
	var o Over
	line := &line{o: &o}
	line.artist = painting.New(func(head string, body []byte) { line.said = append(line.said, said{head, body}) })
	want := Want{Lies: figure.Lying{Middle: draw.Pt(150, 120), Radius_mm: 100, Far_mm: 1200, Tilt_deg: 25}, Width: 300, Height: 240, Ratio: 1}
	if out := o.See(r.Plan, r.Folded.Shape, want); out != nil {
		t.Errorf("not wanted, and asked: %v", out)
	}
	if out := o.Turn(true); len(out) != 1 || out[0].Name != "paint start" {
		t.Fatalf("%v", out)
	}
	if out := o.See(r.Plan, r.Folded.Shape, want); out != nil {
		t.Errorf("the painter is not there, and is asked: %v", out)
	}
	line.asked = func(n int) {
		if n == 2 { // it is in full; meanwhile the picture is moved
			want.Lies.Middle.X += 10
			if more := o.See(r.Plan, r.Folded.Shape, want); more != nil {
				t.Errorf("a second wish does not wait: %v", more)
			}
		}
	}
	sizes, shows := line.runs(t)
	if len(sizes) != 4 || sizes[0] < 1000 || sizes[1]+sizes[2]+sizes[3] != 0 || shows != 4 {
		t.Errorf("asked with %v bytes, shown %d times", sizes, shows)
	}
	if out := o.Hear("{", nil); len(out) != 1 || out[0].Name != "paint end" || !o.Dead() {
		t.Errorf("what cannot be read: %v", out)
	}
	if o.Turn(false); o.On() || o.See(r.Plan, r.Folded.Shape, want) != nil {
		t.Error("ended, and asked")
	}
}
