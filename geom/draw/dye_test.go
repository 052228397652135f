package draw

import (
	"image/color"
	"math"
	"testing"
)

// Simulated colour-vision deficiencies, full severity: matrices for linear RGB of
// G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, 'A Physiologically-based
// Model for Simulation of Color Vision Deficiency', IEEE Transactions on
// Visualization and Computer Graphics 15 (6), 2009, table 1 (severity 1.0).
var deficiencies = map[string][3][3]float64{
	"none":      {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protan":    {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deutan":    {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritan":    {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
	"no colour": {{0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}}, // luminance alone
}

// lab is a colour as seen with a deficiency, in CIE 1976 L*a*b* under D65 (sRGB's
// primaries, IEC 61966-2-1).
func lab(c color.NRGBA, m [3][3]float64) [3]float64 {
	in := [3]float64{lin(c.R), lin(c.G), lin(c.B)}
	var rgb [3]float64
	for i := range rgb {
		for k := range in {
			rgb[i] += m[i][k] * in[k]
		}
		rgb[i] = max(0, min(1, rgb[i]))
	}
	xyz := [3]float64{
		(0.4124*rgb[0] + 0.3576*rgb[1] + 0.1805*rgb[2]) / 0.95047,
		0.2126*rgb[0] + 0.7152*rgb[1] + 0.0722*rgb[2],
		(0.0193*rgb[0] + 0.1192*rgb[1] + 0.9505*rgb[2]) / 1.08883,
	}
	f := func(t float64) float64 {
		if t > 216./24389 {
			return math.Cbrt(t)
		}
		return (24389./27*t + 16) / 116
	}
	return [3]float64{116*f(xyz[1]) - 16, 500 * (f(xyz[0]) - f(xyz[1])), 200 * (f(xyz[1]) - f(xyz[2]))}
}

// Dyes can be told apart: neighbouring steps by at least 8 of CIE 1976's ΔE
// (2.3 is just noticeable: Mahy, Van Eycken, Oosterlinck, Color Res. Appl. 19,
// 1994), whoever looks; deeper is darker; and the lines on them have WCAG's 3 : 1
// for graphics against the deepest dye in its deepest shade.
func TestDyesCanBeToldApart(t *testing.T) {
	const steps = 5 // of a tone
	for name, pal := range map[string]Palette{"light": Light(), "dark": Dark(), "contrast": Contrast()} {
		for who, m := range deficiencies {
			var before [3]float64
			for k := range steps {
				now := lab(pal.Dye((float64(k)+0.5)/steps), m)
				if k > 0 {
					d := math.Sqrt(sq(now[0]-before[0]) + sq(now[1]-before[1]) + sq(now[2]-before[2]))
					if d < 8 {
						t.Errorf("%s, %s: steps %d and %d differ by %.1f, want at least 8", name, who, k, k+1, d)
					}
					if now[0] > before[0]-4 {
						t.Errorf("%s, %s: step %d is not darker than step %d: L* %.1f, %.1f", name, who, k+1, k, now[0], before[0])
					}
				}
				before = now
			}
		}
		for k := range steps {
			c := pal.Dye((float64(k) + 0.5) / steps)
			if r := ratio(pal.ToneInk, c); r < 3 {
				t.Errorf("%s: lines on step %d stand out by %.2f, want 3", name, k+1, r)
			}
		}
	}
}

func sq(x float64) float64 { return x * x }
