package cloth

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/testdata/reference"
)

// peirce is Peirce's approximation c/L = (cos(θ/2) / (8 tan θ))^(1/3) (J. Text.
// Inst. 21 (1930) T377): a check, never the product's answer.
func peirce(deg float64) float64 {
	a := deg * math.Pi / 180
	return math.Cbrt(math.Cos(a/2) / (8 * math.Tan(a)))
}

// The exact c/L printed for a maker (four digits), and Peirce's beside it. That
// table was computed by another program; 10° to 70°.
func TestSwatchTable(t *testing.T) {
	for _, v := range []struct{ deg, exact, peirce, ratio float64 }{
		{10, 0.8896, 0.8905, 1.003},
		{20, 0.6938, 0.6967, 1.013},
		{30, 0.5879, 0.5936, 1.029},
		{35, 0.5470, 0.5542, 1.040},
		{41.5, 0.4999, 0.5093, 1.058},
		{45, 0.4763, 0.4870, 1.069},
		{50, 0.4438, 0.4564, 1.087},
		{60, 0.3801, 0.3969, 1.139},
		{70, 0.3112, 0.3340, 1.236},
	} {
		c, _, err := bend(Reading{Overhang_mm: 100, Angle_deg: v.deg})
		if err != nil {
			t.Fatal(err)
		}
		// Rounded to the last digit printed.
		if d := math.Abs(c/100 - v.exact); d > 0.51e-4 {
			t.Errorf("%v°: c/L %.5f, table %.4f", v.deg, c/100, v.exact)
		}
		if d := math.Abs(peirce(v.deg) - v.peirce); d > 0.51e-4 {
			t.Errorf("%v°: Peirce %.5f, table %.4f", v.deg, peirce(v.deg), v.peirce)
		}
		if r := math.Pow(peirce(v.deg)*100/c, 3); math.Abs(r-v.ratio) > 0.51e-3 {
			t.Errorf("%v°: rigidity by Peirce ÷ exact %.4f, table %.3f", v.deg, r, v.ratio)
		}
	}
}

// Peirce's formula against the exact shape, as the reference file has it: its
// deviation grows from 8e-6 at l/c 0.5 to 12 % at 4.
func TestPeirceDeviation(t *testing.T) {
	for _, row := range reference.Numbers(t, cantilever) {
		lam, deg := row["l_over_c"], row["theta_chord_deg"]
		span, err := Span(deg)
		if err != nil {
			t.Fatal(err)
		}
		if got := peirce(deg)*span - 1; math.Abs(got-row["peirce_dev"]) > 1e-9 {
			t.Errorf("l/c %v: Peirce off by %.9g, reference %.9g", lam, got, row["peirce_dev"])
		}
	}
}

// At 41.5° the bending length is half the overhang, to 0.02 %.
func TestHalving(t *testing.T) {
	for _, l := range []float64{10, 40, 96, 500} {
		c, _, err := bend(Reading{Overhang_mm: l, Angle_deg: 41.5})
		if err != nil || math.Abs(c/(l/2)-1) > 2e-4 {
			t.Errorf("overhang %v: c %v, %v", l, c, err)
		}
	}
}

func TestOverhangRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := math.Exp(rapid.Float64Range(math.Log(12), math.Log(70)).Draw(t, "ln c"))
		deg := rapid.Float64Range(5, 85).Draw(t, "angle")
		l, err := Overhang(c, deg)
		if err != nil {
			t.Fatal(err)
		}
		back, _, err := bend(Reading{Overhang_mm: l, Angle_deg: deg})
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(back/c - 1); !(d < 1e-14) {
			t.Fatalf("c %v at %v°: overhang %v, back %v", c, deg, l, back)
		}
	})
}

func four(right1, right2, wrong1, wrong2 float64) []Reading {
	return []Reading{
		{right1, 41.5, FaceRight}, {right2, 41.5, FaceRight},
		{wrong1, 41.5, FaceWrong}, {wrong2, 41.5, FaceWrong},
	}
}

