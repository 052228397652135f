package figure

import (
	"fmt"
	"math"

	"ruffwright/geom"
	"ruffwright/geom/pleat"
)

// InHand draws the ruff as if held before the eye: lit cloth on its band and
// block, turned, tilted and enlarged as the options say, in gentle perspective.
// It is made to be drawn again at every turn: BenchmarkInHand says how fast.
func InHand(plan pleat.Plan, shape pleat.Shape, opt Options) (Drawing, error) {
	opt, err := opt.filled()
	if err != nil {
		return Drawing{}, err
	}
	if err := checkShape(plan, shape); err != nil {
		return Drawing{}, err
	}
	tone, err := opt.toned(shape)
	if err != nil {
		return Drawing{}, err
	}
	c := newCloth(shape, 0, len(shape.Panels), opt.cells(turningCells))
	c.dyed(shape, tone, 0)
	s := newSheet(opt, tone, "In the hand", sets(plan), fmt.Sprintf(
		"The ruff of %s in the hand, turned by %.0f degrees and seen from %.0f degrees above level.", sets(plan), opt.Turn_deg, opt.Tilt_deg))

	// The ball about the ruff fits the room, so that turning changes no size.
	var lo, hi float64
	var r float64
	for _, v := range c.v {
		lo, hi = math.Min(lo, v.Z), math.Max(hi, v.Z)
		r = math.Max(r, v.X*v.X+v.Y*v.Y)
	}
	r = math.Sqrt(r)
	e := newEye(opt.Turn_deg, opt.Tilt_deg)
	e.mid = geom.Vec3{Z: (lo + hi) / 2}
	e.far = 5 * r
	w, h := s.room.Max.X-s.room.Min.X, s.room.Max.Y-s.room.Min.Y
	// Tilted, the ruff takes less height than breadth; the block stands above.
	tall := math.Max(r*math.Abs(math.Sin(opt.Tilt_deg*math.Pi/180))+(hi-lo)/2+6, r*0.55)
	fits := math.Min(w/2/(r*1.04), h/2/(tall*1.08))
	if opt.Scale > 0 {
		fits = math.Min(fits, opt.Scale)
	}
	e.scale = fits * opt.Zoom
	e.at = Point{(s.room.Min.X + s.room.Max.X) / 2, (s.room.Min.Y + s.room.Max.Y) / 2}
	s.Scale = e.scale

	b := opt.body(c)
	b.block(&e, plan.Neckline, math.Min(lo, 0)-10, s.top(c), s.pal)
	b.band(&e, plan, s.pal)
	c.paint(b, &e, s.dress(plan, c, 0))
	b.stitches(&e, plan, shape, 3, 0.13, s.pal.Thread)
	// The cloth lies below the words, wherever it reaches.
	s.Items = append([]Item{b.reusable()}, s.Items...)
	s.point(s.spots(&e, plan, shape))
	return s.Drawing, nil
}
