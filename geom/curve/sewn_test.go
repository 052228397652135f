package curve

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"ruffwright/geom"
	"ruffwright/testdata/reference"
)

var _ Curve = (*SewnElastica)(nil)

// drawSewn draws a sewn elastica: every aspect from level to nearly upright,
// every slack from 1 by rounding to MaxSlack.
func drawSewn(t *rapid.T) SewnElastica {
	half := math.Pow(10, rapid.Float64Range(-1, 2).Draw(t, "log half pitch"))
	aspect := rapid.Float64Range(0, 50).Draw(t, "aspect")
	if rapid.Bool().Draw(t, "log aspect") {
		aspect = math.Pow(10, rapid.Float64Range(-9, 2).Draw(t, "log10 aspect"))
	}
	excess := rapid.Float64Range(0, MaxSlack-1).Draw(t, "excess")
	if rapid.Bool().Draw(t, "log excess") {
		excess = math.Pow(10, rapid.Float64Range(-16, math.Log10(MaxSlack-1)).Draw(t, "log10 excess"))
	}
	length := math.Hypot(half, half*aspect) * (1 + math.Min(excess, MaxSlack-1-1e-12))
	e, err := NewSewnElastica(length, half, half*aspect)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// Ends, arc length and tangents, symmetry, and what reaches past the planes,
// against a fine sampling.
func TestSewnShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := drawSewn(t)
		checkEnds(t, &e, e.Length())
		slack := e.Length() / math.Hypot(e.HalfPitch(), e.Height())
		if slack > 1.001 {
			checkArc(t, &e)
		}
		const n = 1000
		p := points(&e, n+1)
		var out, arc float64
		for i, q := range p {
			out = math.Max(out, math.Max(-q.X, q.X-e.HalfPitch()))
			if r := p[n-i]; q.Add(r).Sub(geom.Vec2{X: e.HalfPitch(), Y: -e.Height()}).Norm() > 1e-12*e.Length() {
				t.Fatalf("points %d and %d are not a half turn apart: %v, %v", i, n-i, q, r)
			}
			if i > 0 {
				arc += q.Sub(p[i-1]).Norm()
			}
		}
		// A chord falls short of its arc h by at most κ²h³/24.
		if arc > e.Length()*(1+1e-12) || (slack > 1.01 && arc < e.Length()*(1-1e-3)) {
			t.Fatalf("chords add up to %v of %v", arc, e.Length())
		}
		step := e.Length() / n
		if out > e.Overlap()+1e-11*e.Length() || e.Overlap() > out+step {
			t.Fatalf("overlap %v, of the points %v", e.Overlap(), out)
		}
	})
}

// Where the rise is the free elastica's height, the sewn curve is that elastica
// (mpmath's table, elastica.csv): no upright force.
func TestSewnIsFree(t *testing.T) {
	const length = 50
	var compared int
	for _, row := range reference.Rows(t, "elastica.csv") {
		chord, height := reference.Number(t, row, "chord_over_L"), reference.Number(t, row, "height_over_L")
		if chord < 0.01 {
			continue
		}
		e, err := NewSewnElastica(length, chord*length, height*length)
		if err != nil {
			t.Fatal(err)
		}
		name := "chord/L " + row["chord_over_L"]
		near(t, name+" θmax", steepest(&e)*180/math.Pi, reference.Number(t, row, "theta_max_deg"), 1e-9)
		near(t, name+" crest curvature", e.endCurvature()*length, reference.Number(t, row, "kappa_crest_L"), 1e-9)
		near(t, name+" force", math.Pow(e.wave.rate*length, 2), reference.Number(t, row, "P_L2_over_B"), 1e-9)
		loop := reference.Number(t, row, "loop_width_over_L")
		near(t, name+" overlap", e.Overlap()/length, math.Max(0, loop/2-chord), 1e-9)
		free := newFree(length, chord*length)
		for s := 0.0; s <= length; s += 2.5 {
			p, a := e.At(s)
			q, b := free.At(s)
			if p.Sub(q).Norm() > 1e-9*length || math.Abs(a-b) > 1e-9 {
				t.Errorf("%s at %v: %v %v, free %v %v", name, s, p, a, q, b)
			}
		}
		compared++
	}
	if compared < 20 {
		t.Errorf("compared %d rows", compared)
	}
}

// endCurvature is the curvature at crest and trough, 1/mm: positive where the strip
// bends down from the crest.
func (e *SewnElastica) endCurvature() float64 { return e.wave.p.at(e.end).s * e.wave.rate }

var sewnCases = []struct{ half, rise, slack float64 }{
	{5, 36, 1.02}, {5, 36, 1.05}, {5, 36, 1.3}, {5, 36, 1.8}, {5, 57, 1.04},
	{10, 2, 1.003}, {10, 2, 1.2}, {10, 0, 1.1}, {10, 0, 2}, {10, 10, 1.005}, {10, 10, 1.06}, {10, 10, 3},
	{1, 50, 1.03}, {1, 50, 1.15}, {1, 50, 1.16},
}

