package cloth

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/testdata/reference"
)

func degrees(rad float64) float64 { return rad * (180 / math.Pi) }

const cantilever = "cantilever.csv"

// The reference's own accuracy is 1e-10, its print 12 digits; peirce columns are
// its evaluation of Peirce's formula, checked in swatch_test.go.
func TestCantileverReference(t *testing.T) {
	rows := reference.Numbers(t, cantilever)
	if len(rows) < 16 {
		t.Fatalf("%d rows, want at least 16", len(rows))
	}
	var worst float64
	near := func(row map[string]float64, what string, got, want float64) {
		t.Helper()
		d := math.Abs(got-want) / math.Max(1, math.Abs(want))
		worst = math.Max(worst, d)
		if !(d <= 1e-10) {
			t.Errorf("l/c %v: %s %.13g, reference %.13g", row["l_over_c"], what, got, want)
		}
	}
	for _, row := range rows {
		lam := row["l_over_c"]
		h, err := Hang(lam)
		if err != nil {
			t.Fatal(err)
		}
		near(row, "tip x/l", h.TipX/lam, row["tip_x_over_l"])
		near(row, "drop/l", h.TipDrop/lam, row["tip_drop_over_l"])
		near(row, "tip slope", degrees(h.TipSlope), row["tip_slope_deg"])
		near(row, "chord", degrees(h.Droop), row["theta_chord_deg"])
		near(row, "curvature × l", h.Curvature*lam, row["kappa0_l"])
		near(row, "energy", h.Energy, row["U_c_over_B"])
		s, err := Span(row["theta_chord_deg"])
		if err != nil {
			t.Fatal(err)
		}
		near(row, "Span", s, lam)
	}
	t.Logf("%d rows, largest deviation %.1e", len(rows), worst)
}

// Values by mpmath 1.3.0, odefun (its own Taylor method) at 34 digits from the tip
// slope atan(e^p), with findroot for the clamp: another program, other steps.
func TestElasticaDigits(t *testing.T) {
	for _, v := range []struct{ p, span, tan, curvature, x float64 }{
		{-12, 0.033281724595599535406, 4.6081592649752401935e-6, 0.00055383659602396321204, 0.033281724595195682944},
		{-4, 0.47898823357293174638, 0.013736175164068069499, 0.11470620733110788228, 0.47893659782037945952},
		{-1, 1.3022591275689899996, 0.2716444850101205339, 0.82424628499228291569, 1.2504983090274559555},
		{0, 1.8113148158563983166, 0.68337944651205327226, 1.4126968176865644885, 1.4601787549272939396},
		{0.5, 2.1154384460513651099, 1.019209445285571252, 1.7040496240072215157, 1.4245281647019786181},
		{2, 3.0519417430567666169, 2.4452651896913332359, 2.3022297735991493547, 1.0837805962296147917},
		{5, 4.6381202521597774325, 5.879809486518046879, 2.9488971801118344299, 0.73947928064767904992},
		{12, 7.5335115545438890834, 13.573045244656808136, 3.8246577486999277277, 0.53886237874469952398},
		{40, 15.826179001673028427, 43.511649085617811238, 5.5995770701499363933, 0.36030883709844273743},
	} {
		const tol = 2e-13 // some 50 steps' rounding; measured 2e-14
		same := func(what string, got, want float64) {
			t.Helper()
			if d := math.Abs(got/want - 1); !(d <= tol) {
				t.Errorf("p %v: %s %.16g, want %.16g (%.1e)", v.p, what, got, want, d)
			}
		}
		r, err := fromTip(v.p)
		if err != nil {
			t.Fatal(err)
		}
		same("span", r.span, v.span)
		same("tan droop", r.drop/r.x, v.tan)
		same("curvature", -r.rate, v.curvature)
		same("x", r.x, v.x)
		// And through the two solves.
		if deg := degrees(math.Atan(v.tan)); deg <= DroopMax_deg {
			s, err := Span(deg)
			if err != nil {
				t.Fatal(err)
			}
			// d ln λ / d ln droop rises to 38 near 89°, and with it the rounding of
			// the angle itself.
			if d := math.Abs(s/v.span - 1); !(d <= 1e-12) {
				t.Errorf("Span at %v: %.16g, want %.16g", deg, s, v.span)
			}
		}
		h, err := Hang(v.span)
		if err != nil {
			t.Fatal(err)
		}
		same("Hang x", h.TipX, v.x)
		same("Hang droop", h.Droop, math.Atan(v.tan))
		same("Hang curvature", h.Curvature, v.curvature)
	}
}

