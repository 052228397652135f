package paper

import (
	"math"
	"strconv"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
)

// ruler draws the divisions of a scale from `from` to `to` mm, place `from` at
// (x, y), along x; down = +1: strokes go down from y, −1: up. Each stroke is set
// from its own place. Numbers stand at whole cm or inches.
func ruler(p *Page, x, y, from, to float64, u scheme.Units, down float64, numbers bool) {
	step, mid, whole, unit := 1.0, 5, 10, 10.0 // mm, strokes to a longer, to a number, mm of a number's unit
	if u == scheme.Inches {
		step, mid, whole, unit = 25.4/16, 8, 16, 25.4
	}
	var strokes [][]draw.Point
	first := int(math.Ceil(from/step - 1e-9))
	last := int(math.Floor(to/step + 1e-9))
	for i := first; i <= last; i++ {
		at := x + float64(i)*step - from
		long := 1.5
		switch {
		case i%whole == 0:
			long = 3.4
		case i%mid == 0:
			long = 2.5
		}
		strokes = append(strokes, []draw.Point{pt(at, y), pt(at, y+down*long)})
		if numbers && i%whole == 0 {
			n := float64(i) * step / unit
			words := strconv.Itoa(int(math.Round(n)))
			if u == scheme.Millimetres {
				words = strconv.Itoa(int(math.Round(n)) * 10)
			}
			w := draw.TextWidth(words, 2.2, draw.Upright)
			const off = 0.7 // from the line that is cut along
			cx := math.Max(at, x+w/2+off)
			if cx+w/2 > x+to-from-off { // the next tile begins with it
				continue
			}
			base := y + down*4 + 1.8
			if down < 0 {
				base = y - 4
			}
			p.text(cx, base, 2.2, draw.Upright, 0.5, words)
		}
	}
	p.lines(0.1, nil, strokes...)
	p.line(fine, nil, pt(x, y), pt(x+to-from, y))
}
