package pattern

import (
	"math"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Band is the band's one piece, folded lengthwise along its middle (the fold is the
// band's top edge) and finished before the strip is sewn to its edges. x runs along
// it from the cut end at the opening that carries the first set, y across it from
// the cut edge of the outer half.
//
// At a neck the band begins at the seam line x = Seam_mm at the centre front, goes
// round by the wearer's left, the centre back and the wearer's right, and ends at
// Seam_mm + Carry_mm; the overlap, which carries no sets, follows. Closed, the
// overlap lies under the other end, next to the skin: over it would lie on sets.
//
// The pattern of a cuff is the left one's; the right one's is its mirror image.
type Band struct {
	AtHand     bool    // made already (band.length): not cut, not bought
	Length_mm  float64 // finished: girth + ease + overlap, or as made
	Height_mm  float64 // finished
	Carry_mm   float64 // of the length: what carries sets
	Overlap_mm float64
	Seam_mm    float64 // allowance all round
	CutLong_mm float64 // Length + 2 seams
	CutWide_mm float64 // 2 × height + 2 seams
	Fold_mm    float64 // y of the fold line = Seam + Height
	RowFrom_mm float64 // x of the first fold sewn, from the cut end
	Marks      []BandMark
	Pins       []Pin
	Closures   []Closure
}

// BandMark is a quarter or centre mark across the band.
type BandMark struct {
	X_mm float64   // from the cut end
	Name word.Text // "centre front", "wearer's left", …; at a wrist "opening", "quarter", …
}

// Pin is where a quarter of the strip is pinned to the band.
type Pin struct {
	Mark    int     // index of the plan's mark
	Band_mm float64 // x of the band, from the cut end
}

// Face is the half of the band that a part of the closure is sewn to: worn, the
// outer half looks away from the wearer, the inner half lies next to the skin.
type Face string

// The two halves.
const (
	Inner Face = "inner"
	Outer Face = "outer"
)

// Closure is one half of a hook and eye, of a button and its worked loop, or of a
// pair of eyelets for ties. Sets lie on the outer half wherever the band carries
// them, so that nothing is sewn there but on the overlap.
type Closure struct {
	Name     word.Text // "hook", "eye", "loop", "button", "eyelet"
	Face     Face      // half of the band that it is sewn to, through this half alone
	X_mm     float64   // from the cut end
	Up_mm    float64   // from the band's finished bottom edge
	Pair     int       // 1, 2, … from the bottom; two closures have the same
	Apart_mm float64   // how far the two halves of the pair lie apart when the band is closed
}

// newBand lays out the band. A band as made keeps its overlap: the rest of it
// carries the sets.
func newBand(p pleat.Plan) Band {
	s := p.Scheme.Band
	b := Band{
		AtHand: s.Length > 0, Length_mm: p.Band_mm, Height_mm: s.Height,
		Overlap_mm: s.Overlap, Seam_mm: s.Seam,
		CutLong_mm: p.Band_mm + 2*s.Seam, CutWide_mm: 2*s.Height + 2*s.Seam, Fold_mm: s.Seam + s.Height,
	}
	b.Carry_mm = p.Neckline_mm
	if b.AtHand {
		b.Carry_mm = math.Max(0, b.Length_mm-b.Overlap_mm)
	}
	for i, name := range quarterNames(p.Scheme.Wearer.Part) {
		b.Marks = append(b.Marks, BandMark{X_mm: s.Seam + b.Carry_mm*float64(i)/4, Name: name})
	}
	b.RowFrom_mm = s.Seam + (b.Carry_mm-p.Row.Along(p.Panels))/2
	for k, m := range p.Row {
		if m.Quarter {
			b.Pins = append(b.Pins, Pin{Mark: k, Band_mm: b.RowFrom_mm + p.Row.Along(k)})
		}
	}
	b.Closures = b.closures(s.Closure)
	return b
}

// quarterNames are the band's quarters in their order from the first set.
func quarterNames(part scheme.Part) [5]word.Text {
	if part == scheme.Wrist {
		return [5]word.Text{word.Say("opening"), word.Say("quarter"), word.Say("middle"), word.Say("three quarters"), word.Say("opening, other end")}
	}
	return [5]word.Text{word.Say("centre front"), word.Say("wearer's left"), word.Say("centre back"), word.Say("wearer's right"), word.Say("centre front, other end")}
}

// Y_mm is where a part of the closure lies across the pattern, from the cut edge of
// the outer half: the inner half is its image in the fold.
func (b Band) Y_mm(c Closure) float64 {
	if c.Face == Inner {
		return b.CutWide_mm - b.Seam_mm - c.Up_mm
	}
	return b.Seam_mm + c.Up_mm
}

// How closures are spaced and set in, in mm: common practice, no source.
const (
	hookStep, buttonStep, tieStep = 15, 20, 25 // of height for each
	hookInset, eyeletInset        = 3, 6       // from the band's end
)

// closures places the closure's halves so that, closed, the band's inside goes
// round girth + ease: the half on the overlap lies Carry_mm further along the band
// than its fellow. The eyelets of ties without overlap stand in from both ends, and
// the ties cross what lies between (Apart_mm).
//
// The end with the first set lies over the overlap, so that its part is on its inner
// half, and the overlap's part looks up to it from the outer half. Buttons take
// worked loops: a hole would come out under the sets. Where the ends only meet
// there is no place without sets but the inner half.
func (b Band) closures(kind scheme.Closure) []Closure {
	start, end := b.Seam_mm, b.Seam_mm+b.Length_mm
	var near, far Closure
	step := float64(hookStep)
	switch kind {
	case scheme.Buttons:
		step = buttonStep
		near = Closure{Name: word.Say("loop"), X_mm: start + b.Overlap_mm/2}
		far = Closure{Name: word.Say("button"), X_mm: near.X_mm + b.Carry_mm}
	case scheme.Ties:
		step = tieStep
		near = Closure{Name: word.Say("eyelet"), X_mm: start + math.Max(b.Overlap_mm/2, eyeletInset)}
		far = Closure{Name: word.Say("eyelet"), X_mm: end - math.Max(b.Overlap_mm/2, eyeletInset)}
	default:
		near = Closure{Name: word.Say("hook"), X_mm: start + math.Min(hookInset, b.Overlap_mm/2)}
		far = Closure{Name: word.Say("eye"), X_mm: near.X_mm + b.Carry_mm}
	}
	near.Face, far.Face = Inner, Inner
	if b.Overlap_mm > tiny && far.X_mm >= start+b.Carry_mm-tiny {
		far.Face = Outer
	}
	apart := math.Max(0, near.X_mm+b.Carry_mm-far.X_mm)
	if apart < tiny {
		apart = 0
	}
	near.Apart_mm, far.Apart_mm = apart, apart
	n := max(1, int(math.Round(b.Height_mm/step)))
	var out []Closure
	for i := range n {
		near.Pair, far.Pair = i+1, i+1
		near.Up_mm = b.Height_mm * (float64(i) + 0.5) / float64(n)
		far.Up_mm = near.Up_mm
		out = append(out, near, far)
	}
	return out
}
