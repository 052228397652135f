// Package scheme is the one document of the project: every decision of the
// maker of a ruff, from the wearer's neck to the pace of the hand.
//
// One table of fields (fields.go) feeds validation, the page's form, the
// command's --set, the JSON document, the share code and the record sheet.
// Lengths are in mm; no other package holds a default or a range.
package scheme

// Version is the version of the document that this package writes.
const Version = 1

// Scheme holds every decision of the maker. Use First for a sound start: the
// zero value is not a valid scheme. Where a field's note says so, 0 means 'as
// planned' or 'not given'; Filled puts the values there that follow from the
// rest of the document.
type Scheme struct {
	Name    string  `json:"name"` // of this scheme, at most 80 runes, may be empty
	Wearer  Wearer  `json:"wearer"`
	Look    Look    `json:"look"`
	Ruff    Ruff    `json:"ruff"`
	Pleat   Pleat   `json:"pleat"`
	Band    Band    `json:"band"`
	Strip   Strip   `json:"strip"`
	Cloth   Cloth   `json:"cloth"`
	Starch  Starch  `json:"starch"`
	Support Support `json:"support"`
	Hand    Hand    `json:"hand"`
}

// Wearer is the body that the ruff must fit.
type Wearer struct {
	Part  Part    `json:"part"`  // neck or wrist
	Girth float64 `json:"girth"` // mm
	Ratio float64 `json:"ratio"` // breadth ÷ depth of the neckline
	Ease  float64 `json:"ease"`  // mm added to the girth
	Face  float64 `json:"face"`  // mm, menton to sellion; 0 = not given
}

// Look is what a picture shows, in proportions of the face in the same picture.
type Look struct {
	DepthRatio  float64 `json:"depth_ratio"`  // ruff's depth ÷ face height; 0 = not used
	HeightRatio float64 `json:"height_ratio"` // ruff's height ÷ face height; 0 = not used
	Quarter     int     `json:"quarter"`      // sets counted in a quarter; 0 = not used
	Measured    string  `json:"measured"`     // what points on it told, in words, at most 80 runes; nothing follows from it
}

// Ruff is what the maker wants to see.
type Ruff struct {
	Sets   int     `json:"sets"`
	Depth  float64 `json:"depth"`  // mm, neck to outer edge, finished
	Height float64 `json:"height"` // mm, crest to trough at the outer edge, wanted
	Flaps  Hang    `json:"flaps"`  // fall or stand, wanted
	Ends   Hang    `json:"ends"`   // fall or stand at the opening, wanted
}

// Pleat is how the strip is folded and what is sewn to which edge of the band.
type Pleat struct {
	Panel      float64 `json:"panel"`       // mm, fold to fold; 0 = fitted to the height
	Pitch      float64 `json:"pitch"`       // mm, room a set takes as sewn; 0 = neckline ÷ sets
	Anchor     Anchor  `json:"anchor"`      // top, bottom or both edges of the band
	Sewn       Folds   `json:"sewn"`        // crests or troughs; for one edge only
	TuckTop    float64 `json:"tuck_top"`    // mm, tuck depth t at crests
	TuckBottom float64 `json:"tuck_bottom"` // mm, tuck depth t at troughs
	Lines      int     `json:"lines"`       // stitch lines, 1 or 2
	LineGap    float64 `json:"line_gap"`    // mm between two stitch lines
	Catch      float64 `json:"catch"`       // mm out from the band that a stitch holds; 0 = a point
	First      Fold    `json:"first"`       // fold at the strip's beginning
	Last       Fold    `json:"last"`        // fold at the strip's end
	Marks      []Mark  `json:"marks"`       // own marks; none = planned marks
}

// Mark is one of the maker's own marks along the strip.
type Mark struct {
	Place float64 `json:"place"` // mm from the strip's first mark
	Fold  Fold    `json:"fold"`  // crest or trough
	Sewn  Edge    `json:"sewn"`  // top, bottom or no
}

// Band is the neckband.
type Band struct {
	Height  float64 `json:"height"`  // mm, bottom edge to top edge
	Length  float64 `json:"length"`  // mm as made; 0 = planned
	Overlap float64 `json:"overlap"` // mm, carries no sets
	Seam    float64 `json:"seam"`    // mm, seam allowance
	Closure Closure `json:"closure"`
}

