// Package pleat turns a scheme into the pleated strip: its marks, panels,
// tucks, ends and totals, and the folded panels around the neckline in closed
// form. It is what the page draws while the mechanics compute, and the honest
// baseline to hold the solved shape against.
package pleat

import (
	"ruffwright/geom"
	"ruffwright/geom/scheme"
)

// Plan is the strip as planned and as made, in mm. All of it follows from the
// scheme; nothing in it is solved mechanics.
type Plan struct {
	Scheme   scheme.Scheme // filled: look, cloth and 0s resolved
	Neckline geom.Neckline // ellipse of girth + ease

	Neckline_mm   float64 // girth + ease
	Panel_mm      float64 // fold to fold along the strip (the mean where marks are the maker's own)
	PanelFitted   bool    // Panel_mm was found from the wanted height
	Pitch_mm      float64 // room a set takes along the neckline, as sewn
	PitchOuter_mm float64 // mean arc length that a set takes at the outer edge

	Sets, Panels    int
	Crests, Troughs int
	Marks           []Mark  // in order along the strip, first at 0
	Marked_mm       float64 // last mark's place = the sum of the panels
	Strip_mm        float64 // Marked_mm + end hems: the strip that the plan needs, without joins and spare
	SetsHave        float64 // sets that the strip at hand gives; = Sets where strip.have is 0
	Filled_mm       float64 // length of the neckline that the sets fill as sewn: sets × pitch

	BandPlanned_mm float64 // girth + ease + overlap
	Band_mm        float64 // as made, or planned

	InnerPanel_mm float64 // panel less tucks where sewn: length of the inner edge between folds
	Slack         float64 // InnerPanel_mm ÷ √(B² + (pitch/2)²) where crests and troughs are both sewn, else 0
}

// Mark is one fold line across the strip.
type Mark struct {
	Place_mm float64
	Fold     scheme.Fold
	Edge     scheme.Edge // of the band that it is sewn to
	Tuck_mm  float64     // tuck depth t at this mark; takes up 2t
	Quarter  bool        // lies at a quarter of the band (pin here)
}

// Shape is a ruff in space, drawn or solved: one surface a panel, all on the
// same grid. +z is up from the band's bottom edge, x and y as Neckline's.
type Shape struct {
	NU, NV int // cells along the strip and from neck to outer edge, each panel
	Panels []Panel
}

// Panel is the surface between a crest and the next trough in the order of the
// strip. Node (i, j) is V[i*(NV+1)+j]: i along the strip, j from the inner edge
// (0) to the outer edge (NV).
type Panel struct {
	V []geom.Vec3 // mm
}
