package draw

import (
	"math"

	"ruffwright/geom"
	"ruffwright/geom/light"
)

// Eye looks at the ruff and puts what it sees on the sheet.
type Eye struct{ light.Camera }

// NewEye looks from turn degrees to the wearer's left of the front and tilt degrees
// above level; see light.NewCamera.
func NewEye(turn_deg, tilt_deg float64) Eye { return Eye{light.NewCamera(turn_deg, tilt_deg)} }

// See puts a place on the sheet and says how near it is.
func (e *Eye) See(v geom.Vec3) (Point, float64) {
	x, y, near := e.Camera.See(v)
	return Point{x, y}, near
}

// Point is where a place lies on the sheet.
func (e *Eye) Point(v geom.Vec3) Point { p, _ := e.See(v); return p }

// Fit sets scale and place so that the points fill room, at most at scale most,
// and gives the box on the sheet that they take. A room of less than a millimetre either
// way counts as one: what is drawn there is small, and never turned over.
func (e *Eye) Fit(room Rect, most float64, pts ...[]geom.Vec3) Rect {
	e.Scale, e.X, e.Y = 1, 0, 0
	box := e.Bounds(pts...)
	w, h := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	k := math.Min(math.Max(room.Max.X-room.Min.X, 1)/math.Max(w, 1e-9), math.Max(room.Max.Y-room.Min.Y, 1)/math.Max(h, 1e-9))
	k = math.Min(k, most)
	e.Scale = k
	e.X = (room.Min.X+room.Max.X)/2 - k*(box.Min.X+box.Max.X)/2
	e.Y = (room.Min.Y+room.Max.Y)/2 - k*(box.Min.Y+box.Max.Y)/2
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
