package draw

import (
	"image/color"
	"math"
	"testing"
)

// WCAG 2.2, success criteria 1.4.3 (text 4.5:1) and 1.4.11 (lines 3:1).
func TestPaletteContrast(t *testing.T) {
	for _, p := range []struct {
		name string
		p    Palette
	}{{"light", Light()}, {"dark", Dark()}, {"contrast", Contrast()}} {
		for _, c := range []struct {
			name string
			a, b color.NRGBA
			want float64
		}{
			{"ink on ground", p.p.Ink, p.p.Ground, 7},
			{"ink on wash", p.p.Ink, p.p.Wash, 7},
			{"quiet on ground", p.p.Quiet, p.p.Ground, 4.5},
			{"quiet on wash", p.p.Quiet, p.p.Wash, 4.5},
			{"rule on ground", p.p.Rule, p.p.Ground, 3},
			{"rule on wash", p.p.Rule, p.p.Wash, 3},
			{"thread on ground", p.p.Thread, p.p.Ground, 3},
			{"madder", p.p.Madder, p.p.Ground, 4.5},
			{"weld", p.p.Weld, p.p.Ground, 4.5},
			{"woad", p.p.Woad, p.p.Ground, 4.5},
			{"walnut", p.p.Walnut, p.p.Ground, 4.5},
			{"hatching on the cloth's middle", p.p.Hatch, p.p.ClothMid, 3},
		} {
			if r := Ratio(c.a, c.b); r < c.want {
				t.Errorf("%s: %s has contrast %.2f, want at least %g", p.name, c.name, r, c.want)
			}
		}
	}
	// Worked examples: black on white is 21, and #767676 on white is the
	// lightest grey that reaches 4.5 (4.54), by the W3C's own formula.
	if r := Ratio(rgb(0), rgb(0xffffff)); math.Abs(r-21) > 1e-9 {
		t.Errorf("black on white has %g, want 21", r)
	}
	if r := Ratio(rgb(0x767676), rgb(0xffffff)); math.Abs(r-4.54) > 0.005 {
		t.Errorf("#767676 on white has %.4f, want 4.54", r)
	}
}
