// Package curve holds the curves that a bent strip takes. It knows no cloth, no
// files, no clock.
//
// Every length is in mm, every angle in radians, every curvature in 1/mm.
//
// An inextensible strip bent only by forces at its ends obeys
// B·θ″ = F·sin(θ − θ_F), the equation of a pendulum, whose solutions with an
// inflection are Euler's inflectional elasticas. One kernel (pendulum.go) reads
// them from the inflection outward; three curves are put together from it:
//
//   - the outer edge, free (Elastica): a half wave from crest to trough between
//     mirror planes, the end force level. Half pitch/length = 2E/K − 1, height/
//     length = 2√m/K;
//   - the outer edge, neighbouring loops touching (Elastica, elastica_touching.go): two
//     forces, one inside the loops and one between the contacts, joined with
//     equal curvature where the strip stands upright;
//   - the inner edge sewn at both folds (SewnElastica): the same wave turned,
//     because the stitches also carry an upright force. Near slack 1 the strip
//     is straight with a short bend at each end; then elliptic functions
//     degenerate (m → 1) and the separatrix takes over.
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
