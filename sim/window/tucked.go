package window

import (
	"context"
	"math"
	"math/rand/v2"

	"ruffwright/sim/cloth"
	"ruffwright/sim/measure"
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
	d.FrozenShear_Npm = cloth.Shear_Npm * min(k, 10)
	d.Quality = between(0.8, 1)
	return d
}

// Fresh is the same design with no starch in it.
func (d Design) Fresh() Design {
	d.FrozenU_uNm, d.FrozenV_uNm, d.FrozenShear_Npm = 0, 0, 0
	return d
}

// TuckedTally sums up how sure the shapes of tucked half sets are, and whether what is
// unsure is told.
type TuckedTally struct {
	Designs, Refused, Unconverged int
	// Sinking counts designs whose outer edge drops by more than 10 mm when released.
	Sinking int
	// Off counts those that were formed more than off_mm off their sticks' closed form.
	Off           int
	LargestOff_mm float64
	// Meshes, Paths and Bows count those whose Mesh_mm, Paths_mm and BowPart_mm are above
	// told_mm; Told counts those of which one is, so that the maker is told.
	Meshes, Paths, Bows, Told                          int
	LargestMesh_mm, LargestPaths_mm, LargestBowPart_mm float64
	// Jumps counts those that jump where panel and band grow by 1 %: a figure that a maker
	// measures changes by more than jump_mm and a hundredth of the panel, which is what
	// heights that follow their lengths may do. Silent counts those of them of which one
	// changes by more than the doubt that is told with it.
	Jumps, Silent                    int
	LargestJump_mm, LargestSilent_mm float64
	// Iterations are the factorisations of the cold solves of Fine shapes, Most the most.
	Iterations, Most int
}

// told_mm is the uncertainty above which a maker is told; jump_mm is what a jump is, off_mm
// what is off the closed form.
const told_mm, jump_mm, off_mm = 0.5, 1, 1

// rounding_mm is to what intervals are rounded outward where they are said.
const rounding_mm = 0.5

// Add solves a design on two meshes, in every way of forming, and once more with panel
// and band longer by 1 %.
func (y *TuckedTally) Add(ctx context.Context, d Design) error {
	if d.Validate() != nil {
		y.Refused++
		return nil
	}
	set := Settings{SkipOther: true, SkipTangents: true, Finer: true}
	c, err := Solve(ctx, d, set, nil)
	if err != nil {
		return err
	}
	y.Designs++
	count := func(n *int, yes bool) bool {
		if yes {
			*n++
		}
		return yes
	}
	above := func(n *int, largest *float64, v, limit float64) bool {
		*largest = math.Max(*largest, v)
		return count(n, v > limit)
	}
	y.Iterations += c.Iterations
	y.Most = max(y.Most, c.Iterations)
	count(&y.Unconverged, !c.Converged())
	count(&y.Sinking, c.Droop_mm > 10)
	above(&y.Off, &y.LargestOff_mm, c.FormedOff_mm, off_mm)
	mesh := above(&y.Meshes, &y.LargestMesh_mm, c.Mesh_mm, told_mm)
	paths := above(&y.Paths, &y.LargestPaths_mm, c.Paths_mm, told_mm)
	bow := above(&y.Bows, &y.LargestBowPart_mm, c.BowPart_mm, told_mm)
	count(&y.Told, mesh || paths || bow)

	d.Panel_mm *= 1.01
	d.BandHeight_mm *= 1.01
	if d.Validate() != nil {
		return nil
	}
	set.Finer = false
	q, err := Solve(ctx, d, set, nil)
	if err != nil || !c.Converged() || !q.Converged() {
		return err
	}
	jump, silent := 0., 0.
	for f := range measure.Figures {
		if f == measure.Bow && !(c.BowDone && q.BowDone) {
			continue
		}
		is, was := q.Figures()[f], c.Figures()[f]
		by := math.Max(0, math.Abs(is-was)-d.Panel_mm/100)
		jump = math.Max(jump, by)
		told := math.Max(c.Apart_mm[f], f.Surest_mm(was, true))
		if f == measure.Height {
			told = math.Max(told, c.FormedOff_mm)
		}
		if by > told+rounding_mm {
			silent = math.Max(silent, by)
		}
	}
	above(&y.Jumps, &y.LargestJump_mm, jump, jump_mm)
	above(&y.Silent, &y.LargestSilent_mm, silent, jump_mm)
	return nil
}
