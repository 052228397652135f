// Package cloth turns what a maker can measure on a swatch (mass, thickness,
// and how far a strip overhangs a table's edge) into the numbers that the
// mechanics needs: bending rigidities, with the interval that the readings
// leave, and the frozen part that starch adds.
//
// Words: the bending length c = (B/w)^(1/3) is the length on which bending
// rigidity B (per width) and weight per area w balance. A strip of overhang L
// clamped level at a table's edge hangs in a shape that depends on L/c alone;
// the angle of the straight line from the edge to the tip, below level, tells
// L/c, and so c. F. T. Peirce, 'The handle of cloth as a measurable quantity',
// J. Text. Inst. 21 (1930) T377, gave the test and an approximate formula; this
// package solves the exact shape instead (elastica.go).
//
// Units: mm, g/m², degrees, and µN·m (rigidity per width; 1 µN·m = 1 mN·mm).
// Every function that takes numbers refuses those outside its range with a
// RangeError naming field, value and range.
package cloth

import (
	"fmt"
	"math"
)

// Limits of what this package believes of a flexible cloth. They are wider than
// the scheme's own fields on purpose (starched cloth, interlinings, bands) and
// keep every power in range; the angle and overhang limits are those within
// which a ruler and a table edge still tell something (common practice, no
// source).
const (
	MassMin_gm2, MassMax_gm2               = 1, 2000
	ThicknessMin_mm, ThicknessMax_mm       = 0.005, 10
	BendMin_mm, BendMax_mm                 = 1, 500
	OverhangMin_mm, OverhangMax_mm         = 10, 500
	SwatchAngleMin_deg, SwatchAngleMax_deg = 5, 85
)

// Limits of what goes with the numbers above.
const (
	massRatioMin, massRatioMax = 0.5, 2 // of two masses of one cloth
	massErrMax                 = 0.5    // of the mass
	rulerMax_mm                = 10
	angleErrMax_deg            = 10
	maxReadings                = 1000
)

// RangeError says that a number lies outside what is allowed.
type RangeError struct {
	Field     string  // what was given, in words
	Value     float64 // as given; may be NaN
	Low, High float64 // allowed, both included
	Unit      string  // of the three numbers; may be empty
}

// Error names the field, the value and the allowed range.
func (e *RangeError) Error() string {
	unit := e.Unit
	if unit != "" {
		unit = " " + unit
	}
	if math.IsNaN(e.Value) {
		return fmt.Sprintf("%s is not a number (%g to %g%s is allowed)", e.Field, e.Low, e.High, unit)
	}
	return fmt.Sprintf("%s %g%s is outside %g to %g%s", e.Field, e.Value, unit, e.Low, e.High, unit)
}

// within returns a RangeError unless low <= v <= high (NaN is refused).
func within(field string, v, low, high float64, unit string) error {
	if v >= low && v <= high {
		return nil
	}
	return &RangeError{Field: field, Value: v, Low: low, High: high, Unit: unit}
}

func checkMass(v float64) error {
	return within("mass", v, MassMin_gm2, MassMax_gm2, "g/m²")
}

func checkBend(field string, v float64) error {
	return within(field, v, BendMin_mm, BendMax_mm, "mm")
}