// The statistics by hand: c = L/2.00035, faces (50, 52) and (44, 46) mm.
func TestMeasureByHand(t *testing.T) {
	const k = 2.0003496916 // reference: l/c at 41.5°
	m, err := Measure(Swatch{Readings: four(50, 52, 44, 46), Mass_gm2: 100})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", m.Bend_mm.Value, 48/k)
	near(t, "face gap", m.FaceGap_mm, 6/k)
	// Squares about the face means: 4 × 1², freedom 2: spread √2; mean of four: half.
	near(t, "spread", m.Spread_mm, math.Sqrt2/k)
	near(t, "error", m.Error_mm, math.Sqrt2/2/k)
	if m.Freedom != 2 || m.Assumed {
		t.Errorf("freedom %d, assumed %v", m.Freedom, m.Assumed)
	}
	half := 4.302652729911275 * math.Sqrt2 / 2 / k // t(0.975, 2), any table
	near(t, "low", m.Bend_mm.Low, 48/k-half)
	near(t, "high", m.Bend_mm.High, 48/k+half)
	near(t, "rigidity", m.Rigidity_uNm.Value, 9.80665e-6*100*math.Pow(48/k, 3))
	near(t, "rigidity low", m.Rigidity_uNm.Low, 9.80665e-6*100*math.Pow(48/k-half, 3))
	near(t, "rigidity high", m.Rigidity_uNm.High, 9.80665e-6*100*math.Pow(48/k+half, 3))

	// With a ruler of 2.5 mm steps (its error 2.5/√12 of the overhang, the scatter's
	// √2/2): Welch–Satterthwaite 2 × (1 + (2.5/√12)²/½)² = 8.3, down to 8.
	w, err := Measure(Swatch{Readings: four(50, 52, 44, 46), Mass_gm2: 100, Ruler_mm: 2.5})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "high with ruler", w.Bend_mm.High, (48+2.306004135204166*math.Sqrt(0.5+6.25/12))/k)

	// Faces not told: plain mean and spread, freedom 3.
	r := four(50, 52, 44, 46)
	for i := range r {
		r[i].Face = FaceNotTold
	}
	p, err := Measure(Swatch{Readings: r, Mass_gm2: 100})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "plain spread", p.Spread_mm, math.Sqrt((4+16+16+4)/3.)/k)
	near(t, "plain error", p.Error_mm, p.Spread_mm/2)
	if p.Freedom != 3 || p.FaceGap_mm != 0 {
		t.Errorf("freedom %d, gap %v", p.Freedom, p.FaceGap_mm)
	}

	// Unequal counts: the mean is that of the faces, so the curl still cancels.
	u, err := Measure(Swatch{Readings: append(four(50, 52, 44, 46), Reading{51, 41.5, FaceRight}), Mass_gm2: 100})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "unequal mean", u.Bend_mm.Value, 48/k)
	near(t, "unequal error", u.Error_mm, math.Sqrt(4./3*(1./3+1./2)/4)/k)
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*math.Max(1, math.Abs(want))) {
		t.Errorf("%s %.12g, want %.12g", what, got, want)
	}
}

