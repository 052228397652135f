package geom

import (
	"fmt"
	"math"
)

// Mesh is a triangle mesh. The zero value is the empty mesh.
type Mesh struct {
	// V are the vertices, mm.
	V []Vec3
	// Tri are the triangles: three indices into V each, counter-clockwise
	// seen from the side their normal points to.
	Tri [][3]int32
	// Scalar is a value for each vertex (a droop in mm, a gap in mm: the
	// maker of the mesh says which), or nil for none.
	Scalar []float64
}

// Check tells the first thing wrong with m: a vertex that is not finite, an
// index outside V, or a Scalar whose length is not V's. The empty mesh is
// sound.
func (m Mesh) Check() error {
	for i, v := range m.V {
		if !finite(v.X) || !finite(v.Y) || !finite(v.Z) {
			return fmt.Errorf("geom: mesh: vertex %d is %v, want finite coordinates", i, v)
		}
	}
	for i, t := range m.Tri {
		for _, j := range t {
			if j < 0 || int(j) >= len(m.V) {
				return fmt.Errorf("geom: mesh: triangle %d names vertex %d, want 0 to %d", i, j, len(m.V)-1)
			}
		}
	}
	if m.Scalar != nil && len(m.Scalar) != len(m.V) {
		return fmt.Errorf("geom: mesh: %d scalars for %d vertices, want one each or none", len(m.Scalar), len(m.V))
	}
	return nil
}

// Area returns the sum of the triangles' areas, mm². m must pass Check.
func (m Mesh) Area() float64 {
	var sum float64
	for _, t := range m.Tri {
		a := m.V[t[0]]
		sum += m.V[t[1]].Sub(a).Cross(m.V[t[2]].Sub(a)).Norm()
	}
	return sum / 2
}

// Bounds returns the smallest box that holds every vertex, or the empty box.
func (m Mesh) Bounds() Box {
	b := emptyBox()
	for _, v := range m.V {
		b.Min = Vec3{math.Min(b.Min.X, v.X), math.Min(b.Min.Y, v.Y), math.Min(b.Min.Z, v.Z)}
		b.Max = Vec3{math.Max(b.Max.X, v.X), math.Max(b.Max.Y, v.Y), math.Max(b.Max.Z, v.Z)}
	}
	return b
}

// Box is an axis-parallel box, mm. It is empty where Min exceeds Max.
type Box struct{ Min, Max Vec3 }

func emptyBox() Box {
	inf := math.Inf(1)
	return Box{Min: Vec3{inf, inf, inf}, Max: Vec3{-inf, -inf, -inf}}
}

// Empty tells whether b holds no point.
func (b Box) Empty() bool {
	return b.Min.X > b.Max.X || b.Min.Y > b.Max.Y || b.Min.Z > b.Max.Z
}

// Size returns b's edges, mm; zero for an empty box.
func (b Box) Size() Vec3 {
	if b.Empty() {
		return Vec3{}
	}
	return b.Max.Sub(b.Min)
}

// Centre returns b's middle, mm; the origin for an empty box.
func (b Box) Centre() Vec3 {
	if b.Empty() {
		return Vec3{}
	}
	return b.Min.Lerp(b.Max, 0.5)
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
