package draw

import (
	"testing"

	"ruffwright/geom"
)

// The eye's axes are right-handed unit vectors, and turn and tilt look from
// where their names say.
func TestEye(t *testing.T) {
	for _, c := range []struct {
		turn, tilt float64
		toward     geom.Vec3
	}{
		{0, 0, geom.Vec3{Y: -1}}, // the wearer's front is at −y
		{90, 0, geom.Vec3{X: 1}}, // +x is the wearer's left
		{180, 0, geom.Vec3{Y: 1}},
		{0, 90, geom.Vec3{Z: 1}},
		{77, -90, geom.Vec3{Z: -1}},
	} {
		e := NewEye(c.turn, c.tilt)
		if d := e.Toward.Sub(c.toward).Norm(); d > 1e-12 {
			t.Errorf("turn %g tilt %g looks from %v, want %v", c.turn, c.tilt, e.Toward, c.toward)
		}
		if d := e.Right.Cross(e.Up).Sub(e.Toward).Norm(); d > 1e-12 {
			t.Errorf("turn %g tilt %g: right × up is off toward by %g", c.turn, c.tilt, d)
		}
	}
}
