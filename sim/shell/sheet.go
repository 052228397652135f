package shell

import (
	"errors"
	"fmt"
	"math"
)

// Sheet describes a thin sheet at rest, what holds it and what pushes it. It
// is plain data: NewSolver and Solver.Reset read it, nothing writes to it.
type Sheet struct {
	// U and V are the rest coordinates of the grid lines in mm, each strictly
	// increasing; at least 2 of each. Neighbouring cells should differ by less
	// than a factor of 2 for second-order accuracy.
	U, V []float64

	// BendU and BendV are the bending rigidities in µN·m (mN·mm per mm width)
	// against curvature along u and along v. ≥ 0.
	BendU, BendV float64
	// Twist is Bt of doc.go in µN·m; 0 means √(BendU·BendV)/2, which is what an
	// isotropic sheet without Poisson effect has. Negative: no twist rigidity.
	Twist float64
	// StretchU and StretchV are the stretch stiffnesses along u and v in N/m
	// (mN/mm), Shear the shear stiffness. > 0, but Shear may be 0.
	StretchU, StretchV, Shear float64
	// Mass is the areal mass in g/m². ≥ 0.
	Mass float64
	// Gravity is a vector in multiples of 9.80665 m/s²; (0, 0, −1) is upright.
	// The zero value means no gravity.
	Gravity [3]float64

	// UStart and UEnd are the edges u = U[0] and u = U[nu], VStart and VEnd the
	// edges v = V[0] and v = V[nv]. The zero value is a free edge.
	UStart, UEnd, VStart, VEnd Edge

	// Held lists nodes that stay where the starting shape puts them.
	Held []Hold
	// Fold multiplies the x_uu energy, of cloth and frozen part alike, node by
	// node (index Node(i, j)): a pressed crease as a weaker hinge. nil means 1
	// everywhere. Each in [0, 1].
	Fold []float64
	// Frozen is a starched shape; nil means none.
	Frozen *Frozen
	// Contacts lists obstacles.
	Contacts []Contact
	// Round closes the sheet along u onto its own turned image; nil: it is open.
	// UStart and UEnd are then free.
	Round *Round
	// Pairs lists nodes that keep clear of each other.
	Pairs []Pair
	// Near lists nodes that keep clear of patches of the sheet itself.
	Near []Near
	// Spots are where contacts with Between act, as Spots gives them for U and V;
	// nil without such contacts.
	Spots []Spot
}

// EdgeKind says what an edge of the grid is.
type EdgeKind uint8

const (
	// Free edges carry no force or moment.
	Free EdgeKind = iota
	// Mirror edges lie in a plane across which the sheet goes on as its mirror
	// image. Nodes stay in the plane Normal·x = Offset.
	Mirror
	// Clamped edges have a given slope; hold their nodes as well by Held.
	Clamped
)

// Edge is the condition along one edge of the grid. The zero value is free.
type Edge struct {
	Kind EdgeKind
	// Normal is the mirror plane's unit normal, Offset its Normal·x in mm.
	Normal [3]float64
	Offset float64
	// Tangent, for clamped edges, gives dx/d(rest length) into the sheet at
	// each node of the edge, in order; a single one serves the whole edge.
	Tangent [][3]float64
}

// Axes is a set of directions in a node's frame. For nodes off the mirror
// planes the frame is x, y, z. On a mirror plane First is the normal (held
// there in any case), and the other two lie in the plane, Third as near to z
// as the plane allows.
type Axes uint8

// The three axes of a node's frame, and all of them.
const (
	First Axes = 1 << iota
	Second
	Third
	All = First | Second | Third
)

// Hold keeps directions of one node where the starting shape has them.
type Hold struct {
	I, J int
	Axes Axes
	// In says whose frame Axes are counted in: the node's own, or that of a
	// mirror edge, for a node off the mirror that lies in its plane.
	In Frame
}

// Frame names a frame for Hold.
type Frame uint8

// The node's own frame, and those of the mirror edges.
const (
	Own Frame = iota
	OfUStart
	OfUEnd
	OfVStart
	OfVEnd
)

// Frozen is the part of the bending rigidity that was set into a shape, and
// that shape's signed curvatures.
type Frozen struct {
	// BendU, BendV, Twist are the frozen part's rigidities in µN·m; Twist 0
	// means √(BendU·BendV)/2, negative none.
	BendU, BendV, Twist float64
	// U and V hold κ₀ of x_uu and x_vv in 1/mm for each node, UV that of x_uv for
	// each cell (index i·nv + j, the closing cells of a round sheet last). NaN marks
	// a crease: no frozen part there.
	U, V, UV []float64
}

// StandardGravity is 9.80665 m/s² (CGPM 1901), in mN per gram.
const StandardGravity = 9.80665

// WeightPerArea returns the sheet's weight in mN/mm² for a mass in g/m².
func WeightPerArea(mass_gm2 float64) float64 { return mass_gm2 * 1e-6 * StandardGravity }

// Node returns the index of node (i, j), 0 ≤ i ≤ nu, 0 ≤ j ≤ nv. Its position
// is x[3·Node], x[3·Node+1], x[3·Node+2] of a shape.
func (s *Sheet) Node(i, j int) int { return i*len(s.V) + j }

// Nodes returns the number of nodes.
func (s *Sheet) Nodes() int { return len(s.U) * len(s.V) }

// Weight returns the sheet's whole weight in mN under one gravity.
func (s *Sheet) Weight() float64 {
	if len(s.U) < 2 || len(s.V) < 2 {
		return 0
	}
	return WeightPerArea(s.Mass) * s.length() * (s.V[len(s.V)-1] - s.V[0])
}

// MaxNodes bounds the size of a sheet, so that bad input cannot ask for the
// machine's memory.
const MaxNodes = 200_000

