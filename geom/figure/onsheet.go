// Package figure draws a ruff: from above, from the side and front, one set,
// the strip laid flat, and in the hand. It draws what it is given, in mm, and
// computes no mechanics.
package figure

import (
	"ruffwright/geom/draw"
)

// sheet is a view's sheet under way.
type sheet struct {
	*draw.Sheet
	opt  Options
	tone *toned // of the cloth; nil: not dyed
}

// newSheet lays down title, notes' key and the dye's legend, and leaves the rest
// as room.
func newSheet(opt Options, tone *toned, title, note, desc string) *sheet {
	s := &sheet{draw.NewSheet(opt.Width_mm, opt.Height_mm, opt.Palette, opt.Units, opt.Letter, title, note), opt, tone}
	s.Desc = desc
	s.key()
	s.View = s.Room
	s.legend(tone)
	return s
}
