package sim

import (
	"context"
	"math"

	"ruffwright/geom/curve"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/window"
)

// Fitted is the answer of Fit.
type Fitted struct {
	Found     bool      `json:"found"`
	Reason    word.Text `json:"reason,omitzero"` // why no panel was found
	Panel_mm  float64   `json:"panel_mm"`        // fold to fold; without Found the nearest tried
	Height_mm float64   `json:"height_outer_mm"` // the solved height it gives
	Wanted_mm float64   `json:"wanted_mm"`
	ByEye_mm  float64   `json:"rule_of_thumb_panel_mm"` // the wanted height itself, as the rule 'a set takes twice the height' says: common practice, no source
	Drawn_mm  float64   `json:"closed_form_panel_mm"`   // what the closed form would take
	Solves    int       `json:"solves"`
}

const (
	// fitHeight_mm is how near to the wanted height is near enough to stop.
	fitHeight_mm = 0.1
	// fitNear_mm is how far off the height of the shortest or of the longest panel may
	// be and still be taken: what marks are rounded to.
	fitNear_mm = 0.5
	// fitJump_mm is how far off the height of the answer, and of a panel a little to either
	// side of it, may be.
	fitJump_mm = 1.0
	// fitPanel_mm is how near to each other two panels are that need no third between
	// them: an eighth of what marks are rounded to.
	fitPanel_mm = 0.0625
	// fitSide_mm is how far to both sides of an answer it is tried again: half of what marks
	// are rounded to.
	fitSide_mm = 0.25
	// maxPanel_mm is the longest panel that a scheme may hold.
	maxPanel_mm = 200
)

// Fit finds the panel whose solved height at the outer edge is ruff.height, on a
// half set of the neckline's mean curvature. It brackets the height between the
// shortest panel that can be sewn and twice the closed form's, then narrows the
// bracket. The answer is to 0.1 mm, as a scheme is given it, and holds fitSide_mm to both
// sides too. Where no panel is found, Fitted.Reason says why.
//
// An error means bad input or a cancelled context. progress, which may be nil,
// is told the panel tried and its height.
func Fit(ctx context.Context, s scheme.Scheme, grid window.Grid, progress func(panel_mm, height_mm float64)) (Fitted, error) {
	s.Pleat.Panel = 0
	s = s.Planned()
	r, err := Draw(s)
	if err != nil {
		return Fitted{}, err
	}
	// The answer is a panel for the tucks as given.
	r.Plan.Row = r.Plan.AsGiven()
	want := r.Plan.Scheme.Ruff.Height
	drawn, err := curve.PanelForHeight(want, r.Plan.PitchOuter_mm/2)
	if err != nil {
		return Fitted{}, err
	}
	f := fitting{ctx: ctx, ruff: r, progress: progress, out: Fitted{Wanted_mm: want, ByEye_mm: want, Drawn_mm: drawn}}
	f.solve = func(d window.Design) (*window.Window, error) {
		return window.Solve(ctx, d, window.Settings{Grid: grid, SkipBow: true, SkipOther: true, SkipTangents: true}, nil)
	}
	low, high, err := f.bracket()
	if err == nil {
		err = f.narrow(low, high)
	}
	if err == nil {
		err = f.verify()
	}
	f.out.Found = err == nil
	if err != nil {
		if ctx.Err() != nil {
			return f.out, ctx.Err()
		}
		f.out.Reason = word.Of(err)
	}
	return f.out, nil
}

// fitting is a Fit under way. The errors of its methods are the reason why no panel
// is found.
type fitting struct {
	ctx      context.Context
	ruff     Ruff
	solve    func(window.Design) (*window.Window, error)
	progress func(panel_mm, height_mm float64)
	out      Fitted // its panel is the one tried whose height is nearest to the wanted
}

// because is why no panel is found.
func because(english string, with ...any) error { return word.Fault{Text: word.Say(english, with...)} }

// tenths and hundredths are lengths as a reason gives them.
func tenths(mm float64) word.Number     { return word.Number{Value: mm, Decimals: 1} }
func hundredths(mm float64) word.Number { return word.Number{Value: mm, Decimals: 2} }

// tried is a panel, fold to fold, and the height at the outer edge that it solves to.
type tried struct{ panel_mm, height_mm float64 }

// try solves the half set of a panel.
func (f *fitting) try(panel_mm float64) (tried, error) {
	r := f.ruff
	r.Plan.Panel_mm = panel_mm
	d, err := Design(r)
	if err != nil {
		return tried{}, err
	}
	f.out.Solves++
	w, err := f.solve(d)
	if err != nil {
		return tried{}, err
	}
	if !w.Converged() {
		return tried{}, because("a panel of %s mm did not come to rest: %s", tenths(panel_mm), word.Say(w.Release.Status.String()))
	}
	height, want := math.Abs(w.HeightOuter_mm), f.out.Wanted_mm
	if f.progress != nil {
		f.progress(panel_mm, height)
	}
	if f.out.Solves == 1 || math.Abs(height-want) < math.Abs(f.out.Height_mm-want) {
		f.out.Panel_mm, f.out.Height_mm = panel_mm, height
	}
	return tried{panel_mm, height}, nil
}

