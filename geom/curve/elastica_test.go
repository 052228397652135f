package curve

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom"
	"ruffwright/testdata/reference"
)

var _ Curve = (*Elastica)(nil)

// points returns n points of c at equal arc length, both ends included; nil
// for n < 2.
func points(c Curve, n int) []geom.Vec2 {
	if n < 2 {
		return nil
	}
	dst := make([]geom.Vec2, n)
	for i := range dst {
		dst[i], _ = c.At(c.Length() * float64(i) / float64(n-1))
	}
	return dst
}

// near fails unless got is within tol of want, relative to max(1, |want|).
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Max(1, math.Abs(want))) {
		t.Errorf("%s: %.16g, want %.16g (off by %.2g)", what, got, want, got-want)
	}
}

// steepest is the descent at the middle, radians.
func steepest(c Curve) float64 {
	_, theta := c.At(c.Length() / 2)
	return -theta
}

// crestCurvature is the curvature at the crest, 1/mm, from the pendulum there.
func crestCurvature(e *Elastica) float64 {
	if e.Touching() {
		return 2 * e.touch.p.k * e.touch.rate
	}
	return 2 * e.wave.p.k * e.wave.rate
}

// elastica.csv: mpmath, 15 digits. The rows with chord/L below ContactRatio are
// the free form run on past contact, a figure of mathematics only.
func TestElasticaReference(t *testing.T) {
	const length = 80
	rows := reference.Rows(t, "elastica.csv")
	if len(rows) < 30 {
		t.Errorf("%d rows: the table has shrunk", len(rows))
	}
	for _, row := range rows {
		chord := reference.Number(t, row, "chord_over_L")
		name := "chord/L " + row["chord_over_L"]
		e := newFree(length, chord*length)
		near(t, name+" m", e.wave.p.k*e.wave.p.k, reference.Number(t, row, "m"), 1e-13)
		near(t, name+" θmax", steepest(&e)*180/math.Pi, reference.Number(t, row, "theta_max_deg"), 1e-12)
		near(t, name+" height", e.Height()/length, reference.Number(t, row, "height_over_L"), 1e-12)
		near(t, name+" loop", e.LoopWidth()/length, reference.Number(t, row, "loop_width_over_L"), 1e-12)
		near(t, name+" crest curvature", crestCurvature(&e)*length, reference.Number(t, row, "kappa_crest_L"), 1e-12)
		near(t, name+" force", math.Pow(e.wave.rate*length, 2), reference.Number(t, row, "P_L2_over_B"), 1e-12)
		if chord < 1e-9 {
			continue
		}
		whole, err := NewElastica(length, chord*length)
		if err != nil {
			t.Fatal(err)
		}
		if whole.Touching() != (row["overlap"] == "1") && math.Abs(chord-ContactRatio) > 1e-12 {
			t.Errorf("%s: touching %v, table's overlap %s", name, whole.Touching(), row["overlap"])
		}
	}
}

// elastica_contact.csv: first integrals and Newton in numpy, to 1e-11.
func TestElasticaContactReference(t *testing.T) {
	const length = 60
	rows := reference.Rows(t, "elastica_contact.csv")
	if len(rows) < 10 {
		t.Errorf("%d rows: the table has shrunk", len(rows))
	}
	for _, row := range rows {
		d := reference.Number(t, row, "D_over_L")
		name := "D/L " + row["D_over_L"]
		e := newTouching(length, d*length)
		s := e.touch.arc
		at, _ := e.At(s)
		drop := -at.Y
		near(t, name+" loop", e.LoopWidth()/length, 2*d, 1e-15)
		near(t, name+" height", e.Height()/length, reference.Number(t, row, "height_over_L"), 1e-11)
		near(t, name+" contact's arc", s/length, reference.Number(t, row, "s_contact_over_L"), 5e-11)
		near(t, name+" contact's drop", drop/length, reference.Number(t, row, "drop_contact_over_L"), 5e-11)
		near(t, name+" crest curvature", crestCurvature(&e)*length, reference.Number(t, row, "kappa_crest_L"), 1e-10)
		near(t, name+" θmax", steepest(&e)*180/math.Pi, reference.Number(t, row, "theta_max_deg"), 1e-10)
		near(t, name+" F0", math.Pow(e.touch.rate*length, 2), reference.Number(t, row, "P0"), 2e-10)
		near(t, name+" F1", math.Pow(e.wave.rate*length, 2), reference.Number(t, row, "P1"), 2e-10)
	}
}