// Closed forms at both ends of the range. Short: linear beam theory (tip drop
// λ⁴/8, slope λ³/6, energy λ⁵/40), the next terms being of relative order λ⁶.
// Long: a vertical rope with a bent head, whose curvature at the edge tends to
// √(2λ) (first integral of θ″ = −λ cos θ).
func TestLimits(t *testing.T) {
	for _, lam := range []float64{0.001, 0.003, 0.01, 0.03, 0.1} {
		h, err := Hang(lam)
		if err != nil {
			t.Fatal(err)
		}
		tol := 0.1*math.Pow(lam, 6) + 1e-13
		for _, v := range []struct {
			what      string
			got, want float64
		}{
			{"drop", h.TipDrop, math.Pow(lam, 4) / 8},
			{"slope", h.TipSlope, math.Pow(lam, 3) / 6},
			{"energy", h.Energy, math.Pow(lam, 5) / 40},
			{"curvature", h.Curvature, lam * lam / 2},
		} {
			if d := math.Abs(v.got/v.want - 1); !(d <= tol) {
				t.Errorf("λ %v: %s off the straight beam by %.2e, allowed %.2e", lam, v.what, d, tol)
			}
		}
	}
	last := math.Inf(1)
	for _, lam := range []float64{5, 10, 20} {
		h, err := Hang(lam)
		if err != nil {
			t.Fatal(err)
		}
		d := math.Abs(h.Curvature/math.Sqrt(2*lam) - 1)
		if !(d < last/2) {
			t.Errorf("λ %v: curvature off √(2λ) by %.3g, no half of %.3g", lam, d, last)
		}
		last = d
	}
	if v, err := Span(0); v != 0 || err != nil {
		t.Errorf("at 0: %v, %v", v, err)
	}
	// No seam where the closed form for tiny strips takes over.
	seam := degrees(spanTiny * spanTiny * spanTiny / 8)
	a, _ := Span(seam * (1 - 1e-12))
	b, _ := Span(seam)
	if d := math.Abs(a/b - 1); d > 1e-11 {
		t.Errorf("seam of %.1e at λ %v", d, spanTiny)
	}
}

// The energy by U = L·drop − 2V must be the elastic energy: against quadrature of
// ½θ′² by the test's own integrator.
func TestEnergyByQuadrature(t *testing.T) {
	for _, lam := range []float64{0.7, 2, 3.5} {
		h, err := Hang(lam)
		if err != nil {
			t.Fatal(err)
		}
		_, _, _, energy := rk4(h.TipSlope, 0, lam, 4000)
		if d := math.Abs(energy/h.Energy - 1); !(d < 1e-9) {
			t.Errorf("λ %v: energy %.12g, by quadrature %.12g", lam, h.Energy, energy)
		}
	}
}

// rk4 integrates θ¨ = −t cos θ from the tip over lam with the classical
// fourth-order method, from tip slope and tip curvature (the strip's own curl),
// and returns θ at the clamp, the tip's place and the energy ½∫θ˙².
func rk4(slope, curl, lam float64, n int) (theta, x, z, energy float64) {
	y := [5]float64{slope, -curl, 0, 0, 0}
	f := func(t float64, y [5]float64) [5]float64 {
		s, c := math.Sincos(y[0])
		return [5]float64{y[1], -t * c, c, s, y[1] * y[1] / 2}
	}
	add := func(y, k [5]float64, h float64) [5]float64 {
		for i := range y {
			y[i] += h * k[i]
		}
		return y
	}
	h := lam / float64(n)
	for i := range n {
		t := float64(i) * h
		k1 := f(t, y)
		k2 := f(t+h/2, add(y, k1, h/2))
		k3 := f(t+h/2, add(y, k2, h/2))
		k4 := f(t+h, add(y, k3, h))
		for j := range y {
			y[j] += h / 6 * (k1[j] + 2*k2[j] + 2*k3[j] + k4[j])
		}
	}
	return y[0], y[2], y[3], y[4]
}

