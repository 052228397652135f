package light

import (
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"ruffwright/geom"
)

func grey() Tint {
	var t Tint
	for i := range t {
		t[i] = color.NRGBA{R: uint8(i), G: uint8(i), B: uint8(i), A: 255}
	}
	return t
}

// plane is a square sheet of the half side half, its middle at mid, u along its columns
// and v along its rows.
func plane(mid, u, v geom.Vec3, half float64, n int) Sheet {
	t := Sheet{Cols: n + 1, Rows: n + 1, Tints: []Tint{grey()}}
	for c := range n + 1 {
		for r := range n + 1 {
			x, y := half*(2*float64(c)/float64(n)-1), half*(2*float64(r)/float64(n)-1)
			t.V = append(t.V, mid.Add(u.Scale(x)).Add(v.Scale(y)))
		}
	}
	return t
}

// tube is a cylinder about the upright axis, from z = lo to hi.
func tube(radius, lo, hi float64, around, rows int) Sheet {
	t := Sheet{Cols: around + 1, Rows: rows + 1, Ring: true, Tints: []Tint{grey()}}
	for c := range around + 1 {
		s, k := math.Sincos(2 * math.Pi * float64(c%around) / float64(around))
		for r := range rows + 1 {
			t.V = append(t.V, geom.Vec3{X: radius * k, Y: radius * s, Z: lo + (hi-lo)*float64(r)/float64(rows)})
		}
	}
	return t
}

// TestHarmonics: over the sphere the harmonics are orthogonal and of norm one, and the
// parts of them that an open plane sees are the integrals of max(0, cosine).
func TestHarmonics(t *testing.T) {
	ways := sphere(40000)
	weight := 4 * math.Pi / float64(len(ways))
	var sum [terms][terms]float64
	var lit [terms]float64
	normal := geom.Vec3{X: 0.36, Y: -0.48, Z: 0.8}
	for _, d := range ways {
		y := harmonics(d)
		for i := range y {
			for j := range y {
				sum[i][j] += weight * y[i] * y[j]
			}
			lit[i] += weight * y[i] * max(0, d.Dot(normal))
		}
	}
	at := harmonics(normal)
	for i := range sum {
		for j := range sum {
			want := 0.0
			if i == j {
				want = 1
			}
			if math.Abs(sum[i][j]-want) > 2e-3 {
				t.Errorf("harmonics %d and %d: %.4f, want %g", i, j, sum[i][j], want)
			}
		}
		if want := open[i] * at[i]; math.Abs(lit[i]-want) > 2e-3 {
			t.Errorf("an open plane sees %.4f of harmonic %d, want %.4f", lit[i], i, want)
		}
	}
}

// TestLayers: sheets in a row let through what Kubelka's formula for two of them gives,
// taken again and again (J. Opt. Soc. Am. 44 (1954) 330).
func TestLayers(t *testing.T) {
	for _, s := range []float64{0.1, 0.7, 1.6, 5} {
		t1, r1 := Through(s), s/(1+s)
		tn, rn := t1, r1
		for n := 2; n < 9; n++ {
			k := 1 - rn*r1
			tn, rn = tn*t1/k, rn+tn*tn*r1/k
			if got := Through(float64(n) * s); math.Abs(got-tn) > 1e-12 {
				t.Errorf("%d sheets of %g let %g through, want %g", n, s, got, tn)
			}
		}
		if got := Scatters(t1); math.Abs(got-s) > 1e-12 {
			t.Errorf("what lets %g through scatters %g, want %g", t1, got, s)
		}
	}
}

// TestBakeOpen: a plane that nothing shades sees of every harmonic what an open plane
// sees; below a wide black ceiling (20 times as wide as high) it sees nothing on that side, and below thin cloth
// the part that Kubelka and Munk let through. (32 axes stand for the sphere: 3 % of the
// largest term.)
func TestBakeOpen(t *testing.T) {
	floor := plane(geom.Vec3{}, geom.Vec3{X: 1}, geom.Vec3{Y: 1}, 5, 4)
	for _, c := range []struct {
		name  string
		above []Sheet
		part  float64
	}{
		{"open", nil, 1},
		{"black", []Sheet{plane(geom.Vec3{Z: 3}, geom.Vec3{X: 1}, geom.Vec3{Y: 1}, 60, 4)}, 0},
		{"cloth", []Sheet{func() Sheet {
			s := plane(geom.Vec3{Z: 3}, geom.Vec3{X: 1}, geom.Vec3{Y: 1}, 60, 4)
			s.Through = 1.5
			return s
		}()}, 0.4},
	} {
		s := Scene{Sheets: append([]Sheet{floor}, c.above...)}
		s.Bake(nil)
		mid := 2*5 + 2
		got := (*s.baked)[0].front[mid]
		y := harmonics(geom.Vec3{Z: 1})
		for k := range got {
			if want := c.part * open[k] * y[k]; math.Abs(float64(got[k])-want) > 0.03 {
				t.Errorf("%s: harmonic %d is %.3f, want %.3f", c.name, k, got[k], want)
			}
		}
		if back := (*s.baked)[0].back[mid]; math.Abs(float64(back[0])-open[0]*y[0]) > 0.03 {
			t.Errorf("%s: from below it sees %.3f, want %.3f", c.name, back[0], open[0]*y[0])
		}
	}
}

