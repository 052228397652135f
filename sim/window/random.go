package window

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime/debug"

	"ruffwright/sim/measure"
)

// Trial is one random design and what became of it.
type Trial struct {
	Seed   uint64
	Design Design
	// Refused is why the design was turned down before solving, nil if it was
	// solved.
	Refused error
	Window  *Window
	// Fault tells of a panic or of a number that is not finite; "" if none.
	Fault string
}

// RandomDesign draws half a set from the scheme's own field ranges: what a maker may
// type, possible or not. Equal seeds give equal designs.
func RandomDesign(seed uint64) Design {
	r := rand.New(rand.NewPCG(seed, 0x72756666))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	wide := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
	girth := between(100, 560) + between(0, 80)
	sets := math.Round(wide(8, 400))
	ratio := between(0.5, 2)
	// curvature of an ellipse of that breadth ÷ depth at a random place
	b := girth / (2 * math.Pi) / math.Sqrt((1+ratio*ratio)/2)
	a := ratio * b
	s, c := math.Sincos(between(0, math.Pi/2))
	kappa := a * b / math.Pow(a*a*s*s+b*b*c*c, 1.5)
	d := Design{
		Panel_mm: wide(5, 200), Width_mm: wide(10, 300), Pitch_mm: girth / sets, Kappa_1pmm: kappa,
		BandHeight_mm: wide(5, 80), Anchor: Anchor(r.IntN(3)), Sewn: Sewn(r.IntN(2)),
		Mass_gm2: wide(10, 400), Thickness_mm: wide(0.03, 1.5), Quality: math.Sqrt(r.Float64()),
	}
	if r.IntN(3) > 0 {
		// a maker's pitch: what the form's range allows, near what fits
		d.Pitch_mm = min(max(d.Panel_mm*wide(0.08, 1), 1), 60)
	}
	if r.IntN(2) == 0 {
		d.TuckTop_mm = math.Min(wide(1, 40), 0.45*d.Panel_mm)
		d.TuckBottom_mm = d.TuckTop_mm
		if r.IntN(4) == 0 {
			d.TuckBottom_mm = 0
		}
	}
	if d.Anchor == Both && r.IntN(4) > 0 {
		// a band that the cloth reaches across with a slack of 1 to 2
		l := (d.Panel_mm - d.TuckTop_mm - d.TuckBottom_mm) / between(1, 2)
		if h := math.Sqrt(math.Max(l*l-d.Pitch_mm*d.Pitch_mm/4, 0)); h >= 5 && h <= 80 {
			d.BandHeight_mm = h
		}
	}
	if r.IntN(5) == 0 {
		d.LineGap_mm = wide(2, 30)
	}
	rigid := func(c float64) float64 { return d.Mass_gm2 * 9.80665e-6 * c * c * c }
	cu := wide(8, 60)
	d.BendU_uNm, d.BendV_uNm = rigid(cu), rigid(cu*wide(0.7, 1.4))
	if r.IntN(3) > 0 {
		k := wide(1, 100)
		d.FrozenU_uNm, d.FrozenV_uNm = k*d.BendU_uNm, k*d.BendV_uNm
	}
	if r.IntN(4) == 0 {
		d.Support, d.SupportDrop_mm, d.SupportSlope_deg = true, between(0, 60), between(-30, 60)
	}
	return d
}

// Try solves RandomDesign(seed) and catches panics and numbers that are not
// finite.
func Try(ctx context.Context, seed uint64, set Settings) (t Trial) {
	t = Trial{Seed: seed, Design: RandomDesign(seed)}
	defer func() {
		if p := recover(); p != nil {
			t.Fault = fmt.Sprintf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	if t.Refused = t.Design.Validate(); t.Refused != nil {
		return t
	}
	c, err := Solve(ctx, t.Design, set, nil)
	t.Window = c
	if err != nil {
		t.Fault = err.Error()
		return t
	}
	if !c.finite() {
		t.Fault = "a result is not finite"
	}
	return t
}

// Tally sums up trials.
type Tally struct {
	Trials, Refused, Solved, Converged, Faults int
	// Iterations is the mean and Most the largest number of factorisations of
	// the solved designs (forming and release); Over40 counts those above 40.
	Iterations   float64
	Most, Over40 int
	// Unconverged lists the seeds that did not come to rest, Faulty those with a
	// fault.
	Unconverged, Faulty []uint64
}

// Robustness tries the designs of n seeds from first on; each is told to
// report, which may be nil. It ends early when ctx is cancelled.
func Robustness(ctx context.Context, first uint64, n int, set Settings, report func(Trial)) Tally {
	var y Tally
	for k := range n {
		if ctx.Err() != nil {
			break
		}
		t := Try(ctx, first+uint64(k), set)
		y.Trials++
		switch {
		case t.Fault != "":
			y.Faults++
			y.Faulty = append(y.Faulty, t.Seed)
		case t.Refused != nil:
			y.Refused++
		default:
			y.Solved++
			y.Iterations += float64(t.Window.Iterations)
			y.Most = max(y.Most, t.Window.Iterations)
			if t.Window.Iterations > 40 {
				y.Over40++
			}
			if t.Window.Converged() {
				y.Converged++
			} else {
				y.Unconverged = append(y.Unconverged, t.Seed)
			}
		}
		if report != nil {
			report(t)
		}
	}
	if y.Solved > 0 {
		y.Iterations /= float64(y.Solved)
	}
	return y
}

// finite reports whether every number of the window is.
func (c *Window) finite() bool {
	numbers := []float64{c.Release.Energy.Total(), c.Form.Residual}
	for i := range measure.Table {
		x, _ := measure.Table[i].Number(&c.Values)
		numbers = append(numbers, x)
	}
	for _, v := range numbers {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	for _, s := range [][]float64{c.Formed, c.Shape, c.BowedFront, c.BowedBack} {
		for _, v := range s {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return false
			}
		}
	}
	return true
}
