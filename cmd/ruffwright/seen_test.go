package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"testing"

	"ruffwright/assets"
	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/light"
	"ruffwright/geom/pleat"
	"ruffwright/sim"
	"ruffwright/testdata/demos"
)

// TestSeen: in every demo's picture, solved, bowing and half folded, what is seen at a
// pixel away from edges is what a ray through its middle meets first among all
// triangles (Möller and Trumbore, J. Graphics Tools 2 (1997) 21): at 998 of 1,000.
func TestSeen(t *testing.T) {
	if testing.Short() {
		t.Skip("a minute of rays")
	}
	var seen, off int
	for _, demo := range assets.Demos() {
		r, err := sim.Solve(context.Background(), demos.Scheme(t, demo), sim.Options{SkipOther: true, SkipTangents: true})
		if err != nil {
			t.Fatal(err)
		}
		shapes := map[string]pleat.Shape{"solved": r.Folded.Shape}
		if r.Solved != nil {
			shapes["solved"] = r.Solved.Shape
			if r.Solved.Bowed != nil {
				shapes["bowing"] = *r.Solved.Bowed
			}
		}
		if making, err := pleat.NewMaking(r.Plan, 12, 6); err == nil {
			shapes["half folded"] = making.At(pleat.DrawnUp/2, nil)
		}
		for state, shape := range shapes {
			for _, name := range []string{"hand", "above", "front"} {
				if state == "half folded" && name != "hand" {
					continue
				}
				n, wrong, err := rays(figure.Named(name), r.Plan, shape, state == "half folded")
				if err != nil {
					t.Errorf("%s, %s, %s: %v", demo, state, name, err)
					continue
				}
				if n < 15 || wrong*50 > n {
					t.Errorf("%s, %s, %s: %d of %d pixels show another place than the ray meets", demo, state, name, wrong, n)
				}
				seen, off = seen+n, off+wrong
			}
		}
	}
	t.Logf("%d of %d pixels show another place than the ray meets", off, seen)
	if off*500 > seen {
		t.Errorf("%d of %d pixels show another place than the ray meets; allowed are 2 of 1,000", off, seen)
	}
}

// rays draws a view and sends rays through some of its pixels.
func rays(v *figure.View, plan pleat.Plan, shape pleat.Shape, row bool) (n, wrong int, err error) {
	d, err := v.Draw(plan, shape, figure.Options{Turn_deg: 20, Tilt_deg: 28, Row: row})
	if err != nil {
		return 0, 0, err
	}
	for _, it := range d.Items {
		solid, ok := it.(draw.Solid)
		if !ok || solid.Faint > 0 {
			continue
		}
		if err := solid.Scene.Check(); err != nil {
			return 0, 0, err
		}
		const px = 5
		w, h := int(d.Width_mm*px), int(d.Height_mm*px)
		p := solid.Scene.Draw(light.Look{Camera: solid.Eye.Camera, W: w, H: h, PxPerMM: px, WithoutLines: true})
		for k := range 200 { // Halton's places, base 2 and 3
			x, y := int(halton(k+1, 2)*float64(w)), int(halton(k+1, 3)*float64(h))
			at, ok := p.Place(x, y)
			if ends(p, x, y, at, ok) {
				continue
			}
			from, way := through(&solid.Eye, (float64(x)+0.5)/px, (float64(y)+0.5)/px)
			where, met := first(solid.Scene, from, way)
			if !met && !ok {
				continue
			}
			n++
			if met != ok || where.Sub(at).Norm() > 0.1 {
				wrong++
			}
		}
	}
	if n == 0 {
		return 0, 0, fmt.Errorf("the view shows nothing")
	}
	return n, wrong, nil
}

func halton(i, base int) (x float64) {
	for f := 1 / float64(base); i > 0; i, f = i/base, f/float64(base) {
		x += f * float64(i%base)
	}
	return x
}

// ends tells whether something ends beside a pixel.
func ends(p *light.Picture, x, y int, at geom.Vec3, ok bool) bool {
	for j := -1; j <= 1; j++ {
		for i := -1; i <= 1; i++ {
			if v, is := p.Place(x+i, y+j); is != ok || v.Sub(at).Norm() > 3 {
				return true
			}
		}
	}
	return false
}

// through is the line from the eye through a place of the sheet.
func through(e *draw.Eye, x, y float64) (from, way geom.Vec3) {
	on := e.Mid.Add(e.Right.Scale((x - e.X) / e.Scale)).Add(e.Up.Scale((e.Y - y) / e.Scale))
	if e.Far == 0 {
		return on.Add(e.Toward.Scale(1e4)), e.Toward.Scale(-1)
	}
	eye := e.Mid.Add(e.Toward.Scale(e.Far))
	return eye, on.Sub(eye).Unit()
}

// first is where a ray meets the first of a scene's triangles, by their nodes.
func first(s *light.Scene, from, way geom.Vec3) (at geom.Vec3, met bool) {
	far := math.Inf(1)
	for i := range s.Sheets {
		t := &s.Sheets[i]
		for col := range t.Cols - 1 {
			for r := range t.Rows - 1 {
				k := col*t.Rows + r
				a, b, c, d := t.V[k], t.V[k+t.Rows], t.V[k+t.Rows+1], t.V[k+1]
				far = min(far, meets(from, way, a, b, c), meets(from, way, a, c, d))
			}
		}
	}
	return from.Add(way.Scale(far)), !math.IsInf(far, 1)
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

// BenchmarkPNG: a solved ruff in the hand as a PNG of 1,600 × 1,200, its light baked anew.
func BenchmarkPNG(b *testing.B) {
	for _, demo := range []string{"sound", "wide"} {
		r, err := sim.Solve(context.Background(), demos.Scheme(b, demo), sim.Options{SkipBow: true, SkipOther: true, SkipTangents: true})
		if err != nil {
			b.Fatal(err)
		}
		b.Run(demo, func(b *testing.B) {
			for b.Loop() {
				d, err := figure.Named("hand").Draw(r.Plan, r.Solved.Shape, figure.Options{Width_mm: 240, Height_mm: 180, Turn_deg: 28, Tilt_deg: 25, Palette: draw.Light()})
				if err == nil {
					err = d.PNG(io.Discard, 1600.0/240)
				}
				if err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
