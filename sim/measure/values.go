// Package measure holds what is measured on a solved half set and on a whole ruff.
// The fields of Values are the one list of measures: each stands there with all
// that is said of it, and Table gives that list to those who print, compare or
// describe.
package measure

import "math"

// Values are what was measured on one half set, or on the whole ruff. Every number
// is finite. Heights are over the band's bottom edge.
//
// The tags of a field say of its measure:
//
//	json      its key, in documents and on the wire
//	unit      of the number; none for a pure number
//	label     its name in a table, in a few words
//	means     what it is, for the description of the keys
//	whole     how the half sets' make the whole ruff's: see wholes
//	known     fields that must be true (a Lean: LeanStays) before it means anything
//	holds     a field that is false where the edge does not hold: then there is no number
//	no        what a table says instead of "no"
//	solver    "yes": it tells how the solver fared, and nothing of the cloth
//	untucked  "yes": of tucked sets it hangs on the solver's mesh and decides nothing
//	compare   its name where two ruffs are compared; none: it is not compared
//	order     its place among those that are compared
//	alike     which difference of two ruffs says nothing: see Alike
//	better    "small": the ruff with the smaller amount is the firmer; none: a matter of taste
type Values struct {
	Panels         int     `json:"panels" whole:"sum" label:"half sets" means:"half sets of the strip that it speaks for"`
	Kappa_1pmm     float64 `json:"kappa_1_per_mm" unit:"1/mm" whole:"mean" label:"curvature of the neckline" means:"curvature of the neckline there"`
	Panel_mm       float64 `json:"panel_mm" unit:"mm" whole:"mean" label:"fold to fold" means:"fold to fold along the strip"`
	Pitch_mm       float64 `json:"pitch_mm" unit:"mm" whole:"mean" label:"room for a set at the neck" means:"room a set takes along the neckline"`
	PitchOuter_mm  float64 `json:"pitch_outer_mm" unit:"mm" whole:"mean" label:"room at the outer edge" means:"room a set takes along the outer edge's curve"`
	HeightOuter_mm float64 `json:"height_outer_mm" unit:"mm" whole:"mean" label:"height, outer edge" means:"top fold to bottom fold at the outer edge" compare:"Height at the outer edge, hanging" order:"3" alike:"shape"` // negative where the troughs stand above the crests
	HeightInner_mm float64 `json:"height_inner_mm" unit:"mm" whole:"mean" label:"height, inner edge" means:"top fold to bottom fold at the inner edge"`
	TopOuter_mm    float64 `json:"top_outer_mm" unit:"mm" whole:"mean" label:"top folds' height" means:"outer edge's top fold over the band's bottom edge"`
	BottomOuter_mm float64 `json:"bottom_outer_mm" unit:"mm" whole:"mean" label:"bottom folds' height" means:"outer edge's bottom fold over the band's bottom edge"`
	Loop_mm        float64 `json:"loop_mm" unit:"mm" whole:"mean" label:"loop's clear width" means:"clear width of a loop at the outer edge: the stick that fits" compare:"Narrower loop’s clear width, hanging" order:"4" alike:"shape"` // the narrower of the crest's loop and the trough's
	LoopsMeet      bool    `json:"loops_meet" whole:"all" label:"neighbours meet" means:"neighbouring loops touch at the outer edge: closed; not: gaping"`
	Contact        float64 `json:"contact" whole:"mean" label:"touching, of the depth" means:"part of the depth over which a panel touches its neighbour, 0 to 1"`
	Reach_mm       float64 `json:"reach_mm" unit:"mm" whole:"mean" label:"outer edge from the neck" means:"how far the outer edge stands from the neckline" compare:"Outer edge from the neck" order:"5" alike:"shape"` // its mean
	Tilt_deg       float64 `json:"tilt_deg" unit:"degrees" whole:"mean" label:"slope, + up" means:"slope of the mean line from neck to outer edge, + up" compare:"Slope from neck to outer edge, + up" order:"6" alike:"slope"`
	Droop_mm       float64 `json:"droop_mm" unit:"mm" whole:"mean" label:"droop" means:"mean height of the outer edge as formed less as released, + down" compare:"Droop of the outer edge" order:"2" alike:"shape" better:"small"`
	FlapsFall      bool    `json:"flaps_fall" whole:"most" label:"flaps fall" means:"the loops hang; false: they stand"` // the outer edge's mid-height is below the sewn row; means something where one edge is sewn

	// The wearer bows by 60° in steps of 10°. The test is made on the least and the
	// most curved half set; it is not done where the cloth did not come to rest at
	// every step, or ended in a shape that is not stable.
	BowDone      bool    `json:"bow_done" whole:"ends" solver:"yes" label:"bow tested, came to rest" means:"the bow test was made and came to rest at each step"`
	Bow_mm       float64 `json:"bow_mm" unit:"mm" whole:"worst" known:"BowDone" label:"moves when the wearer bows" means:"largest move of the outer edge when the wearer bows by 60°; only where bow_done" compare:"Moves when the wearer bows 60°" order:"1" alike:"move" better:"small"` // the worse of front and back sets
	BowReturn_mm float64 `json:"bow_return_mm" unit:"mm" whole:"worst" known:"BowDone" label:"and is off afterwards" means:"how far off the outer edge is when the wearer stands again; only where bow_done"`

	// Bob (vertical) and lean (lateral) are the outer edge's mean move for its own
	// weight once more (1 g of gravity, not a gram), by the tangent stiffness. Where
	// that has a negative pivot the number is 0 and stable is false: a suspicion, not
	// a verdict.
	TangentsDone      bool    `json:"tangents_done" whole:"all" solver:"yes" label:"give was measured" means:"how the outer edge gives was measured"`
	Vertical_mm_per_g float64 `json:"vertical_mm_per_g" unit:"mm/g" whole:"worst" known:"TangentsDone" holds:"VerticalStable" label:"give (up and down)" means:"move of the outer edge, down, for its own weight once more (1 g of gravity)" compare:"Gives up and down for its own weight" order:"7" alike:"move" better:"small"`
	VerticalStable    bool    `json:"vertical_stable" whole:"all" label:"holds up and down" means:"it returns from a small push up or down"`
	Lateral_mm_per_g  float64 `json:"lateral_mm_per_g" unit:"mm/g" whole:"worst" known:"TangentsDone" holds:"LateralStable" untucked:"yes" label:"give (sideways)" means:"move sideways for its own weight sideways (1 g of gravity), all loops leaning alike; decides nothing where sets are tucked" compare:"Gives sideways for its own weight" order:"8" alike:"move" better:"small"`
	LateralStable     bool    `json:"lateral_stable" whole:"all" label:"holds sideways" means:"it returns from a small push sideways"`

	// What loops do when all are pushed over alike, let go and followed to LeanFar_mm.
	// The least and the most curved half set are followed, where LateralStable is false;
	// of tucked ones on the fine grid, where a coarser one must tell the same.
	Leans    Lean    `json:"leans" whole:"worst" label:"stays leaning, pushed over" means:"where it does not hold sideways, what loops do that are all pushed over alike and let go: no (they stand up again), yes, inner (only near the band they do not), undecided; empty where it was not asked"`
	Leans_mm float64 `json:"leans_mm" unit:"mm" whole:"worst" known:"Leans" label:"leans by" means:"how far sideways the folds of the outer edge then stay, followed to 10 mm; only where leans is yes"`

	// How tall tucked sets were formed on their sticks, against what geometry says of a
	// strip drawn snugly round such sticks; 0 where there were none.
	FormedOff_mm float64 `json:"formed_off_mm" unit:"mm" whole:"worst" solver:"yes" label:"formed off the sticks’ closed form" means:"how far the formed outer edge’s height is from that of a strip drawn snugly round its sticks"`

	// How much the figures of tucked sets are uncertain by at least: asked of the least
	// and the most curved ones on the fine grid. The inside of a tuck may lie in several
	// ways; which it takes depends on how the sticks are put in.
	MeshDone   bool    `json:"mesh_done" whole:"any" solver:"yes" label:"tried on a finer mesh" means:"tucked sets were solved on a finer mesh as well, and formed in other ways"`
	Mesh_mm    float64 `json:"mesh_mm" unit:"mm" whole:"worst" known:"MeshDone" label:"heights uncertain by the mesh" means:"how far the outer edge's folds lie from where the finer mesh has them, at most; only where mesh_done"`
	Paths_mm   float64 `json:"paths_mm" unit:"mm" whole:"worst" known:"MeshDone" label:"heights uncertain by the setting" means:"how far the outer edge's folds lie from where they come when the sticks are put in with slack while the loops are still to find themselves, at most; of sets sewn at one edge also with thinner sticks first, and with less stiffness in shear; only where mesh_done"`
	BowPart_mm float64 `json:"bow_part_mm" unit:"mm" whole:"worst" known:"MeshDone" label:"bow uncertain by" means:"by how much the move when the wearer bows differs on the finer mesh and formed in those ways, or from one 1 % larger beyond a hundredth of the panel, at most; only where mesh_done"`

	Apart_mm Lengths `json:"apart_mm" unit:"mm" whole:"farthest" known:"MeshDone" label:"height, droop, bow, loop, reach uncertain by" means:"by how much height, droop, bow, the narrower loop and the outer edge's distance from the neck differ on the finer mesh and formed in those ways, or from one 1 % larger beyond a hundredth of the panel, at most; only where mesh_done"`
	Near_mm  Lengths `json:"near_mm" unit:"mm" whole:"farthest" known:"MeshDone" label:"of that, from one 1 % larger" means:"by how much the same figures differ from those of a half set 1 % larger beyond a hundredth of the panel; only where mesh_done"`

	// How the figures hang on how stiff the cloth is: solved on the coarse grid with all
	// bending half and twice as stiff, the least and the most curved half set.
	StiffDone    bool    `json:"stiff_done" whole:"ends" solver:"yes" label:"tried of limper and stiffer cloth" means:"it was solved with all bending half and twice as stiff, on a coarse mesh"`
	StiffBowDone bool    `json:"stiff_bow_done" whole:"ends" solver:"yes" label:"and bowed so" means:"and came to rest so when the wearer bows"`
	Limper_mm    Lengths `json:"limper_mm" unit:"mm" whole:"farthest" known:"StiffDone" label:"they change, half as stiff" means:"by how much height, droop, bow, loop and reach change with all bending half as stiff, + more; only where stiff_done, the bow where stiff_bow_done"`
	Stiffer_mm   Lengths `json:"stiffer_mm" unit:"mm" whole:"farthest" known:"StiffDone" label:"they change, twice as stiff" means:"the same with all bending twice as stiff"`

	// How much the figures of starched sets hang on how they are set and kept: solved on
	// the coarse grid in each of the Conditions, the least and the most curved half set.
	SettingDone      bool                `json:"setting_done" whole:"any" solver:"yes" label:"tried set less well, damp, worn" means:"starched sets were solved as made, set less well, damp and worn, on a coarse mesh"`
	SettingBow_mm    [Conditions]float64 `json:"setting_bow_mm" unit:"mm" whole:"swayed" known:"SettingDone" label:"bow as made, set less well, damp, worn" means:"move when the wearer bows, on the coarse mesh: as made; set nine tenths as well; damp, what starch holds a tenth as stiff; worn, all bending half as stiff; only where setting_done"`
	SettingHeight_mm [Conditions]float64 `json:"setting_height_mm" unit:"mm" whole:"swayed" known:"SettingDone" label:"height likewise" means:"height at the outer edge, of the same four"`
	SettingDroop_mm  [Conditions]float64 `json:"setting_droop_mm" unit:"mm" whole:"swayed" known:"SettingDone" label:"droop likewise" means:"droop of the outer edge, of the same four"`

	// The other shape in which sets sewn at one edge may rest. Of the whole ruff it is
	// that of the half set whose two shapes are nearest in energy.
	OtherDone    bool       `json:"other_done" whole:"any" solver:"yes" label:"another way to lie looked for" means:"another shape to rest in was looked for: only where one edge is sewn"`
	OtherFound   bool       `json:"other_found" whole:"any" known:"OtherDone" no:"none found" label:"another way to lie" means:"and was found"`
	OtherShare   float64    `json:"other_share" whole:"nearest" known:"OtherFound" label:"its energy above this one's" means:"its energy less this one's, over a panel's weight × depth; within ± 0.1 either may come"`
	OtherHeights [2]float64 `json:"other_top_bottom_outer_mm" unit:"mm" whole:"nearest" known:"OtherFound" label:"its top and bottom folds" means:"its outer edge's top and bottom fold over the band's bottom edge"`

	Popped   bool    `json:"popped" whole:"any" label:"a tuck stands outward" means:"a tuck stands outward instead of inward"`
	Thread_N float64 `json:"thread_n" unit:"N" whole:"worst" label:"pull on a stitch" means:"largest pull on a sewn fold"`
	Strain   float64 `json:"strain" whole:"worst" solver:"yes" label:"largest strain" means:"largest stretch of the cloth, as a part of its length"`

	Status      string  `json:"status" whole:"restless" solver:"yes" label:"how the solve ended" means:"how the solve ended"`
	Converged   bool    `json:"converged" whole:"all" solver:"yes" label:"came to rest" means:"the cloth came to rest"`
	Iterations  int     `json:"iterations" whole:"sum" solver:"yes" label:"steps to the rest shape" means:"factorisations to the rest shape"`
	Extra       int     `json:"extra" whole:"sum" solver:"yes" label:"and for the rest" means:"factorisations for bow, give and the other way to lie"`
	Residual_mN float64 `json:"residual_mn" unit:"mN" whole:"worst" solver:"yes" label:"residual" means:"largest force left on a node of the mesh"`
	Deepest_mm  float64 `json:"deepest_mm" unit:"mm" whole:"worst" solver:"yes" label:"deepest contact" means:"how far cloth reaches into what it touches"`
	Mesh        string  `json:"mesh" whole:"restless" solver:"yes" label:"mesh" means:"cells along the strip × from neck to outer edge, of one half set"`
}

