package shell

import "math"

// Band is a symmetric positive definite band matrix and, after Factor, its
// Cholesky factor L (A = L Lᵀ), lower part.
//
// Rows are kept in groups of four, a group column by column: the four entries
// of a column stand side by side. The group of rows 4g … 4g+3 holds the columns
// 4g−k … 4g+3, k the half-bandwidth rounded up to a multiple of four, so that
// any two groups meet in whole blocks of 4 × 4; what lies outside the band is 0,
// and rows past the last are those of the unit matrix. The zero value is empty;
// Resize gives it a size. Not safe for concurrent use.
type Band struct {
	n, kd int
	k     int       // kd rounded up
	group int       // numbers a group: 4(k+4)
	a     []float64 // the groups
	inv   []float64 // reciprocals of L's diagonal, after Factor
}

// Resize makes the matrix n × n with half-bandwidth kd ≥ 0, all zero. Memory is
// kept from an earlier size where it suffices.
func (b *Band) Resize(n, kd int) {
	if kd > n-1 {
		kd = max(0, n-1)
	}
	b.n, b.kd, b.k = n, kd, (kd+3)&^3
	b.group = 4 * (b.k + 4)
	groups := (n + 3) / 4
	b.a = resized(b.a, groups*b.group)
	b.inv = resized(b.inv, 4*groups)
	clear(b.a)
	for i := n; i < 4*groups; i++ {
		b.a[b.index(i, i)] = 1
	}
}

// Size returns the order n and the half-bandwidth kd.
func (b *Band) Size() (n, kd int) { return b.n, b.kd }

// index is where the entry (i, j), i − kd ≤ j ≤ i, stands in b.a; (i, j+1)
// stands four places on.
func (b *Band) index(i, j int) int {
	return (i>>2)*b.group + 4*(j-i&^3+b.k) + i&3
}

// Add adds v to the entry (i, j); i − kd ≤ j ≤ i.
func (b *Band) Add(i, j int, v float64) { b.a[b.index(i, j)] += v }

// At returns the entry (i, j) of the lower part, 0 outside the band. After
// Factor these are the entries of L.
func (b *Band) At(i, j int) float64 {
	if j > i || j < i-b.kd || j < 0 {
		return 0
	}
	return b.a[b.index(i, j)]
}

// CopyFrom makes b equal to src, which must have the same size.
func (b *Band) CopyFrom(src *Band) { copy(b.a, src.a) }

// Shift adds v to every diagonal entry.
func (b *Band) Shift(v float64) {
	for i := range b.n {
		b.a[b.index(i, i)] += v
	}
}

// MeanDiagonal returns the mean of the diagonal, 0 for an empty matrix.
func (b *Band) MeanDiagonal() float64 {
	if b.n == 0 {
		return 0
	}
	s := 0.0
	for i := range b.n {
		s += b.a[b.index(i, i)]
	}
	return s / float64(b.n)
}

// Factor replaces the matrix by its Cholesky factor and reports whether it is
// positive definite. On failure the contents are lost; the row where it
// failed is returned (−1 when it succeeded).
//
// A group of four rows is formed at a time against the finished groups before
// it, in blocks of 4 × 4 (kernel). The best of 150 runs, ms:
//
//	n, kd       native          wasm           OpenBLAS 0.3.21 dpbtrf
//	459, 57     0.17 (0.18)     0.37 (0.43)    0.16
//	975, 80     0.61 (0.75)     1.40 (1.62)    0.29 to 0.35
//	1683, 104   1.78 (2.31)     4.15 (5.26)    0.74 to 0.76
//
// in brackets rows stored whole, two formed at a time against four finished
// ones. OpenBLAS, on one thread of the same machine in the same minute, works on
// several columns at once in vector registers that Go does not give. Against
// gonum's factor the entries agree to 1e-12 of the largest
// (TestBandAgainstGonum).
func (b *Band) Factor() (ok bool, failed int) {
	k, a, inv := b.k, b.a, b.inv
	for i := 0; i < b.n; i += 4 {
		rows := a[i/4*b.group : i/4*b.group+b.group]
		s := max(0, i-k) // first column, a multiple of four
		for j := s; j < i; j += 4 {
			done := a[j/4*b.group : j/4*b.group+b.group]
			var t [16]float64
			kernel(rows[4*(s-i+k):4*(j-i+k)], done[4*(s-j+k):4*k], &t)
			l, d := (*[16]float64)(done[4*k:]), (*[4]float64)(inv[j:])
			y := (*[16]float64)(rows[4*(j-i+k):])
			l10, l20, l30, l21, l31, l32 := l[1], l[2], l[3], l[6], l[7], l[11]
			d0, d1, d2, d3 := d[0], d[1], d[2], d[3]
			for r := range 4 {
				x0 := (y[r] - t[4*r]) * d0
				x1 := (y[4+r] - t[4*r+1] - l10*x0) * d1
				x2 := (y[8+r] - t[4*r+2] - l20*x0 - l21*x1) * d2
				x3 := (y[12+r] - t[4*r+3] - l30*x0 - l31*x1 - l32*x2) * d3
				y[r], y[4+r], y[8+r], y[12+r] = x0, x1, x2, x3
			}
		}
		if r := corner(rows[4*(s-i+k):4*k], (*[16]float64)(rows[4*k:]), (*[4]float64)(inv[i:])); r >= 0 {
			return false, i + r
		}
	}
	return true, -1
}

