package propose

import (
	"math"
	"slices"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// Effect is what changes do to all that was found of a ruff, and what the ruff then comes
// to. The lists are never nil.
type Effect struct {
	Gone  []string // ids of findings that stopped or were to mend, and no longer do
	Left  []string // ids of those that still do
	Eased []string // ids of those among them that stopped, and are only to mend
	New   []string // ids of those that now do, and did not, or weighed less
	Quiet []string // ids of notes that are gone
	Price
}

// Price is what a ruff takes, and how it hangs.
type Price struct {
	Height_mm float64       // as it hangs
	Droop_mm  float64       // of the outer edge, as it hangs
	Bow_mm    float64       // how far the outer edge moves when the wearer bows
	Cloth_mm  float64       // to buy, exactly, at the width of the bolt
	Starch_mm float64       // bending length of the starched cloth; 0: no starch
	Hours     pattern.Range // of work in all, at the pace of the scheme's hand
}

// Weigh compares a ruff as changed with what it was.
func Weigh(before, after sim.Ruff) Effect {
	e := Effect{Gone: []string{}, Left: []string{}, Eased: []string{}, New: check.Worse(before, after), Quiet: []string{}, Price: PriceOf(after)}
	if e.New == nil {
		e.New = []string{}
	}
	weighs := map[string]check.Finding{}
	for _, f := range check.Find(after, scheme.Millimetres) {
		weighs[f.ID] = f
		if heavy(f) && !slices.Contains(e.New, f.ID) {
			e.Left = append(e.Left, f.ID)
		}
	}
	for _, f := range check.Find(before, scheme.Millimetres) {
		still, found := weighs[f.ID]
		switch {
		case heavy(f) && !heavy(still):
			e.Gone = append(e.Gone, f.ID)
		case f.Severity == check.Stop && still.Severity == check.Mend:
			e.Eased = append(e.Eased, f.ID)
		case f.Severity == check.Note && !f.Pending && !found:
			e.Quiet = append(e.Quiet, f.ID)
		}
	}
	return e
}

// Told reports that all of a changed ruff is known: its cloth came to rest, upright and
// bowed.
func Told(after sim.Ruff) bool {
	a := state{r: after}
	return after.Solved != nil && !a.unknown()
}

// PriceOf is what a solved ruff takes; what is not known is 0.
func PriceOf(r sim.Ruff) (p Price) {
	if m := r.Measured(); m != nil {
		p.Height_mm, p.Droop_mm, p.Bow_mm = math.Abs(m.HeightOuter_mm), m.Droop_mm, m.Bow_mm
	}
	if c, err := pattern.New(r.Plan); err == nil {
		p.Cloth_mm, p.Hours = c.Cut.Buy.Need_mm, c.Work().Chosen
	}
	p.Starch_mm = r.Plan.Given.Starch.Bend
	return p
}

// heavy says whether a finding stops or is to mend.
func heavy(f check.Finding) bool {
	return !f.Pending && (f.Severity == check.Stop || f.Severity == check.Mend)
}
