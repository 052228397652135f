package pattern

import (
	"fmt"
	"testing"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/testdata/frozen"
)

// TestFrozen holds patterns of random schemes to what they were: pieces, layout, band,
// joins, marks, swatches and work.
func TestFrozen(t *testing.T) {
	texts := map[string]string{}
	var all []Pattern
	for seed := range uint64(70) {
		s := scheme.Random(seed)
		p, err := pleat.NewPlan(s)
		if err != nil {
			continue
		}
		q, err := New(p)
		if err != nil {
			texts[fmt.Sprintf("%d-refused", seed)] = err.Error()
			continue
		}
		all = append(all, q)
		texts[fmt.Sprint(seed)] = frozen.JSON(t, []any{q.Strip, q.Band, q.Cut, q.Ways, q.Swatches(), q.Work(), q.Cut.Layout.Washed(), Joins(p)})
		for u := range scheme.Units(3) {
			texts[fmt.Sprintf("%d-marks-%d", seed, u)] = frozen.JSON(t, q.Marks(u))
		}
	}
	texts["order"] = frozen.JSON(t, NewOrder(all[:8]))
	frozen.Hold(t, texts)
}
