package pleat

// Folded is the ruff in closed form: its surface and what each half set
// measures. See Fold.
type Folded struct {
	Shape Shape
	Half  []Measure // one for every panel, in order along the strip
	Mean  Measure   // the plain mean of Half; LoopsMeet if any half set's do
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
	Loop_mm         float64 // clear width of a loop at the outer edge
	LoopsMeet       bool    // neighbouring loops touch at the outer edge (closed), else gaping
	InnerCrowded    bool    // neighbouring loops touch at the inner edge
	InnerOutside_mm float64 // how far an inner loop would reach beyond its sector (both edges sewn), 0 if inside
}
