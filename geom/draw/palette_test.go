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
			{"madder on wash", p.p.Madder, p.p.Wash, 4.5},
			{"weld on wash", p.p.Weld, p.p.Wash, 4.5},
			{"woad on wash", p.p.Woad, p.p.Wash, 4.5},
			{"walnut on wash", p.p.Walnut, p.p.Wash, 4.5},
			{"hatching on the cloth's middle", p.p.Hatch, p.p.ClothMid, 3},
		} {
			if r := ratio(c.a, c.b); r < c.want {
				t.Errorf("%s: %s has contrast %.2f, want at least %g", p.name, c.name, r, c.want)
			}
		}
	}
	// Worked examples: black on white is 21, and #767676 on white is the
	// lightest grey that reaches 4.5 (4.54), by the W3C's own formula.
	if r := ratio(rgb(0), rgb(0xffffff)); math.Abs(r-21) > 1e-9 {
		t.Errorf("black on white has %g, want 21", r)
	}
	if r := ratio(rgb(0x767676), rgb(0xffffff)); math.Abs(r-4.54) > 0.005 {
		t.Errorf("#767676 on white has %.4f, want 4.54", r)
	}
}

// The ramp runs from the depth of a fold to full light; tinted, its end is four fifths of
// woad with 0.15 of the light in it. By hand for the sheet by day: of 24588f and fffefa.
func TestRamp(t *testing.T) {
	p := Light()
	plain, tinted := p.Ramp()
	if plain[0] != p.ClothDeep || plain[255] != p.ClothLight {
		t.Errorf("from %v to %v", plain[0], plain[255])
	}
	for k, want := range map[int][3]float64{0: {92, 100, 120}, 255: {106.1, 141.1, 177.2}} {
		if c := tinted[k]; math.Abs(float64(c.R)-want[0]) > 1 || math.Abs(float64(c.G)-want[1]) > 1 || math.Abs(float64(c.B)-want[2]) > 1 {
			t.Errorf("tinted, step %d is %v, want %v", k, c, want)
		}
	}
}

// ratio is the contrast of two opaque colours, 1 to 21, by WCAG 2.2: relative
// luminances L, (L1 + 0.05)/(L2 + 0.05) with L1 the lighter.
func ratio(a, b color.NRGBA) float64 {
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

// luminance is WCAG 2.2's relative luminance, 0 black to 1 white.
func luminance(c color.NRGBA) float64 {
	return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
}

// lin is a channel of sRGB without its gamma, 0 to 1 (IEC 61966-2-1).
func lin(v uint8) float64 {
	x := float64(v) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}
