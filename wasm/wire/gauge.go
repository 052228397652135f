package wire

import (
	"fmt"
	"math"

	"ruffwright/geom/word"
	"ruffwright/sim/check"
)

// Readings are what was read off a trial set, in the order of its poses.
type Readings struct {
	At_mm    [4]float64 `json:"at_mm"`
	Has      [4]bool    `json:"has"`
	Weight_g float64    `json:"weight_g,omitempty"` // 0: not weighed
}

func (r *Readings) validate() error {
	sum := r.Weight_g
	for _, x := range r.At_mm {
		sum += x
	}
	if math.IsNaN(sum) || math.IsInf(sum, 0) {
		return fmt.Errorf("wire: readings %v, %v", r.At_mm, r.Weight_g)
	}
	return nil
}

// Told is what they tell: each value with its interval of nine in ten.
type Told struct {
	Bend_mm   [3]float64     `json:"bend_mm"` // the value, the low and the high end
	Quality   [3]float64     `json:"quality"`
	Catch_mm  [3]float64     `json:"catch_mm"`
	Formed_mm [3]float64     `json:"formed_mm"` // all 0: not read
	Mass_gm2  [3]float64     `json:"mass_gm2"`  // all 0: not weighed
	Wrong     []word.Packed  `json:"wrong"`     // what contradicts the rest
	Notes     []word.Packed  `json:"notes"`
	Changes   []check.Change `json:"changes"` // to the scheme; none where readings contradict each other
}