// TestCurve: the surface between the nodes of a tube lies on the tube: Catmull and Rom's
// cubic leaves a circle of 24 chords by a thousandth of its radius at most, where the
// chords leave it by nine thousandths; and the outline is drawn within flat pixels.
func TestCurve(t *testing.T) {
	const radius = 40
	s := Scene{Sheets: []Sheet{tube(radius, -30, 30, 24, 2)}}
	c := NewCamera(30, 20)
	w := window{-100, -100, 4, 800, 800}
	far := func(flat float64) (most float64) {
		f := s.refine(&c, w, flat)
		for _, p := range f.patches {
			for i := range p.cols - 1 { // the middles of the chords of the upper end, from above
				k := p.first + i*p.rows
				x, y := float64(f.x[k]+f.x[k+p.rows])/2, float64(f.y[k]+f.y[k+p.rows])/2
				x, y = x/w.px+w.x, (y/w.px+w.y)+c.Up.Z*-30
				most = max(most, math.Abs(math.Hypot(x, y/math.Sin(20*math.Pi/180))-radius))
			}
		}
		return most
	}
	if got := far(0); math.Abs(got-radius*(1-math.Cos(math.Pi/24))) > 0.05 {
		t.Errorf("by its chords the tube is off by %.3f mm, want %.3f", got, radius*(1-math.Cos(math.Pi/24)))
	}
	if got := far(0.3); got > 0.3/w.px+0.04 { // the cubic itself is off by 0.04 mm
		t.Errorf("refined it is off by %.3f mm, want at most 0.3 px", got)
	}
}

// TestNearest: what is seen at a pixel is what a ray through its middle meets first,
// found with no grid and no order (Möller and Trumbore, J. Graphics Tools 2 (1997) 21).
func TestNearest(t *testing.T) {
	dice := rand.New(rand.NewPCG(3, 8))
	s := Scene{}
	for range 14 {
		v := func() geom.Vec3 {
			return geom.Vec3{X: dice.NormFloat64(), Y: dice.NormFloat64(), Z: dice.NormFloat64()}
		}
		u := v().Unit()
		s.Sheets = append(s.Sheets, plane(v().Scale(15), u, u.Cross(v()).Unit(), 8+20*dice.Float64(), 5))
	}
	s.Sheets = append(s.Sheets, tube(20, -15, 25, 17, 4))
	for _, far := range []float64{0, 250} {
		c := NewCamera(40, 25)
		c.Far, c.X, c.Y = far, 50, 50
		p := s.Draw(Look{Camera: c, X: 3, Y: 7, W: 270, H: 250, PxPerMM: 3, WithoutLines: true})
		seen, off := 0, 0
		for y := 2; y < p.H-2; y += 7 {
			for x := 2; x < p.W-2; x += 7 {
				at, ok := p.Place(x, y)
				if edge(p, x, y, at, ok) {
					continue
				}
				from, way := c.ray((float64(x)+0.5)/3+3, (float64(y)+0.5)/3+7)
				first, where := s.meets(from, way)
				if math.IsInf(first, 1) && !ok {
					continue
				}
				if seen++; math.IsInf(first, 1) != !ok || where.Sub(at).Norm() > 0.02 {
					off++
				}
			}
		}
		if seen < 400 || off > seen/500 {
			t.Errorf("from %g mm: %d of %d pixels show another place than the ray meets", far, off, seen)
		}
	}
}

// edge tells whether something ends beside a pixel.
func edge(p *Picture, x, y int, at geom.Vec3, ok bool) bool {
	for j := -1; j <= 1; j++ {
		for i := -1; i <= 1; i++ {
			if v, is := p.Place(x+i, y+j); is != ok || v.Sub(at).Norm() > 3 {
				return true
			}
		}
	}
	return false
}

// ray is the line from the eye through a place of the sheet.
func (c *Camera) ray(x, y float64) (from, way geom.Vec3) {
	on := c.Mid.Add(c.Right.Scale((x - c.X) / c.Scale)).Add(c.Up.Scale((c.Y - y) / c.Scale))
	if c.Far == 0 {
		return on.Add(c.Toward.Scale(1e4)), c.Toward.Scale(-1)
	}
	eye := c.Mid.Add(c.Toward.Scale(c.Far))
	return eye, on.Sub(eye).Unit()
}

