package figure

import (
	"math"
	"slices"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// whole is the whole ruff on its wearer as an eye sees it, with the places on it that
// notes speak of.
type whole struct {
	*sheet
	eye   draw.Eye
	to    func(geom.Vec3) geom.Vec3 // where what stands upright is drawn
	hides func(geom.Vec3) bool      // whether something lies before a place
}

// onWhole points at the ruff of a scene that is drawn whole.
func (s *sheet) onWhole(e draw.Eye, scene *light.Scene) *whole {
	w := &whole{sheet: s, eye: e, to: func(v geom.Vec3) geom.Vec3 { return v }}
	w.hides = func(v geom.Vec3) bool { return hidden(scene, e, v) }
	if s.opt.Plain {
		w.hides = func(geom.Vec3) bool { return false } // while it moves there is no time to look
	}
	if s.opt.Bow_deg > 0 {
		w.to = bowing(s.plan, s.opt.Bow_deg)
	}
	return w
}

// hidden tells whether something of the scene lies before a place by more than the cloth
// that it is on: whether one of the triangles between nodes that cover it on the sheet
// is nearer to the eye.
func hidden(scene *light.Scene, e draw.Eye, v geom.Vec3) bool {
	const lift_mm = 2
	at, near := e.See(v)
	type node struct{ x, y, near float64 }
	for i := range scene.Sheets {
		t := &scene.Sheets[i]
		last, now := make([]node, t.Rows), make([]node, t.Rows)
		for col := range t.Cols {
			for r := range t.Rows {
				p, z := e.See(t.V[col*t.Rows+r])
				now[r] = node{p.X - at.X, p.Y - at.Y, z}
			}
			for r := 1; r < t.Rows && col > 0; r++ {
				a, b, c, d := last[r-1], now[r-1], now[r], last[r]
				for _, tri := range [2][3]node{{a, b, c}, {a, c, d}} {
					p, q, s := tri[0], tri[1], tri[2]
					wp, wq, ws := q.x*s.y-q.y*s.x, s.x*p.y-s.y*p.x, p.x*q.y-p.y*q.x
					if sum := wp + wq + ws; sum != 0 && (wp >= 0) == (wq >= 0) && (wq >= 0) == (ws >= 0) && (wp*p.near+wq*q.near+ws*s.near)/sum > near+lift_mm {
						return true
					}
				}
			}
			last, now = now, last
		}
	}
	return false
}

func (w *whole) see(v geom.Vec3) (at seen, ok bool) {
	v = w.to(v)
	at.Point, at.near = w.eye.See(v)
	at.hidden = w.hides(v)
	return at, at.X > 1 && at.Y > 1 && at.X < w.Width_mm-1 && at.Y < w.Height_mm-1
}

func atNeck(place string) bool {
	return slices.Contains([]string{WhereInner, WhereTucks, WhereBand, WhereNeck}, place)
}

func (w *whole) mark(m int, where string) (seen, bool) {
	if m > w.plan.Panels {
		return seen{}, false
	}
	j := w.shape.NV
	if atNeck(where) {
		j = 0
	}
	return w.see(innerAt(w.shape, m, j))
}

// ways are how far apart notes without marks stand round the neck, degrees from the side
// that faces the eye.
var ways = [maxNotes + 1]float64{0, 24, -24, 48, -48, 72, -72}

// facing is the way out from the neck to where the nth note stands.
func (w *whole) facing(nth int) geom.Vec2 {
	a := math.Atan2(w.eye.Toward.X, -w.eye.Toward.Y)
	if math.Hypot(w.eye.Toward.X, w.eye.Toward.Y) < 1e-6 { // from above: the front lies at the foot
		a = 0
	}
	sin, cos := math.Sincos(a + ways[nth%len(ways)]*math.Pi/180)
	return geom.Vec2{X: sin, Y: -cos}
}

// foldAt is the place on a fold of the kind, the one that lies nearest to a way out from the
// neck, at the part of the way from the inner edge outward.
func foldAt(plan pleat.Plan, shape pleat.Shape, way geom.Vec2, fold scheme.Fold, out float64) geom.Vec3 {
	best, most := 0, math.Inf(-1)
	for m, mark := range plan.Row {
		if mark.Fold != fold {
			continue
		}
		v := innerAt(shape, m, shape.NV).XY()
		if d := v.Dot(way) / math.Max(v.Norm(), 1e-9); d > most {
			best, most = m, d
		}
	}
	return innerAt(shape, best, int(out*float64(shape.NV)+0.5))
}

func (w *whole) spot(where string, nth int) (seen, bool) {
	plan, shape, way := w.plan, w.shape, w.facing(nth)
	form := newWearer(plan, w.restShape())
	band := plan.Scheme.Band.Height
	on := func(out, z float64) geom.Vec3 {
		return geom.Vec3{X: way.X * (form.round + out), Y: way.Y * (form.deep + out), Z: z}
	}
	fold, out := scheme.Crest, 1.0
	switch where {
	case WhereOpening:
		return w.see(innerAt(shape, 0, shape.NV).Lerp(innerAt(shape, plan.Panels, shape.NV), 0.5))
	case WhereBand:
		return w.see(on((plan.Neckline.Breadth()/2 - form.round), band*0.8))
	case WhereNeck:
		return w.see(on(0, band+4))
	case WhereChin:
		if plan.Scheme.Wearer.Part == scheme.Wrist { // an arm has none: the heel of its hand
			return w.see(on(1, band+underChin))
		}
		return w.see(geom.Vec3{Y: -form.deep - 0.92*chinOut, Z: band + underChin + 5})
	case WhereSupport:
		return w.see(on(plan.Scheme.Ruff.Depth*0.3, -plan.Scheme.Support.Drop))
	case whereSet:
		lo, hi, ok := setPanels(plan, w.opt.Set)
		if !ok {
			return seen{}, false
		}
		return w.see(innerAt(shape, (lo+hi)/2, shape.NV))
	case WhereInner, WhereTucks:
		out = 0
	case WhereMarks, WhereStrip:
		out = 0.5
	case WhereJoins, WhereFlaps:
		fold = scheme.Trough
	}
	return w.see(foldAt(plan, shape, way, fold, out))
}