// The constants in elastica.go, found again: the free form's loop is two half
// pitches wide at ContactRatio.
func TestContactOnset(t *testing.T) {
	at, ok := root(func(c float64) float64 {
		e := newFree(1, c)
		return e.LoopWidth() - 2*c
	}, 0.1, 1, 0.2, -1)
	if !ok {
		t.Fatal("no contact between 0.1 and 0.2")
	}
	near(t, "ContactRatio", ContactRatio, at, 1e-13)
	e := newFree(1, ContactRatio)
	near(t, "contactParameter", contactParameter, e.wave.p.k*e.wave.p.k, 1e-13)
	near(t, "contactSlender", contactSlender, e.Height()/ContactRatio, 1e-13)
	// Free just above, touching just below: no jump in anything.
	below, _ := NewElastica(1, ContactRatio-1e-9)
	above, _ := NewElastica(1, ContactRatio+1e-9)
	if !below.Touching() || above.Touching() {
		t.Error("the form does not change at ContactRatio")
	}
	for _, s := range []float64{0.1, 0.2, 0.2588733694, 0.3, 0.5, 0.8, 0.95} {
		p, a := below.At(s)
		q, b := above.At(s)
		if p.Sub(q).Norm() > 2e-8 || math.Abs(a-b) > 2e-7 {
			t.Errorf("at s = %v: touching %v %v, free %v %v", s, p, a, q, b)
		}
	}
}

// drawElastica draws any elastica: flat, tall, touching, almost folded.
func drawElastica(t *rapid.T) Elastica {
	length := math.Pow(10, rapid.Float64Range(-1, 3).Draw(t, "log length"))
	var ratio float64
	switch rapid.IntRange(0, 2).Draw(t, "kind") {
	case 0:
		ratio = rapid.Float64Range(0.02, 1).Draw(t, "ratio")
	case 1:
		ratio = math.Pow(10, rapid.Float64Range(-6, -1).Draw(t, "log ratio"))
	default:
		ratio = 1 - math.Pow(10, rapid.Float64Range(-15, -2).Draw(t, "log (1 − ratio)"))
	}
	e, err := NewElastica(length, ratio*length)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// Ends, half-turn symmetry, arc length, tangents, planes not crossed, and the
// equation by Runge–Kutta with the curve's own forces.
func TestElasticaShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := drawElastica(t)
		checkEnds(t, &e, e.Length())
		const n = 2000
		p := points(&e, n+1)
		tol := 1e-9 * e.Length()
		for i, q := range p {
			if q.X < -tol || q.X > e.HalfPitch()+tol || q.Y > tol || q.Y < -e.Height()-tol {
				t.Fatalf("point %d at %v leaves the planes 0 and %v, or the height %v", i, q, e.HalfPitch(), e.Height())
			}
			if r := p[n-i]; q.Add(r).Sub(geom.Vec2{X: e.HalfPitch(), Y: -e.Height()}).Norm() > tol {
				t.Fatalf("points %d and %d are not a half turn apart: %v, %v", i, n-i, q, r)
			}
		}
		checkArc(t, &e)
	})
}

// checkEnds checks the Curve's promises at its ends.
func checkEnds(t *rapid.T, c Curve, scale float64) {
	p, a := c.At(0)
	q, b := c.At(c.Length())
	end := geom.Vec2{X: c.HalfPitch(), Y: -c.Height()}
	if tol := 2e-10 * scale; p.Norm() > tol || q.Sub(end).Norm() > tol || math.Abs(a) > 1e-7 || math.Abs(b) > 1e-7 {
		t.Fatalf("ends %v (angle %g), %v (angle %g), want the origin and %v", p, a, q, b, end)
	}
	none, _ := c.At(math.NaN())
	before, _ := c.At(-5)
	behind, _ := c.At(2 * c.Length())
	if none != p || before != p || behind != q {
		t.Fatalf("arc lengths outside the curve give %v, %v, %v", none, before, behind)
	}
}

// checkArc compares the chord of a short arc with h·(1 − (κh)²/24) and its
// direction with the tangent, at a place drawn.
func checkArc(t *rapid.T, c Curve) {
	s := rapid.Float64Range(0, 1).Draw(t, "s") * c.Length()
	h := 1e-5 * math.Min(c.HalfPitch(), c.Length()/10)
	a, b := math.Max(s-h, 0), math.Min(s+h, c.Length())
	p, _ := c.At(a)
	q, _ := c.At(b)
	_, theta := c.At((a + b) / 2)
	d := q.Sub(p)
	miss := d.Sub(geom.Vec2{X: math.Cos(theta), Y: math.Sin(theta)}.Scale(b - a)).Norm()
	if miss > 1e-6*h+1e-13*c.Length() {
		t.Fatalf("from s = %v to %v: %v, tangent %v, off by %g", a, b, d, theta, miss)
	}
}

// An independent road: the touching curve integrated from its crest by
// Runge–Kutta under F₀, then F₁, must end level at the trough.
func TestTouchingByIntegration(t *testing.T) {
	for _, ratio := range []float64{0.15, 0.12, 0.07, 0.03} {
		e, err := NewElastica(1, ratio)
		if err != nil {
			t.Fatal(err)
		}
		sc := e.touch.arc
		at, _ := e.At(sc)
		drop := -at.Y
		state := bent{kappa: -crestCurvature(&e)}
		run := func(arc, rate float64) {
			const steps = 3000
			for range steps {
				state = state.step(arc/steps, func(a float64) float64 { return -rate * rate * math.Sin(a) })
			}
		}
		run(sc, e.touch.rate)
		near(t, "x at contact", state.x, ratio, 1e-9)
		near(t, "drop at contact", -state.y, drop, 1e-9)
		near(t, "angle at contact", state.phi, -math.Pi/2, 1e-8)
		run(1-2*sc, e.wave.rate)
		near(t, "x at second contact", state.x, 0, 1e-8)
		run(sc, e.touch.rate)
		near(t, "x at trough", state.x, ratio, 1e-7)
		near(t, "height", -state.y, e.Height(), 1e-7)
		near(t, "angle at trough", state.phi, 0, 1e-6)
	}
}