// meets is how far along a ray the first of the scene's triangles lies, by their nodes.
func (s *Scene) meets(from, way geom.Vec3) (first float64, at geom.Vec3) {
	first = math.Inf(1)
	for i := range s.Sheets {
		t := &s.Sheets[i]
		for col := range t.Cols - 1 {
			for r := range t.Rows - 1 {
				k := col*t.Rows + r
				a, b, c, d := t.V[k], t.V[k+t.Rows], t.V[k+t.Rows+1], t.V[k+1]
				first = min(first, meets(from, way, a, b, c), meets(from, way, a, c, d))
			}
		}
	}
	return first, from.Add(way.Scale(first))
}

func meets(from, way, a, b, c geom.Vec3) float64 {
	e, f := b.Sub(a), c.Sub(a)
	p := way.Cross(f)
	det := e.Dot(p)
	if det == 0 {
		return math.Inf(1)
	}
	s := from.Sub(a)
	u := s.Dot(p) / det
	q := s.Cross(e)
	v := way.Dot(q) / det
	t := f.Dot(q) / det
	if u < 0 || v < 0 || u+v > 1 || t < 0 {
		return math.Inf(1)
	}
	return t
}

// TestOutline: the outline of a tube that the camera sees from the side are its two
// straight sides, where its normals lie across the way to the eye, and nothing else; its
// far hem is hidden by its near wall but for what lies over it.
func TestOutline(t *testing.T) {
	s := Scene{Sheets: []Sheet{tube(20, -15, 15, 48, 6)}}
	s.Sheets[0].Fold_mm = 0.2
	c := NewCamera(0, 20)
	c.X, c.Y = 50, 50
	p := s.Draw(Look{Camera: c, W: 500, H: 500, PxPerMM: 5})
	if len(p.Lines) != 2 {
		t.Fatalf("%d outlines, want 2", len(p.Lines))
	}
	for _, l := range p.Lines {
		for _, v := range l.V {
			if math.Abs(math.Abs(float64(v[0])-50)-20) > 0.25 {
				t.Errorf("an outline lies %.2f mm from the middle, want 20", math.Abs(float64(v[0])-50))
			}
		}
		if long := span(l.V); math.Abs(long-30*math.Cos(20*math.Pi/180)) > 1 {
			t.Errorf("an outline is %.1f mm long, want %.1f", long, 30*math.Cos(20*math.Pi/180))
		}
	}
	s.Sheets[0].Fold_mm, s.Sheets[0].Hem_mm[FirstRow] = 0, 0.2
	p = s.Draw(Look{Camera: c, W: 500, H: 500, PxPerMM: 5})
	long := 0.0
	for _, l := range p.Lines {
		long += span(l.V)
	}
	// The lower end: its near half shows. Half of an ellipse of half axes 20 and 20 sin 20°,
	// by Ramanujan's formula.
	a, b := 20.0, 20*math.Sin(20*math.Pi/180)
	half := math.Pi * (3*(a+b) - math.Sqrt((3*a+b)*(a+3*b))) / 2
	if math.Abs(long-half) > 1.5 {
		t.Errorf("the lower hem shows for %.1f mm, want its near half, %.1f", long, half)
	}
}

// TestHides: a place behind a plane is hidden, one before it is not.
func TestHides(t *testing.T) {
	s := Scene{Sheets: []Sheet{plane(geom.Vec3{}, geom.Vec3{X: 1}, geom.Vec3{Z: 1}, 20, 3)}}
	c := NewCamera(0, 0)
	c.X, c.Y = 30, 30
	p := s.Draw(Look{Camera: c, W: 120, H: 120, PxPerMM: 2, Samples: 2})
	for _, at := range []struct {
		y    float64
		want bool
	}{{5, true}, {0.5, false}, {-5, false}} {
		if got := p.Hides(geom.Vec3{Y: at.y}, 1); got != at.want {
			t.Errorf("a place %g mm behind: hidden %t", at.y, got)
		}
	}
	if p.Hides(geom.Vec3{X: 25, Y: 5}, 1) || p.Hides(geom.Vec3{X: 500, Y: 5}, 1) {
		t.Error("a place beside the plane, or beside the picture, is hidden")
	}
}

