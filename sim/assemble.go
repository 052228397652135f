package sim

import (
	"math"

	"ruffwright/geom"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim/window"
)

// assemble lays the solved half sets around the neckline, one for each panel,
// mirrored where the strip comes to its trough first. A half set was solved on a
// circle. Its nodes keep their distance from the neckline and their share of the way
// from fold to fold, so that the planes of its folds are its neighbours' too. Two
// neighbours of different curvature differ a little at the fold that they share; join
// puts the fold half way.
func assemble(p pleat.Plan, s *Solved) {
	at := arcsOf(p)
	s.Droop = make([][]float64, len(s.Halves))
	for k, c := range s.Halves {
		s.Droop[k] = droop(c, s.Grid)
	}
	laid, other := map[*window.Window][]float64{}, map[*window.Window][]float64{}
	for _, c := range s.Halves {
		laid[c] = lay(c, c.Shape)
		if c.Other != nil {
			other[c] = lay(c, c.Other)
		}
	}
	s.Shape = around(p, s, at, func(c *window.Window, _ geom.Vec2) []float64 { return laid[c] })
	if front := bowedCell(s); front != nil {
		// The front sets hang by the front's test, the back ones by the back's,
		// the sides between: the model knows no sideways bow.
		moved := make([]float64, len(front.Shape))
		rest, ahead, behind := laid[front], lay(front, front.BowedFront), lay(front, front.BowedBack)
		shape := around(p, s, at, func(c *window.Window, out geom.Vec2) []float64 {
			f, b := math.Max(0, -out.Y), math.Max(0, out.Y)
			for k := range moved {
				moved[k] = laid[c][k] + f*f*(ahead[k]-rest[k]) + b*b*(behind[k]-rest[k])
			}
			return moved
		})
		s.Bowed = &shape
	}
	if len(other) > 0 {
		shape := around(p, s, at, func(c *window.Window, _ geom.Vec2) []float64 {
			return other[nearest(s, c.Design.Kappa_1pmm, func(c *window.Window) bool { return c.Other != nil })]
		})
		s.Other = &shape
	}
}

// droop is how far each node of a half set has come down when it was released.
func droop(c *window.Window, grid window.Grid) []float64 {
	out := make([]float64, 0, (grid.NU+1)*(grid.NV+1))
	for k := range grid.NU + 1 {
		for j := range grid.NV + 1 {
			out = append(out, c.Node(c.Formed, k, j)[2]-c.Node(c.Shape, k, j)[2])
		}
	}
	return out
}

// bowedCell is the half set whose bow test stands for the front and the back of
// the neck: that of the curvature nearest to the first panel's. Nil: none was made.
func bowedCell(s *Solved) *window.Window {
	return nearest(s, s.Halves[s.Of[0]].Design.Kappa_1pmm, func(c *window.Window) bool {
		return c.BowedFront != nil && c.BowedBack != nil
	})
}

// nearest is the half set whose curvature is nearest to kappa, among those that
// qualify; nil if none does.
func nearest(s *Solved, kappa float64, qualifies func(*window.Window) bool) *window.Window {
	var best *window.Window
	for _, c := range s.Halves {
		if qualifies(c) && (best == nil || math.Abs(c.Design.Kappa_1pmm-kappa) < math.Abs(best.Design.Kappa_1pmm-kappa)) {
			best = c
		}
	}
	return best
}

// arc is the neckline between two neighbouring folds, crest first.
type arc struct {
	pos, out []geom.Vec2 // at equal parts of the arc, arcSteps + 1 of them, from a part before to one after
	way      geom.Vec2   // outward, at its middle
}

// arcSteps parts of a half set are enough for the cubic that joins them: at the
// folds it is exact, between them within 8e-3 mm for half sets as long as 26 mm
// on an ellipse of 2 (TestArcsFollowTheNeckline), far less for usual ones.
const arcSteps = 4

