package cloth

import (
	"cmp"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Slope_deg is the slope that swatches are held to: there the overhang is twice the
// bending length (Span(41.5) = 2.0003).
const Slope_deg = 41.5

// The swatch test at home: cut a straight strip along the thread (25 mm wide and
// at least 200 mm long by the standards, longer for starched cloth), slide it
// level over a table's edge until its tip reaches a known angle below level (or
// read the angle at any overhang), and read the overhang. Read it on both faces
// and from both ends: four readings a strip.

// Overhang is the overhang, mm, at which a strip of bending
// length c (1 to 500 mm) reaches the angle (5° to 85°). It is what a maker
// watches for: 'the swatch should reach the slope at 96 mm'. The answer may
// exceed the 500 mm that a Reading takes, where the angle is too steep for so stiff a
// cloth: choose a smaller one.
func Overhang(bend_mm, angle_deg float64) (float64, error) {
	if err := cmp.Or(checkBend("bending length", bend_mm), checkAngle(angle_deg)); err != nil {
		return 0, err
	}
	span, _, err := spanOf(angle_deg)
	return bend_mm * span, err
}

// normal95 is the normal distribution's 97.5 % quantile: half of a 95 % interval
// in standard errors.
const normal95 = 1.959963984540054

// student95 is Student's t for a two-sided 95 % interval with ν >= 1 degrees of
// freedom, rounded down to a whole number (on the wide side), by the inverse of the
// incomplete beta function (Abramowitz and Stegun 26.5.27, from
// memory). gonum's own distribution would link its linear algebra: 3.6 MB of the page's program.
func student95(freedom float64) float64 {
	if freedom > 1e9 { // +Inf too: gonum's quantile is for finite ones
		return normal95
	}
	if !(freedom >= 1) {
		freedom = 1
	}
	n := math.Floor(freedom)
	y := mathext.InvRegIncBeta(0.5, n/2, 0.95)
	return math.Sqrt(n * y / (1 - y))
}

func checkAngle(deg float64) error {
	return within("angle", deg, SwatchAngleMin_deg, SwatchAngleMax_deg, "degrees")
}

// bend gives c = overhang ÷ Span(angle), half the overhang at 41.5°, and its
// derivative by the angle, mm per degree. Exact for an evenly heavy, evenly stiff
// strip without curl, to 1e-12 (TestElasticaDigits).
func bend(r Reading) (c, perDegree float64, err error) {
	if err := cmp.Or(within("overhang", r.Overhang_mm, OverhangMin_mm, OverhangMax_mm, "mm"), checkAngle(r.Angle_deg)); err != nil {
		return 0, 0, err
	}
	span, logSlope, err := spanOf(r.Angle_deg)
	if err != nil {
		return 0, 0, err
	}
	c = r.Overhang_mm / span
	if err := checkBend("bending length", c); err != nil {
		return 0, 0, err
	}
	return c, -c * logSlope, nil
}

// Face is the side of the cloth that lay up.
type Face uint8

const (
	FaceNotTold Face = iota // read without keeping account of it
	FaceRight               // the right side up
	FaceWrong               // the wrong side up
)

// Reading is one overhang of the strip.
type Reading struct {
	Overhang_mm float64 // 10 to 500
	Angle_deg   float64 // of the line from the edge to the tip, below level, 5 to 85
	Face        Face    // which side lay up; all readings or none should tell
}

// Swatch is a strip's readings, one way of the cloth, and how well the ruler,
// the slope and the scales are known.
type Swatch struct {
	Readings     []Reading // 1 to 1,000; both faces and both ends make 4
	Mass_gm2     float64   // 1 to 2,000, of the strip as it hangs (starched: with the starch)
	MassErr_rel  float64   // half interval at 95 %, relative, 0 to 0.5; 0 = known exactly
	Ruler_mm     float64   // the ruler's step, or how well the edge is found, 0 to 10
	AngleErr_deg float64   // the slope's half interval at 95 %, degrees, 0 to 10; shared by all readings
}

// SingleReading is the relative half interval of the bending length that stands
// in for the scatter when one reading alone is given: ± 10 %, which is rigidity
// −27 % to +33 %. Common practice, no source.
const SingleReading = 0.10

// Measured is what a swatch says of the cloth, one way.
type Measured struct {
	Bend_mm      Bounds    // bending length: mean with its 95 % interval
	Rigidity_uNm Bounds    // with the interval carried, mass included
	Each_mm      []float64 // bending length by each reading
	// Spread_mm is the standard deviation of single readings (of one face's about
	// that face's mean where faces are told, so that a strip's curl is not counted
	// as scatter); 0 where it is not known (Freedom 0).
	Spread_mm float64
	Freedom   int     // degrees of freedom behind Spread_mm
	Error_mm  float64 // standard error of the mean: scatter, ruler and slope together
	// FaceGap_mm is the right face's mean less the wrong face's: the strip curls
	// where it is large. The mean of both faces is free of it to first order
	// (TestCurlCancels). 0 where both are not told.
	FaceGap_mm float64
	// Assumed says that the interval rests on SingleReading, not on scatter.
	Assumed bool
}

// Measure averages a swatch's readings to a bending length with its standard
// error, and carries it to the rigidity.
//
// With faces told in every reading, the mean is that of the two faces' means
// (curl adds to one face what it takes from the other) and the scatter is that
// about them, n − 2 degrees of freedom; else the plain mean, n − 1. The standard
// error of the mean joins, by root sum of squares, the scatter's, the ruler's
// step ÷ √12 (the same for all readings: no averaging), and the slope's. The
// interval is ± t · error, t for 95 % at the Welch–Satterthwaite degrees of
// freedom rounded down (Guide to the expression of uncertainty in measurement,
// JCGM 100:2008, G.4). One reading has no scatter: SingleReading stands in.
//
// Errors: RangeError for any number outside the range its field states, with the
// reading's number counted from 1.
func Measure(s Swatch) (Measured, error) {
	if err := s.check(); err != nil {
		return Measured{}, err
	}
	n := len(s.Readings)
	m := Measured{Each_mm: make([]float64, n)}
	var perMM, perDegree float64 // mean sensitivities of c
	for i, r := range s.Readings {
		c, d, err := bend(r)
		if err != nil {
			return Measured{}, fmt.Errorf("reading %d: %w", i+1, err)
		}
		m.Each_mm[i] = c
		perMM += c / r.Overhang_mm / float64(n)
		perDegree += d / float64(n)
	}
	mean, scatter := m.average(s.Readings)
	ruler := perMM * s.Ruler_mm / math.Sqrt(12)
	slope := perDegree * s.AngleErr_deg / normal95
	m.Error_mm = math.Hypot(scatter, math.Hypot(ruler, slope))
	half := normal95 * m.Error_mm
	switch {
	case m.Freedom == 0:
		m.Assumed = true
		m.Error_mm = math.Hypot(m.Error_mm, SingleReading*mean/normal95)
		half = normal95 * m.Error_mm
	case scatter > 0:
		q := m.Error_mm / scatter
		half = student95(float64(m.Freedom)*q*q*q*q) * m.Error_mm
	}
	m.Bend_mm = Bounds{mean, math.Max(0, mean-half), math.Min(10*BendMax_mm, mean+half)}
	var err error
	m.Rigidity_uNm, err = RigidityBounds(s.Mass_gm2, s.MassErr_rel, m.Bend_mm)
	return m, err
}

func (s Swatch) check() error {
	if n := len(s.Readings); n < 1 || n > maxReadings {
		return &RangeError{Field: "number of readings", Value: float64(n), Low: 1, High: maxReadings}
	}
	for i, r := range s.Readings {
		if r.Face > FaceWrong {
			return fmt.Errorf("reading %d: %w", i+1,
				&RangeError{Field: "face", Value: float64(r.Face), Low: 0, High: float64(FaceWrong)})
		}
	}
	return cmp.Or(checkMass(s.Mass_gm2), within("relative error of the mass", s.MassErr_rel, 0, massErrMax, ""),
		within("ruler's step", s.Ruler_mm, 0, rulerMax_mm, "mm"), within("error of the angle", s.AngleErr_deg, 0, angleErrMax_deg, "degrees"))
}

// average sets Spread, Freedom and FaceGap from Each, and returns the mean and
// its standard error by scatter alone.
func (m *Measured) average(readings []Reading) (mean, scatter float64) {
	var sum [3]float64
	var count [3]int
	for i, r := range readings {
		sum[r.Face] += m.Each_mm[i]
		count[r.Face]++
	}
	n := len(readings)
	mean = (sum[0] + sum[1] + sum[2]) / float64(n)
	about := [3]float64{mean, mean, mean}
	m.Freedom = n - 1
	share := 1 / float64(n) // variance of the mean ÷ that of a reading
	if count[FaceRight] > 0 && count[FaceWrong] > 0 {
		right, wrong := sum[1]/float64(count[1]), sum[2]/float64(count[2])
		m.FaceGap_mm = right - wrong
		if count[FaceNotTold] == 0 {
			mean = (right + wrong) / 2
			if n > 2 { // else the gap of the two is all the scatter there is
				about = [3]float64{mean, right, wrong}
				m.Freedom = n - 2
				share = (1/float64(count[1]) + 1/float64(count[2])) / 4
			}
		}
	}
	if m.Freedom == 0 {
		return mean, 0
	}
	var squares float64
	for i, r := range readings {
		d := m.Each_mm[i] - about[r.Face]
		squares += d * d
	}
	m.Spread_mm = math.Sqrt(squares / float64(m.Freedom))
	return mean, m.Spread_mm * math.Sqrt(share)
}
