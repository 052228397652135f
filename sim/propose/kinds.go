package propose

import (
	"math"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// Kind is a way to sew a ruff to its band.
type Kind string

// The kinds.
const (
	Tucked    Kind = "both edges, with tucks"
	Plain     Kind = "both edges, without tucks"
	Supported Kind = "one edge, on a supporter"
	Starched  Kind = "one edge, held by starch alone"
)

// kinds are all of them. What starch alone holds is tried where the others give too little
// choice: it takes no less cloth, more starch than any, and most often is not sure.
var kinds = [][]Kind{{Tucked, Plain, Supported}, {Starched}}

// Name is the kind in words.
func (k Kind) Name() word.Text {
	switch k {
	case Tucked:
		return word.Say("both edges, with tucks")
	case Plain:
		return word.Say("both edges, without tucks")
	case Supported:
		return word.Say("one edge, on a supporter")
	}
	return word.Say("one edge, held by starch alone")
}

const (
	// someTuck_mm is what tucks are begun with where there are none: the fields' default.
	// They are fitted with the panel.
	someTuck_mm = 9
)

// seed gives s sewn in this kind's way, to begin the search with. ok is false, with the
// reason, where the scheme cannot hold that.
func (k Kind) seed(s scheme.Scheme) (seed scheme.Scheme, why word.Text, ok bool) {
	top, bottom := scheme.EdgeTop, scheme.EdgeBottom
	if k == Supported || k == Starched {
		if s.Ruff.Flaps == scheme.Stand {
			top = scheme.EdgeNone
		} else {
			bottom = scheme.EdgeNone
		}
	}
	s = s.SewnTo(top, bottom)
	r, err := sim.Draw(s)
	if err != nil {
		return s, word.Of(err), false
	}
	switch row := r.Plan.Row; k {
	case Tucked:
		if r.Plan.PanelReaches {
			s = lowered(s)
		}
		if row.Tuck(scheme.Crest) == 0 || row.Tuck(scheme.Trough) == 0 {
			s = s.TuckedBy(someTuck_mm, someTuck_mm)
		}
		if r, err = sim.Draw(s); err == nil && !k.holds(r.Plan) {
			return s, word.Say("at this height there is not cloth enough between the folds for tucks"), false
		}
	case Plain:
		return plain(s.TuckedBy(0, 0))
	case Supported:
		return supported(s.TuckedBy(0, 0))
	case Starched:
		// A tuck of a fifth of the panel stiffens the sewn folds as a gutter is stiff.
		if s.Support.Kind != scheme.NoSupport {
			return s, word.Say("the ruff lies on a supporter"), false
		}
		tuck := math.Round(r.Plan.Panel_mm / 5)
		if top == scheme.EdgeNone {
			return s.TuckedBy(0, tuck), word.Text{}, true
		}
		return s.TuckedBy(tuck, 0), word.Text{}, true
	}
	return s, word.Text{}, true
}

// lowered gives s, which has too high a band for its height, on one that the first scheme
// would have for that: so that the length from fold to fold follows the height.
func lowered(s scheme.Scheme) scheme.Scheme {
	first := scheme.First()
	s.Band.Height = math.Max(lowest(s), math.Floor(s.Looked().Ruff.Height*first.Band.Height/first.Ruff.Height))
	return s
}

// lowest is how low the band of s may be, mm.
func lowest(s scheme.Scheme) float64 {
	f, _ := scheme.Lookup("band.height")
	return f.For(s).Min
}

// plain gives s, which has no tucks, on a band so high that the inner edge lies clean.
func plain(s scheme.Scheme) (scheme.Scheme, word.Text, bool) {
	r, err := sim.Draw(s)
	if err == nil && r.Plan.PanelReaches {
		s.Band.Height = lowest(s)
		r, err = sim.Draw(s)
	}
	if err != nil {
		return s, word.Of(err), false
	}
	h := math.Round(10*math.Sqrt(max(0, math.Pow(r.Plan.Panel_mm/check.GoodSlack, 2)-math.Pow(r.Plan.Pitch_mm/2, 2)))) / 10
	f, _ := scheme.Lookup("band.height")
	if f = f.For(s); !f.InRange(h) {
		mm := func(v float64) word.Text { return scheme.Length(v, scheme.Millimetres) }
		return s, word.Say("without tucks the band would have to be %s high; allowed is %s to %s", mm(h), mm(f.Min), mm(f.Max)), false
	}
	s.Band.Height = h
	return s, word.Text{}, true
}

// supported gives s on a supporter close under where its lower folds would lie in a level
// ruff; on the one it has, where it has one.
func supported(s scheme.Scheme) (scheme.Scheme, word.Text, bool) {
	if s.Support.Kind != scheme.NoSupport {
		return s, word.Text{}, true
	}
	if s.Wearer.Part == scheme.Wrist {
		return s, word.Say("a cuff lies on no supporter"), false
	}
	at := s.Band.Height - s.Ruff.Height // of the lower folds over the band's bottom edge
	if s.Ruff.Flaps == scheme.Stand {
		at = 0
	}
	s.Support.Kind = scheme.Supporter
	s.Support.Drop = max(0, math.Floor(-at))
	s.Support.Slope = math.Round(math.Atan2(max(at, 0), s.Ruff.Depth) * 180 / math.Pi)
	return s, word.Text{}, true
}

// holds reports whether a ruff is sewn in this kind's way.
func (k Kind) holds(p pleat.Plan) bool {
	on := p.Scheme.Support.Kind != scheme.NoSupport
	switch k {
	case Tucked:
		return !p.Row.OneEdge() && p.Row.Tucked()
	case Plain:
		return !p.Row.OneEdge() && !p.Row.Tucked()
	case Supported:
		return p.Row.OneEdge() && on
	}
	return p.Row.OneEdge() && !on
}
