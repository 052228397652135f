package window

import (
	"context"
	"math"
	"math/rand/v2"
)

// RandomTucked draws a starched, tucked half set as a maker would plan it:
// slack 1 to 1.2 where both edges are sewn, frozen part 5 to 100 times the
// cloth's rigidity.
func RandomTucked(seed uint64) Design {
	r := rand.New(rand.NewPCG(seed, 0x7475636b))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	wide := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
	d := DefaultDesign()
	d.Panel_mm, d.Width_mm = between(35, 90), between(45, 110)
	d.Pitch_mm = d.Panel_mm * between(0.12, 0.3)
	d.Kappa_1pmm = 2 * math.Pi / between(320, 480)
	d.Anchor, d.Sewn = Anchor(r.IntN(3)), Crests
	if d.Anchor == Bottom {
		d.Sewn = Troughs
	}
	d.TuckTop_mm = d.Panel_mm * between(0.08, 0.2)
	d.TuckBottom_mm = d.TuckTop_mm
	l := (d.Panel_mm - 2*d.TuckTop_mm) / between(1.0001, 1.2)
	d.BandHeight_mm = math.Sqrt(l*l - d.Pitch_mm*d.Pitch_mm/4)
	if d.Anchor != Both {
		d.BandHeight_mm = d.Panel_mm * between(0.4, 0.7)
	}
	d.Mass_gm2, d.Thickness_mm = between(60, 180), between(0.12, 0.35)
	b := d.Mass_gm2 * 9.80665e-6 * math.Pow(between(14, 32), 3)
	d.BendU_uNm, d.BendV_uNm = b, b*wide(0.8, 1.25)
	k := wide(5, 100)
	d.FrozenU_uNm, d.FrozenV_uNm = k*d.BendU_uNm, k*d.BendV_uNm
	d.Quality = between(0.8, 1)
	return d
}

// TuckedTally sums up what the mesh and the start do to starched tucked sets.
type TuckedTally struct {
	Designs, Refused, Unconverged int
	// Sinking counts designs whose outer edge drops by more than 10 mm when released.
	Sinking int
	// Moved counts designs whose outer heights differ by more than 1 mm between
	// Fine and Finest, MovedSinking those of them that sink; LargestMove_mm is the
	// largest.
	Moved, MovedSinking int
	LargestMove_mm      float64
	// Over40 counts cold Fine solves of more than 40 factorisations.
	Over40, Most int
	Iterations   float64 // their mean
	// Apart counts designs whose outer heights differ by more than 0.5 mm
	// between four starts: one cold, three from neighbouring designs.
	Apart            int
	LargestSpread_mm float64
}

// Tucked solves n designs of RandomTucked from seed first on, on two meshes and
// from four starts.
func Tucked(ctx context.Context, first uint64, n int) (y TuckedTally, err error) {
	set := Settings{SkipBow: true, SkipOther: true, SkipTangents: true}
	fine := set
	fine.Grid = Finest
	apart := func(a, b *Window) float64 {
		return math.Max(math.Abs(a.TopOuter_mm-b.TopOuter_mm), math.Abs(a.BottomOuter_mm-b.BottomOuter_mm))
	}
	for k := range n {
		d := RandomTucked(first + uint64(k))
		if d.Validate() != nil {
			y.Refused++
			continue
		}
		c, err := Solve(ctx, d, set, nil)
		if err != nil {
			return y, err
		}
		f, err := Solve(ctx, d, fine, nil)
		if err != nil {
			return y, err
		}
		y.Designs++
		if !c.Converged() || !f.Converged() {
			y.Unconverged++
		}
		y.Iterations += float64(c.Iterations)
		y.Most = max(y.Most, c.Iterations)
		if c.Iterations > 40 {
			y.Over40++
		}
		move := apart(c, f)
		y.LargestMove_mm = math.Max(y.LargestMove_mm, move)
		sinks := c.Droop_mm > 10
		if sinks {
			y.Sinking++
		}
		if move > 1 {
			y.Moved++
			if sinks {
				y.MovedSinking++
			}
		}
		spread := 0.0
		for _, change := range []func(*Design){
			func(q *Design) { q.Pitch_mm *= 1.1 },
			func(q *Design) { q.Kappa_1pmm *= 0.8 },
			func(q *Design) { q.BendU_uNm *= 1.5; q.FrozenU_uNm *= 1.5 },
		} {
			q := d
			change(&q)
			near, err := Solve(ctx, q, set, nil)
			if err != nil {
				if ctx.Err() != nil {
					return y, err
				}
				continue // the neighbour is no design
			}
			w, err := Solve(ctx, d, set, near)
			if err != nil {
				return y, err
			}
			spread = math.Max(spread, apart(c, w))
		}
		y.LargestSpread_mm = math.Max(y.LargestSpread_mm, spread)
		if spread > 0.5 {
			y.Apart++
		}
	}
	if y.Designs > 0 {
		y.Iterations /= float64(y.Designs)
	}
	return y, nil
}