// Strip is the pleated cloth before it is pleated.
type Strip struct {
	Have       float64 `json:"have"`        // mm at hand; 0 = planned
	Along      Along   `json:"along"`       // thread along the strip's length
	Bolt       float64 `json:"bolt"`        // mm, width of the cloth as sold
	Selvedge   float64 `json:"selvedge"`    // mm, each side, not used
	Hem        float64 `json:"hem"`         // mm, one turn
	HemTurns   int     `json:"hem_turns"`   // 1 or 2
	Takeup     float64 `json:"takeup"`      // mm of width that the band takes up
	Join       float64 `json:"join"`        // mm allowance each side
	ShrinkWarp float64 `json:"shrink_warp"` // %
	ShrinkWeft float64 `json:"shrink_weft"` // %
	Spare      int     `json:"spare"`       // sets
}

// Cloth is the cloth as bought, unstarched.
type Cloth struct {
	Name      string  `json:"name"`      // a named cloth of Cloths
	Mass      float64 `json:"mass"`      // g/m²; 0 = by name
	Thickness float64 `json:"thickness"` // mm; 0 = by name
	BendWarp  float64 `json:"bend_warp"` // mm, bending length; 0 = by name
	BendWeft  float64 `json:"bend_weft"` // mm, bending length; 0 = by name
	Error     float64 `json:"error"`     // %, how far the bending lengths may be off; 0 = by how they are known
	Light     float64 `json:"light"`     // %, of the light that falls on it what comes through; 0 = by mass
}

// Starch is what stiffens the cloth.
type Starch struct {
	Bend    float64    `json:"bend"`    // mm, bending length of the starched swatch; 0 = none
	Quality float64    `json:"quality"` // 0 to 1, how well the sets were set
	Bath    float64    `json:"bath"`    // g/L, guidance only
	Kind    StarchKind `json:"kind"`
	Dry     Dry        `json:"dry"`
	Stick   float64    `json:"stick"` // mm, diameter at the outer edge; 0 = as the loops are
	Tip     float64    `json:"tip"`   // mm, diameter at the inner end; 0 = no thinner
	Reach   float64    `json:"reach"` // mm from the outer edge; 0 = half the depth
	Shear   float64    `json:"shear"` // N/m of starched cloth; 0 = guessed
}

// Support is what the ruff rests on, if anything.
type Support struct {
	Kind  SupportKind `json:"kind"`
	Drop  float64     `json:"drop"`  // mm below the band's bottom edge
	Slope float64     `json:"slope"` // degrees, + rises outward
}

// Hand is how exactly and how fast the maker works.
type Hand struct {
	Error    float64 `json:"error"`    // mm, marking
	Drift    float64 `json:"drift"`    // mm a set
	Stitches float64 `json:"stitches"` // per cm
	Pace     Pace    `json:"pace"`
}

// The choices, each its own type so that they cannot be confused.
type (
	Part        string // of the body
	Hang        string // of flaps and ends
	Anchor      string // edges of the band that folds are sewn to
	Folds       string // which folds are sewn, where one edge is
	Fold        string // one fold
	Edge        string // what a fold is sewn to
	Along       string // thread direction
	Closure     string
	StarchKind  string
	Dry         string // how the starched sets dry
	SupportKind string
	Pace        string
)

const (
	Neck  Part = "neck"
	Wrist Part = "wrist"

	Fall  Hang = "fall"
	Stand Hang = "stand"

	AnchorTop    Anchor = "top"
	AnchorBottom Anchor = "bottom"
	AnchorBoth   Anchor = "both"

	Crests  Folds = "crests"
	Troughs Folds = "troughs"

	Crest  Fold = "crest"
	Trough Fold = "trough"

	EdgeTop    Edge = "top"
	EdgeBottom Edge = "bottom"
	EdgeNone   Edge = "no"

	Warp Along = "warp"
	Weft Along = "weft"

	Hooks   Closure = "hooks"
	Ties    Closure = "ties"
	Buttons Closure = "buttons"

	OnSticks Dry = "sticks"
	Hung     Dry = "hung"

	Maize  StarchKind = "maize"
	Wheat  StarchKind = "wheat"
	Potato StarchKind = "potato"
	Rice   StarchKind = "rice"

	NoSupport SupportKind = "none"
	Collar    SupportKind = "collar"
	Supporter SupportKind = "supporter"

	Learner   Pace = "learner"
	Practised Pace = "practised"
)
