package scheme

import (
	"math"
	"math/rand/v2"
)

// Random draws a whole scheme over the ranges of the table of fields, so
// that it includes what a maker may type, possible or not: neck or wrist, any
// ellipse, sets, depth, height, panel given or fitted, tucks, either edge or
// both, cloth, starch, supporter. Three of four sewn at both edges get a band
// that their cloth reaches across. Equal seeds give equal schemes.
func Random(seed uint64) Scheme {
	r := rand.New(rand.NewPCG(seed, 0x7363686d))
	s := Default()
	at := func(key string) (lo, hi float64) {
		f, _ := Lookup(key)
		f = f.For(s)
		return f.Min, f.Max
	}
	even := func(key string) float64 {
		lo, hi := at(key)
		return lo + (hi-lo)*r.Float64()
	}
	wide := func(key string) float64 {
		lo, hi := at(key)
		return lo * math.Pow(hi/lo, r.Float64())
	}
	if r.IntN(4) == 0 {
		s.Wearer.Part = Wrist
	}
	s.Wearer.Girth, s.Wearer.Ratio, s.Wearer.Ease = even("wearer.girth"), even("wearer.ratio"), even("wearer.ease")
	s.Ruff.Sets = int(math.Round(wide("ruff.sets")))
	s.Ruff.Depth, s.Ruff.Height = wide("ruff.depth"), wide("ruff.height")
	s.Pleat.Anchor = []Anchor{AnchorBoth, AnchorTop, AnchorBottom}[r.IntN(3)]
	s.Pleat.Sewn = []Folds{Crests, Troughs}[r.IntN(2)]
	s.Ruff.Flaps = []Hang{Fall, Stand}[r.IntN(2)]
	panel := s.Ruff.Height * 1.25
	if r.IntN(2) == 0 {
		s.Pleat.Panel = wide("pleat.panel")
		panel = s.Pleat.Panel
	}
	s.Pleat.TuckTop, s.Pleat.TuckBottom = 0, 0
	if r.IntN(2) == 0 {
		_, most := at("pleat.tuck_top")
		s.Pleat.TuckTop = math.Min(most, 0.4*panel*r.Float64())
		s.Pleat.TuckBottom = s.Pleat.TuckTop
	}
	s.Band.Height = wide("band.height")
	if s.Pleat.Anchor == AnchorBoth && r.IntN(4) > 0 {
		lo, hi := at("band.height")
		half := (s.Wearer.Girth + s.Wearer.Ease) / float64(2*s.Ruff.Sets)
		inner := (panel - s.Pleat.TuckTop - s.Pleat.TuckBottom) / (1 + r.Float64())
		s.Band.Height = math.Min(math.Max(math.Sqrt(math.Max(0, inner*inner-half*half)), lo), hi)
	}
	if r.IntN(5) == 0 {
		s.Pleat.Lines, s.Pleat.LineGap = 2, wide("pleat.line_gap")
	}
	s.Cloth.Mass, s.Cloth.Thickness = wide("cloth.mass"), wide("cloth.thickness")
	s.Cloth.BendWarp, s.Cloth.BendWeft = 8+52*r.Float64(), 8+52*r.Float64()
	if r.IntN(3) > 0 {
		own := s.Cloth.BendWeft
		_, most := at("starch.bend")
		s.Starch.Bend = math.Min(most, own*(1+4*r.Float64()))
		s.Starch.Quality = math.Sqrt(r.Float64())
	}
	if r.IntN(4) == 0 {
		s.Support.Kind = Supporter
		s.Support.Drop, s.Support.Slope = even("support.drop"), even("support.slope")
	}
	return s
}
