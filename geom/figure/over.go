package figure

import (
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/geom/pleat"
)

// Lying is how the circle of a ruff's outer edge is to lie on a sheet.
type Lying struct {
	Middle    draw.Point // where its middle is seen
	Radius_mm float64    // of it on the sheet, at the distance of its middle
	Far_mm    float64    // from the eye to its middle, sheet mm
	Tilt_deg  float64    // of its plane to the line of sight: plus seen from above, minus from below
	Roll_deg  float64    // of its level diameter against the sheet's: right side down plus
}

// Bare is the scene of the whole ruff by itself, without its wearer: cloth, band and
// stitches in the plain start's colours.
func Bare(plan pleat.Plan, shape pleat.Shape) *light.Scene {
	pal := draw.Light()
	c := newCloth(shape, 0, len(shape.Panels))
	d := dress{pal: pal, through: scatters(plan, 1)}
	return &light.Scene{
		Sheets:  []light.Sheet{neckband(plan, pal), d.sheet(&c)},
		Threads: stitches(plan, shape, 3, pal.Thread),
	}
}

// Over is the eye by which the outer edge of a ruff lies as it is to: half as broad as the
// circle, its middle in the middle. Its front faces the eye. TestOver holds it.
func Over(shape pleat.Shape, at Lying) draw.Eye {
	lo := geom.Vec3{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}
	hi := lo.Scale(-1)
	for _, p := range shape.Panels {
		for i := shape.NV; i < len(p.V); i += shape.NV + 1 { // the outer edge
			v := p.V[i]
			lo = geom.Vec3{X: min(lo.X, v.X), Y: min(lo.Y, v.Y), Z: min(lo.Z, v.Z)}
			hi = geom.Vec3{X: max(hi.X, v.X), Y: max(hi.Y, v.Y), Z: max(hi.Z, v.Z)}
		}
	}
	e := draw.NewEye(0, at.Tilt_deg)
	sin, cos := math.Sincos(at.Roll_deg * math.Pi / 180)
	e.Right, e.Up = e.Right.Scale(cos).Add(e.Up.Scale(sin)), e.Up.Scale(cos).Sub(e.Right.Scale(sin))
	e.Mid = lo.Add(hi).Scale(0.5)
	e.X, e.Y = at.Middle.X, at.Middle.Y
	e.Scale = at.Radius_mm / max((hi.X-lo.X)/2, 1)
	e.Far = at.Far_mm / e.Scale
	return e
}