// Panels almost endless: loops of the right-angled elastica (m = ½: reach
// 2E − K of its unit, arc K) joined by a straight part, so that the height falls
// short of the length by a multiple of the half pitch, 2(K − √2)/(2E − K) with
// K = 1.8540746773, E = 1.3506438810 (ellipse.csv).
func TestElasticaFolded(t *testing.T) {
	const bigK, bigE = 1.8540746773013719184, 1.3506438810476755025
	short := 2 * (bigK - math.Sqrt2) / (2*bigE - bigK)
	for _, ratio := range []float64{1e-4, 1e-6, 1e-8} {
		e, err := NewElastica(100, 100*ratio)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "shortfall in half pitches", (100-e.Height())/e.HalfPitch(), short, 20*ratio+2e-15/ratio)
	}
}

func TestPanelForHeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := drawElastica(t)
		if e.Height() > 9e8*e.HalfPitch() {
			return
		}
		length, err := PanelForHeight(e.Height(), e.HalfPitch())
		if err != nil {
			t.Fatal(err)
		}
		// The flat strip's length does not feel its height: dL = 2·(h/L)·dh
		// to first order; elsewhere L and h go together.
		if math.Abs(length-e.Length()) > 3e-10*e.Length() {
			t.Fatalf("height %v at half pitch %v: length %v, want %v", e.Height(), e.HalfPitch(), length, e.Length())
		}
		height := math.Pow(10, rapid.Float64Range(-6, 4).Draw(t, "log height"))
		if height > 9e8*e.HalfPitch() {
			return
		}
		length, err = PanelForHeight(height, e.HalfPitch())
		if err != nil {
			t.Fatal(err)
		}
		if length < e.HalfPitch() || length < height {
			t.Fatalf("height %v, half pitch %v: length %v is shorter than either", height, e.HalfPitch(), length)
		}
		if length > maxLength {
			return
		}
		back, err := NewElastica(length, e.HalfPitch())
		if err != nil {
			t.Fatal(err)
		}
		// A flat strip's height has the square root of its length's rounding.
		if tol := 2e-10*length + 1e-16*length*length/math.Max(height, 1e-300)*40; math.Abs(back.Height()-height) > tol {
			t.Fatalf("height %v, half pitch %v: length %v gives %v", height, e.HalfPitch(), length, back.Height())
		}
	})
	if l, err := PanelForHeight(0, 5); err != nil || l != 5 {
		t.Errorf("no height: %v, %v", l, err)
	}
}

func TestElasticaErrors(t *testing.T) {
	for _, c := range []struct {
		length, half float64
		want         string
	}{
		{0, 5, "length is 0 mm"}, {math.NaN(), 5, "length is NaN"}, {60, -1, "half pitch is -1 mm"}, {60, math.Inf(1), "half pitch is +Inf"},
		{60, 60.01, "half pitch is 60.01 mm for a panel of 60 mm"}, {1e6, 1e-4, "want 1e-09 to 1"}, {2e6, 1e6, "length is 2e+06"},
	} {
		if _, err := NewElastica(c.length, c.half); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("NewElastica(%v, %v): %v, want %q", c.length, c.half, err, c.want)
		}
	}
	for _, c := range []struct {
		height, half float64
		want         string
	}{
		{-1, 5, "height is -1 mm"}, {math.NaN(), 5, "height is NaN"}, {40, 0, "half pitch is 0 mm"}, {1e6, 1e-4, "want up to 9e+08 times"},
	} {
		if _, err := PanelForHeight(c.height, c.half); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("PanelForHeight(%v, %v): %v, want %q", c.height, c.half, err, c.want)
		}
	}
	flat, err := NewElastica(7, 7)
	if err != nil || flat.Height() != 0 || flat.Touching() {
		t.Errorf("flat strip: %+v, %v", flat, err)
	}
	if p, a := flat.At(3); p.Sub(geom.Vec2{X: 3, Y: 0}).Norm() > 1e-14 || a != 0 {
		t.Errorf("flat strip at 3: %v, %v", p, a)
	}
	if points(&flat, 1) != nil || len(points(&flat, 2)) != 2 {
		t.Error("Points")
	}
}

func BenchmarkElastica(b *testing.B) {
	for _, c := range []struct {
		name string
		half float64
	}{{"free", 20}, {"touching", 5}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				e, _ := NewElastica(60, c.half)
				for i := range 25 {
					e.At(60 * float64(i) / 24)
				}
			}
		})
	}
	for _, h := range []float64{20, 45} {
		b.Run(map[float64]string{20: "panel-free", 45: "panel-touching"}[h], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				PanelForHeight(h, 5)
			}
		})
	}
}