// Ruler and slope do not average out; equal readings do not make certainty.
func TestMeasureInstruments(t *testing.T) {
	s := Swatch{Readings: four(50, 50, 50, 50), Mass_gm2: 100, Ruler_mm: 1, AngleErr_deg: 1}
	m, err := Measure(s)
	if err != nil {
		t.Fatal(err)
	}
	c := m.Bend_mm.Value
	_, slope, _ := spanOf(41.5)
	want := math.Hypot(c/50/math.Sqrt(12), c*slope/1.959963984540054)
	near(t, "error", m.Error_mm, want)
	near(t, "low", m.Bend_mm.Low, c-1.959963984540054*want)
	// One degree at 41.5° is 1.4 % of c, 4.2 % of the rigidity.
	if r := slope; !(r > 0.012 && r < 0.016) {
		t.Errorf("d ln c per degree %v", r)
	}
	s.MassErr_rel = 0.05
	wide, err := Measure(s)
	if err != nil {
		t.Fatal(err)
	}
	if !(wide.Rigidity_uNm.High > m.Rigidity_uNm.High && wide.Rigidity_uNm.Low < m.Rigidity_uNm.Low) {
		t.Error("a doubtful mass does not widen the rigidity")
	}
	if wide.Bend_mm != m.Bend_mm {
		t.Error("the mass changed the bending length, which is read by a ruler alone")
	}
}

// One reading: ± 10 % stands in, which is rigidity −27 % to +33 %.
func TestMeasureOnce(t *testing.T) {
	m, err := Measure(Swatch{Readings: []Reading{{Overhang_mm: 50, Angle_deg: 41.5}}, Mass_gm2: 100})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "low", m.Rigidity_uNm.Low/m.Rigidity_uNm.Value, 0.729)
	near(t, "high", m.Rigidity_uNm.High/m.Rigidity_uNm.Value, 1.331)
	if !m.Assumed || m.Freedom != 0 || m.Spread_mm != 0 {
		t.Errorf("%+v", m)
	}
}

// A strip with a curl of its own, solved here by shooting on the test's own
// integrator: one face reads long, the other short, and their mean is free of
// the curl to first order (the remainder falls with its square).
func TestCurlCancels(t *testing.T) {
	const lam = 2.0
	chord := func(curl float64) float64 {
		lo, hi := -1.5, 1.5 // tip slope; θ at the clamp rises with it
		for range 60 {
			mid := (lo + hi) / 2
			if end, _, _, _ := rk4(mid, curl, lam, 400); end < 0 {
				lo = mid
			} else {
				hi = mid
			}
		}
		_, x, z, _ := rk4((lo+hi)/2, curl, lam, 400)
		return degrees(math.Atan2(z, x))
	}
	var last float64
	for i, curl := range []float64{0.2, 0.1, 0.05} {
		const c = 25.0
		m, err := Measure(Swatch{Mass_gm2: 100, Readings: []Reading{
			{c * lam, chord(curl), FaceRight}, {c * lam, chord(-curl), FaceWrong},
		}})
		if err != nil {
			t.Fatal(err)
		}
		off := math.Abs(m.Bend_mm.Value - c)
		if gap := math.Abs(m.FaceGap_mm); !(gap > 20*curl && off < gap/10) {
			t.Errorf("curl %v: gap %v, mean off by %v", curl, gap, off)
		}
		if i > 0 && !(last/off > 3.5 && last/off < 4.5) {
			t.Errorf("curl %v: the mean's error falls by %v, want 4", curl, last/off)
		}
		last = off
		t.Logf("curl %.2f/c: faces differ by %.2f mm, mean off by %.3f mm", curl, m.FaceGap_mm, off)
	}
}

