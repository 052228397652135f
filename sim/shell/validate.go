package shell

import (
	"errors"
	"fmt"
	"math"
)

// Validate reports the first thing wrong with the sheet, naming the field, its
// value and what is allowed.
func (s *Sheet) Validate() error {
	for _, check := range []func() error{
		s.validateGrid, s.validateCloth, s.validateEdges, s.validateHeld,
		s.validateFold, s.validateFrozen, s.validateContacts, s.validateSpots, s.validateRound, s.validatePairs, s.validateNear, s.validateSticks,
	} {
		if err := check(); err != nil {
			return err
		}
	}
	return nil
}

func (s *Sheet) validateGrid() error {
	for _, g := range []struct {
		name string
		c    []float64
	}{{"U", s.U}, {"V", s.V}} {
		if len(g.c) < 2 {
			return fmt.Errorf("shell: %s has %d grid lines; at least 2 are needed", g.name, len(g.c))
		}
		for i, v := range g.c {
			if !finite(v) || i > 0 && !(v > g.c[i-1]) {
				return fmt.Errorf("shell: %s[%d] = %v mm; grid lines must be finite and strictly increasing", g.name, i, v)
			}
		}
	}
	if n := s.Nodes(); n > MaxNodes {
		return fmt.Errorf("shell: %d nodes; at most %d", n, MaxNodes)
	}
	return nil
}

func (s *Sheet) validateCloth() error {
	for _, q := range []struct {
		name  string
		v     float64
		above bool
	}{{"BendU", s.BendU, false}, {"BendV", s.BendV, false}, {"StretchU", s.StretchU, true}, {"StretchV", s.StretchV, true}, {"Shear", s.Shear, false}, {"Mass", s.Mass, false}} {
		if err := positive(q.name, q.v, q.above); err != nil {
			return err
		}
	}
	if !finite(s.Twist) {
		return fmt.Errorf("shell: Twist = %v; it must be finite", s.Twist)
	}
	if !finite(s.Gravity[0]) || !finite(s.Gravity[1]) || !finite(s.Gravity[2]) {
		return fmt.Errorf("shell: Gravity = %v; it must be finite", s.Gravity)
	}
	if err := s.GradeU.validate("GradeU", len(s.U)); err != nil {
		return err
	}
	return s.GradeV.validate("GradeV", len(s.V))
}

// positive refuses a number that is not finite, below 0, or (above) 0.
func positive(name string, v float64, above bool) error {
	if !finite(v) || v < 0 || above && v == 0 {
		return fmt.Errorf("shell: %s = %v; it must be finite and %s 0", name, v, map[bool]string{true: ">", false: "≥"}[above])
	}
	return nil
}

func (s *Sheet) validateEdges() error {
	for k, e := range []*Edge{&s.UStart, &s.UEnd, &s.VStart, &s.VEnd} {
		name := [...]string{"UStart", "UEnd", "VStart", "VEnd"}[k]
		n := len(s.V)
		if k >= 2 {
			n = len(s.U)
		}
		if err := e.validate(n); err != nil {
			return fmt.Errorf("shell: %s: %w", name, err)
		}
	}
	if (s.UStart.Kind == Mirror || s.UEnd.Kind == Mirror) && (s.VStart.Kind == Mirror || s.VEnd.Kind == Mirror) {
		return errors.New("shell: mirror planes on neighbouring edges are not supported")
	}
	return nil
}

func (s *Sheet) validateHeld() error {
	nu, nv := len(s.U)-1, len(s.V)-1
	for k, h := range s.Held {
		if h.I < 0 || h.I > nu || h.J < 0 || h.J > nv || h.Axes > All {
			return fmt.Errorf("shell: Held[%d] = %+v; the grid has nodes (0, 0) to (%d, %d), Axes 0 to %d", k, h, nu, nv, All)
		}
		if h.In != [3]float64{} && !(math.Abs(norm(h.In)-1) < 1e-9) {
			return fmt.Errorf("shell: Held[%d].In = %v; it must be 0 or have length 1", k, h.In)
		}
	}
	return nil
}

func (s *Sheet) validateFold() error {
	if s.Fold != nil && len(s.Fold) != s.Nodes() {
		return fmt.Errorf("shell: Fold has %d entries; nil or %d", len(s.Fold), s.Nodes())
	}
	for k, v := range s.Fold {
		if !(v >= 0 && v <= 1) {
			return fmt.Errorf("shell: Fold[%d] = %v; allowed is 0 to 1", k, v)
		}
	}
	return nil
}

func (s *Sheet) validateFrozen() error {
	f := s.Frozen
	if f == nil {
		return nil
	}
	if !finite(f.BendU) || !finite(f.BendV) || !finite(f.Twist) || f.BendU < 0 || f.BendV < 0 {
		return fmt.Errorf("shell: Frozen rigidities %v, %v, %v; they must be finite, the first two ≥ 0", f.BendU, f.BendV, f.Twist)
	}
	if !finite(f.Shear) || f.Shear < 0 || f.Shear > 0 && len(f.Skew) != s.cells() {
		return fmt.Errorf("shell: Frozen.Shear = %v with %d Skew; it must be finite and ≥ 0, with %d of them where it is above 0", f.Shear, len(f.Skew), s.cells())
	}
	if len(f.U) != s.Nodes() || len(f.V) != s.Nodes() || len(f.UV) != s.cells() {
		return fmt.Errorf("shell: Frozen has %d, %d and %d curvatures; needed are %d, %d and %d", len(f.U), len(f.V), len(f.UV), s.Nodes(), s.Nodes(), s.cells())
	}
	for _, c := range [][]float64{f.U, f.V, f.UV, f.Skew} {
		for k, v := range c {
			if math.IsInf(v, 0) {
				return fmt.Errorf("shell: Frozen curvature %d is infinite", k)
			}
		}
	}
	return nil
}

func (s *Sheet) validateContacts() error {
	for k := range s.Contacts {
		if err := s.Contacts[k].validate(s.Nodes(), len(s.Spots)); err != nil {
			return fmt.Errorf("shell: Contacts[%d]: %w", k, err)
		}
	}
	return nil
}

func (e *Edge) validate(nodes int) error {
	switch e.Kind {
	case Free:
	case Mirror:
		if n := norm(e.Normal); !(math.Abs(n-1) < 1e-9) || !finite(e.Offset) {
			return fmt.Errorf("mirror plane with normal %v, offset %v; the normal must have length 1", e.Normal, e.Offset)
		}
	case Clamped:
		if len(e.Tangent) != 1 && len(e.Tangent) != nodes {
			return fmt.Errorf("clamp with %d tangents; 1 or %d", len(e.Tangent), nodes)
		}
		for _, t := range e.Tangent {
			if n := norm(t); !(n > 0.5 && n < 2) {
				return fmt.Errorf("clamp tangent %v; its length should be 1", t)
			}
		}
	default:
		return fmt.Errorf("kind %d; known are Free, Mirror, Clamped", e.Kind)
	}
	return nil
}
