package sim

import (
	"ruffwright/geom/pleat"
	"ruffwright/sim/window"
)

// Solved is what the mechanics of the cloth say of a whole ruff. It stands for
// regular sets between mirror planes (see package window): irregular sets, the
// opening and leaning loops are outside it.
type Solved struct {
	Shape pleat.Shape  // the ruff at rest, one surface a panel, on the cells' grid
	Bowed *pleat.Shape // the wearer bows 60°; nil if that was not solved
	Other *pleat.Shape // the other equilibrium all round; nil if none was found or looked for

	Ruff Measures   // of the whole ruff: means, and the worst of what must stay small
	Sets []Measures // of every distinct half set, least curved first
	Of   []int      // panel i of the strip is the half set Sets[Of[i]]

	// Droop is, for every distinct half set beside Sets, how far each node lies
	// below its place as formed, mm, + down; crest first, from the inner edge to
	// the outer as in a panel that begins at its crest. Nil: not told.
	Droop [][]float64

	Cells []*window.Window // the half sets as solved, beside Sets
	Grid  window.Grid

	// Alike reports that the maker's own marks were solved as regular sets of
	// their mean panel: single irregular sets are not seen by this model.
	Alike bool
}

// Converged reports whether every half set came to rest.
func (s *Solved) Converged() bool { return s.Ruff.Converged }

// LeansYes is what Measures.Leans says of loops that stay leaning over, and
// LeansFar_mm how far they are followed.
const (
	LeansYes    = "yes"
	LeansFar_mm = window.LeanFar_mm
)

// Measures are the numbers of a half set, or of the whole ruff: there means over
// the panels, but the worst of bow, bob, lean, strain, residual and thread load.
// Heights are over the band's bottom edge. Every number is finite. The keys are
// those of the command's --json.
type Measures struct {
	Panels         int     `json:"panels"`          // how many half sets it speaks for
	Kappa_1pmm     float64 `json:"kappa_1_per_mm"`  // curvature of the neckline
	Panel_mm       float64 `json:"panel_mm"`        // fold to fold
	Pitch_mm       float64 `json:"pitch_mm"`        // room a set takes at the neck
	PitchOuter_mm  float64 `json:"pitch_outer_mm"`  // and at the outer edge, along its curve
	HeightOuter_mm float64 `json:"height_outer_mm"` // crest to trough at the outer edge
	HeightInner_mm float64 `json:"height_inner_mm"`
	TopOuter_mm    float64 `json:"top_outer_mm"`
	BottomOuter_mm float64 `json:"bottom_outer_mm"`
	Loop_mm        float64 `json:"loop_mm"` // clear width: the stick that fits
	LoopsMeet      bool    `json:"loops_meet"`
	Contact        float64 `json:"contact"`  // share of the depth over which a panel touches its neighbour
	Reach_mm       float64 `json:"reach_mm"` // how far the outer edge stands from the neckline
	Tilt_deg       float64 `json:"tilt_deg"` // mean line from neck to outer edge, + up
	Droop_mm       float64 `json:"droop_mm"` // as formed less as released, + down
	FlapsFall      bool    `json:"flaps_fall"`

	BowDone      bool    `json:"bow_done"` // the bow test was made and came to rest at each step
	Bow_mm       float64 `json:"bow_mm"`   // largest move of the outer edge when the wearer bows 60°
	BowReturn_mm float64 `json:"bow_return_mm"`

	// Bob and lean: how far the outer edge gives for its own weight once more (1 g
	// of gravity, not a gram), down and sideways.
	TangentsDone      bool    `json:"tangents_done"`
	Vertical_mm_per_g float64 `json:"vertical_mm_per_g"` // bob
	VerticalStable    bool    `json:"vertical_stable"`
	Lateral_mm_per_g  float64 `json:"lateral_mm_per_g"` // lean
	LateralStable     bool    `json:"lateral_stable"`

	// Where LateralStable is false, what the loops do when all are pushed sideways
	// alike, let go and followed: "no", they stand up again; "yes", they stay leaning
	// over, Leans_mm sideways at the outer edge; "inner", only cloth near the band
	// stays pushed over; "undecided". "" where it was not asked: the least and the
	// most curved half set of untucked ruffs are followed, to LeansFar_mm. Of tucked
	// ones the model does not know it: a tuck is held at one node of the grid.
	Leans    string  `json:"leans"`
	Leans_mm float64 `json:"leans_mm"`

	// How far the outer edge's folds lie, at most, from where a finer mesh has them:
	// asked of tucked sets on the fine grid, with bob and lean.
	MeshDone bool    `json:"mesh_done"`
	Mesh_mm  float64 `json:"mesh_mm"`

	OtherDone    bool       `json:"other_done"`  // the other equilibrium was looked for
	OtherFound   bool       `json:"other_found"` // and exists
	OtherShare   float64    `json:"other_share"` // its energy less this one's, over panel weight × depth; within ± 0.1 undecided
	OtherHeights [2]float64 `json:"other_top_bottom_outer_mm"`

	Popped   bool    `json:"popped"` // a tuck stands outward
	Thread_N float64 `json:"thread_n"`
	Strain   float64 `json:"strain"`

	Status      string  `json:"status"`
	Converged   bool    `json:"converged"`
	Iterations  int     `json:"iterations"`  // factorisations to the rest shape
	Extra       int     `json:"extra"`       // and for bow, bob, lean, other equilibrium
	Residual_mN float64 `json:"residual_mn"` // largest force left on a node
	Deepest_mm  float64 `json:"deepest_mm"`  // deepest contact
	Mesh        string  `json:"mesh"`
}
