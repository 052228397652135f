package figure

import (
	"slices"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// Handled are the keys of all fields that some view gives a handle to, in the order in
// which they are gone through.
var Handled = []string{
	"ruff.depth", "ruff.height", "ruff.sets", "band.height", "pleat.panel", "pleat.pitch",
	"pleat.tuck_top", "pleat.tuck_bottom", "support.drop", "support.slope",
}

// handle gives the drawing a handle, where its field stands at something in this ruff and
// has none on this sheet yet.
func (s *sheet) handle(h draw.Handle) {
	v, ok := Stands(s.plan, h.Field)
	if ok && !slices.ContainsFunc(s.Handles, func(other draw.Handle) bool { return other.Field == h.Field }) {
		h.Value = v
		s.Handles = append(s.Handles, h)
	}
}

// Stands is the value of a field in a ruff, as it came out; ok is false where another
// value of it would change nothing.
func Stands(p pleat.Plan, key string) (v float64, ok bool) {
	s := &p.Scheme
	switch key {
	case "ruff.depth":
		return s.Ruff.Depth, true
	case "ruff.height": // else the strip decides
		return s.Ruff.Height, p.PanelFitted
	case "ruff.sets":
		return float64(p.Sets), !p.MarksOwn
	case "band.height":
		return s.Band.Height, true
	case "pleat.panel":
		return p.Panel_mm, !p.MarksOwn
	case "pleat.pitch": // else it is shared out by the number of sets
		return p.Pitch_mm, !p.MarksOwn && p.Given.Pleat.Pitch > 0
	case "pleat.tuck_top":
		return p.Row.Tuck(scheme.Crest), p.Row.Sewn(scheme.Crest) != scheme.EdgeNone
	case "pleat.tuck_bottom":
		return p.Row.Tuck(scheme.Trough), p.Row.Sewn(scheme.Trough) != scheme.EdgeNone
	case "support.drop":
		return s.Support.Drop, s.Support.Kind != scheme.NoSupport
	case "support.slope":
		return s.Support.Slope, s.Support.Kind != scheme.NoSupport
	}
	return 0, false
}

// grown is how far a fold goes on the sheet when the ruff's height grows by 1 mm: a row
// that is sewn to both edges grows up and down alike, one that is sewn to one edge grows
// away from it.
func (s *sheet) grown(scale float64) (crest, trough draw.Point) {
	up, down := 0.5, 0.5
	if s.plan.Row.OneEdge() {
		up, down = 0, 1
		if s.plan.Row.Kind() == scheme.Trough {
			up, down = 1, 0
		}
	}
	return draw.Pt(0, -up*scale), draw.Pt(0, down*scale)
}

// heightHandle is that of the height: on the fold at the outer edge that goes farther.
func (s *sheet) heightHandle(crest, trough draw.Point, scale float64, number draw.Rect) {
	up, down := s.grown(scale)
	at, along := crest, up
	if down.Y > -up.Y {
		at, along = trough, down
	}
	s.handle(draw.Handle{Field: "ruff.height", At: at, Along: along, Number: number})
}

// Held keeps where the parts of a drawing lie for the next drawing of the view. While it
// is Fixed they stay there, at their scale, whatever becomes of the ruff: so that what is
// pulled follows the hand. The zero Held is ready.
type Held struct {
	Fixed bool
	at    map[string]spot
}

// spot is a place on the sheet and a scale.
type spot struct{ x, y, scale float64 }

// stays gives where a part of the drawing lies: there where it would, or where it is held.
func (h *Held) stays(part string, would spot) spot {
	if h == nil || part == "" {
		return would
	}
	if was, ok := h.at[part]; ok && h.Fixed {
		return was
	}
	if h.at == nil {
		h.at = map[string]spot{}
	}
	h.at[part] = would
	return would
}

// fit is Eye.Fit for a part of the drawing, which may be held if it has a name.
func (s *sheet) fit(part string, e *draw.Eye, room draw.Rect, most float64, pts ...[]geom.Vec3) draw.Rect {
	e.Fit(room, most, pts...)
	at := s.opt.Held.stays(part, spot{e.X, e.Y, e.Scale})
	e.X, e.Y, e.Scale = at.x, at.y, at.scale
	return e.Bounds(pts...)
}
