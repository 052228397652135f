package figure

import (
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// inHand draws the ruff on its wearer as if held before the eye, in gentle perspective.
// It is made to be drawn again at every turn: BenchmarkInHand says how fast.
func inHand(s *sheet) error {
	opt, plan, shape := s.opt, s.plan, s.shape
	first, last, mid := 0, len(shape.Panels), geom.Vec3{}
	ball := math.Inf(1) // the largest that is seen
	if opt.Row {
		ball = 1.6 * (max(plan.Neckline.Breadth(), plan.Neckline.Depth())/2 + plan.Scheme.Ruff.Depth)
		_, _, mid = within(shape, 1.6*ball)
		first, last, _ = within(shape, 4*ball) // the strip runs on beyond the sheet
		s.title = word.Say("On its way from the strip")
	}
	s.head(sets(plan))
	s.Desc = s.Say(word.Join(" ", word.Say("The ruff of %s in the hand, turned by %.0f degrees and seen from %.0f degrees above level. The ruler is exact at the middle of the ruff.", sets(plan), opt.Turn_deg, opt.Tilt_deg), s.wornBy(), s.bowSaid()))

	e := draw.NewEye(opt.Turn_deg, opt.Tilt_deg)
	s.hold(&e, first, last, mid, ball)
	scene, ghost := s.scenes(first, last, false)
	if ghost != nil {
		s.solid(ghost, e, ghostly)
	}
	s.solid(scene, e, 0)
	if opt.Row { // the strip runs on, but not through the title
		at := s.below - 1
		row := s.Items[at].(draw.Solid)
		row.Clip.Min.Y = s.View.Min.Y - 2.4
		s.Items[at] = row
	}
	s.rulerBar()
	s.point(s.onWhole(e, scene))
	return nil
}

// ghostly is the part of the ruff at rest that the ground covers while the wearer bows.
const ghostly = 0.6

// wornBy tells of the form, and which of its measures were not given.
func (s *sheet) wornBy() word.Text {
	if s.plan.Scheme.Wearer.Part == scheme.Wrist {
		return word.Say("It is worn by a plain turned arm.")
	}
	face := s.plan.Scheme.Wearer.Face
	if face > 0 {
		return word.Say("It is worn by a plain turned form of shoulders, neck and chin, whose face is %s high.", s.Length(face))
	}
	return word.Say("It is worn by a plain turned form of shoulders, neck and chin. The height of its face was not given: it is %s, the middle of ANSUR II for such a neck.", s.Length(faceOf(s.plan.Scheme.Wearer.Girth)))
}

// bowSaid tells of a bow; nothing while the wearer stands.
func (s *sheet) bowSaid() word.Text {
	if s.opt.Bow_deg == 0 {
		return word.Text{}
	}
	return word.Say("The wearer bows by %.0f degrees; pale, the ruff at rest. Where the outer edge swings, a second line shows where it would stand if it did not.", s.opt.Bow_deg)
}

// hold sets scale and place of the eye so that the ruff and its wearer fit the room,
// however they are turned: turning changes no size.
func (s *sheet) hold(e *draw.Eye, first, last int, mid geom.Vec3, ball float64) {
	opt, plan := s.opt, s.plan
	lo, hi, r := math.Inf(1), math.Inf(-1), 0.0
	for _, p := range s.shape.Panels[first:last] {
		for i, v := range p.V {
			lo, hi = min(lo, v.Z), max(hi, v.Z)
			if (i+1)%(s.shape.NV+1) == 0 { // the outer edge
				r = max(r, v.XY().Sub(mid.XY()).Norm())
			}
		}
	}
	r = math.Min(r, ball)
	e.Mid = geom.Vec3{X: mid.X, Y: mid.Y, Z: (lo + hi) / 2}
	e.Far = 5 * r
	rings := []turn{level(lo, r, r, r), level(hi, r, r, r)}
	form := newWearer(plan, s.restShape())
	worn := form.outline()
	bow := bowing(plan, opt.Bow_deg)
	box := draw.Rect{Min: draw.Pt(math.Inf(1), math.Inf(1)), Max: draw.Pt(math.Inf(-1), math.Inf(-1))}
	look := func(v geom.Vec3) {
		for turned := 0.0; turned < 360; turned += 30 {
			probe := draw.NewEye(turned, opt.Tilt_deg)
			probe.Mid, probe.Far = geom.Vec3{Z: e.Mid.Z}, e.Far
			p := probe.Point(v)
			box.Min = draw.Pt(math.Min(box.Min.X, p.X), math.Min(box.Min.Y, p.Y))
			box.Max = draw.Pt(math.Max(box.Max.X, p.X), math.Max(box.Max.Y, p.Y))
		}
	}
	for i := range 12 {
		angle := float64(i) * math.Pi / 6
		for _, ring := range rings {
			look(ring.place(angle))
			if opt.Bow_deg > 0 {
				look(bow(ring.place(angle)))
			}
		}
		for _, ring := range worn {
			look(bow(ring.place(angle)).Sub(geom.Vec3{X: mid.X, Y: mid.Y}))
		}
	}
	top := s.Room.Min.Y - titleRoom
	w, h := s.Room.Max.X-s.Room.Min.X, s.Room.Max.Y-top-rulerRoom
	wide := math.Max(box.Max.X, -box.Min.X)
	fits := math.Min(w/2/(wide*1.02), h/((box.Max.Y-box.Min.Y)*1.02))
	if opt.Scale > 0 {
		fits = math.Min(fits, opt.Scale)
	}
	e.Scale = fits * opt.Zoom
	e.X, e.Y = (s.Room.Min.X+s.Room.Max.X)/2, top+h/2-fits*(box.Min.Y+box.Max.Y)/2
	e.X, e.Y = e.X+opt.PanX_mm*e.Scale, e.Y-opt.PanY_mm*e.Scale
	s.Scale = e.Scale
}

// What the ruler takes at the foot of the room, and how far the head may stand into the
// title's line, sheet mm: both lie at the sides, and are drawn over what is solid.
const (
	rulerRoom = 2.0
	titleRoom = 6.0
)

// rulerBar lays a ruler at the foot, on a plate of the ground.
func (s *sheet) rulerBar() {
	at := draw.Pt(s.Room.Min.X, s.Room.Max.Y-2)
	plate := len(s.Items)
	s.Add(draw.Path{})
	s.Ruler(at, s.Scale, 0.42*(s.Room.Max.X-s.Room.Min.X))
	if len(s.Items) == plate+1 {
		s.Items = s.Items[:plate]
		return
	}
	right := at.X
	for _, it := range s.Items[plate+1:] {
		if l, ok := it.(draw.Label); ok {
			right = math.Max(right, l.Box().Max.X)
		}
	}
	ground := s.Pal.Ground
	ground.A = 215
	s.Items[plate] = draw.Path{Closed: true, Fill: ground, Lines: [][]draw.Point{{
		draw.Pt(at.X-1.5, at.Y-2.4), draw.Pt(right+1.5, at.Y-2.4), draw.Pt(right+1.5, at.Y+2.4), draw.Pt(at.X-1.5, at.Y+2.4),
	}}}
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
