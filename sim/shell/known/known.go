// Package known is a library of problems with answers from outside this
// project, run on the very solver that solves ruffs: textbook curves and cases
// of the finite-element program CalculiX, half sets of a ruff among them, which are
// made by the code that makes the ruffs' (package window). The tests and `ruffwright
// verify` run the same list.
//
// The reference numbers stand here with their source; a test
// holds them equal to the files in testdata/reference.
package known

import (
	"context"
	"fmt"
	"math"

	"ruffwright/sim/shell"
)

// Problem is one number that is known from elsewhere.
type Problem struct {
	// Name says what is solved, Source where Reference comes from.
	Name, Source string
	// Unit of Reference, of Run's value and, where Relative is false, of Allowed.
	Unit string
	// Reference is the known value.
	Reference float64
	// Allowed is the largest deviation at this problem's mesh: a share of
	// Reference if Relative, else in Unit.
	Allowed  float64
	Relative bool
	// Why says why more than a tenth of Reference is allowed; empty where it is not.
	Why string
	// Slow marks problems that take more than about a second natively.
	Slow bool
	// Run computes the value.
	Run func(context.Context) (float64, error)
}

// Outcome is one problem as computed.
type Outcome struct {
	Problem
	Value float64
	// Deviation is Value − Reference, divided by Reference if Relative.
	Deviation float64
	// Held reports |Deviation| ≤ Allowed and no error.
	Held bool
	Err  error
}

// Check runs one problem.
func Check(ctx context.Context, p Problem) Outcome {
	o := Outcome{Problem: p}
	o.Value, o.Err = p.Run(ctx)
	o.Deviation = o.Value - p.Reference
	if p.Relative {
		o.Deviation /= p.Reference
	}
	o.Held = o.Err == nil && math.Abs(o.Deviation) <= p.Allowed
	return o
}

// All returns every problem, quick ones first within each family.
func All() []Problem {
	var all []Problem
	all = append(all, Cantilevers()...)
	all = append(all, Elasticas()...)
	all = append(all, Contacts()...)
	all = append(all, Curtains()...)
	all = append(all, Arcs()...)
	all = append(all, Panels()...)
	all = append(all, Corrugations()...)
	all = append(all, Sticks()...)
	return append(all, HalfSets()...)
}

// even returns n+1 equally spaced grid lines from 0 to l.
func even(n int, l float64) []float64 {
	c := make([]float64, n+1)
	for k := range c {
		c[k] = l * float64(k) / float64(n)
	}
	return c
}

// solved runs a fresh solver and turns a status into an error.
func solved(ctx context.Context, sh *shell.Sheet, x []float64, set shell.Settings) (shell.Result, error) {
	s, err := shell.NewSolver(sh)
	if err != nil {
		return shell.Result{}, err
	}
	r := s.Solve(ctx, x, set)
	if err := r.Status.Err(); err != nil {
		return r, fmt.Errorf("%w: residual %.3g of %.3g mN after %d factorisations", err, r.Residual, r.Tolerance, r.Iterations)
	}
	return r, nil
}

// graded returns n+1 grid lines on [0, l], finer towards 0:
// l (e^{ak/n} − 1)/(e^a − 1) with a = 1.5, the grid of the ruff's cell.
func graded(n int, l float64) []float64 {
	const a = 1.5
	c := make([]float64, n+1)
	for k := range c {
		c[k] = l * math.Expm1(a*float64(k)/float64(n)) / math.Expm1(a)
	}
	c[n] = l
	return c
}
