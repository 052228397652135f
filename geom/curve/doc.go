// Package curve holds the curves that a bent strip takes. It knows no cloth, no
// files, no clock.
//
// Every length is in mm, every angle in radians, every curvature in 1/mm.
//
// An inextensible strip bent only by forces at its ends obeys
// B·θ″ = F·sin(θ − θ_F), the equation of a pendulum, whose solutions with an
// inflection are Euler's inflectional elasticas. One kernel (pendulum.go) reads
// them from the inflection outward; three curves are put together from it: the outer
// edge, free or with loops that touch (Elastica), and the inner edge sewn at both
// folds (SewnElastica), the same wave turned.
//
// The curves are the edge's, in its own plane: gravity, starch and the rest of
// the panel are left out, the cloth has no thickness.
//
// # References
//
// A. E. H. Love, A Treatise on the Mathematical Theory of Elasticity, 4th
// edition, chapter XIX, art. 262 and 263 (article numbers from memory). NIST
// Digital Library of Mathematical Functions, chapter 19 (elliptic integrals),
// 20 (theta functions), 22 (Jacobi's functions); numbers of single equations
// are from memory where the code says so. The reference tables in
// testdata/reference tell how each was made.
package curve
