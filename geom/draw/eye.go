package draw

import (
	"math"

	"ruffwright/geom"
)

// Eye looks at the ruff and puts what it sees on the sheet.
type Eye struct {
	Right, Up, Toward geom.Vec3 // unit axes: to the sheet's right and top, and to the eye
	Mid               geom.Vec3 // looked at
	At                Point     // where mid lies on the sheet
	Scale             float64   // sheet mm per mm of the ruff at mid
	Far               float64   // distance from mid, mm; 0 = from infinitely far, without perspective
}

// NewEye looks from turn degrees to the wearer's left of the front (0 = the
// wearer's front faces the eye) and tilt degrees above level.
func NewEye(turn_deg, tilt_deg float64) Eye {
	st, ct := math.Sincos(turn_deg * math.Pi / 180)
	sl, cl := math.Sincos(tilt_deg * math.Pi / 180)
	e := Eye{
		Right:  geom.Vec3{X: ct, Y: st},
		Toward: geom.Vec3{X: st * cl, Y: -ct * cl, Z: sl},
		Scale:  1,
	}
	e.Up = e.Toward.Cross(e.Right)
	return e
}

// See puts a place on the sheet and says how near it is.
func (e *Eye) See(v geom.Vec3) (Point, float64) {
	d := v.Sub(e.Mid)
	x, y, z := d.Dot(e.Right), d.Dot(e.Up), d.Dot(e.Toward)
	k := e.Scale
	if e.Far > 0 {
		k *= e.Far / max(e.Far-z, 0.2*e.Far)
	}
	return Point{e.At.X + x*k, e.At.Y - y*k}, z
}

// Point is where a place lies on the sheet.
func (e *Eye) Point(v geom.Vec3) Point { p, _ := e.See(v); return p }

// From is the unit direction from a place to the eye, which never lies in it.
func (e *Eye) From(v geom.Vec3) geom.Vec3 {
	if e.Far == 0 {
		return e.Toward
	}
	d := e.Mid.Add(e.Toward.Scale(e.Far)).Sub(v)
	return d.Scale(1 / math.Sqrt(d.Dot(d)))
}

// Fit sets scale and place so that the points fill room, at most at scale most,
// and gives the box on the sheet that they take.
func (e *Eye) Fit(room Rect, most float64, pts ...[]geom.Vec3) Rect {
	e.Scale, e.At = 1, Point{}
	box := e.Bounds(pts...)
	w, h := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	k := math.Min((room.Max.X-room.Min.X)/math.Max(w, 1e-9), (room.Max.Y-room.Min.Y)/math.Max(h, 1e-9))
	k = math.Min(k, most)
	e.Scale = k
	e.At = Point{
		(room.Min.X+room.Max.X)/2 - k*(box.Min.X+box.Max.X)/2,
		(room.Min.Y+room.Max.Y)/2 - k*(box.Min.Y+box.Max.Y)/2,
	}
	return e.Bounds(pts...)
}

// Bounds is the box on the sheet that the points take.
func (e *Eye) Bounds(pts ...[]geom.Vec3) Rect {
	box := nowhere
	for _, line := range pts {
		for _, v := range line {
			box = box.about(e.Point(v))
		}
	}
	return box
}

// Light is the direction from which light falls: the sheet's upper left, over
// the eye's shoulder.
func (e *Eye) Light() geom.Vec3 {
	return e.Right.Scale(-0.42).Add(e.Up.Scale(0.58)).Add(e.Toward.Scale(0.7)).Unit()
}
