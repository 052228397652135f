package light

import (
	"math"

	"ruffwright/geom"
)

// Mood is where the light comes from.
type Mood int

// The moods. All stand still before the eye while the ruff is turned.
const (
	Daylight Mood = iota // a window at the upper left, over the eye's shoulder, in a bright room
	Candle               // one flame low at the left, in a dark room
	Against              // a window behind the ruff
)

// terms are how many spherical harmonics hold what light comes from where: those up to
// the third degree.
const terms = 16

// harmonics are the values of real, normed spherical harmonics in the direction d
// (Green, Spherical harmonic lighting: the gritty details, 2003, its appendix; checked
// against their orthogonality in TestHarmonics).
func harmonics(d geom.Vec3) (y [terms]float64) {
	x, z, w := d.X, d.Y, d.Z
	xx, zz, ww := x*x, z*z, w*w
	y[0] = 0.28209479177387814
	y[1] = 0.4886025119029199 * z
	y[2] = 0.4886025119029199 * w
	y[3] = 0.4886025119029199 * x
	y[4] = 1.0925484305920792 * x * z
	y[5] = 1.0925484305920792 * z * w
	y[6] = 0.31539156525252005 * (3*ww - 1)
	y[7] = 1.0925484305920792 * x * w
	y[8] = 0.5462742152960396 * (xx - zz)
	y[9] = 0.5900435899266435 * z * (3*xx - zz)
	y[10] = 2.890611442640554 * x * z * w
	y[11] = 0.4570457994644658 * z * (5*ww - 1)
	y[12] = 0.3731763325901154 * w * (5*ww - 3)
	y[13] = 0.4570457994644658 * x * (5*ww - 1)
	y[14] = 1.445305721320277 * w * (xx - zz)
	y[15] = 0.5900435899266435 * x * (xx - 3*zz)
	return y
}

// open are the parts of the harmonics of each degree that reach a plane which nothing
// shades: those of max(0, cosine), π, 2π/3, π/4 and 0 (Ramamoorthi and Hanrahan, 2001).
var open = [terms]float64{math.Pi, 2 * math.Pi / 3, 2 * math.Pi / 3, 2 * math.Pi / 3, math.Pi / 4, math.Pi / 4, math.Pi / 4, math.Pi / 4, math.Pi / 4}

// lamp is the light of a mood as this eye meets it: how much comes from each direction,
// in harmonics, such that a plane facing the window, which nothing shades, has 1.
type lamp [terms]float64

func newLamp(m Mood, c *Camera) (l lamp) {
	toward := geom.Vec3{X: c.Toward.X, Y: c.Toward.Y}.Unit()
	if toward == (geom.Vec3{}) {
		toward = geom.Vec3{X: c.Up.X, Y: c.Up.Y}.Unit().Scale(-1)
	}
	up := geom.Vec3{Z: 1}
	if c.Up.Z < -1e-9 || c.Toward.Z < -0.98 {
		up.Z = -1 // seen from below the light stays over the shoulder
	}
	right := c.Right
	from := func(r, u, t float64) geom.Vec3 { return right.Scale(r).Add(up.Scale(u)).Add(toward.Scale(t)).Unit() }
	// sky: light from every side, more from above; spot: from one, with so sharp a lobe.
	var way geom.Vec3
	var sky, spot, sharp float64
	switch m {
	case Candle:
		way, sky, spot, sharp = from(-0.62, 0.2, 0.75), 0.13, 1, 5
	case Against:
		way, sky, spot, sharp = from(-0.25, 0.62, -0.74), 0.3, 1, 4
	default:
		way, sky, spot, sharp = from(-0.5, 0.72, 0.5), 0.42, 1, 4
	}
	dense := sphere(512)
	for _, d := range dense {
		from := sky * (0.7 + 0.3*d.Dot(up))
		if k := d.Dot(way); k > 0 {
			from += spot * math.Pow(k, sharp)
		}
		for k, y := range harmonics(d) {
			l[k] += from * y * 4 * math.Pi / float64(len(dense))
		}
	}
	full := 0.0
	for k, y := range harmonics(way) {
		full += l[k] * y * open[k]
	}
	for k := range l {
		l[k] /= full
	}
	return l
}

// sphere are n directions spread evenly over all, each with its opposite (a spiral by
// the golden angle over one half).
func sphere(n int) []geom.Vec3 {
	all := make([]geom.Vec3, 0, n)
	golden := math.Pi * (3 - math.Sqrt(5))
	for i := range n / 2 {
		z := (float64(i) + 0.5) / float64(n/2)
		r := math.Sqrt(1 - z*z)
		s, c := math.Sincos(golden * float64(i))
		d := geom.Vec3{X: r * c, Y: r * s, Z: z}
		all = append(all, d, d.Scale(-1))
	}
	return all
}
