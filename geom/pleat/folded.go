package pleat

import "ruffwright/geom"

// Folded is the ruff in closed form: its surface and what each half set
// measures. See Fold.
type Folded struct {
	Shape Shape
	Half  []Measure // one for every panel, in order along the strip
	Mean  Measure   // the plain mean of Half; LoopsMeet if any half set's do
}

// Shape is a ruff in space, drawn or solved: one surface a panel, all on the
// same grid. +z is up from the band's bottom edge, x and y as Neckline's.
type Shape struct {
	NU, NV int // cells along the strip and from neck to outer edge, each panel
	Panels []Panel
}

// Panel is the surface between a crest and the next trough in the order of the
// strip. Node (i, j) is V[i*(NV+1)+j]: i along the strip, j from the inner edge
// (0) to the outer edge (NV). Nodes i are not at equal steps: some lie exactly
// where the tucks end.
type Panel struct {
	V []geom.Vec3 // mm
}

// Measure is what one half set (crest to trough) measures, drawn or solved.
// Heights are in mm over the band's bottom edge, + up.
type Measure struct {
	Kappa_1pmm      float64 // curvature of the neckline there
	Pitch_mm        float64 // of a whole set along the neckline
	PitchOuter_mm   float64 // of a whole set along the outer edge
	Panel_mm        float64 // fold to fold at the outer edge
	HeightOuter_mm  float64 // crest to trough at the outer edge
	HeightInner_mm  float64 // crest to trough at the inner edge
	TopOuter_mm     float64 // outer crest
	BottomOuter_mm  float64 // outer trough
	Loop_mm         float64 // clear width of a loop at the outer edge: between the cloth's two faces
	LoopsMeet       bool    // neighbouring loops touch at the outer edge (closed), else gaping
	InnerOutside_mm float64 // how far an inner loop would reach beyond its sector (both edges sewn), 0 if inside
	InnerStraight   bool    // no inner curve exists (slack below 1, or none found): drawn as a straight line
	OuterStraight   bool    // the panel is shorter than its room at the outer edge: drawn flat
}

// mean is the plain mean of ms; a flag of it is set where any of theirs is.
func mean(ms []Measure) Measure {
	var m Measure
	if len(ms) == 0 {
		return m
	}
	f := 1 / float64(len(ms))
	for _, h := range ms {
		m.Kappa_1pmm += f * h.Kappa_1pmm
		m.Pitch_mm += f * h.Pitch_mm
		m.PitchOuter_mm += f * h.PitchOuter_mm
		m.Panel_mm += f * h.Panel_mm
		m.HeightOuter_mm += f * h.HeightOuter_mm
		m.HeightInner_mm += f * h.HeightInner_mm
		m.TopOuter_mm += f * h.TopOuter_mm
		m.BottomOuter_mm += f * h.BottomOuter_mm
		m.Loop_mm += f * h.Loop_mm
		m.InnerOutside_mm += f * h.InnerOutside_mm
		m.LoopsMeet = m.LoopsMeet || h.LoopsMeet
		m.InnerStraight = m.InnerStraight || h.InnerStraight
		m.OuterStraight = m.OuterStraight || h.OuterStraight
	}
	return m
}