// kernel writes to t[4r+c] the sum of x's rows r times l's rows c, both stored
// four to a column, their lengths equal and a multiple of 16. Eight sums stay in
// registers; sixteen at once, in one pass, took twice as long natively, three
// rows at a time (nine or twelve sums) half as long again. Two columns a turn
// are a tenth faster in wasm than four and as much slower natively; one is a
// quarter slower in both.
func kernel(x, l []float64, t *[16]float64) {
	l = l[:len(x)]
	var s00, s01, s02, s03, s10, s11, s12, s13 float64
	for k := 0; k+8 <= len(x); k += 8 {
		p, q := (*[8]float64)(x[k:]), (*[8]float64)(l[k:])
		x0, x1 := p[0], p[1]
		a, b, c, d := q[0], q[1], q[2], q[3]
		s00 += x0 * a
		s01 += x0 * b
		s02 += x0 * c
		s03 += x0 * d
		s10 += x1 * a
		s11 += x1 * b
		s12 += x1 * c
		s13 += x1 * d
		x0, x1 = p[4], p[5]
		a, b, c, d = q[4], q[5], q[6], q[7]
		s00 += x0 * a
		s01 += x0 * b
		s02 += x0 * c
		s03 += x0 * d
		s10 += x1 * a
		s11 += x1 * b
		s12 += x1 * c
		s13 += x1 * d
	}
	t[0], t[1], t[2], t[3], t[4], t[5], t[6], t[7] = s00, s01, s02, s03, s10, s11, s12, s13
	s00, s01, s02, s03, s10, s11, s12, s13 = 0, 0, 0, 0, 0, 0, 0, 0
	for k := 0; k+8 <= len(x); k += 8 {
		p, q := (*[8]float64)(x[k:]), (*[8]float64)(l[k:])
		x2, x3 := p[2], p[3]
		a, b, c, d := q[0], q[1], q[2], q[3]
		s00 += x2 * a
		s01 += x2 * b
		s02 += x2 * c
		s03 += x2 * d
		s10 += x3 * a
		s11 += x3 * b
		s12 += x3 * c
		s13 += x3 * d
		x2, x3 = p[6], p[7]
		a, b, c, d = q[4], q[5], q[6], q[7]
		s00 += x2 * a
		s01 += x2 * b
		s02 += x2 * c
		s03 += x2 * d
		s10 += x3 * a
		s11 += x3 * b
		s12 += x3 * c
		s13 += x3 * d
	}
	t[8], t[9], t[10], t[11], t[12], t[13], t[14], t[15] = s00, s01, s02, s03, s10, s11, s12, s13
}

