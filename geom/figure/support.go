package figure

import (
	"math"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// supportReach is how far out from the neck the ruff is carried, mm: by a collar's rim of
// tabs, or by a supporter's hoop.
func supportReach(s scheme.Scheme) float64 {
	if s.Support.Kind == scheme.Collar {
		return math.Min(0.34*s.Ruff.Depth, 24)
	}
	return 0.8 * s.Ruff.Depth
}

// rests adds to a section what the ruff rests on: what is shown reaches down to it.
func (c *section) rests(s scheme.Scheme) {
	if s.Support.Kind == scheme.NoSupport {
		return
	}
	c.support, c.far = s.Support, supportReach(s)
	c.lo = min(c.lo, c.rim(0), c.rim(c.far))
	c.hi = max(c.hi, c.rim(c.far))
}

// rim is how high above the band's bottom edge the support lies, x mm out from the neck.
func (c *section) rim(x float64) float64 {
	return -c.support.Drop + x*math.Tan(c.support.Slope*math.Pi/180)
}

// cutSupport draws what the section rests on, with how far it lies below the band, and
// its two handles.
func (s *sheet) cutSupport(c *section, x float64) {
	if c.far == 0 {
		return
	}
	neck, end := c.at(0, c.rim(0)), c.at(c.far, c.rim(c.far))
	s.Line(s.Pal.Walnut, 0.9, nil, neck, end)
	s.Dot(end, 0.8, s.Pal.Walnut)
	drop := s.Length(c.support.Drop)
	top, foot := c.at(c.left, 0), c.at(c.left, c.rim(0))
	var number draw.Rect
	if math.Abs(foot.Y-top.Y) < roomy { // no room for its number, and above it stands the band's line
		s.Upright(top, foot, x, word.Text{})
		below := draw.Label{At: draw.Pt(x, max(top.Y, foot.Y)), Text: s.Say(drop), Size_mm: draw.TextSize, Color: s.Pal.Ink}
		number, _ = s.Place(below, draw.Pt(0, 1.5), draw.Pt(1.8, 1.5), draw.Pt(1.8, 0), draw.Pt(0, 5))
	} else {
		number = s.Upright(top, foot, x, drop)
	}
	s.handle(draw.Handle{Field: "support.drop", At: neck, Along: draw.Pt(0, c.eye.Scale), Number: number})
	// A degree more lifts the end by so much, and the nearer it is to upright the more.
	lifts := c.far * math.Pi / 180 / math.Pow(math.Cos(c.support.Slope*math.Pi/180), 2)
	s.handle(draw.Handle{Field: "support.slope", At: end, Along: draw.Pt(0, -lifts*c.eye.Scale)})
}

// restsOn says what the section rests on; nothing where that is nothing.
func (c *section) restsOn(s *sheet) word.Text {
	drop := s.Length(c.support.Drop)
	switch {
	case c.far == 0:
		return word.Text{}
	case c.support.Kind == scheme.Collar:
		return word.Say("A collar lies %s below the band.", drop)
	}
	return word.Say("A supporter lies %s below the band.", drop)
}
