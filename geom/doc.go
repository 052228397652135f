// Package geom is pure geometry: vectors and the neckline. It knows no cloth,
// no files, no clock. The curves of a bent strip stand in geom/curve.
//
// Every length is in mm, every angle in radians, every curvature in 1/mm.
//
// # The neckline
//
// An ellipse of given perimeter, read by arc length. With semi-axes A ≥ B,
// m = 1 − B²/A² and φ the eccentric angle from the end of the shorter axis, the
// arc is s = A·E(φ|m), Legendre's integral of the second kind in Carlson's
// form; a quarter of the perimeter is A·E(m). The angle of a given arc is
// Newton's: the arc is concave in φ, so the iterates climb to the root.
//
// # References
//
// NIST Digital Library of Mathematical Functions, chapter 19 (elliptic
// integrals); numbers of single equations are from memory where the code says
// so. The reference tables in testdata/reference tell how each was made.
package geom