// Properties: the interval holds the value, turning the swatch over or counting
// readings in another order changes nothing, nothing is NaN.
func TestMeasureProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		s := Swatch{
			Mass_gm2:     rapid.Float64Range(10, 400).Draw(t, "mass"),
			MassErr_rel:  rapid.Float64Range(0, 0.5).Draw(t, "mass error"),
			Ruler_mm:     rapid.Float64Range(0, 10).Draw(t, "ruler"),
			AngleErr_deg: rapid.Float64Range(0, 10).Draw(t, "angle error"),
		}
		for range n {
			s.Readings = append(s.Readings, Reading{
				rapid.Float64Range(10, 400).Draw(t, "overhang"),
				rapid.Float64Range(6, 85).Draw(t, "angle"),
				Face(rapid.IntRange(0, 2).Draw(t, "face")),
			})
		}
		m, err := Measure(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range []Bounds{m.Bend_mm, m.Rigidity_uNm} {
			if !(b.Low >= 0 && b.Low <= b.Value && b.Value <= b.High) || math.IsInf(b.High, 0) {
				t.Fatalf("%+v", b)
			}
		}
		if !(m.Error_mm >= 0 && m.Spread_mm >= 0) || math.IsNaN(m.FaceGap_mm) {
			t.Fatalf("%+v", m)
		}
		turned := s
		turned.Readings = nil
		for i := n - 1; i >= 0; i-- {
			r := s.Readings[i]
			if r.Face != FaceNotTold {
				r.Face = FaceRight + FaceWrong - r.Face
			}
			turned.Readings = append(turned.Readings, r)
		}
		m2, err := Measure(turned)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(m2.Bend_mm.High-m.Bend_mm.High) > 1e-9*m.Bend_mm.High || math.Abs(m2.FaceGap_mm+m.FaceGap_mm) > 1e-9*m.Bend_mm.Value {
			t.Fatalf("turned over: %+v, before %+v", m2, m)
		}
	})
}

func TestSwatchRanges(t *testing.T) {
	good := Swatch{Readings: four(50, 52, 44, 46), Mass_gm2: 100}
	with := func(change func(*Swatch)) Swatch {
		s := good
		s.Readings = append([]Reading(nil), good.Readings...)
		change(&s)
		return s
	}
	for _, v := range []struct {
		swatch Swatch
		want   string
	}{
		{with(func(s *Swatch) { s.Readings[2].Overhang_mm = 5 }), "reading 3: overhang 5 mm is outside 10 to 500 mm"},
		{with(func(s *Swatch) { s.Readings[1].Angle_deg = 88 }), "reading 2: angle 88 degrees is outside 5 to 85 degrees"},
		{with(func(s *Swatch) { s.Readings[0].Overhang_mm = math.NaN() }), "reading 1: overhang is not a number (10 to 500 mm is allowed)"},
		{with(func(s *Swatch) { s.Readings[0] = Reading{500, 5, FaceRight} }), "reading 1: bending length 56"},
		{with(func(s *Swatch) { s.Readings[3].Face = 9 }), "reading 4: face 9 is outside 0 to 2"},
		{with(func(s *Swatch) { s.Readings = nil }), "number of readings 0 is outside 1 to 1000"},
		{with(func(s *Swatch) { s.Mass_gm2 = 0 }), "mass 0 g/m² is outside 1 to 2000 g/m²"},
		{with(func(s *Swatch) { s.MassErr_rel = -1 }), "relative error of the mass -1 is outside 0 to 0.5"},
		{with(func(s *Swatch) { s.Ruler_mm = math.Inf(1) }), "ruler's step +Inf mm is outside 0 to 10 mm"},
		{with(func(s *Swatch) { s.AngleErr_deg = 11 }), "error of the angle 11 degrees is outside 0 to 10 degrees"},
	} {
		if _, err := Measure(v.swatch); err == nil || !strings.HasPrefix(err.Error(), v.want) {
			t.Errorf("%v, want %q", err, v.want)
		}
	}
	if _, err := Measure(good); err != nil {
		t.Error(err)
	}
	if _, err := Overhang(0.5, 41.5); err == nil || err.Error() != "bending length 0.5 mm is outside 1 to 500 mm" {
		t.Error(err)
	}
	if _, err := Overhang(20, 4); err == nil || err.Error() != "angle 4 degrees is outside 5 to 85 degrees" {
		t.Error(err)
	}
}

func BenchmarkMeasure(b *testing.B) {
	s := Swatch{Readings: four(50, 52, 44, 46), Mass_gm2: 100, Ruler_mm: 1, AngleErr_deg: 1}
	b.ReportAllocs()
	for range b.N {
		if _, err := Measure(s); err != nil {
			b.Fatal(err)
		}
	}
}
