package look

import (
	"math"

	"ruffwright/geom"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// hung is how the cloth of the ruff that was last solved hangs beside its closed form.
// Until the next ruff is solved its cloth is taken to hang alike, as far as it is near:
// so that a ruff that is changed goes from solved to solved.
type hung struct {
	plan   pleat.Plan
	nu, nv int
	by     [][]geom.Vec3 // of each panel's nodes: outward, round, and up

	part  float64     // how much of it holds for the ruff whose closed form begins with of
	of    *geom.Vec3  // nil: not asked yet
	guess pleat.Shape // of that ruff, without panels where it was not asked for
}

// keep takes a ruff that is solved, and its closed form on the solved shape's grid.
func (h *hung) keep(plan *pleat.Plan, closed, solved pleat.Shape) {
	*h = hung{plan: *plan, nu: solved.NU, nv: solved.NV, by: make([][]geom.Vec3, len(solved.Panels))}
	for k, panel := range solved.Panels {
		by := make([]geom.Vec3, len(panel.V))
		for i, v := range panel.V {
			from := closed.Panels[k].V[i]
			d, out := v.Sub(from), outward(from)
			by[i] = geom.Vec3{X: d.X*out.X + d.Y*out.Y, Y: d.Y*out.X - d.X*out.Y, Z: d.Z}
		}
		h.by[k] = by
	}
}

// outward is the level way from the middle of the neck to a place.
func outward(v geom.Vec3) geom.Vec2 {
	r := math.Hypot(v.X, v.Y)
	if r < 1e-9 {
		return geom.Vec2{X: 1}
	}
	return geom.Vec2{X: v.X / r, Y: v.Y / r}
}

// bends is the closed form of a ruff with its cloth hanging as that of the last that was
// solved; ok is false where that is too far from it.
func (h *hung) bends(plan *pleat.Plan, closed pleat.Shape) (shape pleat.Shape, ok bool) {
	part := h.holds(plan, closed)
	switch {
	case part == 0:
		return closed, false
	case len(h.guess.Panels) > 0:
		return h.guess, true
	}
	shape = pleat.Shape{NU: closed.NU, NV: closed.NV, Panels: make([]pleat.Panel, len(closed.Panels))}
	for k, panel := range closed.Panels {
		by := h.by[h.like(plan, k)]
		v := make([]geom.Vec3, len(panel.V))
		for i, from := range panel.V {
			d := h.at(by, float64(i/(closed.NV+1))/float64(closed.NU), float64(i%(closed.NV+1))/float64(closed.NV))
			out := outward(from)
			v[i] = from.Add(geom.Vec3{X: d.X*out.X - d.Y*out.Y, Y: d.X*out.Y + d.Y*out.X, Z: d.Z}.Scale(part))
		}
		shape.Panels[k].V = v
	}
	h.guess = shape
	return shape, true
}

// holds is near, worked out once for a ruff.
func (h *hung) holds(plan *pleat.Plan, closed pleat.Shape) float64 {
	if len(h.by) == 0 || len(closed.Panels) == 0 {
		return 0
	}
	if first := &closed.Panels[0].V[0]; h.of != first {
		h.part, h.of, h.guess = h.near(plan), first, pleat.Shape{}
	}
	return h.part
}

// like is the panel that was solved for panel k of a plan: about as far round, and of the
// same fold first.
func (h *hung) like(plan *pleat.Plan, k int) int {
	if len(h.by) == len(plan.Row)-1 {
		return k
	}
	was := min(k*len(h.by)/plan.Panels, len(h.by)-1)
	if h.plan.Row[was].Fold != plan.Row[k].Fold {
		if was++; was >= len(h.by) {
			was -= 2
		}
	}
	return max(was, 0)
}

// at is how the cloth hangs at a part of the way along a panel and outward.
func (h *hung) at(by []geom.Vec3, along, outward float64) geom.Vec3 {
	x, y := along*float64(h.nu), outward*float64(h.nv)
	i, j := min(int(x), h.nu-1), min(int(y), h.nv-1)
	x, y = x-float64(i), y-float64(j)
	row := h.nv + 1
	a := by[i*row+j].Lerp(by[i*row+j+1], y)
	return a.Lerp(by[(i+1)*row+j].Lerp(by[(i+1)*row+j+1], y), x)
}

// Up to nearly all cloth hangs alike; it is less and less like until nothing is.
// Chosen, not measured: the greatest change of a measure, as a natural logarithm.
const (
	alike   = 0.25
	unalike = 0.5
)

// near is which part of how the last solved cloth hangs holds for another plan: 1 near
// it, 0 where it is far or sewn otherwise.
func (h *hung) near(plan *pleat.Plan) float64 {
	if len(h.by) == 0 {
		return 0
	}
	was, now := &h.plan, plan
	a, b := &was.Scheme, &now.Scheme
	for _, kind := range []scheme.Fold{scheme.Crest, scheme.Trough} {
		if was.Row.Sewn(kind) != now.Row.Sewn(kind) || (was.Row.Tuck(kind) > 0) != (now.Row.Tuck(kind) > 0) {
			return 0
		}
	}
	if a.Support.Kind != b.Support.Kind || a.Starch.Dry != b.Starch.Dry || a.Wearer.Part != b.Wearer.Part ||
		was.MarksOwn != now.MarksOwn || a.Pleat.Lines != b.Pleat.Lines || (a.Starch.Bend > 0) != (b.Starch.Bend > 0) {
		return 0
	}
	most := 0.0
	for _, c := range [][2]float64{
		{a.Ruff.Depth, b.Ruff.Depth}, {was.Panel_mm, now.Panel_mm}, {a.Band.Height, b.Band.Height}, {was.Pitch_mm, now.Pitch_mm},
		{was.Neckline_mm, now.Neckline_mm}, {a.Wearer.Ratio, b.Wearer.Ratio}, {float64(was.Sets), float64(now.Sets)}, {a.Cloth.Mass, b.Cloth.Mass},
		{a.Cloth.BendWarp, b.Cloth.BendWarp}, {a.Cloth.BendWeft, b.Cloth.BendWeft}, {1 + a.Starch.Bend, 1 + b.Starch.Bend}, {1 + a.Starch.Stick, 1 + b.Starch.Stick},
	} {
		if !(c[0] > 0 && c[1] > 0) {
			return 0
		}
		most = max(most, math.Abs(math.Log(c[1]/c[0])))
	}
	return 1 - min(1, max(0, (most-alike)/(unalike-alike)))
}
