package pattern

import (
	"math"

	"ruffwright/geom/pleat"
)

// Strip is the pleated cloth before it is pleated, joined but not hemmed.
type Strip struct {
	Depth_mm  float64 // of the ruff, finished
	Hem_mm    float64 // what the hem takes: one turn × turns, at the outer edge and at each end
	Takeup_mm float64 // what the band takes
	Width_mm  float64 // cut: depth + hem + take-up
	Marked_mm float64 // from the first mark to the last: from hemmed end to hemmed end
	Spare_mm  float64 // beyond the last mark and its end hem; cut off when the band is full. Less than the scheme's where that alone would cost a piece
	Length_mm float64 // cut, joined: hem + marked + hem + spare
	Have_mm   float64 // at hand, its end hems' cloth included; 0 = all is to be cut
}

// Piece is one piece of the strip. Its places are mm from the strip's first mark
// (the hemmed end); the strip's raw end lies at −Hem_mm.
type Piece struct {
	Number    int     // 1, 2, …
	From_mm   float64 // where the strip of this piece begins: raw end, or seam line of the join
	To_mm     float64 // where it ends
	JoinA_mm  float64 // join allowance before From, 0 at the strip's raw end
	JoinB_mm  float64 // join allowance after To
	Length_mm float64 // cut: JoinA + (To − From) + JoinB
	Width_mm  float64 // cut
	AtHand    bool    // not to be cut: the strip that the maker has
}

// Join is where two pieces meet.
type Join struct {
	Place_mm    float64 // of the seam line, from the strip's first mark
	Mark        int     // index of the plan's mark that it lies on; -1 = on none
	Hidden      bool    // on an inner fold, or in the spare that is cut off
	Back_mm     float64 // how far it was moved back from where the whole piece would have reached
	Consumes_mm float64 // of cloth: the allowances of both sides
}

// newStrip adds up the strip's cut width and length. A strip at hand that is long
// enough has no more spare than it is longer; one that is too short is eked out
// with new pieces, spare included.
func newStrip(p pleat.Plan) Strip {
	s := p.Scheme
	hem := s.Strip.Hem * float64(s.Strip.HemTurns)
	strip := Strip{
		Depth_mm: s.Ruff.Depth, Hem_mm: hem, Takeup_mm: s.Strip.Takeup,
		Width_mm:  s.Ruff.Depth + hem + s.Strip.Takeup,
		Marked_mm: p.Marked_mm,
		Spare_mm:  float64(2*s.Strip.Spare) * p.Panel_mm,
		Have_mm:   s.Strip.Have,
	}
	if over := s.Strip.Have - (2*hem + p.Marked_mm); s.Strip.Have > 0 && over >= 0 {
		strip.Spare_mm = min(strip.Spare_mm, over)
	}
	strip.Length_mm = 2*hem + strip.Marked_mm + strip.Spare_mm
	return strip
}

// trimSpare shortens the spare to what the last piece has room for, where the strip
// without it takes fewer pieces of the given reach: a piece of spare alone costs
// cloth and a join for what is only cut off.
func (p *Pattern) trimSpare(reach float64) {
	bare := *p
	bare.Strip.Spare_mm, bare.Strip.Length_mm = 0, p.Strip.Length_mm-p.Strip.Spare_mm
	with, _ := p.pieces(reach)
	without, _ := bare.pieces(reach)
	if len(with) == len(without) {
		return
	}
	last := without[len(without)-1]
	if last.AtHand {
		reach = p.Strip.Have_mm
	}
	bare.Strip.Spare_mm = math.Max(0, last.From_mm+reach-last.JoinA_mm-bare.Strip.end())
	bare.Strip.Length_mm += bare.Strip.Spare_mm
	p.Strip = bare.Strip
}

// end is the strip's raw end, in mm from the first mark.
func (s Strip) end() float64 { return s.Length_mm - s.Hem_mm }
