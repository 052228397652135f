package portrait

import "math"

// spreads is how answers spread: their means, and their covariance by parts.
type spreads struct {
	mean []float64
	by   map[Part][][]float64
}

// all is the covariance with all parts.
func (s spreads) all() [][]float64 {
	sum := square(len(s.mean))
	for _, part := range Parts {
		for i, row := range s.by[part] {
			for j, x := range row {
				sum[i][j] += x
			}
		}
	}
	return sum
}

func square(n int) [][]float64 {
	m := make([][]float64, n)
	for i := range m {
		m[i] = make([]float64, n)
	}
	return m
}

// propagate turns each knob by one standard deviation either way. The covariance is
// linear in the knobs, with each knob's own curvature added: for an answer y(x) and x
// normal, half the second difference goes to the mean and half its square to the variance
// (exact for a parabola). A head that looks straight out needs that: its turn shortens in
// the second order only. TestMonteCarlo holds both.
func (m *model) propagate(answers func() ([]float64, bool)) (s spreads, ok bool) {
	at, ok := answers()
	if !ok {
		return s, false
	}
	n := len(at)
	s = spreads{mean: append([]float64(nil), at...), by: map[Part][][]float64{}}
	for _, k := range m.knobs {
		was := *k.at
		*k.at = was + k.sd
		up, ok := answers()
		*k.at = was - k.sd
		down, also := answers()
		*k.at = was
		if !ok || !also {
			return s, false
		}
		slope, bend := make([]float64, n), make([]float64, n)
		for i := range n {
			slope[i], bend[i] = (up[i]-down[i])/2, up[i]+down[i]-2*at[i]
			s.mean[i] += bend[i] / 2
		}
		if s.by[k.part] == nil {
			s.by[k.part] = square(n)
		}
		for i := range n {
			for j := range n {
				s.by[k.part][i][j] += slope[i]*slope[j] + bend[i]*bend[j]/2
			}
		}
	}
	return s, true
}

// weigh gives the weights with which numbers of one thing have the smallest variance, none
// below 0, and chi square of their disagreement.
func weigh(each []float64, covariance [][]float64) (weights []float64, chi2 float64) {
	n := len(each)
	ones := make([]float64, n)
	for i := range ones {
		ones[i] = 1
	}
	weights = solved(covariance, ones)
	sum := 0.0
	for i := range weights {
		weights[i] = math.Max(weights[i], 0)
		sum += weights[i]
	}
	mean := 0.0
	for i := range weights {
		weights[i] /= sum
		mean += weights[i] * each[i]
	}
	off := make([]float64, n)
	for i := range off {
		off[i] = each[i] - mean
	}
	for i, x := range solved(covariance, off) {
		chi2 += x * off[i]
	}
	return weights, chi2
}

// solved gives x with a·x = b, for a symmetric and positive definite: by its Cholesky
// factor. The placing error stands on the diagonal, so that every a is.
func solved(a [][]float64, b []float64) []float64 {
	n := len(b)
	l, x := square(n), append([]float64(nil), b...)
	for i := range n {
		for j := range i + 1 {
			sum := a[i][j]
			for k := range j {
				sum -= l[i][k] * l[j][k]
			}
			if i == j {
				l[i][i] = math.Sqrt(math.Max(sum, 1e-12*a[i][i]))
			} else {
				l[i][j] = sum / l[j][j]
			}
		}
	}
	for i := range n {
		for k := range i {
			x[i] -= l[i][k] * x[k]
		}
		x[i] /= l[i][i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			x[i] -= l[k][i] * x[k]
		}
		x[i] /= l[i][i]
	}
	return x
}
