package window_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ruffwright/sim/shell/known"
	"ruffwright/sim/window"
)

// TestKnownMesh: the sags that are held against CalculiX are computed on the grid
// that results are.
func TestKnownMesh(t *testing.T) {
	on, n := fmt.Sprintf("%d × %d: sag", window.Fine.NU, window.Fine.NV), 0
	for _, p := range slices.Concat(known.Panels(), known.Corrugations()) {
		if !strings.Contains(p.Name, ": sag") {
			continue
		}
		n++
		if !strings.Contains(p.Name, on) {
			t.Errorf("%q is not on Fine's %d × %d", p.Name, window.Fine.NU, window.Fine.NV)
		}
	}
	if n != 14 {
		t.Errorf("%d sags; there are 14", n)
	}
}
