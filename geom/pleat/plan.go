// Package pleat turns a scheme into the pleated strip: its marks, panels, tucks, ends
// and totals, and the folded panels around the neckline in closed form.
package pleat

import (
	"math"
	"strconv"

	"ruffwright/geom"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Plan is the strip as planned and as made, in mm. All of it follows from the
// scheme; nothing in it is solved mechanics.
type Plan struct {
	Given    scheme.Scheme // as it came in
	Scheme   scheme.Scheme // filled: look, cloth and 0s resolved, and the tucks as fitted
	Neckline geom.Neckline // ellipse of girth + ease

	Neckline_mm   float64 // girth + ease
	Panel_mm      float64 // fold to fold along the strip (the mean where marks are the maker's own)
	PanelFitted   bool    // Panel_mm was found from the wanted height
	PanelReaches  bool    // it had to be longer than the height asks, to reach from edge to edge
	TucksFitted   bool    // the tucks of Given were too deep for the fitted panel: those of Scheme are shallower
	Pitch_mm      float64 // room a set takes along the neckline, as sewn
	PitchOuter_mm float64 // mean arc length that a set takes at the outer edge

	Sets, Panels    int
	Crests, Troughs int
	Row             Row     // the folds, in order along the strip
	MarksOwn        bool    // the marks are the maker's own
	Marked_mm       float64 // last mark's place = the sum of the panels
	Strip_mm        float64 // Marked_mm + end hems: the strip that the plan needs, without joins and spare
	SetsHave        float64 // sets that the strip at hand gives; = Sets where strip.have is 0
	Filled_mm       float64 // length of the neckline that the sets fill as sewn: sets × pitch

	BandPlanned_mm float64 // girth + ease + overlap
	Band_mm        float64 // as made, or planned

	InnerPanel_mm float64 // panel less tucks where sewn: length of the inner edge between folds
	Slack         float64 // InnerPanel_mm ÷ √(B² + (pitch/2)²) where crests and troughs are both sewn, else 0
	SlackLeast    float64 // of the single panels (own marks differ); 0 where Slack is
	SlackMost     float64
}

// NewPlan lays the scheme out along the strip: planned marks or the maker's own.
//
// The strip begins and ends at a mark. Beginning and ending on troughs it has
// N crests, N + 1 troughs and 2N panels; on crests N + 1 crests, N troughs and
// 2N panels; mixed N of each and 2N − 1 panels. A tuck exists only at a fold
// that is sewn; at an end mark only the half of it that lies on the strip. With
// pleat.panel = 0 the panel is the one whose outer elastica stands as high as
// ruff.height at the mean outer half pitch (curve.PanelForHeight), and the tucks
// are as deep as given or as that panel lets them be (see fitPanel).
//
// The scheme is validated first; what only the plan can see (a fitted panel
// that the tucks use up, own marks out of order) comes as a scheme.Error that
// names the field. A slack below 1 is no error: see Plan.Slack and Fold.
func NewPlan(s scheme.Scheme) (Plan, error) {
	if err := s.Validate(); err != nil {
		return Plan{}, err
	}
	p := Plan{Given: s, Scheme: s.Filled()}
	s = p.Scheme
	p.Neckline_mm = s.Wearer.Girth + s.Wearer.Ease
	neckline, err := geom.NewNeckline(p.Neckline_mm, s.Wearer.Ratio)
	if err != nil {
		return Plan{}, scheme.Error{Field: "wearer.girth", Value: word.Name(text(s.Wearer.Girth)), Why: word.Name(err.Error())}
	}
	p.Neckline = neckline

	p.Sets, p.MarksOwn = s.Ruff.Sets, s.OwnMarks() > 0
	p.Pitch_mm = s.Pleat.Pitch
	if p.Pitch_mm == 0 {
		p.Pitch_mm = p.Neckline_mm / float64(p.Sets)
	}
	p.Filled_mm = float64(p.Sets) * p.Pitch_mm
	// The outer edge runs parallel to the neckline at the ruff's depth, so that
	// the whole of it is longer by 2π depth (a parallel curve turns once).
	p.PitchOuter_mm = p.Pitch_mm * (1 + 2*math.Pi*s.Ruff.Depth/p.Neckline_mm)
	lay := p.planMarks
	if p.MarksOwn {
		lay = p.takeOwnMarks
	}
	if err := lay(); err != nil {
		return Plan{}, err
	}
	for _, m := range p.Row {
		if m.Fold == scheme.Crest {
			p.Crests++
		} else {
			p.Troughs++
		}
	}
	p.pinQuarters()
	if err := p.measureInner(); err != nil {
		return Plan{}, err
	}

	hems := p.endHems()
	p.Strip_mm = p.Marked_mm + hems
	p.SetsHave = float64(p.Sets)
	if have := s.Strip.Have; have > 0 {
		panels := math.Max(0, have-hems) / p.Panel_mm
		// The last set needs no second panel where the ends are mixed.
		p.SetsHave = (panels + float64(2*p.Sets-p.Panels)) / 2
		if panels == 0 {
			p.SetsHave = 0
		}
	}
	p.BandPlanned_mm = p.Neckline_mm + s.Band.Overlap
	p.Band_mm = s.Band.Length
	if p.Band_mm == 0 {
		p.Band_mm = p.BandPlanned_mm
	}
	return p, nil
}

// endHems is the length in mm that the hems at the strip's two ends take.
func (p Plan) endHems() float64 {
	return 2 * p.Scheme.Strip.Hem * float64(p.Scheme.Strip.HemTurns)
}

// measureInner finds the inner edge's length and slack, panel by panel.
func (p *Plan) measureInner() error {
	var length, slack float64
	var held int
	for i := range p.Panels {
		a, b := p.Row[i], p.Row[i+1]
		inner := p.Row.Inner(i)
		if !(inner > 0) {
			return scheme.Error{
				Field:   "pleat.tuck_top, pleat.tuck_bottom",
				Value:   word.Say("%s mm and %s mm", text(p.Scheme.Pleat.TuckTop), text(p.Scheme.Pleat.TuckBottom)),
				Allowed: word.Say("together less than fold to fold, here %s mm", text(p.Row.Panel(i))),
				Why:     word.Say("use up the whole length between two folds"),
			}
		}
		length += inner
		if a.Edge == scheme.EdgeNone || b.Edge == scheme.EdgeNone {
			continue
		}
		s := inner / math.Hypot(p.Edge_mm(a.Edge)-p.Edge_mm(b.Edge), p.Row.Pitch(i))
		slack += s
		if held == 0 || s < p.SlackLeast {
			p.SlackLeast = s
		}
		p.SlackMost = math.Max(p.SlackMost, s)
		held++
	}
	p.InnerPanel_mm = length / float64(p.Panels)
	if held > 0 {
		p.Slack = slack / float64(held)
	}
	return nil
}

// Curvatures gives the neckline's mean curvature between the two folds of every
// panel, 1/mm.
func (p Plan) Curvatures() []float64 {
	k := make([]float64, p.Panels)
	from := p.station(0)
	for i := range k {
		to, pitch := p.station(i+1), p.Row.Pitch(i)
		k[i], from = turnBetween(from, to, pitch)/pitch, to
	}
	return k
}

// text writes a length for an error: at most three decimals, no zeros behind.
func text(mm float64) string {
	return strconv.FormatFloat(math.Round(mm*1000)/1000, 'f', -1, 64)
}