// The equation itself by Runge–Kutta from the middle, with the curve's own
// force: it must reach the trough point, level. (From the crest a taut strip's
// rounding errors would grow as exp w.)
func TestSewnByIntegration(t *testing.T) {
	for _, c := range sewnCases {
		length := c.slack * math.Hypot(c.half, c.rise)
		e, err := NewSewnElastica(length, c.half, c.rise)
		if err != nil {
			t.Fatal(err)
		}
		// In the force's frame: there the taut middle's tiny angle keeps its digits.
		const steps = 10000
		w := &e.wave
		mid := w.p.at(0)
		state := bent{phi: mid.phi(), kappa: mid.s * w.rate}
		for range steps {
			state = state.step(length/2/steps, func(a float64) float64 { return w.rate * w.rate * math.Sin(a) })
		}
		end := geom.Vec2{X: state.x, Y: state.y}.Rotate(math.Cos(w.phi), -math.Sin(w.phi))
		if miss := end.Sub(geom.Vec2{X: c.half, Y: -c.rise}.Scale(0.5)).Norm() / length; miss > 1e-9 || math.Abs(state.phi-w.phi) > 1e-8 || math.Abs(state.kappa-e.endCurvature())*length > 1e-6 {
			t.Errorf("%+v: Runge–Kutta ends at %+v, off by %.2g of the length (w = %v)", c, state, miss, e.end)
		}
	}
}

// A road without elliptic functions or the equation: half the strip as n rigid
// links with springs, the energy made stationary under the two conditions by
// Newton's method from a plain sine. The places must differ by the square of
// the links' length, and the stationary point must be a least energy: as many
// negative eigenvalues of the bordered Hessian as conditions.
func TestSewnChain(t *testing.T) {
	for _, c := range sewnCases {
		length := c.slack * math.Hypot(c.half, c.rise)
		e, err := NewSewnElastica(length, c.half, c.rise)
		if err != nil {
			t.Fatal(err)
		}
		var miss [2]float64
		for i, n := range []int{32, 64} {
			theta, negative, ok := chain(n, c.half/length, c.rise/length)
			if !ok {
				t.Errorf("%+v: the chain of %d does not settle", c, n)
				continue
			}
			if negative != 2 {
				t.Errorf("%+v: %d negative eigenvalues, want 2 for a least energy", c, negative)
			}
			var p geom.Vec2
			h := length / float64(2*n)
			for j, a := range theta {
				p = p.Add(geom.Vec2{X: math.Cos(a), Y: math.Sin(a)}.Scale(h))
				q, _ := e.At(float64(j+1) * h)
				miss[i] = math.Max(miss[i], p.Sub(q).Norm()/length)
			}
		}
		if miss[1] > 4e-3 || miss[1] > 0.35*miss[0]+1e-9 {
			t.Errorf("%+v: chains of 32 and 64 links are off by %.2g and %.2g of the length, want a quarter", c, miss[0], miss[1])
		}
	}
}

// chain returns the links' angles, crest to middle, of half a strip of length 1
// (links of 1/2n) whose whole spans x and descends y.
func chain(n int, x, y float64) (theta []float64, negative int, ok bool) {
	h := 0.5 / float64(n)
	theta = make([]float64, n)
	// A sine whose straight way has the right length, turned afterwards by Newton.
	depth, ok := root(func(a float64) float64 {
		var u, v float64
		for i := range n {
			sin, cos := math.Sincos(a * math.Sin(math.Pi*(float64(i)+0.5)*h))
			u, v = u+2*h*cos, v+2*h*sin
		}
		return math.Hypot(u, v) - math.Hypot(x, y)
	}, 0, 1-math.Hypot(x, y), 3.5, -1)
	if !ok {
		return nil, 0, false
	}
	for i := range theta {
		theta[i] = -depth * math.Sin(math.Pi*(float64(i)+0.5)*h)
	}
	lx, ly := 0.0, 0.0
	size := n + 2
	kkt := mat.NewSymDense(size, nil)
	build := func() *mat.VecDense {
		kkt.Zero()
		r := mat.NewVecDense(size, nil)
		gx, gy := -x/2, y/2
		for i := range n {
			sin, cos := math.Sincos(theta[i])
			gx, gy = gx+h*cos, gy+h*sin
			// Springs 1/h to both neighbours; a clamp half a link off at the
			// crest; none at the middle, where the mirrored link is alike.
			var stiff, pull float64
			if i == 0 {
				stiff, pull = 2/h, theta[0]*2/h
			} else {
				stiff, pull = 1/h, (theta[i]-theta[i-1])/h
			}
			if i < n-1 {
				stiff, pull = stiff+1/h, pull+(theta[i]-theta[i+1])/h
				kkt.SetSym(i, i+1, -1/h)
			}
			kkt.SetSym(i, i, stiff-h*(lx*cos+ly*sin))
			kkt.SetSym(i, n, -h*sin)
			kkt.SetSym(i, n+1, h*cos)
			r.SetVec(i, -(pull + h*(-lx*sin+ly*cos)))
		}
		r.SetVec(n, -gx)
		r.SetVec(n+1, -gy)
		return r
	}
	for range 200 {
		r := build()
		var d mat.VecDense
		if err := d.SolveVec(kkt, r); err != nil {
			var cond mat.Condition
			if !errors.As(err, &cond) {
				return nil, 0, false
			}
		}
		big := 0.0
		for i := range n {
			big = math.Max(big, math.Abs(d.AtVec(i)))
		}
		step := math.Min(1, 0.2/big)
		for i := range n {
			theta[i] += step * d.AtVec(i)
		}
		lx, ly = lx+step*d.AtVec(n), ly+step*d.AtVec(n+1)
		if big < 1e-11 {
			build()
			var eig mat.EigenSym
			if !eig.Factorize(kkt, false) {
				return nil, 0, false
			}
			for _, v := range eig.Values(nil) {
				if v < 0 {
					negative++
				}
			}
			return theta, negative, true
		}
	}
	return nil, 0, false
}

