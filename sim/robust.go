package sim

import (
	"context"
	"fmt"
	"math"
	"runtime/debug"

	"ruffwright/geom/scheme"
)

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
	r, err := Draw(scheme.Random(seed))
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
	t.HalfSets += len(r.Solved.Halves)
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
