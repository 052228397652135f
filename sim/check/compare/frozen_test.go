package compare

import (
	"fmt"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/testdata/frozen"
)

// TestFrozen holds what is said of pairs of ruffs to what was said of them: demos as
// they are solved coarsely against each other and against random schemes as drawn.
func TestFrozen(t *testing.T) {
	texts := map[string]string{}
	var ruffs []Side
	for _, name := range []string{"sound", "floppy", "uneven", "cuff", "flaps-up"} {
		s := demoScheme(t, name)
		ruffs = append(ruffs, drawn(t, s), settledRuff(t, s))
	}
	for seed := range uint64(20) {
		if r, err := sim.Draw(scheme.Random(seed)); err == nil {
			ruffs = append(ruffs, SideOf(r))
		}
	}
	for i, a := range ruffs[:10] {
		for k, b := range ruffs {
			c := Of(a, b, []scheme.Units{scheme.Millimetres, scheme.Inches}[k%2])
			for n := range c.Fields {
				c.Fields[n].Field = scheme.Field{Key: c.Fields[n].Field.Key}
			}
			texts[fmt.Sprintf("%d-%d", i, k)] = frozen.JSON(t, c)
		}
	}
	frozen.Hold(t, texts)
}
