package light

import (
	"image/color"
	"math"
)

// hides is what is shown where something lies before a line.
const hides = -1

// stretches cuts a line into those stretches that show. A stretch has one width: what
// it shows in the middle of its length. Gaps of a few pixels are closed: there a
// neighbouring pixel's depth was taken; and those of bridge_mm in which nothing hides it
// and it only shows too little, so that the outline of a lip is one line.
func (d *depths) stretches(way []spot, w window, width_mm float64, ink color.NRGBA, shows func(at spot, dx, dy float32) float32) []Line {
	if width_mm <= 0 || len(way) < 2 {
		return nil
	}
	const gap = 4 // samples
	var out []Line
	var now [][2]float32
	var sum float32
	last, full, missed, weak := 0, 0, 0, 0 // of now: how far it shows and at how many places; since then hidden, and too little
	end := func() {
		if now = now[:last]; len(now) > 1 {
			width := float64(sum) / float64(full)
			if width >= leastShown && reach(now) >= leastLine {
				if line := thinned(now); !hairpin(line) {
					out = append(out, Line{line, width_mm * (0.45 + 0.55*min(width, 1)), ink})
				}
			}
		}
		now, sum, last, full, missed, weak = nil, 0, 0, 0, 0, 0
	}
	walked(way, w, func(at spot, dx, dy float32) {
		if at.q == nothing {
			end()
			return
		}
		shown := shows(at, dx, dy)
		switch {
		case shown < 0:
			if missed++; missed > gap {
				end()
			}
			return
		case shown <= 0.05:
			if weak++; len(now) == 0 || weak > int(bridge_mm*w.px/apartOnLine) {
				end()
				return
			}
		}
		now = append(now, [2]float32{float32(w.x) + at.x/float32(w.px), float32(w.y) + at.y/float32(w.px)})
		if shown > 0.05 {
			sum, last, full, missed, weak = sum+shown, len(now), full+1, 0, 0
		}
	})
	end()
	return out
}

// reach is how far a line goes, mm: across the box about it. One that turns about on the
// spot is long and goes nowhere.
func reach(way [][2]float32) float64 {
	lo, hi := way[0], way[0]
	for _, v := range way {
		for k := range v {
			lo[k], hi[k] = min(lo[k], v[k]), max(hi[k], v[k])
		}
	}
	return math.Hypot(float64(hi[0]-lo[0]), float64(hi[1]-lo[1]))
}

// hairpin tells of a short line that goes and comes back beside itself. Cloth seen on its
// edge has such outlines, where it turns a little over the edge and back; they bound nothing
// that is seen.
func hairpin(way [][2]float32) bool {
	const short_mm, wide_mm = 6, 0.5
	from, to := way[0], way[len(way)-1]
	tip, far := from, 0.0
	for _, v := range way {
		if off := math.Hypot(float64(v[0]-from[0]), float64(v[1]-from[1])); off > far {
			tip, far = v, off
		}
	}
	if far > short_mm || math.Hypot(float64(to[0]-from[0]), float64(to[1]-from[1])) > far/2 {
		return false
	}
	for _, v := range way {
		if offWay(v, from, tip) > wide_mm {
			return false
		}
	}
	return true
}

// offWay is how far a place is from the straight way between two, not from the line on beyond
// them.
func offWay(v, a, b [2]float32) float64 {
	dx, dy := float64(b[0]-a[0]), float64(b[1]-a[1])
	ex, ey := float64(v[0]-a[0]), float64(v[1]-a[1])
	if long := dx*dx + dy*dy; long > 1e-18 {
		t := min(max((ex*dx+ey*dy)/long, 0), 1)
		ex, ey = ex-t*dx, ey-t*dy
	}
	return math.Hypot(ex, ey)
}

// thinned leaves out places from which the line is nowhere farther than a fiftieth of a
// millimetre (Douglas and Peucker, 1973).
func thinned(way [][2]float32) [][2]float32 {
	const off = 0.02
	keep := make([]bool, len(way))
	keep[0], keep[len(way)-1] = true, true
	stack := [][2]int{{0, len(way) - 1}}
	for len(stack) > 0 {
		a, b := stack[len(stack)-1][0], stack[len(stack)-1][1]
		stack = stack[:len(stack)-1]
		far, most := -1, float64(off)
		for i := a + 1; i < b; i++ {
			away := offWay(way[i], way[a], way[b])
			if away > most {
				far, most = i, away
			}
		}
		if far >= 0 {
			keep[far] = true
			stack = append(stack, [2]int{a, far}, [2]int{far, b})
		}
	}
	out := way[:0]
	for i, v := range way {
		if keep[i] {
			out = append(out, v)
		}
	}
	return out
}
