package curve

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"pgregory.net/rapid"
)

// parameter draws m and 1 − m from both ends of (0, 1).
func parameter(t *rapid.T) (m, mc float64) {
	small := math.Pow(10, rapid.Float64Range(-12, math.Log10(0.5)).Draw(t, "log10 of the smaller"))
	if rapid.Bool().Draw(t, "steep") {
		return 1 - small, small
	}
	return small, 1 - small
}

// Against gonum's K and E (Fukushima's approximations) and its Carlson
// integrals: v = F(χ) must give cn v = cos χ, and N follows from E(χ).
func TestPendulumIdentities(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, mc := parameter(t)
		p := newPendulum(m, mc)
		wantK := mathext.EllipticRF(0, mc, 1)
		wantE := wantK - m/3*mathext.EllipticRD(0, mc, 1)
		if math.Abs(p.bigK-wantK) > 4e-15*wantK || math.Abs(p.bigE-wantE) > 1e-14*wantK {
			t.Fatalf("m %v: K %.17g, E %.17g, want %.17g, %.17g", m, p.bigK, p.bigE, wantK, wantE)
		}
		if m < 0.99 && (math.Abs(p.bigK-mathext.CompleteK(m)) > 1e-14 || math.Abs(p.bigE-mathext.CompleteE(m)) > 1e-14) {
			t.Fatalf("m %v: K %.17g, E %.17g, gonum %.17g, %.17g", m, p.bigK, p.bigE, mathext.CompleteK(m), mathext.CompleteE(m))
		}
		chi := rapid.Float64Range(0, 1.5).Draw(t, "chi")
		s, c := math.Sincos(chi)
		d2 := c*c + mc*s*s
		v := s * mathext.EllipticRF(c*c, d2, 1)
		e := v - m/3*s*s*s*mathext.EllipticRD(c*c, d2, 1)
		n := e - m*s*c/math.Sqrt(d2)
		at := p.at(v)
		if math.Abs(at.half.X-p.k*c) > 3e-15*(1+v) || math.Abs(at.c-(v-2*n)) > 1e-14*(1+v) || math.Abs(at.s-2*p.k*p.kc*s/math.Sqrt(d2)) > 1e-14 {
			t.Fatalf("m %v, chi %v: %+v, want cn %v, C %v, S %v", m, chi, at, c, v-2*n, 2*p.k*p.kc*s/math.Sqrt(d2))
		}
		// Odd in v; and C, S, φ after a half turn.
		for _, turn := range []float64{-1, 1} {
			w := p.at(turn*v + 2*p.bigK)
			full := p.at(2 * p.bigK)
			if math.Abs(w.half.X+p.k*c) > 1e-13 || math.Abs(w.c-full.c-turn*at.c) > 1e-13*(1+p.bigK) || math.Abs(w.s+turn*at.s) > 1e-13 {
				t.Fatalf("m %v, chi %v: half a turn on, %+v against %+v", m, chi, w, at)
			}
		}
	})
}

// The equation itself, by Runge–Kutta of the fourth order in fine steps.
func TestPendulumEquation(t *testing.T) {
	for _, m := range []float64{1e-3, 0.2, 0.5, 0.73, 0.97, 1 - 1e-6} {
		p := newPendulum(m, 1-m)
		const steps = 4000
		span := 2.5 * p.bigK
		phi := p.at(0).phi()
		end := bent{phi: phi}
		for range steps {
			end = end.step(span/steps, func(phi float64) float64 { return math.Sin(phi) })
		}
		at := p.at(span)
		if math.Abs(end.phi-at.phi()) > 1e-8 || math.Abs(end.x-at.c) > 1e-8 || math.Abs(end.y-at.s) > 1e-8 {
			t.Errorf("m %v: Runge–Kutta %+v, pendulum φ %v C %v S %v", m, end, at.phi(), at.c, at.s)
		}
	}
}

// bent is the state of a curve in integration: angle, curvature, place.
type bent struct{ phi, kappa, x, y float64 }

// step advances by h under φ” = f(φ), with x′ = cos φ, y′ = sin φ.
func (a bent) step(h float64, f func(float64) float64) bent {
	rate := func(s bent) bent {
		sin, cos := math.Sincos(s.phi)
		return bent{s.kappa, f(s.phi), cos, sin}
	}
	add := func(s, d bent, h float64) bent {
		return bent{s.phi + h*d.phi, s.kappa + h*d.kappa, s.x + h*d.x, s.y + h*d.y}
	}
	k1 := rate(a)
	k2 := rate(add(a, k1, h/2))
	k3 := rate(add(a, k2, h/2))
	k4 := rate(add(a, k3, h))
	return add(add(add(add(a, k1, h/6), k2, h/3), k3, h/3), k4, h/6)
}

func BenchmarkPendulum(b *testing.B) {
	for _, m := range []float64{0.3, 0.7} {
		p := newPendulum(m, 1-m)
		b.Run(map[bool]string{false: "flat", true: "steep"}[p.kind == steep], func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				p.at(float64(i&31) / 16)
			}
		})
	}
	b.Run("new", func(b *testing.B) {
		for b.Loop() {
			newPendulum(0.3, 0.7)
		}
	})
}
