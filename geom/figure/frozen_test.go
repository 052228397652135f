package figure

import (
	"fmt"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/testdata/frozen"
)

// TestFrozen holds all views of some ruffs to what they were: every line and every word,
// without the pictures within (see TestGolden).
func TestFrozen(t *testing.T) {
	texts := map[string]string{}
	for _, d := range designs() {
		if d.name == "wide" {
			continue // 200 sets take long and show no other thing
		}
		plan, shape := d.make(t)
		for k, opt := range []Options{
			{Width_mm: 180, Height_mm: 160, Units: scheme.Centimetres, Notes: longNotes(), Joins_mm: []float64{plan.Strip_mm / 3}},
			{Width_mm: 90, Height_mm: 200, Units: scheme.Inches},
		} {
			for _, v := range Views {
				drawing, err := v.Draw(plan, shape, opt)
				if err != nil {
					t.Fatal(err)
				}
				texts[fmt.Sprintf("%s-%s-%d", d.name, v.Name, k)] = string(lines(drawing))
			}
		}
	}
	frozen.Hold(t, texts)
}
