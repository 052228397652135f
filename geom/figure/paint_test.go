package figure

import (
	"math"
	"slices"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
)

// grid is a cloth of places along the strip by places outward, a panel a cell.
func grid(cols, rows int, at func(i, j float64) geom.Vec3) cloth {
	c := cloth{cols: cols, rows: rows, per: 1}
	for i := range cols {
		for j := range rows {
			c.v = append(c.v, at(float64(i), float64(j)))
		}
	}
	for j := range rows {
		lo, hi := math.Inf(1), math.Inf(-1)
		for i := range cols {
			lo, hi = min(lo, c.at(i, j).Z), max(hi, c.at(i, j).Z)
		}
		c.lo, c.hi = append(c.lo, lo), append(c.hi, hi)
	}
	return c
}

// Folds of 4 mm by hand. Level cloth gets half the light and half of 0.70 of it, squared
// 0.722, and is 0.17 + 0.89 of that bright, 0.812; the bottom of a fold loses 0.55 of it,
// the neck 0.45. Seen from below, what is uppermost is the bottom.
func TestLight(t *testing.T) {
	c := grid(5, 3, func(i, j float64) geom.Vec3 { return geom.Vec3{X: 10 * i, Y: 10 * j, Z: 4 * math.Mod(i, 2)} })
	for _, view := range []struct{ tilt, crest, trough float64 }{{90, 0.812, 0.365}, {-90, 0.365, 0.812}} {
		e := draw.NewEye(0, view.tilt)
		for _, far := range []float64{0, 1e7} {
			e.Far = far
			var b draw.Body
			p := painting{cloth: &c, dress: dress{pal: draw.Light(), selected: func(col int) bool { return col == 2 }}, body: &b, shades: c.shades(1)}
			p.light(&e)
			neck := math.Max(0, view.crest-0.45*0.812)
			for _, is := range []struct{ col, row, want float64 }{{1, 2, view.crest}, {2, 2, view.trough}, {1, 0, neck}} {
				i := int(is.col)*c.rows + int(is.row)
				if got := float64(p.bright[i]); math.Abs(got-is.want) > 2e-3 {
					t.Errorf("from %g degrees, column %g, row %g: %.4f bright, want %.3f", view.tilt, is.col, is.row, got, is.want)
				}
				plain, tinted := draw.Light().Ramp()
				if v, k := b.Vertices[i], int(p.bright[i]*255+0.5); v.Color != plain[k] && is.col != 2 || v.Color != tinted[k] && is.col == 2 {
					t.Errorf("from %g degrees, column %g is %v", view.tilt, is.col, v.Color)
				}
			}
		}
	}
	if got := [4]float32{hatchDark(0.5), hatchDark(0.46), hatchDark(0.27), hatchDark(0.05)}; got[0] != 0 || got[1] != 0 || math.Abs(float64(got[2])-0.5) > 1e-6 || got[3] != 1 {
		t.Errorf("hatched %v, want nothing, nothing, half and full", got)
	}
}

// The normal of a plane is one everywhere, at its edges too; a point has none.
func TestNormal(t *testing.T) {
	c := grid(4, 3, func(i, j float64) geom.Vec3 { return geom.Vec3{X: 3 * i, Y: 2 * j, Z: 2*i - j} })
	want := geom.Vec3{X: -2. / 3, Y: 0.5, Z: 1}.Unit()
	for i := range c.cols {
		for j := range c.rows {
			if got := c.normal(i, j); got.Sub(want).Norm() > 1e-12 {
				t.Errorf("node %d, %d: %v, want %v", i, j, got, want)
			}
		}
	}
	point := grid(2, 2, func(i, j float64) geom.Vec3 { return geom.Vec3{X: 1} })
	if got := point.normal(0, 0); got != (geom.Vec3{}) {
		t.Errorf("a point's normal is %v", got)
	}
}

