package figure

import (
	"math"
	"slices"
	"strconv"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// detail draws the first sets and the last, as large as the room allows.
func (f *strip) detail() {
	s, plan := f.sheet, f.plan
	width := f.width()
	room := s.Room
	wides := s.Length(plan.Scheme.Ruff.Depth)
	gutter := s.numberWidth(wides) + 3
	room.Max.Y -= f.legend() + 12
	room.Min.Y += 12
	room.Max.X -= gutter
	const gap = 9 // for the break
	tall := room.Max.Y - room.Min.Y
	wide := room.Max.X - room.Min.X - gap
	if tall < 8 || wide < 20 {
		return
	}
	// As many whole sets at the beginning as fit beside two panels of the end.
	mean := plan.Marked_mm / float64(plan.Panels)
	k := math.Min(tall/width, 2.5)
	n := int((wide/k - 4) / mean)
	first, last := n-2, 2
	if n < 5 { // short of room: smaller, two panels at either end
		first, last = 3, 1
		if plan.Panels < 5 {
			first, last = 1, 1
		}
		k = math.Min(k, wide/(float64(first+last)*mean*1.02+4))
	}
	whole := false
	if first+last >= plan.Panels {
		first, last, whole = plan.Panels, 0, true
		k = math.Min(k, (wide+gap)/(plan.Marked_mm*1.01))
	}
	if !whole {
		first = min(first, 12)
	}
	// Own marks may be longer than the mean: measure what is shown.
	shown := plan.Row[first].Place_mm - plan.Row[0].Place_mm + plan.Row[plan.Panels].Place_mm - plan.Row[plan.Panels-last].Place_mm
	k = s.opt.Held.stays("strip's scale", spot{scale: math.Min(k, wide/shown)}).scale
	s.Scale = k
	y := room.Min.Y + math.Max(0, (tall-width*k)*0.5)
	used := shown*k + gap
	if whole {
		used = shown * k
	}
	x := room.Min.X + math.Max(0, (room.Max.X-room.Min.X-used)/2)
	at := s.opt.Held.stays("strip", spot{x, y, k})
	x, y = at.x, at.y
	a := piece{from: plan.Row[0].Place_mm, to: plan.Row[first].Place_mm, at: draw.Pt(x, y), k: k}
	f.stretch(a, 0, first, !whole, false)
	end := a
	if !whole {
		end = piece{from: plan.Row[plan.Panels-last].Place_mm, to: plan.Row[plan.Panels].Place_mm, k: k}
		end.at = draw.Pt(a.x(a.to)+gap, y)
		f.stretch(end, plan.Panels-last, plan.Panels, false, true)
	}
	bottom := y + width*k

	i := min(1, first-1)
	fold := draw.Pt(a.x(plan.Row[i+1].Place_mm), bottom)
	folds := s.Across(draw.Pt(a.x(plan.Row[i].Place_mm), bottom), fold, bottom+5, s.Length(plan.Row[i+1].Place_mm-plan.Row[i].Place_mm))
	s.handle(draw.Handle{Field: "pleat.panel", At: draw.Pt(fold.X, bottom+5), Along: draw.Pt(k*float64(i+1), 0), Number: folds})
	f.tuck(a, first, y)
	right := end.x(end.to)
	take := plan.Scheme.Strip.Takeup * k
	deep := s.Upright(draw.Pt(right, y+take), draw.Pt(right, bottom), right+1+gutter/2, wides)
	s.handle(draw.Handle{Field: "ruff.depth", At: draw.Pt(right, bottom), Along: draw.Pt(0, k), Number: deep})
	f.spots[WhereMarks] = draw.Pt(a.x(plan.Row[min(1, first)].Place_mm), y+width*k*0.55)
	f.spots[WhereInner] = draw.Pt(a.x(plan.Row[0].Place_mm+mean*0.5), y)
	f.spots[WhereOuter] = draw.Pt(a.x(plan.Row[0].Place_mm+mean*0.4), bottom)
	f.spots[WhereFlaps] = draw.Pt(right, bottom)
	f.spots[WhereBand] = draw.Pt(a.x(plan.Row[0].Place_mm+mean*0.7), y+take/2)
}

// tuck measures the first tuck of a piece that shows the folds before the one numbered
// first, its inner edge at y.
func (f *strip) tuck(a piece, first int, y float64) {
	s, plan := f.sheet, f.plan
	for m := 1; m < first; m++ {
		if t := plan.Row[m].Tuck_mm; t > 0 {
			p := plan.Row[m].Place_mm
			tuck := s.Across(draw.Pt(a.x(p-t), y), draw.Pt(a.x(p+t), y), y-3.4, word.Say("tuck 2 × %s", s.Length(t)))
			key := "pleat.tuck_top"
			if plan.Row[m].Fold == scheme.Trough {
				key = "pleat.tuck_bottom"
			}
			s.handle(draw.Handle{Field: key, At: draw.Pt(a.x(p+t), y-3.4), Along: draw.Pt(a.k, 0), Number: tuck})
			f.spots[WhereTucks] = draw.Pt(a.x(p), y+2)
			return
		}
	}
}

// stretch is a piece of the strip drawn large, the panels from mark a to mark b.
type stretch struct {
	*strip
	piece
	a, b        int
	wide, take  float64      // the strip's width, and how much the band takes up, sheet mm
	left, right []draw.Point // its ends, from the inner edge down
}

// stretch draws panels a to b large, broken on the right or the left.
func (f *strip) stretch(p piece, a, b int, breakRight, breakLeft bool) {
	x := stretch{strip: f, piece: p, a: a, b: b, wide: f.width() * p.k, take: f.plan.Scheme.Strip.Takeup * p.k}
	x.left, x.right = x.end(p.x(p.from), breakLeft, -1), x.end(p.x(p.to), breakRight, 1)
	outline := slices.Clone(x.left)
	for _, q := range slices.Backward(x.right) {
		outline = append(outline, q)
	}
	f.Add(draw.Path{Lines: [][]draw.Point{outline}, Closed: true, Fill: f.Pal.Wash})
	x.tucks()
	x.marks()
	x.borders(breakLeft, breakRight)
	for _, j := range f.joins {
		if j > p.from && j < p.to {
			f.join(p.x(j), p.at.Y, p.at.Y+x.wide)
		}
	}
	for m := a; m <= b; m++ {
		if f.plan.Row[m].Quarter {
			f.pin(draw.Pt(x.mark(m), p.at.Y-2.6), draw.Pt(x.mark(m), p.at.Y+1.6))
		}
	}
	x.numbers()
}

func (x *stretch) mark(m int) float64 { return x.x(x.plan.Row[m].Place_mm) }

// end is the line in which the stretch ends: straight, or, broken, a slack wave to
// its side, the sign that cloth is left out.
func (x *stretch) end(at float64, broken bool, side float64) []draw.Point {
	if !broken {
		return []draw.Point{draw.Pt(at, x.at.Y), draw.Pt(at, x.at.Y+x.wide)}
	}
	const out = 3.2
	var wave []draw.Point
	for i := 0; i <= 24; i++ {
		t := float64(i) / 24
		wave = append(wave, draw.Pt(at+side*out+0.9*math.Sin(t*4*math.Pi), x.at.Y+x.wide*t))
	}
	return wave
}

// tucks shades what is folded inward at the inner edge, closing towards the outer.
func (x *stretch) tucks() {
	from, to := x.x(x.from), x.x(x.to)
	for m := x.a; m <= x.b; m++ {
		t := x.plan.Row[m].Tuck_mm * x.k
		if t <= 0 {
			continue
		}
		at := x.mark(m)
		l, r := math.Max(at-t, from-1e-9), math.Min(at+t, to+1e-9)
		deep := math.Min(x.wide*0.85, x.take+4*t)
		var hatch [][]draw.Point
		for h := 0.9; h < deep; h += 1.1 {
			part := 1 - h/deep
			hatch = append(hatch, []draw.Point{draw.Pt(at-(at-l)*part, x.at.Y+h), draw.Pt(at+(r-at)*part, x.at.Y+h)})
		}
		x.Add(draw.Path{Lines: [][]draw.Point{{draw.Pt(l, x.at.Y), draw.Pt(r, x.at.Y), draw.Pt(at, x.at.Y+deep)}}, Closed: true, Fill: draw.Mix(x.Pal.Wash, x.Pal.ClothMid, 0.5)})
		x.Add(draw.Path{Lines: hatch, Stroke: draw.Mix(x.Pal.Rule, x.Pal.Wash, 0.35), Width_mm: 0.13})
	}
}

// marks draws the stitch line, the hem's line and the marks, with a stitch at each
// that is sewn.
func (x *stretch) marks() {
	stitch, hem := x.at.Y+x.take, x.at.Y+x.wide-math.Max(0.9, x.plan.Scheme.Strip.Hem*x.k)
	foot := func(end []draw.Point) float64 { return end[len(end)-1].X }
	x.Line(x.Pal.Rule, 0.25, []float64{1.4, 0.9}, draw.Pt(x.left[0].X, stitch), draw.Pt(x.right[0].X, stitch))
	x.Line(x.Pal.Rule, 0.2, []float64{0.5, 0.7}, draw.Pt(foot(x.left), hem), draw.Pt(foot(x.right), hem))
	for m := x.a; m <= x.b; m++ {
		mark, at := x.plan.Row[m], x.mark(m)
		var dash []float64
		if mark.Fold == scheme.Trough {
			dash = []float64{1.5, 1.1}
		}
		x.Line(x.Pal.Ink, 0.32, dash, draw.Pt(at, x.at.Y), draw.Pt(at, x.at.Y+x.wide))
		if mark.Edge != scheme.EdgeNone {
			x.cross(draw.Pt(at, stitch), 0.9)
		}
	}
}

// borders draws the inner edge, the outer, and the two ends, a broken one lighter.
func (x *stretch) borders(breakLeft, breakRight bool) {
	last := len(x.left) - 1
	x.Line(x.Pal.Ink, 0.3, nil, x.left[0], x.right[0])
	x.Line(x.Pal.Ink, 0.55, nil, x.left[last], x.right[len(x.right)-1])
	for _, end := range []struct {
		line   []draw.Point
		broken bool
	}{{x.left, breakLeft}, {x.right, breakRight}} {
		if end.broken {
			x.Line(x.Pal.Rule, 0.25, nil, end.line...)
		} else {
			x.Line(x.Pal.Ink, 0.3, nil, end.line...)
		}
	}
}

// numbers writes the sets' numbers, in the middle of the panel before the crest.
func (x *stretch) numbers() {
	for m := x.a; m < x.b; m++ {
		if x.plan.Row[m+1].Fold != scheme.Crest && !(m == 0 && x.plan.Row[0].Fold == scheme.Crest) {
			continue
		}
		from, to := x.mark(m), x.mark(m+1)
		l := draw.Label{At: draw.Pt((from+to)/2, x.at.Y+x.wide*0.72), Text: strconv.Itoa(x.setOf(m)), Size_mm: draw.TextSize, Face: draw.Italic, Anchor: draw.Pt(0.5, 0.5), Color: x.Pal.Quiet}
		for _, j := range x.joins {
			if math.Abs(x.x(j)-l.At.X) < 4 {
				l.At.X -= 5
			}
		}
		if draw.TextWidth(l.Text, l.Size_mm, l.Face)+1 < to-from && x.Free(l.Box()) {
			x.Label(l)
		}
	}
}