// Paying out length moves the curve steadily: no jump from one branch to another,
// across the three regimes.
func TestSewnContinuous(t *testing.T) {
	for _, aspect := range []float64{0.01, 0.3, 1, 7, 50} {
		straight := math.Hypot(5, 5*aspect)
		var last []geom.Vec2
		for i := 0; i <= 400; i++ {
			slack := 1 + (MaxSlack-1-1e-9)*math.Pow(float64(i)/400, 2)
			e, err := NewSewnElastica(slack*straight, 5, 5*aspect)
			if err != nil {
				t.Fatal(err)
			}
			p := points(&e, 21)
			for j := range last {
				// A bump's height goes as the square root of the excess.
				if d := p[j].Sub(last[j]).Norm() / straight; d > 0.02 {
					t.Fatalf("aspect %v, slack %v: point %d jumps by %v", aspect, slack, j, d)
				}
			}
			last = p
		}
	}
}

func TestSewnErrors(t *testing.T) {
	for _, c := range []struct {
		length, half, rise float64
		want               string
	}{
		{0, 5, 36, "length is 0 mm"}, {40, 0, 36, "half pitch is 0 mm"}, {40, 5, -1, "rise is -1 mm"}, {40, 5, math.NaN(), "rise is NaN"},
		{200, 5, 36, "5.5 times the straight way"}, {math.Inf(1), 5, 36, "length is +Inf"},
	} {
		if _, err := NewSewnElastica(c.length, c.half, c.rise); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("NewSewnElastica(%v, %v, %v): %v, want %q", c.length, c.half, c.rise, err, c.want)
		}
	}
	_, err := NewSewnElastica(36, 5, 36)
	var slack *SlackError
	if !errors.As(err, &slack) || slack.Length != 36 || math.Abs(slack.Straight-math.Hypot(5, 36)) > 1e-12 || !strings.Contains(err.Error(), "length is 36 mm, shorter than") {
		t.Errorf("too short: %v", err)
	}
	straight, err := NewSewnElastica(13, 5, 12)
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range points(&straight, 14) {
		if math.Abs(q.Cross(geom.Vec2{X: 5, Y: -12}))/13 > 1e-13 {
			t.Errorf("the straight line passes %v", q)
		}
	}
	// An excess that is rounding alone, nearly level: found by TestSewnShape.
	if e, err := NewSewnElastica(10.000000000000004, 10, 3.003515303134918e-07); err != nil {
		t.Error(err)
	} else if p, _ := e.At(5); p.Sub(geom.Vec2{X: 5, Y: -1.5e-7}).Norm() > 1e-9 {
		t.Errorf("a line straight to rounding passes %v", p)
	}
	level, err := NewSewnElastica(5, 5, 0)
	if err != nil {
		t.Fatal(err)
	}
	if p, a := level.At(2); p.Sub(geom.Vec2{X: 2, Y: 0}).Norm() > 1e-14 || a != 0 {
		t.Errorf("the level line passes %v, %v", p, a)
	}
}

func BenchmarkSewn(b *testing.B) {
	for _, c := range []struct {
		name  string
		slack float64
	}{{"taut", 1.001}, {"firm", 1.05}, {"loose", 1.3}} {
		b.Run(c.name, func(b *testing.B) {
			length := c.slack * math.Hypot(5, 36)
			b.ReportAllocs()
			for b.Loop() {
				e, _ := NewSewnElastica(length, 5, 36)
				for i := range 25 {
					e.At(length * float64(i) / 24)
				}
			}
		})
	}
}
