package figure

import (
	"math"
	"testing"

	"ruffwright/geom/pleat"
)

// TestOutline: the lines of a drawn ruff are as deep and as high as its plan says; what
// moves as the wearer bows is the set that moves most, by as much as its cloth does.
func TestOutline(t *testing.T) {
	plan, shape := designs()[0].make(t)
	bowed := shape
	bowed.Panels = append([]pleat.Panel(nil), shape.Panels...)
	const most = 7
	moved := pleat.Panel{V: append(bowed.Panels[most].V[:0:0], bowed.Panels[most].V...)}
	for i := range moved.V {
		moved.V[i].Z -= 9 * float64(i%(shape.NV+1)) / float64(shape.NV)
	}
	bowed.Panels[most] = moved
	o, err := NewOutline(plan, shape, &bowed)
	if err != nil {
		t.Fatal(err)
	}
	if err := o.Check(); err != nil {
		t.Error(err)
	}
	tip, low := o.Crest[len(o.Crest)-1], o.Trough[len(o.Trough)-1]
	if far := tip[0] - plan.Scheme.Ruff.Depth; math.Abs(far) > 0.2*plan.Scheme.Ruff.Depth {
		t.Errorf("the top fold ends %g mm from the neck, the ruff is %g deep", tip[0], plan.Scheme.Ruff.Depth)
	}
	if high := tip[1] - low[1]; math.Abs(high-plan.Scheme.Ruff.Height) > 2 {
		t.Errorf("cut, the outer edge is %g mm high; wanted %g", high, plan.Scheme.Ruff.Height)
	}
	if fell := tip[1] - o.BowedCrest[len(o.BowedCrest)-1][1]; math.Abs(fell-9) > 0.2 {
		t.Errorf("bowed, the tip falls by %g mm, not 9", fell)
	}
	for name, l := range map[string]Line{"set": o.Set, "end": o.End} {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, p := range l {
			lo, hi = min(lo, p[1]), max(hi, p[1])
		}
		if math.Abs(hi-lo-plan.Scheme.Ruff.Height) > 2 {
			t.Errorf("%s: from %g to %g mm, wanted %g high", name, lo, hi, plan.Scheme.Ruff.Height)
		}
	}
	if o.BowedCrest = append(o.BowedCrest, [2]float64{math.NaN(), 0}); o.Check() == nil {
		t.Error("NaN can be drawn")
	}
	if _, err := NewOutline(plan, pleat.Shape{}, nil); err == nil {
		t.Error("nothing can be drawn")
	}
}