// Validate reports the first thing wrong with the sheet, naming the field, its
// value and what is allowed.
func (s *Sheet) Validate() error {
	for _, g := range []struct {
		name string
		c    []float64
	}{{"U", s.U}, {"V", s.V}} {
		if len(g.c) < 2 {
			return fmt.Errorf("shell: %s has %d grid lines; at least 2 are needed", g.name, len(g.c))
		}
		for i, v := range g.c {
			if !finite(v) || i > 0 && !(v > g.c[i-1]) {
				return fmt.Errorf("shell: %s[%d] = %v mm; grid lines must be finite and strictly increasing", g.name, i, v)
			}
		}
	}
	if n := s.Nodes(); n > MaxNodes {
		return fmt.Errorf("shell: %d nodes; at most %d", n, MaxNodes)
	}
	for _, q := range []struct {
		name  string
		v     float64
		above bool
	}{{"BendU", s.BendU, false}, {"BendV", s.BendV, false}, {"StretchU", s.StretchU, true}, {"StretchV", s.StretchV, true}, {"Shear", s.Shear, false}, {"Mass", s.Mass, false}} {
		if !finite(q.v) || q.v < 0 || q.above && q.v == 0 {
			return fmt.Errorf("shell: %s = %v; it must be finite and %s 0", q.name, q.v, map[bool]string{true: ">", false: "≥"}[q.above])
		}
	}
	if !finite(s.Twist) {
		return fmt.Errorf("shell: Twist = %v; it must be finite", s.Twist)
	}
	for _, v := range s.Gravity {
		if !finite(v) {
			return fmt.Errorf("shell: Gravity = %v; it must be finite", s.Gravity)
		}
	}
	nu, nv := len(s.U)-1, len(s.V)-1
	for k, e := range []*Edge{&s.UStart, &s.UEnd, &s.VStart, &s.VEnd} {
		name := [...]string{"UStart", "UEnd", "VStart", "VEnd"}[k]
		n := nv + 1
		if k >= 2 {
			n = nu + 1
		}
		if err := e.validate(n); err != nil {
			return fmt.Errorf("shell: %s: %w", name, err)
		}
	}
	if (s.UStart.Kind == Mirror || s.UEnd.Kind == Mirror) && (s.VStart.Kind == Mirror || s.VEnd.Kind == Mirror) {
		return errors.New("shell: mirror planes on neighbouring edges are not supported")
	}
	for k, h := range s.Held {
		if h.I < 0 || h.I > nu || h.J < 0 || h.J > nv || h.Axes > All {
			return fmt.Errorf("shell: Held[%d] = %+v; the grid has nodes (0, 0) to (%d, %d), Axes 0 to %d", k, h, nu, nv, All)
		}
		if h.In > OfVEnd || h.In != Own && !(s.Round != nil && h.In <= OfUEnd) && [...]Edge{s.UStart, s.UEnd, s.VStart, s.VEnd}[h.In-1].Kind != Mirror {
			return fmt.Errorf("shell: Held[%d].In = %d; it must be 0, the frame of a mirror edge, or one of Round's", k, h.In)
		}
	}
	if s.Fold != nil && len(s.Fold) != s.Nodes() {
		return fmt.Errorf("shell: Fold has %d entries; nil or %d", len(s.Fold), s.Nodes())
	}
	for k, v := range s.Fold {
		if !(v >= 0 && v <= 1) {
			return fmt.Errorf("shell: Fold[%d] = %v; allowed is 0 to 1", k, v)
		}
	}
	if f := s.Frozen; f != nil {
		if !finite(f.BendU) || !finite(f.BendV) || !finite(f.Twist) || f.BendU < 0 || f.BendV < 0 {
			return fmt.Errorf("shell: Frozen rigidities %v, %v, %v; they must be finite, the first two ≥ 0", f.BendU, f.BendV, f.Twist)
		}
		if len(f.U) != s.Nodes() || len(f.V) != s.Nodes() || len(f.UV) != s.cells() {
			return fmt.Errorf("shell: Frozen has %d, %d and %d curvatures; needed are %d, %d and %d", len(f.U), len(f.V), len(f.UV), s.Nodes(), s.Nodes(), s.cells())
		}
		for _, c := range [][]float64{f.U, f.V, f.UV} {
			for k, v := range c {
				if math.IsInf(v, 0) {
					return fmt.Errorf("shell: Frozen curvature %d is infinite", k)
				}
			}
		}
	}
	for k := range s.Contacts {
		if err := s.Contacts[k].validate(s.Nodes(), len(s.Spots)); err != nil {
			return fmt.Errorf("shell: Contacts[%d]: %w", k, err)
		}
	}
	if err := s.validateSpots(); err != nil {
		return err
	}
	return s.validateRound()
}

func (e *Edge) validate(nodes int) error {
	switch e.Kind {
	case Free:
	case Mirror:
		if n := norm(e.Normal); !(math.Abs(n-1) < 1e-9) || !finite(e.Offset) {
			return fmt.Errorf("mirror plane with normal %v, offset %v; the normal must have length 1", e.Normal, e.Offset)
		}
	case Clamped:
		if len(e.Tangent) != 1 && len(e.Tangent) != nodes {
			return fmt.Errorf("clamp with %d tangents; 1 or %d", len(e.Tangent), nodes)
		}
		for _, t := range e.Tangent {
			if n := norm(t); !(n > 0.5 && n < 2) {
				return fmt.Errorf("clamp tangent %v; its length should be 1", t)
			}
		}
	default:
		return fmt.Errorf("kind %d; known are Free, Mirror, Clamped", e.Kind)
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func norm(a [3]float64) float64 { return math.Sqrt(dot3(a, a)) }

func dot3(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}
