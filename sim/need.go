package sim

import (
	"context"
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/cloth"
	"ruffwright/sim/measure"
	"ruffwright/sim/window"
)

// Limits are how far a ruff may move, as in measure.Values. A limit of 0 or less is
// not asked for. The project's own limits are check.Limits.
type Limits struct {
	Droop_mm      float64 // rising is no fault
	Bow_mm        float64
	Lean_mm_per_g float64 // Lateral_mm_per_g; of tucked sets it is asked only that loops pushed over stand up again
	Apart_mm      float64 // Paths_mm: how unlike tucked sets may be
}

// Needed is the answer of Need.
type Needed struct {
	Found       bool      `json:"found"`
	Reason      word.Text `json:"reason,omitzero"` // why no stiffness was found
	Bend_mm     float64   `json:"starch_bend_mm"`  // least bending length of the starched swatch; 0: no starch needed
	Overhang_mm float64   `json:"overhang_mm"`     // of that swatch at 41.5°
	Doubt       word.Text `json:"doubt,omitzero"`  // why the answer may not be reached with starch, or not be all
	Governs     string    `json:"governs"`         // the limit that asks for it: droop, bow, lean or alike
	Solves      int       `json:"solves"`

	// At Bend_mm, or at the stiffest tried where none was found.
	Droop_mm      float64 `json:"droop_mm"`
	Bow_mm        float64 `json:"bow_mm"`
	Lean_mm_per_g float64 `json:"lateral_mm_per_g"`
	Paths_mm      float64 `json:"paths_mm"` // of tucked sets, where it is asked
}

// stiffest_mm is the longest starch.bend that a scheme may hold.
const stiffest_mm = 250

// Need finds the least bending length of the starched cloth (starch.bend) with
// which droop, bow and lean stay within the limits and tucked sets come alike, and the
// swatch overhang that shows it: the starch target, at the scheme's quality of setting.
//
// It looks for droop, bow and lean on the least and the most curved half set, each
// started from where it lay before. Then the whole ruff is solved from a cold start with
// what was found, and with half a millimetre more and less. Where one of the three leaves
// the limits, the search goes on above. Then a twentieth less and a seventh more are
// tried: where the one holds or the other does not, more starch is not always firmer, and
// the answer says so. Last it looks whether tucked sets so starched stand up again when
// pushed over, and come alike however their sticks are put in, and if not, whether more
// starch makes them so.
//
// An error means bad input or a cancelled context. progress, which may be nil,
// is told the bending length tried and whether it holds.
func Need(ctx context.Context, s scheme.Scheme, grid window.Grid, lim Limits, progress func(bend_mm float64, holds bool)) (Needed, error) {
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
	d, err := Design(r)
	if err != nil {
		return Needed{}, err
	}
	n := needing{ctx: ctx, scheme: s, drawn: r, tucked: d.Tucked(), grid: grid, lim: lim, progress: progress, own_mm: own, at: map[float64]figures{}}
	n.kappas, _ = distinct(r)
	if k := len(n.kappas); k > 2 {
		n.kappas = []float64{n.kappas[0], n.kappas[k-1]}
	}
	n.last = make([]*window.Window, len(n.kappas))
	err = n.answer()
	if err != nil || !n.out.Found {
		return n.out, err
	}
	if n.out.Bend_mm > cloth.StarchedMost_mm {
		n.doubt("starched cloth usually shows a bending length of 40 to %d mm (an estimate, no source): %s mm may be out of a starch's reach. Tuck the sewn folds, sew the other edge as well, or support it.", cloth.StarchedMost_mm, word.Number{Value: n.out.Bend_mm})
	}
	n.out.Overhang_mm, err = cloth.Overhang(math.Max(n.out.Bend_mm, own), cloth.Slope_deg)
	return n.out, err
}

// needing is a Need under way.
type needing struct {
	ctx      context.Context
	scheme   scheme.Scheme
	drawn    Ruff
	grid     window.Grid
	lim      Limits
	progress func(bend_mm float64, holds bool)

	tucked bool             // a tuck is sewn
	own_mm float64          // bending length of the cloth itself
	kappas []float64        // the least and the greatest curvature of the neckline, 1/mm
	last   []*window.Window // where their half sets lay when last tried
	at     map[float64]figures
	out    Needed // its figures are of what was tried last
}

// figures are what a bending length came to when it was last tried.
type figures struct{ droop, bow, lean float64 }

// doubt adds a sentence to the doubts about the answer.
func (n *needing) doubt(english string, with ...any) {
	n.out.Doubt = word.Join(" ", n.out.Doubt, word.Say(english, with...))
}

// found makes a bending length the answer.
func (n *needing) found(bend_mm float64) {
	f := n.at[bend_mm]
	n.out.Found, n.out.Bend_mm = true, bend_mm
	n.out.Droop_mm, n.out.Bow_mm, n.out.Lean_mm_per_g = f.droop, f.bow, f.lean
}

// answer looks for the answer and puts it into out.
func (n *needing) answer() error {
	holds, err := n.quick(0)
	if err != nil {
		return err
	}
	bend := 0.0
	if !holds {
		broken := 0.0
		if bend, broken, err = (search{n.quick, n.cold}).least(n.own_mm); err != nil {
			return err
		}
		if bend == 0 {
			n.out.Reason = n.reason(broken)
			return nil
		}
		if bend, err = n.either(bend); err != nil {
			return err
		}
	}
	n.found(bend)
	if n.tucked {
		return n.sure()
	}
	return nil
}

