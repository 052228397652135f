// Package shell finds the rest shape of a thin sheet: cloth held along some of
// its edge, pressed against planes or cones, pulled by gravity, and perhaps
// starched into a shape. Textbook cantilevers, loops of elastic strip and
// published shell cases run on the very code that solves ruffs.
//
// # Units
//
// Lengths are millimetres, forces millinewtons, energies microjoules
// (1 mN·mm = 1 µJ). Bending rigidity is per width: 1 µN·m = 1 mN·mm. Stretch
// and shear stiffness are per width: 1 N/m = 1 mN/mm. Gravity is given in
// multiples of 9.80665 m/s².
//
// # Mathematics
//
// A rectangle with rest coordinates (u, v) lies on a structured, graded grid of
// (nu+1)(nv+1) nodes x(i, j). Subscripts are derivatives with respect to u and
// v by second-order differences; w_i, w_j are tributary widths, w of stretch with
// Gregory's correction at free edges (yarn). The energy is
//
//	bending  ½ Bu w_i w_j |x_uu|² + ½ Bv w_i w_j |x_vv|² + ½·4Bt A |x_uv|²
//	frozen   Bs (½|D|² − κ₀ D·n̂ + ½κ₀²) for D = x_uu, x_vv, x_uv
//	stretch  ½ K e² h w,  e = ½(|d|²/h² − 1) on every grid edge
//	shear    ½ G A (x_u·x_v)² at every cell's centre, frozen ½ Gs A (x_u·x_v − γ₀)²
//	gravity  −m g·x, lumped
//	contact  φ(gap) at every node, or at Gauss points between them, φ below
//	sticks   the same with round sticks that move, less the work of what pulls them
//
// The bending energy is quadratic in x: for a sheet that hardly stretches
// |x_uu|² is the square of the curvature (Bergou, Wardetzky, Harmon, Zorin and
// Grinspun, "A quadratic bending model for inextensible surfaces", 2006). An
// isotropic sheet without Poisson effect has Bu = Bv = 2Bt.
//
// The frozen energy is that of a sheet whose stress-free state has the signed
// curvatures κ₀ and skews γ₀: n̂ is the normal x_u × x_v made a unit vector (blunted
// where a fold closes). Left unnormalised it is not stress-free at coarse turning angles.
//
// Contact is a penalty with two continuous derivatives: with s = w − gap,
// φ = k s³/(6w) for 0 < s ≤ 2w, and a parabola of curvature 2k beyond. The
// force k s²/(2w) is k w/2 at touch.
//
// A stick (Stick) is rigid and straight, round, perhaps tapered, in an upright plane. How
// high its ends stand is decided by levels (Level), unknowns in mm beside the nodes, each
// driven up by a force in mN until the cloth or a stop holds it.
//
// Mirror planes, clamps and the turn that closes a sheet act through ghost nodes one
// cell outside the grid, images of a row inside: x_g = S x_1 + c, so every stencil
// keeps its second-order form up to the edge. Contact of the sheet with its own
// neighbours is contact with such images too (Pair, Near).
//
// # Newton's method
//
// See Solver.Solve. The linear systems are banded Cholesky (Band); levels are bordered
// onto the band by their Schur complement, which is part of the test whether the whole
// is positive definite.
package shell
