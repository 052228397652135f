package look

import (
	"math"
	"testing"

	"ruffwright/geom/figure"
)

// TestPanes: two stand side by side where there is room and one above the other on a
// narrow stage; what a pointer does in B's half it does as in A's.
func TestPanes(t *testing.T) {
	for stage, want := range map[string]bool{"700 450 1": false, "1200 700 1": false, "560 450 1": false, "390 480 3": true, "320 340 2": true, "479 300 1": true} {
		l := newLook(t)
		l.B = l.A
		l.Resize(stage)
		w, h, stacked := l.pane()
		if stacked != want || w <= 0 || h <= 0 || w > l.width() || h > l.height() {
			t.Errorf("%s: %g × %g, stacked %v", stage, w, h, stacked)
		}
		l.View = figure.Named("above")
		shift := place{l.width() - w, 0}
		if stacked {
			shift = place{0, l.height() - h}
		}
		at := place{0.3 * w, 0.4 * h}
		l.zoomAt(2, at)
		a := l.camera
		l.camera = home
		l.zoomAt(2, place{at.x + shift.x, at.y + shift.y})
		b := l.camera
		if a.Lens.Scale != 2 || math.Abs(a.Lens.X-b.Lens.X) > 1e-9 || math.Abs(a.Lens.Y-b.Lens.Y) > 1e-9 || a.Lens == home.Lens {
			t.Errorf("%s: enlarged in A %v, in B %v", stage, a.Lens, b.Lens)
		}
		l.B = nil
		if w, h, _ := l.pane(); w != l.width() || h != l.height() {
			t.Errorf("%s: alone it has %g × %g", stage, w, h)
		}
	}
}
