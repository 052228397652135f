package light

import (
	"math"

	"ruffwright/geom"
)

// Camera looks at a scene and says where on a sheet each place is seen.
type Camera struct {
	Right, Up, Toward geom.Vec3 // unit axes: to the sheet's right and top, and to the eye
	Mid               geom.Vec3 // looked at, mm
	X, Y              float64   // where Mid lies on the sheet, mm from its left and top
	Scale             float64   // sheet mm per mm of the scene at Mid
	Far               float64   // distance from Mid, mm; 0 = from infinitely far, without perspective
}

// NewCamera looks from turn degrees to the wearer's left of the front (0 = the
// wearer's front faces the eye) and tilt degrees above level.
func NewCamera(turn_deg, tilt_deg float64) Camera {
	st, ct := math.Sincos(turn_deg * math.Pi / 180)
	sl, cl := math.Sincos(tilt_deg * math.Pi / 180)
	c := Camera{
		Right:  geom.Vec3{X: ct, Y: st},
		Toward: geom.Vec3{X: st * cl, Y: -ct * cl, Z: sl},
		Scale:  1,
	}
	c.Up = c.Toward.Cross(c.Right)
	return c
}

// closest is the nearest to the eye that a place is taken to lie, a part of Far: what
// lies nearer, or behind the eye, is seen as if it lay there.
const closest = 0.2

// See puts a place on the sheet, mm, and says how near it is: mm towards the eye from
// Mid.
func (c *Camera) See(v geom.Vec3) (x, y, near float64) {
	d := v.Sub(c.Mid)
	x, y, near = d.Dot(c.Right), d.Dot(c.Up), d.Dot(c.Toward)
	k := c.Scale
	if c.Far > 0 {
		k *= c.Far / max(c.Far-near, closest*c.Far)
	}
	return c.X + x*k, c.Y - y*k, near
}

// From is the unit direction from a place to the eye, which never lies in it.
func (c *Camera) From(v geom.Vec3) geom.Vec3 {
	if c.Far == 0 {
		return c.Toward
	}
	d := c.Mid.Add(c.Toward.Scale(c.Far)).Sub(v)
	return d.Scale(1 / math.Sqrt(d.Dot(d)))
}

// depth is a measure of nearness that runs evenly over the picture of a plane, which
// mm of nearness do only without perspective; near Mid it is mm as well.
func (c *Camera) depth(near float64) float64 {
	if c.Far == 0 {
		return near
	}
	return c.Far*c.Far/max(c.Far-near, closest*c.Far) - c.Far
}