// Lean says what becomes of loops that are pushed sideways, all alike, and let go.
type Lean string

const (
	// LeanUnasked: they hold sideways, or nobody asked.
	LeanUnasked Lean = ""
	// LeanReturns: the loops stand up again.
	LeanReturns Lean = "no"
	// LeanInner: the outer edge stands up again, but cloth nearer to the band stays
	// pushed over. It crumples there.
	LeanInner Lean = "inner"
	// LeanUndecided: the cloth did not come to rest, or went through itself.
	LeanUndecided Lean = "undecided"
	// LeanStays: they stay leaning over, Leans_mm sideways at the outer edge.
	LeanStays Lean = "yes"
)

// leans are the words from the least grave to the gravest.
var leans = []Lean{LeanUnasked, LeanReturns, LeanInner, LeanUndecided, LeanStays}

// LeanFar_mm is as far as leaning loops are followed. What has gone so far by
// itself, downhill all the way, does not come back.
const LeanFar_mm = 10

// The conditions in which a starched ruff is tried, beside as it is made.
const (
	AsMade     = iota
	SetWorse   // set WorseQuality as well
	Damp       // what starch holds DampStarch times less stiff
	Worn       // all bending WornBend as stiff
	Conditions // how many they are
)

// What worse setting, damp and wear do, this plan's judgement, no source.
const (
	WorseQuality = 0.9
	DampStarch   = 10
	WornBend     = 0.5
)

// StiffTimes is how many times stiffer, and limper, cloth was tried for StiffDone.
const StiffTimes = 2

// Sways is the condition in which the move when the wearer bows differs most from that
// as made, and by how much more it is there, mm.
func (v *Values) Sways() (condition int, more_mm float64) {
	for k, bow := range v.SettingBow_mm {
		if by := bow - v.SettingBow_mm[AsMade]; math.Abs(by) > math.Abs(more_mm) {
			condition, more_mm = k, by
		}
	}
	return
}