// either tries a little less and somewhat more starch than bend_mm, which holds, and
// returns the answer: where more does not hold, what holds above that, if anything does.
func (n *needing) either(bend_mm float64) (float64, error) {
	governs := n.out.Governs
	q := search{n.cold, n.cold}
	answer, broken, err := q.above(bend_mm)
	if err != nil {
		return 0, err
	}
	n.out.Governs = governs
	less, err := q.below(answer, n.own_mm)
	switch {
	case err != nil:
		return 0, err
	case answer > bend_mm:
		n.doubt("more starch is not always firmer here: a bending length of %s mm keeps the limits too, but %s mm does not.", tenths(bend_mm), tenths(broken))
	case broken > 0:
		n.doubt("more starch is not always firmer here: a bending length of %s mm does not keep the limits. Keep to the answer closely.", tenths(broken))
	}
	if less > 0 {
		n.doubt("more starch is not always firmer here: a bending length of %s mm keeps the limits too.", tenths(less))
	}
	return answer, nil
}

// ends solves the least and the most curved half set with so much starch, from where
// they lay in start, which may be nil, and keeps there where they lie.
func (n *needing) ends(bend_mm float64, set window.Settings, start []*window.Window, each func(*window.Window)) error {
	q := n.drawn
	q.Plan.Scheme.Starch.Bend = bend_mm
	d, err := Design(q)
	if err != nil {
		return err
	}
	set.SkipOther = true
	for i, kappa := range n.kappas {
		d.Kappa_1pmm = kappa
		var from *window.Window
		if start != nil {
			from = start[i]
		}
		c, err := window.Solve(n.ctx, d, set, from)
		if n.ctx.Err() != nil {
			return n.ctx.Err()
		}
		if err != nil {
			return refused(err, q.Plan)
		}
		if start != nil && c.Converged() {
			start[i] = c
		}
		each(c)
		n.out.Solves++
	}
	return nil
}

// quick tries a bending length on the least and the most curved half set, from
// where they lay before.
func (n *needing) quick(bend_mm float64) (bool, error) {
	var sets []measure.Values
	err := n.ends(bend_mm, window.Settings{Grid: n.grid, SkipBow: n.lim.Bow_mm <= 0, SkipTangents: !n.leanAsked()}, n.last, func(c *window.Window) {
		c.Panels = 1
		sets = append(sets, c.Values)
	})
	if err != nil {
		return false, err
	}
	return n.judge(bend_mm, measure.Whole(sets)), nil
}

// cold tries a bending length on the whole ruff, from a cold start.
func (n *needing) cold(bend_mm float64) (bool, error) {
	s := n.scheme
	s.Starch.Bend = bend_mm
	r, err := Solve(n.ctx, s, Options{Grid: n.grid, SkipOther: true, SkipFiner: true, SkipBow: n.lim.Bow_mm <= 0, SkipTangents: !n.leanAsked()})
	if err != nil {
		return false, err
	}
	n.out.Solves += len(r.Solved.Sets)
	return n.judge(bend_mm, r.Solved.Ruff), nil
}

// leanAsked reports whether lean counts as a number: it is limited and no tuck is sewn.
// The lean of tucked sets hangs on the solver's mesh; see lacks.
func (n *needing) leanAsked() bool { return n.lim.Lean_mm_per_g > 0 && !n.tucked }

// judge puts the figures of m into the answer and tells whether m keeps the limits.
// Governs becomes the last that it does not keep.
func (n *needing) judge(bend_mm float64, m measure.Values) bool {
	out := &n.out
	holds := m.Converged
	out.Droop_mm, out.Bow_mm, out.Lean_mm_per_g = m.Droop_mm, m.Bow_mm, 0
	if n.leanAsked() && m.LateralStable {
		out.Lean_mm_per_g = m.Lateral_mm_per_g
	}
	n.at[bend_mm] = figures{out.Droop_mm, out.Bow_mm, out.Lean_mm_per_g}
	for _, l := range []struct {
		name  string
		asked bool
		bad   bool
	}{
		{"droop", n.lim.Droop_mm > 0, out.Droop_mm > n.lim.Droop_mm},
		{"bow", n.lim.Bow_mm > 0, out.Bow_mm > n.lim.Bow_mm || !m.BowDone},
		{"lean", n.leanAsked(), out.Lean_mm_per_g > n.lim.Lean_mm_per_g || !m.LateralStable},
	} {
		if l.asked && l.bad {
			holds = false
			out.Governs = l.name
		}
	}
	if n.progress != nil {
		n.progress(bend_mm, holds)
	}
	return holds
}

// reason says why there is no answer. broken_mm is the last length that did not hold
// from a cold start, 0 where none was found at all. The figures are of the last try.
func (n *needing) reason(broken_mm float64) word.Text {
	if broken_mm > 0 {
		return word.Say("no starch can be named: some seem to keep the ruff within the limits, but solved afresh at a bending length of %s mm %s. These sets can lie in more than one way. Sew the other edge as well, or support it.", tenths(broken_mm), n.wrong())
	}
	return word.Say("no starch answers this: even at a bending length of %d mm %s. Sew the other edge as well, or support it.", stiffest_mm, n.wrong())
}

// wrong says which limit the last try did not keep, and how far the ruff moved.
func (n *needing) wrong() word.Text {
	switch n.out.Governs {
	case "droop":
		return word.Say("the edge droops by %s mm", tenths(n.out.Droop_mm))
	case "bow":
		return word.Say("the edge swings by %s mm when the wearer bows", tenths(n.out.Bow_mm))
	case "lean":
		return word.Say("the loops lean by %s mm under a sideways pull as strong as their weight", tenths(n.out.Lean_mm_per_g))
	}
	return word.Say("the cloth does not come to rest")
}
