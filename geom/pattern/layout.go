package pattern

import "ruffwright/geom/scheme"

// Layout is where everything lies on the cloth. X runs across the cloth from its
// left edge, selvedge included, Y along the warp from the end that the shop cut.
// Sizes are of the cloth as bought; Washed gives the same after the first wash.
type Layout struct {
	Bolt_mm     float64 // width with selvedges
	Selvedge_mm float64 // each side, not used
	Square_mm   float64 // at each end, to straighten the cut along a thread
	Length_mm   float64 // needed, both Square_mm included
	ShrinkWarp  float64 // fractions of 1, on first wash
	ShrinkWeft  float64
	Placed      []Placed
	Left        []Swatch // what this cloth is too narrow for: to be cut from other cloth
	Used        float64  // share of the needed cloth that pieces cover, 0 to 1
}

// Placed is one piece on the cloth.
type Placed struct {
	Kind                         Kind
	Name                         string       // "strip 3", "band", "swatch, warp 2"
	Piece                        int          // index in Cut.Pieces; -1 = not of the strip
	Along                        scheme.Along // thread along its length: the grain line
	X_mm, Y_mm, Wide_mm, Long_mm float64      // left lower corner, size across the cloth (X), size along the warp (Y)
}

// Kind of a piece.
type Kind string

// The kinds of pieces.
const (
	KindStrip  Kind = "strip"
	KindBand   Kind = "band"
	KindSwatch Kind = "swatch"
)

// Swatch is a set of equal test pieces, or a piece named in Layout.Left.
type Swatch struct {
	Kind    Kind
	Name    string
	Count   int
	Long_mm float64
	Wide_mm float64
	Along   scheme.Along // thread along its length
	For     string       // what it is for
}

// Buy is the cloth to buy at the width of the bolt, rounded up as it is sold.
type Buy struct {
	Need_mm   float64 // exactly
	Metric_mm float64 // rounded up to 10 cm
	Eighths   int     // rounded up to 1/8 yd
}

// eighthYard is 1/8 yd in mm, by definition.
const eighthYard = 36 * 25.4 / 8

// Yards writes eighths of a yard, as cloth is sold: "1 3/8 yd".
func Yards(eighths int) string {
	// A mixed fraction is a mixed fraction, of a yard as of an inch.
	return scheme.BareLength(float64(eighths)/8*25.4, scheme.Inches) + " yd"
}
