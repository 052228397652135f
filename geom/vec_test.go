package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestVectors(t *testing.T) {
	coord := rapid.Float64Range(-1e3, 1e3)
	rapid.Check(t, func(t *rapid.T) {
		a := Vec3{coord.Draw(t, "ax"), coord.Draw(t, "ay"), coord.Draw(t, "az")}
		b := Vec3{coord.Draw(t, "bx"), coord.Draw(t, "by"), coord.Draw(t, "bz")}
		c := a.Cross(b)
		size := 1 + a.Norm()*b.Norm()
		// Lagrange's identity and orthogonality.
		if math.Abs(c.Dot(c)+a.Dot(b)*a.Dot(b)-a.Dot(a)*b.Dot(b)) > 1e-13*size*size {
			t.Fatalf("|a×b|² + (a·b)² ≠ |a|²|b|² for %v, %v", a, b)
		}
		if math.Abs(c.Dot(a)) > 1e-13*size*(1+a.Norm()) {
			t.Fatalf("a×b is not square to a: %v, %v", a, b)
		}
		if n := a.Unit().Norm(); a.Norm() > 0 && math.Abs(n-1) > 1e-15*4 {
			t.Fatalf("|unit of %v| = %v", a, n)
		}
		if d := a.Lerp(b, 0.25).Sub(a.Scale(0.75).Add(b.Scale(0.25))).Norm(); d > 1e-12 {
			t.Fatalf("lerp is off by %v", d)
		}
		u, v := a.XY(), b.XY()
		if math.Abs(u.Cross(v)-c.Z) > 1e-13*size {
			t.Fatalf("plane cross of %v, %v", u, v)
		}
		sin, cos := math.Sincos(a.Z)
		w := u.Rotate(cos, sin)
		if math.Abs(w.Norm()-u.Norm()) > 1e-12 || math.Abs(w.Dot(u)-cos*u.Dot(u)) > 1e-9 || math.Abs(u.Cross(w)-sin*u.Dot(u)) > 1e-9 {
			t.Fatalf("%v turned by %v gives %v", u, a.Z, w)
		}
	})
	if (Vec3{}).Unit() != (Vec3{}) || (Vec2{}).Unit() != (Vec2{}) {
		t.Error("the zero vector's unit is not zero")
	}
	if (Vec2{3e200, 4e200}).Unit().Sub(Vec2{0.6, 0.8}).Norm() > 1e-15 {
		t.Error("unit of a large vector")
	}
}
