package sim

import (
	"context"
	"fmt"
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/sim/cell"
	"ruffwright/sim/cloth"
)

// Limits are what a ruff may move; 0 or less leaves one out. The findings hold
// the project's own (check.Limits).
type Limits struct {
	Droop_mm      float64 // the outer edge's mean height as formed less as released; rising is no fault
	Bow_mm        float64 // largest move of the outer edge when the wearer bows 60°
	Lean_mm_per_g float64 // move sideways for the own weight (1 g of gravity) sideways, asked of untucked sets only: see package cell
}

// Needed is the answer of Need.
type Needed struct {
	Found       bool    `json:"found"`
	Reason      string  `json:"reason,omitempty"` // why no stiffness was found
	Bend_mm     float64 `json:"starch_bend_mm"`   // least bending length of the starched swatch; 0: no starch needed
	Overhang_mm float64 `json:"overhang_mm"`      // of that swatch at 41.5°
	Doubt       string  `json:"doubt,omitempty"`  // why the answer may not be reached with starch
	Governs     string  `json:"governs"`          // the limit that asks for it: droop, bow or lean
	Solves      int     `json:"solves"`

	// At Bend_mm, or at the stiffest tried where none was found.
	Droop_mm      float64 `json:"droop_mm"`
	Bow_mm        float64 `json:"bow_mm"`
	Lean_mm_per_g float64 `json:"lateral_mm_per_g"`
}

// swatchAngle_deg is the slope of the swatch test's edge-to-tip line.
const swatchAngle_deg = 41.5

const (
	stiffest_mm  = 250  // longest starch.bend that a scheme may hold
	needStep     = 1.25 // the scan's steps in bending length: rigidity × 2
	needBend_mm  = 0.5  // and what the answer is good to, half a swatch's reading
	needMostScan = 24
	// usual_mm is the most that starched cloth is expected to show (40 to 90 mm by
	// this project's estimate from masses and overhangs, no source).
	usual_mm = 90
)

// Need finds the least bending length of the starched cloth (starch.bend) with
// which droop, bow and lean stay within the limits, and the swatch overhang that
// shows it: the starch target. It is solved on a half set of the neckline's mean
// curvature at the scheme's quality of setting. The scan goes upward in steps of
// a quarter and believes a step only if the next holds as well, since tucked
// sets may jump between equilibria; then it halves.
//
// An error means bad input or a cancelled context. progress, which may be nil,
// is told the bending length tried and whether it holds.
func Need(ctx context.Context, s scheme.Scheme, grid cell.Grid, lim Limits, progress func(bend_mm float64, holds bool)) (Needed, error) {
	s.Starch.Bend = 0
	r, err := Draw(s)
	if err != nil {
		return Needed{}, err
	}
	filled := r.Plan.Scheme
	own, _, err := cloth.Along(filled.Cloth.BendWarp, filled.Cloth.BendWeft, filled.Strip.Along)
	if err != nil {
		return Needed{}, err
	}
	var out Needed
	var last *cell.Cell
	var failed error
	// try tells whether the bending length holds, and leaves its figures in out.
	try := func(bend float64) bool {
		q := r
		q.Plan.Scheme.Starch.Bend = bend
		d, err := Design(q)
		if err != nil {
			failed = err
			return false
		}
		out.Solves++
		c, err := cell.Solve(ctx, d, cell.Settings{Grid: grid, SkipOther: true, SkipBow: lim.Bow_mm <= 0, SkipTangents: lim.Lean_mm_per_g <= 0}, last)
		if err != nil {
			failed = err
			return false
		}
		holds := c.Converged()
		if holds {
			last = c
		}
		out.Droop_mm, out.Bow_mm, out.Lean_mm_per_g = c.Droop_mm, c.Bow_mm, 0
		if untucked(d) && c.LateralStable {
			out.Lean_mm_per_g = c.Lateral_mm_per_g
		}
		for _, l := range []struct {
			name         string
			value, limit float64
			asked        bool
		}{
			{"droop", out.Droop_mm, lim.Droop_mm, true},
			{"bow", out.Bow_mm, lim.Bow_mm, true},
			{"lean", out.Lean_mm_per_g, lim.Lean_mm_per_g, untucked(d)},
		} {
			bad := l.value > l.limit || l.name == "bow" && !c.BowDone || l.name == "lean" && !c.LateralStable
			if l.limit > 0 && l.asked && bad {
				holds = false
				out.Governs = l.name
			}
		}
		if progress != nil {
			progress(bend, holds)
		}
		return holds
	}

	done := func(bend float64) (Needed, error) {
		out.Found, out.Bend_mm = true, bend
		c := math.Max(bend, own)
		if bend > usual_mm {
			out.Doubt = fmt.Sprintf("starched cloth usually shows a bending length of 40 to %d mm (an estimate, no source): %.0f mm may be out of a starch's reach. Tuck the sewn folds, sew the other edge as well, or support it.", usual_mm, bend)
		}
		if out.Overhang_mm, err = cloth.Overhang(c, swatchAngle_deg); err != nil {
			return out, err
		}
		return out, nil
	}
	if try(0) {
		return done(0)
	}
	if failed != nil {
		return out, failed
	}
	low, high := own, 0.0
	before := false
	for k, c := 0, own*1.1; k < needMostScan; k, c = k+1, math.Min(stiffest_mm, c*needStep) {
		holds := try(c)
		if failed != nil {
			return out, failed
		}
		if !holds {
			low, before, high = c, false, 0
		} else {
			if high == 0 {
				high = c
			}
			if before || c >= stiffest_mm {
				break
			}
			before = true
		}
		if c >= stiffest_mm {
			break
		}
	}
	if high == 0 {
		what := map[string]string{"droop": fmt.Sprintf("the edge droops by %.1f mm", out.Droop_mm),
			"bow":  fmt.Sprintf("the edge swings by %.1f mm when the wearer bows", out.Bow_mm),
			"lean": fmt.Sprintf("the loops lean by %.1f mm for their own weight sideways", out.Lean_mm_per_g)}[out.Governs]
		if what == "" {
			what = "the cloth does not come to rest"
		}
		out.Reason = fmt.Sprintf("no starch answers this: even at a bending length of %d mm %s. Sew the other edge as well, or support it.", stiffest_mm, what)
		return out, nil
	}
	for high-low > needBend_mm {
		m := (low + high) / 2
		holds := try(m)
		if failed != nil {
			return out, failed
		}
		if holds {
			high = m
		} else {
			low = m
		}
	}
	governs := out.Governs
	try(high) // its own figures
	if failed != nil {
		return out, failed
	}
	out.Governs = governs
	return done(high)
}

// untucked reports that no tuck is sewn: the lean of tucked sets does not settle
// with the mesh and decides nothing.
func untucked(d cell.Design) bool { return d.TuckTop_mm == 0 && d.TuckBottom_mm == 0 }
