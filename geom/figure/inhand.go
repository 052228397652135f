package figure

import (
	"cmp"
	"image/color"
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// inHand draws the ruff as if held before the eye, in gentle perspective. It is made to
// be drawn again at every turn: BenchmarkInHand says how fast.
func inHand(s *sheet) error {
	opt, plan, shape := s.opt, s.plan, s.shape
	first, last, mid := 0, len(shape.Panels), geom.Vec3{}
	ball := math.Inf(1) // the largest that is seen
	if opt.Row {
		ball = 1.6 * (max(plan.Neckline.Breadth(), plan.Neckline.Depth())/2 + plan.Scheme.Ruff.Depth)
		first, last, mid = within(shape, 1.6*ball)
	}
	c := newCloth(shape, first, last, cmp.Or(opt.Cells, turningCells))
	c.dyed(shape, s.tone, first)
	if opt.Row {
		s.title = word.Say("On its way from the strip")
	}
	s.head(sets(plan))
	s.Desc = s.Say(word.Say("The ruff of %s in the hand, turned by %.0f degrees and seen from %.0f degrees above level.", sets(plan), opt.Turn_deg, opt.Tilt_deg))

	// The ball about the ruff fits the room, so that turning changes no size.
	var lo, hi float64
	var r float64
	for _, v := range c.v {
		lo, hi = math.Min(lo, v.Z), math.Max(hi, v.Z)
		r = math.Max(r, (v.X-mid.X)*(v.X-mid.X)+(v.Y-mid.Y)*(v.Y-mid.Y))
	}
	r = min(math.Sqrt(r), ball)
	e := draw.NewEye(opt.Turn_deg, opt.Tilt_deg)
	e.Mid = geom.Vec3{X: mid.X, Y: mid.Y, Z: (lo + hi) / 2}
	e.Far = 5 * r
	w, h := s.Room.Max.X-s.Room.Min.X, s.Room.Max.Y-s.Room.Min.Y
	// Tilted, the ruff takes less height than breadth; the block stands above.
	tall := math.Max(r*math.Abs(math.Sin(opt.Tilt_deg*math.Pi/180))+(hi-lo)/2+6, r*0.55)
	if opt.Row { // nearer in one part than a ruff is
		tall *= 1.15
	}
	fits := math.Min(w/2/(r*1.04), h/2/(tall*1.08))
	if opt.Scale > 0 {
		fits = math.Min(fits, opt.Scale)
	}
	e.Scale = fits * opt.Zoom
	e.X, e.Y = (s.Room.Min.X+s.Room.Max.X)/2, (s.Room.Min.Y+s.Room.Max.Y)/2
	s.Scale = e.Scale

	b := opt.body(c)
	top := s.top(c)
	if opt.Row { // a flat strip lies lower than its ruff
		top = max(top, plan.Scheme.Band.Height+12)
	}
	block(b, &e, plan.Neckline, math.Min(lo, 0)-10, top, s.Pal)
	neckband(b, &e, plan, s.Pal)
	c.paint(b, &e, s.dress(plan, c, first))
	if opt.Row {
		markLines(b, &e, plan, shape, first, last, s.Pal.Thread)
	} else {
		stitches(b, &e, plan, shape, 3, 0.13, s.Pal.Thread)
	}
	// The cloth lies below the words, wherever it reaches.
	s.Items = append([]draw.Item{b.Reusable()}, s.Items...)
	s.point(s.marked(&e, plan, shape), s.spots(&e, plan, shape))
	return nil
}

// markLines draws the marks on the cloth from first to last: a line for a top mark, a
// broken one for a bottom mark.
func markLines(b *draw.Body, e *draw.Eye, plan pleat.Plan, shape pleat.Shape, first, last int, c color.NRGBA) {
	const dashes = 9
	for k := first; k <= last; k++ {
		for i := range dashes {
			if plan.Row[k].Fold == scheme.Trough && i%2 == 1 {
				continue
			}
			b.Thread(e, 0.09, 0.35, c, onLine(shape, k, float64(i)/dashes), onLine(shape, k, float64(i+1)/dashes))
		}
	}
}

// onLine is the place at the part t of the way along mark k's line from the inner
// edge to the outer.
func onLine(shape pleat.Shape, k int, t float64) geom.Vec3 {
	j := min(int(t*float64(shape.NV)), shape.NV-1)
	return innerAt(shape, k, j).Lerp(innerAt(shape, k, j+1), t*float64(shape.NV)-float64(j))
}

// within gives the panels whose folds lie at most reach mm from the middle of the
// row, counted outward from the middle panel, and the middle of the box about the
// whole row's part of them: the neck's middle where the row closes about it.
func within(shape pleat.Shape, reach float64) (first, last int, mid geom.Vec3) {
	n := len(shape.Panels)
	at := innerAt(shape, n/2, shape.NV)
	first, last = n/2, min(n, n/2+1)
	near := func(k int) bool {
		d := innerAt(shape, k, shape.NV).Sub(at)
		return math.Hypot(d.X, d.Y) <= reach
	}
	for first > 0 && near(first-1) {
		first--
	}
	for last < n && near(last+1) {
		last++
	}
	lo, hi := geom.Vec2{X: math.Inf(1), Y: math.Inf(1)}, geom.Vec2{X: math.Inf(-1), Y: math.Inf(-1)}
	for k := first; k <= last; k++ {
		for _, j := range []int{0, shape.NV} {
			v := innerAt(shape, k, j)
			lo, hi = geom.Vec2{X: min(lo.X, v.X), Y: min(lo.Y, v.Y)}, geom.Vec2{X: max(hi.X, v.X), Y: max(hi.Y, v.Y)}
		}
	}
	return first, last, geom.Vec3{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2}
}
