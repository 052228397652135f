package geom

import "math"

// Vec2 is a point or a direction of a plane. Lengths are in mm.
type Vec2 struct{ X, Y float64 }

// Add returns a + b.
func (a Vec2) Add(b Vec2) Vec2 { return Vec2{a.X + b.X, a.Y + b.Y} }

// Sub returns a − b.
func (a Vec2) Sub(b Vec2) Vec2 { return Vec2{a.X - b.X, a.Y - b.Y} }

// Scale returns f·a.
func (a Vec2) Scale(f float64) Vec2 { return Vec2{f * a.X, f * a.Y} }

// Dot returns the scalar product a·b.
func (a Vec2) Dot(b Vec2) float64 { return a.X*b.X + a.Y*b.Y }

// Cross returns the z component of a × b: positive where b lies
// counter-clockwise of a.
func (a Vec2) Cross(b Vec2) float64 { return a.X*b.Y - a.Y*b.X }

// Norm returns the length of a, without overflow or underflow on the way.
func (a Vec2) Norm() float64 { return math.Hypot(a.X, a.Y) }

// Unit returns a/|a|; the zero vector gives the zero vector.
func (a Vec2) Unit() Vec2 {
	n := a.Norm()
	if n == 0 {
		return Vec2{}
	}
	return Vec2{a.X / n, a.Y / n}
}

// Rotate returns a turned by the angle whose cosine and sine are c and s.
func (a Vec2) Rotate(c, s float64) Vec2 { return Vec2{c*a.X - s*a.Y, s*a.X + c*a.Y} }

// Vec3 is a point or a direction of space. Lengths are in mm.
type Vec3 struct{ X, Y, Z float64 }

// Add returns a + b.
func (a Vec3) Add(b Vec3) Vec3 { return Vec3{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub returns a − b.
func (a Vec3) Sub(b Vec3) Vec3 { return Vec3{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Scale returns f·a.
func (a Vec3) Scale(f float64) Vec3 { return Vec3{f * a.X, f * a.Y, f * a.Z} }

// Dot returns the scalar product a·b.
func (a Vec3) Dot(b Vec3) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }

// Cross returns the vector product a × b.
func (a Vec3) Cross(b Vec3) Vec3 {
	return Vec3{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// Norm returns the length of a, without overflow or underflow on the way.
func (a Vec3) Norm() float64 { return math.Hypot(math.Hypot(a.X, a.Y), a.Z) }

// Unit returns a/|a|; the zero vector gives the zero vector.
func (a Vec3) Unit() Vec3 {
	n := a.Norm()
	if n == 0 {
		return Vec3{}
	}
	return Vec3{a.X / n, a.Y / n, a.Z / n}
}

// Lerp returns a + t(b − a).
func (a Vec3) Lerp(b Vec3, t float64) Vec3 {
	return Vec3{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y), a.Z + t*(b.Z-a.Z)}
}

// XY returns the plan of a: its first two components.
func (a Vec3) XY() Vec2 { return Vec2{a.X, a.Y} }
