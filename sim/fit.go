package sim

import (
	"context"
	"fmt"
	"math"

	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
	"ruffwright/sim/window"
)

// Fitted is the answer of Fit.
type Fitted struct {
	Found     bool    `json:"found"`
	Reason    string  `json:"reason,omitempty"` // why no panel was found
	Panel_mm  float64 `json:"panel_mm"`         // fold to fold; without Found the nearest tried
	Height_mm float64 `json:"height_outer_mm"`  // the solved height it gives
	Wanted_mm float64 `json:"wanted_mm"`
	ByEye_mm  float64 `json:"rule_of_thumb_panel_mm"` // the wanted height itself, as the rule 'a set takes twice the height' says: common practice, no source
	Drawn_mm  float64 `json:"closed_form_panel_mm"`   // what the closed form would take
	Solves    int     `json:"solves"`
}

// The panel is found when the solved height is within fitHeight_mm of the
// wanted one, or when the panels tried are nearer to each other than
// fitPanel_mm, half of what a mark is rounded to.
const (
	fitHeight_mm = 0.1
	fitPanel_mm  = 0.25
	// fitNear_mm is how far off the shortest or longest panel may still be taken:
	// what marks are rounded to.
	fitNear_mm = 0.5
)

// Fit finds the panel whose solved height at the outer edge is ruff.height, on a
// half set of the neckline's mean curvature. It brackets the height between the
// shortest panel that can be sewn (at both edges: slack 1) and twice the closed
// form's, then halves and interpolates. Where a solved height jumps over the
// wanted one (tucked sets have several equilibria) the reason says by how much.
//
// An error means bad input or a cancelled context. progress, which may be nil,
// is told the panel tried and its height.
func Fit(ctx context.Context, s scheme.Scheme, grid window.Grid, progress func(panel_mm, height_mm float64)) (Fitted, error) {
	s.Pleat.Panel = 0
	s = s.Planned()
	r, err := Draw(s)
	if err != nil {
		return Fitted{}, err
	}
	// The answer is a panel for the tucks as given.
	r.Plan.Row = r.Plan.AsGiven()
	want := r.Plan.Scheme.Ruff.Height
	free, err := curve.PanelForHeight(want, r.Plan.PitchOuter_mm/2)
	if err != nil {
		return Fitted{}, err
	}
	out := Fitted{Wanted_mm: want, ByEye_mm: want, Drawn_mm: free}
	height := func(panel float64) (float64, error) {
		q := r
		q.Plan.Panel_mm = panel
		d, err := Design(q)
		if err != nil {
			return 0, err
		}
		out.Solves++
		c, err := window.Solve(ctx, d, window.Settings{Grid: grid, SkipBow: true, SkipOther: true, SkipTangents: true}, nil)
		if err != nil {
			return 0, err
		}
		if !c.Converged() {
			return 0, fmt.Errorf("a panel of %.1f mm did not come to rest: %s", panel, c.Release.Status)
		}
		h := math.Abs(c.HeightOuter_mm)
		if progress != nil {
			progress(panel, h)
		}
		if out.Solves == 1 || math.Abs(h-want) < math.Abs(out.Height_mm-want) {
			out.Panel_mm, out.Height_mm = panel, h
		}
		return h, nil
	}

	lo, hi := shortest(r), 2*free
	if hi > maxPanel_mm {
		hi = maxPanel_mm
	}
	if lo >= hi {
		out.Reason = fmt.Sprintf("the sewn folds alone need %.1f mm fold to fold, more than the longest panel tried, %.1f mm", lo, hi)
		return out, nil
	}
	// The closed form is near: a bracket around it is the cheap case.
	a, b := math.Max(lo, 0.93*free), math.Min(hi, 1.1*free)
	if a >= b {
		a, b = lo, math.Min(hi, 1.2*lo)
	}
	ha, err := height(a)
	if err == nil && ha > want && a > lo {
		b, a = a, lo
		ha, err = height(a)
	}
	if err != nil {
		return out.refused(ctx, err)
	}
	if ha > want+fitNear_mm {
		out.Reason = fmt.Sprintf("already the shortest panel that can be sewn, %.1f mm, stands %.1f mm high: lower the band, make the tucks shallower, or wish for more height", a, ha)
		return out, nil
	}
	if ha > want {
		out.Found = true
		return out, nil
	}
	hb, err := height(b)
	for err == nil && hb < want && b < hi {
		a, ha = b, hb
		b = math.Min(hi, 1.25*b)
		hb, err = height(b)
	}
	if err != nil {
		return out.refused(ctx, err)
	}
	if hb < want-fitNear_mm {
		out.Reason = fmt.Sprintf("the longest panel tried, %.1f mm, stands only %.1f mm high", b, hb)
		return out, nil
	}
	for i := 0; math.Abs(out.Height_mm-want) > fitHeight_mm && b-a > fitPanel_mm/4; i++ {
		m := a + (b-a)*(want-ha)/(hb-ha)
		if i%3 == 2 || !(m > a+0.02*(b-a) && m < b-0.02*(b-a)) {
			m = (a + b) / 2
		}
		hm, err := height(m)
		if err != nil {
			return out.refused(ctx, err)
		}
		if hm < want {
			a, ha = m, hm
		} else {
			b, hb = m, hm
		}
	}
	if miss := math.Abs(out.Height_mm - want); miss > 10*fitHeight_mm {
		out.Reason = fmt.Sprintf("between panels of %.2f and %.2f mm the solved height jumps from %.1f to %.1f mm: these sets have more than one way to lie", a, b, ha, hb)
		return out, nil
	}
	out.Found = true
	return out, nil
}

// maxPanel_mm is the longest panel that a scheme may hold.
const maxPanel_mm = 200

// refused turns a solve that failed into an answer with its reason; a cancelled
// context stays an error.
func (f Fitted) refused(ctx context.Context, err error) (Fitted, error) {
	if ctx.Err() != nil {
		return f, ctx.Err()
	}
	f.Reason = err.Error()
	return f, nil
}

// shortest is the shortest panel in mm that can be sewn as r says: at both edges
// its inner edge is straight (slack 1), and it must leave a wave at the outer
// edge.
func shortest(r Ruff) float64 {
	p := r.Plan
	least := 1.05 * p.PitchOuter_mm / 2
	tucks := p.Row.Tuck(scheme.Crest) + p.Row.Tuck(scheme.Trough)
	if !p.Row.OneEdge() {
		return math.Max(least, 1.002*math.Hypot(p.Scheme.Band.Height, p.Pitch_mm/2)+tucks)
	}
	return math.Max(least, math.Max(1.05*p.Pitch_mm/2+tucks, tucks/0.85))
}