// The derivatives that Newton and the angle's uncertainty use.
func TestDerivatives(t *testing.T) {
	for p := -11.0; p < 50; p += 2.3 {
		const h = 1e-4
		lo, _ := fromTip(p - h)
		hi, _ := fromTip(p + h)
		r, err := fromTip(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range []struct {
			what       string
			diff, want float64
		}{
			{"span", (hi.span - lo.span) / (2 * h), r.spanP},
			{"drop", (hi.drop - lo.drop) / (2 * h), r.dropP},
			{"x", (hi.x - lo.x) / (2 * h), r.xP},
		} {
			if d := math.Abs(v.diff-v.want) / (math.Abs(v.want) + 0.01); !(d < 1e-7) {
				t.Errorf("p %v: d%s/dp %.12g, by differences %.12g", p, v.what, v.want, v.diff)
			}
		}
	}
	for _, deg := range []float64{5, 20, 41.5, 60, 85} {
		_, slope, err := spanOf(deg)
		if err != nil {
			t.Fatal(err)
		}
		lo, _ := Span(deg - 1e-3)
		hi, _ := Span(deg + 1e-3)
		if d := math.Abs(math.Log(hi/lo)/2e-3/slope - 1); !(d < 1e-6) {
			t.Errorf("%v°: d ln λ per degree %v is off by %.1e", deg, slope, d)
		}
	}
}

func TestHangSpanRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lam := math.Exp(rapid.Float64Range(math.Log(spanTiny), math.Log(18.5)).Draw(t, "ln span"))
		h, err := Hang(lam)
		if err != nil {
			t.Fatal(err)
		}
		deg := degrees(h.Droop)
		back, err := Span(deg)
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(back/lam - 1); !(d < 1e-12) {
			t.Fatalf("span %v droops %v°, back %v", lam, deg, back)
		}
		// A longer strip droops more.
		more, err := Hang(lam * 1.0001)
		if err != nil || more.Droop <= h.Droop {
			t.Fatalf("span %v: droop does not grow: %v to %v (%v)", lam, h.Droop, more.Droop, err)
		}
	})
}

// At the edges of the range and over it in fine steps, Newton needs few trials.
func TestTrials(t *testing.T) {
	most := 0
	for i := range 400 {
		lam := spanTiny * math.Pow(SpanMax/spanTiny, float64(i)/399)
		n := 0
		count := func(f func(trial) (float64, float64)) func(trial) (float64, float64) {
			return func(r trial) (float64, float64) { n++; return f(r) }
		}
		_, _, _, err := solve(spanStart(lam), count(func(r trial) (float64, float64) {
			return math.Log(r.span / lam), r.spanP / r.span
		}))
		if err != nil {
			t.Fatal(lam, err)
		}
		most = max(most, n)
		tan := math.Tan(DroopMax_deg / degrees(1) * math.Pow(float64(i+1)/400, 2))
		n = 0
		if _, _, _, err = solve(tanStart(tan), count(func(r trial) (float64, float64) {
			return math.Log(r.drop / r.x / tan), r.dropP/r.drop - r.xP/r.x
		})); err != nil {
			t.Fatal(tan, err)
		}
		most = max(most, n)
	}
	if most > 6 {
		t.Errorf("%d trials, want at most 6", most)
	}
	t.Logf("most trials: %d", most)
}

func TestElasticaRanges(t *testing.T) {
	for _, v := range []struct {
		name string
		err  func() error
		want string
	}{
		{"negative span", func() error { _, err := Hang(-1); return err }, "overhang in bending lengths -1 is outside 0.001 to 20"},
		{"long span", func() error { _, err := Hang(20.1); return err }, "overhang in bending lengths 20.1 is outside 0.001 to 20"},
		{"no number", func() error { _, err := Hang(math.NaN()); return err }, "overhang in bending lengths is not a number (0.001 to 20 is allowed)"},
		{"infinite", func() error { _, err := Hang(math.Inf(1)); return err }, "overhang in bending lengths +Inf is outside 0.001 to 20"},
		{"steep", func() error { _, err := Span(90); return err }, "droop 90 degrees is outside 0 to 89 degrees"},
		{"no angle", func() error { _, err := Span(math.NaN()); return err }, "droop is not a number (0 to 89 degrees is allowed)"},
	} {
		err := v.err()
		var re *RangeError
		if !errors.As(err, &re) || err.Error() != v.want {
			t.Errorf("%s: %v, want %q", v.name, err, v.want)
		}
	}
}

func BenchmarkSpan(b *testing.B) {
	b.ReportAllocs()
	for i := range b.N {
		if _, err := Span(5 + 80*float64(i%64)/63); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkHang(b *testing.B) {
	b.ReportAllocs()
	for i := range b.N {
		if _, err := Hang(0.5 + 3.5*float64(i%64)/63); err != nil {
			b.Fatal(err)
		}
	}
}