// at gives the neckline's point and outward direction at the part t of the arc,
// by the cubic through the four samples around it; t may lie a little outside 0
// to 1.
func (a *arc) at(t float64) (pos, out geom.Vec2) {
	q := t * arcSteps
	k := min(max(int(math.Floor(q)), 0), arcSteps-1)
	f := q - float64(k)
	w := [4]float64{
		-f * (f - 1) * (f - 2) / 6,
		(f + 1) * (f - 1) * (f - 2) / 2,
		-(f + 1) * f * (f - 2) / 2,
		(f + 1) * f * (f - 1) / 6,
	}
	for i, w := range w {
		pos = pos.Add(a.pos[k+i].Scale(w))
		out = out.Add(a.out[k+i].Scale(w))
	}
	return pos, out.Unit()
}

// arcsOf samples the neckline between every two neighbouring folds.
func arcsOf(p pleat.Plan) []arc {
	arcs := make([]arc, p.Panels)
	for i := range arcs {
		from, step := p.Row[i].Station_mm, p.Row.Pitch(i)/arcSteps
		if p.Row[i].Fold == scheme.Trough {
			from, step = p.Row[i+1].Station_mm, -step
		}
		a := arc{pos: make([]geom.Vec2, arcSteps+3), out: make([]geom.Vec2, arcSteps+3)}
		for k := range a.pos {
			st := p.Neckline.At(from + float64(k-1)*step)
			a.pos[k], a.out[k] = st.Pos, st.Normal
		}
		a.way = a.out[1+arcSteps/2]
		arcs[i] = a
	}
	return arcs
}

// around lays a shape of every half set around the neckline.
func around(p pleat.Plan, s *Solved, arcs []arc, shapeOf func(c *window.Window, out geom.Vec2) []float64) pleat.Shape {
	nu, nv := s.Grid.NU, s.Grid.NV
	size := (nu + 1) * (nv + 1)
	nodes := make([]geom.Vec3, size*p.Panels)
	shape := pleat.Shape{NU: nu, NV: nv, Panels: make([]pleat.Panel, p.Panels)}
	for i := range shape.Panels {
		v := nodes[i*size : (i+1)*size : (i+1)*size]
		c := s.Halves[s.Of[i]]
		x := shapeOf(c, arcs[i].way)
		crestFirst := p.Row[i].Fold == scheme.Crest
		r0 := 1 / c.Design.Kappa_1pmm
		turn := c.Design.Kappa_1pmm * c.Design.Pitch_mm / 2
		for k := range nu + 1 {
			to := k
			if !crestFirst {
				to = nu - k
			}
			for j := range nv + 1 {
				q := c.Node(x, k, j)
				t := math.Atan2(q[1], r0+q[0]) / turn
				// outward without the cancellation of hypot − r0
				away := (q[0]*(2*r0+q[0]) + q[1]*q[1]) / (math.Hypot(r0+q[0], q[1]) + r0)
				pos, out := arcs[i].at(t)
				pos = pos.Add(out.Scale(away))
				v[to*(nv+1)+j] = geom.Vec3{X: pos.X, Y: pos.Y, Z: q[2]}
			}
		}
		shape.Panels[i].V = v
	}
	join(shape)
	return shape
}

// join moves the fold of two neighbouring panels half way between where the two have
// it. The rest of either panel follows, less and less towards its other fold.
func join(s pleat.Shape) {
	row := s.NV + 1
	gap := make([]geom.Vec3, row)
	for i := 0; i+1 < len(s.Panels); i++ {
		a, b := s.Panels[i].V, s.Panels[i+1].V
		for j := range gap {
			gap[j] = b[j].Sub(a[s.NU*row+j]).Scale(0.5)
		}
		for k := range s.NU + 1 {
			w := float64(k) / float64(s.NU)
			for j := range gap {
				a[k*row+j] = a[k*row+j].Add(gap[j].Scale(w))
				b[k*row+j] = b[k*row+j].Sub(gap[j].Scale(1 - w))
			}
		}
		for j := range gap {
			b[j] = a[s.NU*row+j]
		}
	}
}
