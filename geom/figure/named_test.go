package figure

import (
	"testing"

	"ruffwright/geom/draw"
)

// A word's thread to what it names crosses no line of a measure and none of its numbers: of every demo's set cut
// through, on sheets of three shapes.
func TestThreadsCrossNoMeasure(t *testing.T) {
	threads := 0
	for _, name := range []string{"cuff", "early", "ends-up", "flaps-up", "floppy", "portrait", "short", "sound", "tall", "uneven", "untucked", "wide"} {
		plan, shape := design{"named " + name, name, nil, 16, 8}.make(t)
		for _, size := range [][2]float64{{240, 180}, {160, 180}, {120, 180}, {180, 120}} {
			d, err := Named("cut").Draw(plan, shape, Options{Width_mm: size[0], Height_mm: size[1]})
			if err != nil {
				t.Fatal(err)
			}
			var measures []draw.Item
			var named []draw.Path
			for _, it := range d.Items {
				if l, ok := it.(draw.Label); ok && l.Face != draw.Italic {
					measures = append(measures, l)
				}
				p, ok := it.(draw.Path)
				if !ok || p.Stroke != draw.Light().Rule || p.Dash_mm != nil || len(p.Lines[0]) != 2 {
					continue
				}
				if p.Width_mm == threadLine {
					named = append(named, p)
				} else if p.Width_mm < 0.25 {
					measures = append(measures, p)
				}
			}
			threads += len(named)
			for _, p := range named {
				if cuts(measures, p.Lines[0][0], p.Lines[0][1]) {
					t.Errorf("%s, %g × %g: the thread from %v to %v crosses a measure's line", name, size[0], size[1], p.Lines[0][0], p.Lines[0][1])
				}
			}
		}
	}
	if threads < 80 {
		t.Errorf("%d threads", threads)
	}
}
