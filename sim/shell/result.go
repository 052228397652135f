package shell

import (
	"errors"
	"fmt"
)

// Status says how a solve ended.
type Status uint8

const (
	// NotRun is the status of a solve that never began.
	NotRun Status = iota
	// Converged: the residual is below the tolerance.
	Converged
	// IterationLimit: the allowed factorisations were used up.
	IterationLimit
	// Stalled: no step lowers the energy any more and the residual is above the
	// tolerance.
	Stalled
	// Cancelled: the context was cancelled.
	Cancelled
	// NotFinite: the starting shape has an energy or force that is not finite.
	NotFinite
)

var statusWords = [...]string{"not run", "converged", "iteration limit", "stalled", "cancelled", "not finite"}

// String returns the status in words.
func (s Status) String() string {
	if int(s) < len(statusWords) {
		return statusWords[s]
	}
	return fmt.Sprintf("status %d", uint8(s))
}

// Early reports whether the solve ended before it converged.
func (s Status) Early() bool { return s != Converged }

// Err returns nil for Converged, otherwise an error with the status in words.
func (s Status) Err() error {
	if !s.Early() {
		return nil
	}
	return errors.New("shell: " + s.String())
}

// Energies are the parts of the energy in µJ.
type Energies struct {
	Bend, Frozen, Stretch, Shear, Gravity, Contact float64
}

// Total returns their sum in µJ.
func (e Energies) Total() float64 {
	return e.Bend + e.Frozen + e.Stretch + e.Shear + e.Gravity + e.Contact
}

// Result is the outcome of a solve. Whatever the Status, every number in it is
// finite and belongs to the shape handed back.
type Result struct {
	Status     Status
	Iterations int     // factorisations
	Steps      int     // accepted steps, corrections not counted
	Residual   float64 // largest force on a free unknown, mN
	Tolerance  float64 // what Residual was to come below, mN
	Energy     Energies
	// Deepest is the deepest contact: the largest −gap over all obstacles, mm,
	// 0 if nothing lies inside one (ties not counted).
	Deepest float64
	// Strain is the largest |strain| of a grid edge.
	Strain float64
	// Levels are how high the sheet's levels came, mm.
	Levels []float64
}

// Progress is what the callback of Settings is told after every accepted step.
type Progress struct {
	Iteration int       // factorisations so far
	Energy    float64   // µJ
	Residual  float64   // mN
	Step      float64   // largest movement of a node in this step, mm
	Shape     []float64 // the shape now; valid during the call, not to be changed
}

// Settings steer a solve. The zero value is a good choice.
type Settings struct {
	// MaxIterations bounds the factorisations; 0 means 400.
	MaxIterations int
	// Tolerance is the residual to reach as a share of the sheet's force scale,
	// its weight + 10 B·W/P² (W the v length, P the u length), under gravity at most
	// 10,000 mean nodes' weights; 0 means 1e-6.
	Tolerance float64
	// StepCap is about the farthest a node may move in one step, mm; 0 means a
	// quarter of the sheet's length + width.
	StepCap float64
	// Corrections is the most second-order corrections a factor is used for;
	// 0 means 4, negative none.
	Corrections int
	// Warm says that the starting shape is near equilibrium: start with the full
	// Hessian and with strains taken from the shape instead of zero.
	Warm bool
	// Downhill takes no step on trust: the energy never rises. Slower, but a solve
	// that is broken off has lost nothing.
	Downhill bool
	// Progress is called after every accepted step; nil means no calls.
	Progress func(Progress)
}
