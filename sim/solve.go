package sim

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim/cell"
	"ruffwright/sim/cloth"
)

// Options steer Solve. The zero value solves on the fine grid and measures
// everything.
type Options struct {
	Grid cell.Grid // zero: cell.Fine
	// SkipBow leaves out the bow test, SkipOther the other equilibrium (sewn at
	// one edge), SkipTangents bob and lean: the shape alone comes several times
	// sooner. SkipFiner, and SkipTangents too, leaves out what a finer grid does to
	// the shape of tucked sets on the fine one, two fifths of their time.
	SkipBow, SkipOther, SkipTangents, SkipFiner bool
	// Warm is an earlier ruff to start from; nil starts cold. It costs nothing
	// where it does not fit.
	Warm *Solved
	// Progress is told how far the solve is, from the solving goroutine; nil
	// means no calls.
	Progress func(Progress)
}

// Progress is how far a solve is.
type Progress struct {
	Cell, Cells int // the half set at hand, counted from 0, of how many distinct ones
	Phase       string
	Iterations  int // factorisations for this half set
}

// Solve gives the whole ruff of s: plan, closed form and the solved mechanics of
// every distinct half set around the neckline.
//
// Half sets differ by the neckline's curvature alone (an ellipse has about a
// quarter of its panels distinct, a circle one); each starts from the one
// solved before it, so the cost is linear in their number. The bow test, the
// other equilibrium and the finer grid are tried on the least and the most curved
// ones only.
// Own marks are solved as regular sets of their mean panel (Solved.Alike).
//
// An error means bad input (it names the scheme's field) or a cancelled
// context, whose error it wraps; a ruff that did not come to rest is told by
// Solved.Converged.
func Solve(ctx context.Context, s scheme.Scheme, opt Options) (Ruff, error) {
	r, err := Draw(s)
	if err != nil {
		return Ruff{}, err
	}
	return Settle(ctx, r, opt)
}

// Settle is Solve for a ruff that is drawn already.
func Settle(ctx context.Context, r Ruff, opt Options) (Ruff, error) {
	design, err := Design(r)
	if err != nil {
		return r, err
	}
	kappas, of := distinct(r)
	grid := opt.Grid
	if grid == (cell.Grid{}) {
		grid = cell.Fine
	}
	out := &Solved{Of: of, Grid: grid, Alike: r.Plan.MarksOwn}
	for i, kappa := range kappas {
		d := design
		d.Kappa_1pmm = kappa
		ends := i == 0 || i == len(kappas)-1
		set := cell.Settings{
			Grid:         grid,
			SkipBow:      opt.SkipBow || !ends,
			SkipOther:    opt.SkipOther || !ends || d.Anchor == cell.Both,
			SkipTangents: opt.SkipTangents, Follow: ends && !d.Tucked(),
			Finer: !opt.SkipFiner && !opt.SkipTangents && ends && grid == cell.Fine && d.Tucked(),
		}
		if opt.Progress != nil {
			set.Progress = func(phase string, iterations int) {
				opt.Progress(Progress{Cell: i, Cells: len(kappas), Phase: phase, Iterations: iterations})
			}
		}
		c, err := cell.Solve(ctx, d, set, warmFor(opt.Warm, out.Cells, kappa))
		if err != nil {
			if ctx.Err() != nil {
				return r, fmt.Errorf("solve stopped at half set %d of %d: %w", i+1, len(kappas), ctx.Err())
			}
			return r, name(err)
		}
		out.Cells = append(out.Cells, c)
		out.Sets = append(out.Sets, measured(c, set))
	}
	for _, k := range of {
		out.Sets[k].Panels++
	}
	out.Ruff = whole(out.Sets)
	assemble(r.Plan, out)
	r.Solved = out
	return r, nil
}

// warmFor picks the cell to start from: the neighbour just solved, or, for the
// first, the earlier ruff's cell of the nearest curvature.
func warmFor(earlier *Solved, now []*cell.Cell, kappa float64) *cell.Cell {
	var best *cell.Cell
	if earlier != nil {
		for _, c := range earlier.Cells {
			if best == nil || math.Abs(c.Design.Kappa_1pmm-kappa) < math.Abs(best.Design.Kappa_1pmm-kappa) {
				best = c
			}
		}
	}
	if best == nil && len(now) > 0 {
		best = now[len(now)-1]
	}
	return best
}