// TestCheck: what cannot be drawn is refused and named.
func TestCheck(t *testing.T) {
	good := func() Scene { return Scene{Sheets: []Sheet{tube(20, 0, 10, 12, 3)}} }
	s := good()
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	for name, spoil := range map[string]func(*Scene){
		"too few nodes": func(s *Scene) { s.Sheets[0].V = s.Sheets[0].V[1:] },
		"one column":    func(s *Scene) { s.Sheets[0].Cols = 1 },
		"no tint":       func(s *Scene) { s.Sheets[0].Tints = nil },
		"nowhere":       func(s *Scene) { s.Sheets[0].V[7].Y = math.NaN() },
		"far away":      func(s *Scene) { s.Sheets[0].V[7].Y = 1e9 },
		"no scattering": func(s *Scene) { s.Sheets[0].Through = math.Inf(1) },
		"few picks":     func(s *Scene) { s.Sheets[0].Pick = make([]float32, 3) },
		"no pick": func(s *Scene) {
			s.Sheets[0].Pick = make([]float32, len(s.Sheets[0].V))
			s.Sheets[0].Pick[3] = float32(math.NaN())
		},
		"few tones": func(s *Scene) { s.Sheets[0].Tone = make([]float32, 3) },
		"densities": func(s *Scene) { s.Sheets[0].Dense = []float32{1, 1} },
		"thread":    func(s *Scene) { s.Threads = []Thread{{V: []geom.Vec3{{Z: math.Inf(1)}}}} },
	} {
		s := good()
		spoil(&s)
		if s.Check() == nil {
			t.Errorf("%s: taken", name)
		}
	}
}

// TestBakeBothSides: an upright plane that nothing shades sees on either side what an
// open plane of that normal sees, odd harmonics and even.
func TestBakeBothSides(t *testing.T) {
	s := Scene{Sheets: []Sheet{plane(geom.Vec3{}, geom.Vec3{Y: 1}, geom.Vec3{Z: 1}, 5, 4)}}
	s.Bake(nil)
	for side, normal := range []geom.Vec3{{X: 1}, {X: -1}} {
		got := [2][terms]float32{(*s.baked)[0].front[12], (*s.baked)[0].back[12]}[side]
		for k, y := range harmonics(normal) {
			if want := open[k] * y; math.Abs(float64(got[k])-want) > 0.06 {
				t.Errorf("side %d: harmonic %d is %.3f, want %.3f", side, k, got[k], want)
			}
		}
	}
}

// TestSides: of a plane the side is shown that is seen. Cloth over a black floor is light
// from above and darker from below; by day what faces the window at the upper left is
// lighter than what faces away.
func TestSides(t *testing.T) {
	cloth := plane(geom.Vec3{Z: 2}, geom.Vec3{X: 1}, geom.Vec3{Y: 1}, 20, 4)
	cloth.Through = 4
	s := Scene{Sheets: []Sheet{cloth, plane(geom.Vec3{Z: -2}, geom.Vec3{X: 1}, geom.Vec3{Y: 1}, 60, 4)}}
	s.Bake(nil)
	l := newLamp(Daylight, &Camera{Right: geom.Vec3{X: 1}, Up: geom.Vec3{Z: 1}, Toward: geom.Vec3{Y: -1}})
	f, b := s.Sheets[0].shine(&(*s.baked)[0], l)[0][12], s.Sheets[0].shine(&(*s.baked)[0], l)[1][12]
	if f < 1.5*b {
		t.Errorf("above it is %.2f, below %.2f", f, b)
	}
	if left, right := l.plain(geom.Vec3{X: -1}), l.plain(geom.Vec3{X: 1}); left < 1.5*right {
		t.Errorf("by day the left is lit %.2f, the right %.2f", left, right)
	}
	seen := func(turned float64) uint8 {
		c := NewCamera(0, turned)
		c.X, c.Y = 15, 15
		one := Scene{Sheets: s.Sheets[:1], baked: s.baked}
		p := one.Draw(Look{Camera: c, W: 30, H: 30, PxPerMM: 1, WithoutLines: true})
		return p.Pix[4*(15*30+15)]
	}
	if above, below := seen(80), seen(-80); above <= below {
		t.Errorf("from above it is drawn %d, from below %d", above, below)
	}
}

// TestHiddenOutline: a fold's outline behind a board is not drawn.
func TestHiddenOutline(t *testing.T) {
	s := Scene{Sheets: []Sheet{tube(20, -15, 15, 48, 6), plane(geom.Vec3{Y: -60}, geom.Vec3{X: 1}, geom.Vec3{Z: 1}, 45, 3)}}
	s.Sheets[0].Fold_mm = 0.2
	c := NewCamera(0, 0)
	c.X, c.Y = 50, 50
	if p := s.Draw(Look{Camera: c, W: 300, H: 300, PxPerMM: 3}); len(p.Lines) != 0 {
		t.Errorf("%d outlines show through a board", len(p.Lines))
	}
}
