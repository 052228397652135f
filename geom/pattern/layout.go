package pattern

import (
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

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
	Number                       int // of a strip's piece, of swatches that there are several of: 1, 2, …; else 0
	Sleeve                       Sleeve
	Along                        scheme.Along // thread along its length: the grain line
	X_mm, Y_mm, Wide_mm, Long_mm float64      // left lower corner, size across the cloth (X), size along the warp (Y)
}

// Kind of a piece.
type Kind int

// The kinds of pieces; all but strip and band are swatches.
const (
	KindStrip Kind = iota
	KindBand
	KindWeft   // cut along the weft
	KindWarp   // cut along the warp
	KindStarch // tested starched
	KindSquare // weighed
)

// Swatch tells whether it is a test piece.
func (k Kind) Swatch() bool { return k > KindBand }

// Sleeve is which of a pair of cuffs a piece is for.
type Sleeve int

// The sleeves.
const (
	NoSleeve Sleeve = iota // of a ruff, and of what is cut once for both
	LeftSleeve
	RightSleeve
)

// kinds are what pieces are called: alone or with their number, of the left, of the
// right.
var kinds = [...]struct{ alone, left, right, numbered string }{
	KindStrip:  {numbered: "strip %d", left: "left strip %d", right: "right strip %d"},
	KindBand:   {alone: "band", left: "left band", right: "right band"},
	KindWeft:   {alone: "swatch, weft", numbered: "swatch, weft %d"},
	KindWarp:   {alone: "swatch, warp", numbered: "swatch, warp %d"},
	KindStarch: {alone: "starch swatch", numbered: "starch swatch %d"},
	KindSquare: {alone: "square"},
}

// Name is what pieces of the kind are called, number 0 for all of them: "strip 3",
// "left band", "swatch, warp 2".
func (k Kind) Name(number int, of Sleeve) word.Text {
	switch name := kinds[k]; {
	case of == LeftSleeve:
		return word.Say(name.left, number)
	case of == RightSleeve:
		return word.Say(name.right, number)
	case number > 0:
		return word.Say(name.numbered, number)
	default:
		return word.Say(name.alone)
	}
}

// Name is what the piece is called.
func (q Placed) Name() word.Text { return q.Kind.Name(q.Number, q.Sleeve) }

// Swatch is a set of equal test pieces, or one of them, or a piece of Layout.Left.
type Swatch struct {
	Kind    Kind
	Count   int
	Long_mm float64
	Wide_mm float64
	Along   scheme.Along // thread along its length
	For     word.Text    // what test pieces are for
	Number  int          // as Placed has it
	Sleeve  Sleeve
}

// Name is what it is called.
func (w Swatch) Name() word.Text { return w.Kind.Name(w.Number, w.Sleeve) }

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
