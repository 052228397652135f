package figure

import (
	"math"

	"ruffwright/geom"
)

// eye looks at the ruff and puts what it sees on the sheet.
type eye struct {
	right, up, toward geom.Vec3 // unit axes: to the sheet's right and top, and to the eye
	mid               geom.Vec3 // looked at
	at                Point     // where mid lies on the sheet
	scale             float64   // sheet mm per mm of the ruff at mid
	far               float64   // distance from mid, mm; 0 = from infinitely far, without perspective
}

// newEye looks from turn degrees to the wearer's left of the front (0 = the
// wearer's front faces the eye) and tilt degrees above level.
func newEye(turn_deg, tilt_deg float64) eye {
	st, ct := math.Sincos(math.Mod(turn_deg, 360) * math.Pi / 180)
	sl, cl := math.Sincos(tilt_deg * math.Pi / 180)
	e := eye{
		right:  geom.Vec3{X: ct, Y: st},
		toward: geom.Vec3{X: st * cl, Y: -ct * cl, Z: sl},
		scale:  1,
	}
	e.up = e.toward.Cross(e.right)
	return e
}

// see puts a place on the sheet and says how near it is.
func (e *eye) see(v geom.Vec3) (Point, float64) {
	d := v.Sub(e.mid)
	x, y, z := d.Dot(e.right), d.Dot(e.up), d.Dot(e.toward)
	k := e.scale
	if e.far > 0 {
		k *= e.far / max(e.far-z, 0.2*e.far)
	}
	return Point{e.at.X + x*k, e.at.Y - y*k}, z
}

// point is where a place lies on the sheet.
func (e *eye) point(v geom.Vec3) Point { p, _ := e.see(v); return p }

// from is the unit direction from a place to the eye, which never lies in it.
func (e *eye) from(v geom.Vec3) geom.Vec3 {
	if e.far == 0 {
		return e.toward
	}
	d := e.mid.Add(e.toward.Scale(e.far)).Sub(v)
	return d.Scale(1 / math.Sqrt(d.Dot(d)))
}

// fit sets scale and place so that the points fill room, at most at scale most,
// and gives the box on the sheet that they take.
func (e *eye) fit(room Rect, most float64, pts ...[]geom.Vec3) Rect {
	e.scale, e.at = 1, Point{}
	box := e.bounds(pts...)
	w, h := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	k := math.Min((room.Max.X-room.Min.X)/math.Max(w, 1e-9), (room.Max.Y-room.Min.Y)/math.Max(h, 1e-9))
	k = math.Min(k, most)
	e.scale = k
	e.at = Point{
		(room.Min.X+room.Max.X)/2 - k*(box.Min.X+box.Max.X)/2,
		(room.Min.Y+room.Max.Y)/2 - k*(box.Min.Y+box.Max.Y)/2,
	}
	return e.bounds(pts...)
}

func (e *eye) bounds(pts ...[]geom.Vec3) Rect {
	lo, hi := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, line := range pts {
		for _, v := range line {
			p := e.point(v)
			lo = Point{min(lo.X, p.X), min(lo.Y, p.Y)}
			hi = Point{max(hi.X, p.X), max(hi.Y, p.Y)}
		}
	}
	return Rect{lo, hi}
}

// light is the direction from which light falls: the sheet's upper left, over
// the eye's shoulder.
func (e *eye) light() geom.Vec3 {
	return e.right.Scale(-0.42).Add(e.up.Scale(0.58)).Add(e.toward.Scale(0.7)).Unit()
}
