package shell

import "math"

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
	// GradeU and GradeV say where the cloth differs from these numbers, by the grid
	// lines of U and of V. The zero value is the same cloth everywhere.
	GradeU, GradeV Grade
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
	// Sticks lists sticks in the sheet's folds, felt at its Spots, and Levels the
	// heights that they share, unknowns of the solve.
	Sticks []Stick
	Levels []Level
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

// Edge is the condition along one edge of the grid.
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
	// In, of length 1, is the normal of the plane in whose frame Axes are counted,
	// as on a mirror: First is In. Zero: the node's own frame.
	In [3]float64
}

// Frozen is the part of the bending rigidity that was set into a shape, and
// that shape's signed curvatures.
type Frozen struct {
	// BendU, BendV, Twist are the frozen part's rigidities in µN·m; Twist 0
	// means √(BendU·BendV)/2, negative none.
	BendU, BendV, Twist float64
	// Shear is the frozen part's shear stiffness in N/m, ≥ 0, about Skew.
	Shear float64
	// U and V hold κ₀ of x_uu and x_vv in 1/mm for each node, UV that of x_uv for
	// each cell (index i·nv + j, the closing cells of a round sheet last). NaN marks
	// a crease: no frozen part there.
	U, V, UV []float64
	// Skew is x_u·x_v of each cell, numbered as UV, as it was frozen; nil with Shear 0.
	Skew []float64
}

// StandardGravity is 9.80665 m/s² (CGPM 1901), in mN per gram.
const StandardGravity = 9.80665

// WeightPerArea returns the sheet's weight in mN/mm² for a mass in g/m².
func WeightPerArea(mass_gm2 float64) float64 { return mass_gm2 * 1e-6 * StandardGravity }

// Node returns the index of node (i, j), 0 ≤ i ≤ nu, 0 ≤ j ≤ nv: its place is
// x[3·Node:] of a shape.
func (s *Sheet) Node(i, j int) int { return i*len(s.V) + j }

// Nodes returns the number of nodes.
func (s *Sheet) Nodes() int { return len(s.U) * len(s.V) }

// Weight returns the sheet's whole weight in mN under one gravity.
func (s *Sheet) Weight() float64 {
	if len(s.U) < 2 || len(s.V) < 2 {
		return 0
	}
	along, across := s.length(), s.V[len(s.V)-1]-s.V[0]
	if f := s.GradeU.Mass; f != nil {
		along = 0
		for i := range s.U {
			along += times(f, i) * s.widthU(i)
		}
	}
	if f := s.GradeV.Mass; f != nil {
		across = 0
		for j := range s.V {
			across += times(f, j) * tributary(s.V, j)
		}
	}
	return WeightPerArea(s.Mass) * along * across
}

// MaxNodes bounds the size of a sheet.
const MaxNodes = 200_000

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func norm(a [3]float64) float64 { return math.Sqrt(dot3(a, a)) }

func dot3(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}
