package sim

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime/debug"

	"ruffwright/geom/scheme"
)

// RandomScheme draws a whole scheme over the ranges of the table of fields, so
// that it includes what a maker may type, possible or not: neck or wrist, any
// ellipse, sets, depth, height, panel given or fitted, tucks, either edge or
// both, cloth, starch, supporter. Three of four sewn at both edges get a band
// that their cloth reaches across. Equal seeds give equal schemes.
func RandomScheme(seed uint64) scheme.Scheme {
	r := rand.New(rand.NewPCG(seed, 0x7363686d))
	s := scheme.Default()
	at := func(key string) (lo, hi float64) {
		f, _ := scheme.Lookup(key)
		f = f.For(s)
		return f.Min, f.Max
	}
	even := func(key string) float64 {
		lo, hi := at(key)
		return lo + (hi-lo)*r.Float64()
	}
	wide := func(key string) float64 {
		lo, hi := at(key)
		return lo * math.Pow(hi/lo, r.Float64())
	}
	if r.IntN(4) == 0 {
		s.Wearer.Part = scheme.Wrist
	}
	s.Wearer.Girth, s.Wearer.Ratio, s.Wearer.Ease = even("wearer.girth"), even("wearer.ratio"), even("wearer.ease")
	s.Ruff.Sets = int(math.Round(wide("ruff.sets")))
	s.Ruff.Depth, s.Ruff.Height = wide("ruff.depth"), wide("ruff.height")
	s.Pleat.Anchor = []scheme.Anchor{scheme.AnchorBoth, scheme.AnchorTop, scheme.AnchorBottom}[r.IntN(3)]
	s.Pleat.Sewn = []scheme.Folds{scheme.Crests, scheme.Troughs}[r.IntN(2)]
	s.Ruff.Flaps = []scheme.Hang{scheme.Fall, scheme.Stand}[r.IntN(2)]
	panel := s.Ruff.Height * 1.25
	if r.IntN(2) == 0 {
		s.Pleat.Panel = wide("pleat.panel")
		panel = s.Pleat.Panel
	}
	s.Pleat.TuckTop, s.Pleat.TuckBottom = 0, 0
	if r.IntN(2) == 0 {
		_, most := at("pleat.tuck_top")
		s.Pleat.TuckTop = math.Min(most, 0.4*panel*r.Float64())
		s.Pleat.TuckBottom = s.Pleat.TuckTop
	}
	s.Band.Height = wide("band.height")
	if s.Pleat.Anchor == scheme.AnchorBoth && r.IntN(4) > 0 {
		lo, hi := at("band.height")
		half := (s.Wearer.Girth + s.Wearer.Ease) / float64(2*s.Ruff.Sets)
		inner := (panel - s.Pleat.TuckTop - s.Pleat.TuckBottom) / (1 + r.Float64())
		s.Band.Height = math.Min(math.Max(math.Sqrt(math.Max(0, inner*inner-half*half)), lo), hi)
	}
	if r.IntN(5) == 0 {
		s.Pleat.Lines, s.Pleat.LineGap = 2, wide("pleat.line_gap")
	}
	s.Cloth.Mass, s.Cloth.Thickness = wide("cloth.mass"), wide("cloth.thickness")
	s.Cloth.BendWarp, s.Cloth.BendWeft = 8+52*r.Float64(), 8+52*r.Float64()
	if r.IntN(3) > 0 {
		own := s.Cloth.BendWeft
		_, most := at("starch.bend")
		s.Starch.Bend = math.Min(most, own*(1+4*r.Float64()))
		s.Starch.Quality = math.Sqrt(r.Float64())
	}
	if r.IntN(4) == 0 {
		s.Support.Kind = scheme.Supporter
		s.Support.Drop, s.Support.Slope = even("support.drop"), even("support.slope")
	}
	return s
}

// Trials is what became of random schemes.
type Trials struct {
	Schemes   int `json:"schemes"`
	Refused   int `json:"refused"`   // by validation, the plan or the half set's geometry, before any solve
	Solved    int `json:"solved"`    // tried
	Converged int `json:"converged"` // every half set came to rest
	Faults    int `json:"faults"`    // panics and numbers that are not finite
	HalfSets  int `json:"half_sets"` // distinct ones solved
	Most      int `json:"most_iterations"`

	Unconverged []uint64 `json:"unconverged"` // seeds
	Faulty      []string `json:"faulty"`      // seed and fault
}

// Robustness solves the random schemes of n seeds from first on as whole ruffs.
// report, which may be nil, is told after each. It ends early when ctx is
// cancelled.
func Robustness(ctx context.Context, first uint64, n int, opt Options, report func(done int)) Trials {
	var t Trials
	for k := 0; k < n && ctx.Err() == nil; k++ {
		t.try(ctx, first+uint64(k), opt)
		if report != nil {
			report(k + 1)
		}
	}
	return t
}

func (t *Trials) try(ctx context.Context, seed uint64, opt Options) {
	fault := func(format string, args ...any) {
		t.Faults++
		t.Faulty = append(t.Faulty, fmt.Sprintf("%d: ", seed)+fmt.Sprintf(format, args...))
	}
	defer func() {
		if p := recover(); p != nil {
			fault("panic: %v\n%s", p, debug.Stack())
		}
	}()
	t.Schemes++
	r, err := Draw(RandomScheme(seed))
	if err == nil {
		_, err = Design(r)
	}
	if err != nil {
		t.Refused++
		return
	}
	r, err = Settle(ctx, r, opt)
	if ctx.Err() != nil {
		t.Schemes--
		return
	}
	if err != nil {
		fault("refused after its design was not: %v", err)
		return
	}
	t.Solved++
	t.HalfSets += len(r.Solved.Cells)
	for _, m := range r.Solved.Sets {
		t.Most = max(t.Most, m.Iterations)
	}
	if !r.Solved.Converged() {
		t.Unconverged = append(t.Unconverged, seed)
	} else {
		t.Converged++
	}
	for _, p := range r.Solved.Shape.Panels {
		for _, q := range p.V {
			if s := q.X + q.Y + q.Z; math.IsNaN(s) || math.IsInf(s, 0) {
				fault("a node is not finite")
				return
			}
		}
	}
}