// Design is the half set that stands for the ruff r, of the neckline's mean
// curvature. Its errors name the scheme's fields.
func Design(r Ruff) (cell.Design, error) {
	p := r.Plan
	s := p.Scheme
	sheet, err := cloth.FromScheme(s)
	if err != nil {
		return cell.Design{}, err
	}
	d := cell.Design{
		Panel_mm:      p.Panel_mm,
		Width_mm:      s.Ruff.Depth,
		Pitch_mm:      p.Pitch_mm,
		Kappa_1pmm:    2 * math.Pi / p.Neckline_mm,
		BandHeight_mm: s.Band.Height,
		BendU_uNm:     sheet.BendU_uNm,
		BendV_uNm:     sheet.BendV_uNm,
		FrozenU_uNm:   sheet.FrozenU_uNm,
		FrozenV_uNm:   sheet.FrozenV_uNm,
		Quality:       s.Starch.Quality,
		Mass_gm2:      sheet.Mass_gm2,
		Thickness_mm:  sheet.Thickness_mm,
		TuckTop_mm:    s.Pleat.TuckTop,
		TuckBottom_mm: s.Pleat.TuckBottom,
	}
	if d.Anchor, d.Sewn, err = sewing(p.Marks); err != nil {
		return d, name(err)
	}
	if s.Pleat.Lines == 2 {
		d.LineGap_mm = s.Pleat.LineGap
	}
	if s.Support.Kind != scheme.NoSupport {
		d.Support = true
		d.SupportDrop_mm, d.SupportSlope_deg = s.Support.Drop, s.Support.Slope
	}
	if err := d.Validate(); err != nil {
		return d, name(err)
	}
	return d, nil
}

// sewing reads off the marks what is sewn to which edge; the maker's own marks
// count by what most of a kind do, since the half set stands for regular ones.
func sewing(marks []pleat.Mark) (cell.Anchor, cell.Sewn, error) {
	count := map[scheme.Fold]map[scheme.Edge]int{scheme.Crest: {}, scheme.Trough: {}}
	for _, m := range marks {
		count[m.Fold][m.Edge]++
	}
	most := func(f scheme.Fold) scheme.Edge {
		best := scheme.EdgeNone
		for _, e := range []scheme.Edge{scheme.EdgeTop, scheme.EdgeBottom} {
			if count[f][e] > count[f][best] {
				best = e
			}
		}
		return best
	}
	crest, trough := most(scheme.Crest), most(scheme.Trough)
	to := map[scheme.Edge]cell.Anchor{scheme.EdgeTop: cell.Top, scheme.EdgeBottom: cell.Bottom}
	switch {
	case crest == scheme.EdgeTop && trough == scheme.EdgeBottom:
		return cell.Both, cell.Crests, nil
	case crest != scheme.EdgeNone && trough == scheme.EdgeNone:
		return to[crest], cell.Crests, nil
	case crest == scheme.EdgeNone && trough != scheme.EdgeNone:
		return to[trough], cell.Troughs, nil
	}
	return 0, 0, fmt.Errorf("pleat.marks: most top folds are sewn to %q and most bottom folds to %q; what can be solved is top folds to the top and bottom folds to the bottom edge, or one kind to one edge", crest, trough)
}

// ErrDesign is wrapped by the errors of schemes whose half set has no mechanics:
// one that the geometry's findings explain.
var ErrDesign = errors.New("these sets cannot be solved")

// name says in the scheme's keys what the half set's check says in its own.
func name(err error) error { return fmt.Errorf("%w: %s", ErrDesign, keys.Replace(err.Error())) }

var keys = strings.NewReplacer(
	"cell: ", "", "Panel_mm", "pleat.panel", "Width_mm", "ruff.depth", "Pitch_mm", "pleat.pitch",
	"Kappa_1pmm", "the neckline's curvature (1/mm)", "BandHeight_mm", "band.height",
	"TuckTop_mm", "pleat.tuck_top", "TuckBottom_mm", "pleat.tuck_bottom", "LineGap_mm", "pleat.line_gap",
	"BendU_uNm", "the cloth's rigidity along the strip (µN·m)", "BendV_uNm", "the cloth's rigidity across the strip (µN·m)",
	"FrozenU_uNm", "the starch's rigidity along the strip (µN·m)", "FrozenV_uNm", "the starch's rigidity across the strip (µN·m)",
	"Quality", "starch.quality", "Mass_gm2", "cloth.mass", "Thickness_mm", "cloth.thickness",
	"SupportDrop_mm", "support.drop", "SupportSlope_deg", "support.slope", "Slack", "slack",
)

// distinct gives the distinct curvatures of the ruff's half sets, ascending, and
// for every panel which of them is its own. Curvatures that differ by rounding
// alone are one.
func distinct(r Ruff) (kappas []float64, of []int) {
	half := r.Folded.Half
	of = make([]int, len(half))
	order := make([]int, len(half))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(half[a].Kappa_1pmm, half[b].Kappa_1pmm) })
	for _, i := range order {
		k := half[i].Kappa_1pmm
		if n := len(kappas); n == 0 || k-kappas[n-1] > 1e-9*r.Plan.Neckline_mm*k {
			kappas = append(kappas, k)
		}
		of[i] = len(kappas) - 1
	}
	return kappas, of
}
