// Package geom is pure geometry: vectors and the neckline. It knows no cloth,
// no files, no clock. The curves of a bent strip stand in geom/curve.
//
// Every length is in mm, every angle in radians, every curvature in 1/mm.
//
// # References
//
// NIST Digital Library of Mathematical Functions, chapter 19 (elliptic
// integrals); numbers of single equations are from memory where the code says
// so. The reference tables in testdata/reference tell how each was made.
package geom