// bracket finds two panels with the wanted height between theirs. They are one and
// the same where the shortest panel is near enough. A bracket about the closed form
// is tried first, since that is near.
func (f *fitting) bracket() (low, high tried, err error) {
	want, drawn := f.out.Wanted_mm, f.out.Drawn_mm
	least, most := shortest(f.ruff), math.Min(2*drawn, maxPanel_mm)
	if least >= most {
		return low, high, because("the sewn folds alone need %s mm fold to fold, more than the longest panel tried, %s mm", tenths(least), tenths(most))
	}
	from, to := math.Max(least, 0.93*drawn), math.Min(most, 1.1*drawn)
	if from >= to {
		from, to = least, math.Min(most, 1.2*least)
	}
	if low, err = f.try(from); err == nil && low.height_mm > want && from > least {
		to = from
		low, err = f.try(least)
	}
	switch {
	case err != nil:
		return low, high, err
	case low.height_mm > want+fitNear_mm:
		return low, high, because("already the shortest panel that can be sewn, %s mm, stands %s mm high: lower the band, make the tucks shallower, or wish for more height", tenths(low.panel_mm), tenths(low.height_mm))
	case low.height_mm > want:
		return low, low, nil
	}
	for high, err = f.try(to); err == nil && high.height_mm < want && to < most; high, err = f.try(to) {
		low = high
		to = math.Min(most, 1.25*to)
	}
	if err == nil && high.height_mm < want-fitNear_mm {
		err = because("the longest panel tried, %s mm, stands only %s mm high", tenths(high.panel_mm), tenths(high.height_mm))
	}
	return low, high, err
}

// narrow tries panels between two until one stands as high as wanted: by the
// straight line between the two heights, each third time, and where that falls near
// one of them, in the middle. Tucked sets have more than one way to lie, and the
// height may jump over the wanted one.
func (f *fitting) narrow(low, high tried) error {
	want := f.out.Wanted_mm
	for i := 0; math.Abs(f.out.Height_mm-want) > fitHeight_mm && high.panel_mm-low.panel_mm > fitPanel_mm; i++ {
		wide := high.panel_mm - low.panel_mm
		panel := low.panel_mm + wide*(want-low.height_mm)/(high.height_mm-low.height_mm)
		if i%3 == 2 || !(panel > low.panel_mm+0.02*wide && panel < high.panel_mm-0.02*wide) {
			panel = (low.panel_mm + high.panel_mm) / 2
		}
		middle, err := f.try(panel)
		if err != nil {
			return err
		}
		if middle.height_mm < want {
			low = middle
		} else {
			high = middle
		}
	}
	if math.Abs(f.out.Height_mm-want) > fitJump_mm {
		return because("between panels of %s and %s mm the solved height jumps from %s to %s mm: these sets have more than one way to lie", hundredths(low.panel_mm), hundredths(high.panel_mm), tenths(low.height_mm), tenths(high.height_mm))
	}
	return nil
}

// verify tries the answer as a scheme is given it, and a little to both sides: where sets
// have more than one way to lie, a panel cut a hair longer may stand otherwise.
func (f *fitting) verify() error {
	answer := math.Round(10*f.out.Panel_mm) / 10
	if answer < shortest(f.ruff) {
		answer = math.Ceil(10*shortest(f.ruff)) / 10
	}
	at, err := f.try(answer)
	if err != nil {
		return err
	}
	f.out.Panel_mm, f.out.Height_mm = at.panel_mm, at.height_mm
	for _, by := range [3]float64{0, -fitSide_mm, fitSide_mm} {
		beside := at
		if panel := at.panel_mm + by; by != 0 && panel >= shortest(f.ruff) && panel <= maxPanel_mm {
			if beside, err = f.try(panel); err != nil {
				return err
			}
		}
		f.out.Panel_mm, f.out.Height_mm = at.panel_mm, at.height_mm
		if math.Abs(beside.height_mm-f.out.Wanted_mm) > fitJump_mm {
			return because("a panel of %s mm stands %s mm high, and one of %s mm %s mm: these sets have more than one way to lie", hundredths(at.panel_mm), tenths(at.height_mm), hundredths(beside.panel_mm), tenths(beside.height_mm))
		}
	}
	return nil
}

// shortest is the shortest panel in mm that can be sewn as r says: at both edges
// its inner edge is straight (slack 1), and it must leave a wave at the outer
// edge.
func shortest(r Ruff) float64 {
	p := r.Plan
	least := 1.05 * p.PitchOuter_mm / 2
	tucks := p.Row.Tuck(scheme.Crest) + p.Row.Tuck(scheme.Trough)
	if !p.Row.OneEdge() {
		return math.Max(least, 1.002*math.Hypot(p.Scheme.Band.Height, p.Pitch_mm/2)+tucks)
	}
	return math.Max(least, math.Max(1.05*p.Pitch_mm/2+tucks, tucks/pleat.TucksGood))
}