// Lines between hatched cells stand 1.15 mm apart on the sheet: nine in a cell of 10 mm,
// and in every sixth where a cell takes 0.2; outlines thin where folds take less than 2.
func TestRule(t *testing.T) {
	c := grid(9, 2, func(i, j float64) geom.Vec3 { return geom.Vec3{X: 10 * i, Y: 10 * j} })
	for _, w := range []struct {
		scale, step float64
		lines       int
		most        float32
		thin, line  float32
	}{{1, 1, 9, 0.027, 0.117, 1}, {0.1, 1.15, 1, 0.27, 0.052, 0.5}, {0.02, 5.75, 1, 0.5, 0.052, 0.25}} {
		p := painting{cloth: &c, dress: dress{hatch: 1.15}}
		p.rule(w.scale)
		line := c.shades(w.scale)[1].line
		for _, x := range [][2]float64{{p.step, w.step}, {float64(p.lines), float64(w.lines)}, {float64(p.most), float64(w.most)}, {float64(p.thin), float64(w.thin)}, {float64(line), float64(w.line)}} {
			if math.Abs(x[0]-x[1]) > 1e-5 {
				t.Errorf("every %g columns %d lines up to %g, between dyes %g, outlines %g, want %+v", p.step, p.lines, p.most, p.thin, line, w)
				break
			}
		}
	}
}

// A flat cloth of 2 × 2 cells is painted as eight triangles, and as two each for its
// hem, its inner edge and its ends, by every cell; a fold adds its outline.
func TestOutlines(t *testing.T) {
	e := draw.NewEye(0, 90)
	for _, c := range []struct {
		z    []float64 // of the columns; x goes back where they fall
		x    []float64
		want map[float64]int // lines by their width, mm
	}{
		{[]float64{0, 0, 0}, []float64{0, 10, 20}, map[float64]int{0.26: 6, 0.14: 2}},
		{[]float64{0, 1, 2}, []float64{0, 10, 0}, map[float64]int{0.26: 6, 0.14: 2, 0.2: 2}},
	} {
		cl := grid(3, 3, func(i, j float64) geom.Vec3 { return geom.Vec3{X: c.x[int(i)], Y: 10 * j, Z: c.z[int(i)]} })
		var b draw.Body
		cl.paint(&b, &e, dress{pal: draw.Light(), inner: true})
		got := map[float64]int{}
		for i := 9; i+4 <= len(b.Vertices); i += 4 {
			v := b.Vertices[i:]
			got[math.Round(1000*math.Hypot(float64(v[1].X-v[0].X), float64(v[1].Y-v[0].Y)))/1000]++
		}
		for width, n := range c.want {
			if got[width] != n {
				t.Errorf("lines %v, want %v", got, c.want)
			}
		}
	}
}

// A finer shape is thinned, rows first: of 80 panels of 24 by 12 cells 12,000 cells
// leave 24 by 6 each, 8,000 leave 20 by 5, and fewer than 6 by 3 are never left. The
// edges stay the shape's, and two panels meet in the middle of their ends.
func TestThinned(t *testing.T) {
	shape := pleat.Shape{NU: 24, NV: 12}
	for k := range 80 {
		var p pleat.Panel
		for i := range 25 {
			for j := range 13 {
				p.V = append(p.V, geom.Vec3{X: float64(25*k + i), Y: float64(j)})
			}
		}
		shape.Panels = append(shape.Panels, p)
	}
	for _, w := range []struct{ most, per, rows int }{{1 << 20, 24, 13}, {12000, 24, 7}, {8000, 20, 6}, {1, 6, 4}} {
		c := newCloth(shape, 0, 80, w.most)
		if c.per != w.per || c.rows != w.rows || c.cols != 80*w.per+1 {
			t.Errorf("of %d cells: panels of %d columns, %d rows, want %d and %d", w.most, c.per, c.rows, w.per, w.rows)
		}
		for col, want := range map[int]float64{0: 0, c.per: 24.5, 7 * c.per: 174.5, 80 * c.per: 1999} {
			if in, out := c.at(col, 0), c.at(col, c.rows-1); in.X != want || in.Y != 0 || out.X != want || out.Y != 12 {
				t.Errorf("of %d cells: column %d lies at %v and %v, want %g", w.most, col, in, out, want)
			}
		}
		if dx := c.at(1, 0).X; math.Abs(dx-24/float64(c.per)) > 0.5 {
			t.Errorf("of %d cells: the first is %g wide", w.most, dx)
		}
	}
}

