package cloth

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// The CDF at our quantile must be 0.975.
// The slope of the CDF there is 0.0019 at ν = 1 and above 0.011 beyond, so 1e-11
// in the CDF is 5e-9 and 1e-9 of t.
func TestStudent(t *testing.T) {
	for nu := 1; nu <= 1000; nu++ {
		q := student95(float64(nu) + 0.5)
		cdf := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(nu)}.CDF(q)
		if math.Abs(cdf-0.975) > 1e-11 {
			t.Errorf("ν %d: t %.12g has CDF %.14g", nu, q, cdf)
		}
	}
	// Values of any printed table.
	for nu, want := range map[float64]float64{1: 12.706, 2: 4.303, 3: 3.182, 7: 2.365, 30: 2.042, 120: 1.980} {
		if got := student95(nu); math.Abs(got-want) > 5e-4 {
			t.Errorf("ν %v: %v, table %v", nu, got, want)
		}
	}
	if got := student95(math.Inf(1)); math.Abs(got-distuv.UnitNormal.Quantile(0.975)) > 1e-9 {
		t.Errorf("ν ∞: %v", got)
	}
	if got := student95(math.NaN()); got != student95(1) {
		t.Errorf("no number of freedom gives %v", got)
	}
}
