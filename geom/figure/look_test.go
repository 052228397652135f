package figure

import (
	"os"
	"path/filepath"
	"testing"

	"ruffwright/geom/draw"
)

// TestLook writes every view as PNG into the folder named by FIGURE_LOOK, to be
// looked at; without it, it is skipped.
func TestLook(t *testing.T) {
	dir := os.Getenv("FIGURE_LOOK")
	if dir == "" {
		t.Skip("FIGURE_LOOK names no folder")
	}
	for _, d := range designs() {
		plan, shape := d.make(t)
		for _, sheet := range sheets() {
			for _, v := range Views {
				for _, pal := range []struct {
					name string
					p    draw.Palette
				}{{"light", draw.Light()}, {"dark", draw.Dark()}} {
					opt := sheet.Options
					opt.Palette, opt.Set = pal.p, 7
					opt.Tilt_deg, opt.Turn_deg = 32, 20
					if d.name != "sound" && pal.name == "dark" {
						continue
					}
					if d.name == "cuff" {
						opt.Notes = longNotes()
					}
					dr, err := v.Draw(plan, shape, opt)
					if err != nil {
						t.Fatal(err)
					}
					f, err := os.Create(filepath.Join(dir, v.Name+"-"+d.name+"-"+sheet.name+"-"+pal.name+".png"))
					if err != nil {
						t.Fatal(err)
					}
					if err := dr.PNG(f, 6); err != nil {
						t.Fatal(err)
					}
					f.Close()
				}
			}
		}
	}
}
