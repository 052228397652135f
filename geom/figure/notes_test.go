package figure

import (
	"fmt"
	"slices"
	"testing"
)

// Where each view has each place: there a note about it is marked on the drawing
// itself, at every size and on every ruff, with no label under another; elsewhere
// its words at the foot are all.
func TestNotesAreMarked(t *testing.T) {
	lacks := map[string][]string{
		"side":   {WhereOpening}, // it is at the front
		"oneset": {WhereOpening, WhereJoins, WhereNeck, WhereStrip},
		"cut":    {WhereOpening, WhereJoins, WhereStrip},
		"flat":   {WhereNeck},
	}
	for _, d := range designs() {
		plan, shape := d.make(t)
		for _, sheet := range sheets()[:2] {
			for _, v := range views() {
				for _, where := range Wheres() {
					opt := sheet.Options
					opt.Cells, opt.Turn_deg, opt.Tilt_deg = 1, 28, 26
					opt.Joins_mm = []float64{plan.Marks[2].Place_mm}
					opt.Notes = []Note{{where, "what will be seen at the work table, in a sentence that fills more than a line of the sheet", SignStop}}
					name := fmt.Sprintf("%s %s %s: %s", v.name, d.name, sheet.name, where)
					dr, err := v.draw(plan, shape, opt)
					if err != nil {
						t.Fatalf("%s: %v", name, err)
					}
					n := 0
					for _, l := range dr.Labels() {
						if l.Text == "a" && l.Face == Bold {
							n++
						}
					}
					want := 2 // at the foot, and at the place
					if slices.Contains(lacks[v.name], where) {
						want = 1
					}
					if n != want {
						t.Errorf("%s is marked %d times, want %d", name, n-1, want-1)
					}
				}
			}
		}
	}
}
