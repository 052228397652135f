package sim

import (
	"errors"
	"math"
	"testing"

	"ruffwright/geom/scheme"
)

func TestDraw(t *testing.T) {
	r, err := Draw(scheme.Default())
	if err != nil {
		t.Fatal(err)
	}
	if r.Solved != nil {
		t.Error("drawn, yet solved")
	}
	f := r.Folded
	if f.Shape.NU != DrawNU || f.Shape.NV != DrawNV || len(f.Shape.Panels) != r.Plan.Panels || len(f.Half) != r.Plan.Panels {
		t.Errorf("grid %d × %d, %d panels of %d", f.Shape.NU, f.Shape.NV, len(f.Shape.Panels), r.Plan.Panels)
	}
	// The default asks for 45 mm on a round neck, with the panel fitted to it.
	if h := f.Mean.HeightOuter_mm; math.Abs(h-45) > 1e-6 {
		t.Errorf("height %g mm, want 45", h)
	}
}

func TestDrawNamesTheField(t *testing.T) {
	s := scheme.Default()
	s.Ruff.Sets = 4000
	_, err := Draw(s)
	var es scheme.Errors
	if !errors.As(err, &es) || es[0].Field != "ruff.sets" {
		t.Errorf("%v, want an error of ruff.sets", err)
	}
}