// corner forms the 4 × 4 block y on the diagonal from the finished columns x of
// its own rows; it returns the row of a pivot that is not positive, else −1.
func corner(x []float64, y *[16]float64, inv *[4]float64) int {
	var s00, s10, s20, s30, s11, s21, s31, s22, s32, s33 float64
	for k := 0; k+4 <= len(x); k += 4 {
		p := (*[4]float64)(x[k:])
		a, b, c, d := p[0], p[1], p[2], p[3]
		s00 += a * a
		s10 += a * b
		s20 += a * c
		s30 += a * d
		s11 += b * b
		s21 += b * c
		s31 += b * d
		s22 += c * c
		s32 += c * d
		s33 += d * d
	}
	p := y[0] - s00
	if !(p > 0) {
		return 0
	}
	p = math.Sqrt(p)
	q := 1 / p
	l10, l20, l30 := (y[1]-s10)*q, (y[2]-s20)*q, (y[3]-s30)*q
	y[0], y[1], y[2], y[3], inv[0] = p, l10, l20, l30, q
	if p = y[5] - s11 - l10*l10; !(p > 0) {
		return 1
	}
	p = math.Sqrt(p)
	q = 1 / p
	l21, l31 := (y[6]-s21-l10*l20)*q, (y[7]-s31-l10*l30)*q
	y[5], y[6], y[7], inv[1] = p, l21, l31, q
	if p = y[10] - s22 - l20*l20 - l21*l21; !(p > 0) {
		return 2
	}
	p = math.Sqrt(p)
	q = 1 / p
	l32 := (y[11] - s32 - l20*l30 - l21*l31) * q
	y[10], y[11], inv[2] = p, l32, q
	if p = y[15] - s33 - l30*l30 - l31*l31 - l32*l32; !(p > 0) {
		return 3
	}
	p = math.Sqrt(p)
	y[15], inv[3] = p, 1/p
	return -1
}

// Solve overwrites x, of length n, with A⁻¹x, after Factor.
func (b *Band) Solve(x []float64) {
	b.forward(x)
	b.backward(x)
}

// forward overwrites x with L⁻¹x.
func (b *Band) forward(x []float64) {
	n, k, a, inv := b.n, b.k, b.a, b.inv
	x = x[:n]
	for i := 0; i < n; i += 4 {
		rows := a[i/4*b.group : i/4*b.group+b.group]
		s := max(0, i-k)
		var s0, s1, s2, s3 float64
		y := x[s:i]
		l := rows[4*(s-i+k) : 4*k]
		for c := 0; c+2 <= len(y); c += 2 {
			q, v := (*[8]float64)(l[4*c:]), (*[2]float64)(y[c:])
			s0 += q[0] * v[0]
			s1 += q[1] * v[0]
			s2 += q[2] * v[0]
			s3 += q[3] * v[0]
			s0 += q[4] * v[1]
			s1 += q[5] * v[1]
			s2 += q[6] * v[1]
			s3 += q[7] * v[1]
		}
		q, d := (*[16]float64)(rows[4*k:]), (*[4]float64)(inv[i:])
		var v [4]float64
		copy(v[:], x[i:])
		v[0] = (v[0] - s0) * d[0]
		v[1] = (v[1] - s1 - q[1]*v[0]) * d[1]
		v[2] = (v[2] - s2 - q[2]*v[0] - q[6]*v[1]) * d[2]
		v[3] = (v[3] - s3 - q[3]*v[0] - q[7]*v[1] - q[11]*v[2]) * d[3]
		copy(x[i:], v[:])
	}
}

// backward overwrites x with L⁻ᵀx.
func (b *Band) backward(x []float64) {
	n, k, a, inv := b.n, b.k, b.a, b.inv
	x = x[:n]
	for i := (n - 1) &^ 3; i >= 0; i -= 4 {
		rows := a[i/4*b.group : i/4*b.group+b.group]
		s := max(0, i-k)
		q, d := (*[16]float64)(rows[4*k:]), (*[4]float64)(inv[i:])
		var v [4]float64
		copy(v[:], x[i:])
		v3 := v[3] * d[3]
		v2 := (v[2] - q[11]*v3) * d[2]
		v1 := (v[1] - q[6]*v2 - q[7]*v3) * d[1]
		v0 := (v[0] - q[1]*v1 - q[2]*v2 - q[3]*v3) * d[0]
		v[0], v[1], v[2], v[3] = v0, v1, v2, v3
		copy(x[i:], v[:])
		y := x[s:i]
		l := rows[4*(s-i+k) : 4*k]
		for c := 0; c+2 <= len(y); c += 2 {
			q, w := (*[8]float64)(l[4*c:]), (*[2]float64)(y[c:])
			w[0] -= q[0]*v0 + q[1]*v1 + q[2]*v2 + q[3]*v3
			w[1] -= q[4]*v0 + q[5]*v1 + q[6]*v2 + q[7]*v3
		}
	}
}

// resized returns a slice of length n that reuses s where it can; its contents
// are not cleared.
func resized[T any](s []T, n int) []T {
	if cap(s) >= n {
		return s[:n]
	}
	return make([]T, n)
}