// A straight cloth that is refined stays straight and even to its ends, and its dye too.
func TestRefineStraight(t *testing.T) {
	c := grid(4, 2, func(i, j float64) geom.Vec3 { return geom.Vec3{X: 3 * i, Z: 6 * i} })
	for i := range c.v {
		c.dye = append(c.dye, float64(i/2))
	}
	f := c.refine(3)
	if f.cols != 10 || f.per != 3 {
		t.Fatalf("%d columns, %d a panel", f.cols, f.per)
	}
	for i := range f.cols {
		if d := f.at(i, 1).Sub(geom.Vec3{X: float64(i), Z: 2 * float64(i)}).Norm(); d > 1e-12 || math.Abs(f.dye[2*i]-float64(i)/3) > 1e-12 {
			t.Errorf("column %d lies at %v, dyed %g", i, f.at(i, 1), f.dye[2*i])
		}
	}
}

// The block stands from its foot to its top, 3.5 mm within the neckline, and its edge is
// rounded by 5 mm; the band stands 0.8 mm within. Wood in the light is lighter.
func TestBlockAndBand(t *testing.T) {
	plan, _ := designs()[0].make(t)
	e := draw.NewEye(0, 0)
	within := func(paint func(b *draw.Body)) (deep, low, high float64) {
		var b draw.Body
		paint(&b)
		low, high = math.Inf(1), math.Inf(-1)
		left := math.Inf(1)
		for _, v := range b.Vertices {
			left = min(left, float64(v.X))
			low, high = min(low, -float64(v.Y)), max(high, -float64(v.Y))
		}
		return plan.Neckline.Breadth()/2 + left, low, high
	}
	deep, low, high := within(func(b *draw.Body) { block(b, &e, plan.Neckline, -20, 30, draw.Light()) })
	if math.Abs(deep-3.5) > 0.1 || math.Abs(low+20) > 0.1 || math.Abs(high-30) > 0.1 {
		t.Errorf("the block stands %.2f mm within, from %.2f to %.2f", deep, low, high)
	}
	if thin, err := geom.NewNeckline(20*math.Pi, 1); err != nil || math.Abs(blockWithin(thin)-1.5) > 1e-9 {
		t.Errorf("in a neck of 20 mm it stands %g mm within, want 1.5 (%v)", blockWithin(thin), err)
	}
	h := plan.Scheme.Band.Height
	deep, low, high = within(func(b *draw.Body) { neckband(b, &e, plan, draw.Light()) })
	if math.Abs(deep-0.8) > 0.3 || math.Abs(low) > 0.3 || math.Abs(high-h) > 0.3 {
		t.Errorf("the band of %g stands %.2f mm within, from %.2f to %.2f", h, deep, low, high)
	}
}

// Of a note about every mark 24 have a dot, and the first has its sign.
func TestManyMarksAreDotted(t *testing.T) {
	plan, shape := designs()[0].make(t)
	var at []int
	for m := range plan.Panels {
		at = append(at, m+1)
	}
	d, err := Named("flat").Draw(plan, shape, Options{Notes: []Note{{Where: WhereMarks, Sign: SignStop, At: at}}})
	if err != nil {
		t.Fatal(err)
	}
	dots := slices.DeleteFunc(d.Items, func(it draw.Item) bool {
		p, ok := it.(draw.Path)
		return !ok || !p.Closed || p.Fill != draw.Light().Madder || len(p.Lines[0]) != 20
	})
	if len(dots) != 25 { // and once more where its sign points
		t.Errorf("%d dots, want 24 and one", len(dots))
	}
	first := dots[0].(draw.Path).Lines[0][0]
	if last := dots[24].(draw.Path).Lines[0][0]; first != last {
		t.Errorf("the sign points at %v, want the first mark, %v", last, first)
	}
}
