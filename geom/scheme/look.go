package scheme

import "math"

// faceError is the relative error (one standard deviation) of a scale that
// rests on one measure of face height: the coefficient of variation of
// menton–sellion length, 6.67/122.6 of 4,082 men and 6.09/113.1 of 1,986 women
// in ANSUR II (US Army, 2010 to 2012), both 0.054.
const faceError = 0.054

// LookError is how far the millimetres that a picture gives may be off, one standard
// deviation.
type LookError struct {
	Relative  float64 // as a part of the length; 0 where the look is not used
	Depth_mm  float64 // of ruff.depth; 0 where the look does not set it
	Height_mm float64 // of ruff.height; 0 where the look does not set it
}

// FaceError gives the error of one face measure on the lengths that look.* sets:
// one standard deviation of how faces differ, 5.4 % of the length. A painter's
// licence and a chin hidden in the ruff come on top; ±10 % is a modest claim for
// any portrait.
func FaceError(s Scheme) LookError {
	var e LookError
	if v := s.Look.DepthRatio * s.Wearer.Face; v > 0 {
		e.Depth_mm = faceError * v
	}
	if v := s.Look.HeightRatio * s.Wearer.Face; v > 0 {
		e.Height_mm = faceError * v
	}
	if e.Depth_mm > 0 || e.Height_mm > 0 {
		e.Relative = faceError
	}
	return e
}

// Filled gives the scheme with those values in place that follow from the rest
// of the document: ruff.depth, ruff.height and ruff.sets from look.*, the cloth's
// figures from its name where they are 0, what light comes through by its mass, and ruff.sets, pleat.first and
// pleat.last from own marks. Filled of a filled scheme is itself. s must be
// valid (see Validate), else what comes out may not be.
func (s Scheme) Filled() Scheme {
	s = s.Looked()
	if c, ok := ClothNamed(s.Cloth.Name); ok {
		for _, v := range []struct {
			at    *float64
			table float64
		}{
			{&s.Cloth.Mass, c.Mass}, {&s.Cloth.Thickness, c.Thickness},
			{&s.Cloth.BendWarp, c.BendWarp}, {&s.Cloth.BendWeft, c.BendWeft},
		} {
			if *v.at == 0 {
				*v.at = v.table
			}
		}
	}
	if s.Cloth.Light == 0 {
		// A sheet that scatters s and takes nothing lets 1/(1 + s) through (Kubelka and Munk),
		// and scatters by its mass. That 50 g/m² of white cloth let half through is common
		// practice, no source.
		s.Cloth.Light = math.Round(100 / (1 + s.Cloth.Mass/50))
	}
	return s
}

// Looked gives the scheme with look.* and own marks applied, without the cloth.
func (s Scheme) Looked() Scheme {
	if s.Look.DepthRatio > 0 && s.Wearer.Face > 0 {
		s.Ruff.Depth = s.Look.DepthRatio * s.Wearer.Face
	}
	if s.Look.HeightRatio > 0 && s.Wearer.Face > 0 {
		s.Ruff.Height = s.Look.HeightRatio * s.Wearer.Face
	}
	if s.Look.Quarter > 0 {
		s.Ruff.Sets = 4 * s.Look.Quarter
	}
	if n := len(s.Pleat.Marks); n > 0 {
		s.Ruff.Sets = setsOf(s.Pleat.Marks)
		s.Pleat.First, s.Pleat.Last = s.Pleat.Marks[0].Fold, s.Pleat.Marks[n-1].Fold
	}
	return s
}
