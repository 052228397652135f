package geom

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"pgregory.net/rapid"

	"ruffwright/testdata/reference"
)

// The CSV is mpmath at 40 digits. 1e-12 of the longer axis is asked for; what
// is met is near 2e-15.
func TestEllipseReference(t *testing.T) {
	var nE, nP, nD int
	var worst float64
	for _, row := range reference.Rows(t, "ellipse.csv") {
		switch row["kind"] {
		case "E":
			m := reference.Number(t, row, "k")
			if got, want := mathext.CompleteE(m), reference.Number(t, row, "value1_P_or_x_or_E"); math.Abs(got-want) > 1e-15*want*2 {
				t.Errorf("E(%v) = %.17g, want %.17g", m, got, want)
			}
			nE++
		case "P":
			a, b, p := reference.Number(t, row, "a"), reference.Number(t, row, "b"), reference.Number(t, row, "value1_P_or_x_or_E")
			n, err := NewNeckline(p, a/b)
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range []struct {
				what      string
				got, want float64
			}{{"breadth", n.Breadth(), 2 * a}, {"depth", n.Depth(), 2 * b}} {
				if math.Abs(c.got-c.want) > 1e-12*c.want {
					t.Errorf("%v × %v: %s %.17g, want %v", a, b, c.what, c.got, c.want)
				}
			}
			nP++
		case "D":
			a, b := reference.Number(t, row, "a"), reference.Number(t, row, "b")
			count, k := reference.Number(t, row, "N"), reference.Number(t, row, "k")
			big, small := math.Max(a, b), math.Min(a, b)
			n, err := NewNeckline(4*big*mathext.CompleteE(1-small*small/big/big), a/b)
			if err != nil {
				t.Fatal(err)
			}
			// The table counts from (a, 0), a quarter of the way round.
			st := n.At(n.Girth() * (0.25 + k/count))
			want := Vec2{reference.Number(t, row, "value1_P_or_x_or_E"), reference.Number(t, row, "value2_m_or_y_or_K")}
			miss := st.Pos.Sub(want).Norm() / big
			worst = math.Max(worst, miss)
			if !(miss <= 1e-12) {
				t.Errorf("%v × %v, point %v of %v: %v, want %v (off by %.2g of the longer axis)", a, b, k, count, st.Pos, want, miss)
			}
			nD++
		}
	}
	if nE < 10 || nP < 12 || nD < 80 {
		t.Errorf("read %d, %d, %d rows of kind E, P, D: the table has shrunk", nE, nP, nD)
	}
	t.Logf("largest miss %.2g of the longer axis", worst)
}

func TestNecklineConventions(t *testing.T) {
	for _, ratio := range []float64{1, 1.2, 0.8, 1000, 0.001} {
		n, err := NewNeckline(400, ratio)
		if err != nil {
			t.Fatal(err)
		}
		if got := n.Breadth() / n.Depth(); math.Abs(got-ratio) > 1e-12*ratio {
			t.Errorf("ratio %v came back as %v", ratio, got)
		}
		tol := 1e-11
		for i, want := range []struct{ pos, tangent, normal Vec2 }{
			{Vec2{0, -n.Depth() / 2}, Vec2{1, 0}, Vec2{0, -1}},    // centre front
			{Vec2{n.Breadth() / 2, 0}, Vec2{0, 1}, Vec2{1, 0}},    // wearer's left
			{Vec2{0, n.Depth() / 2}, Vec2{-1, 0}, Vec2{0, 1}},     // centre back
			{Vec2{-n.Breadth() / 2, 0}, Vec2{0, -1}, Vec2{-1, 0}}, // wearer's right
		} {
			st := n.At(float64(i) * 100)
			if st.Pos.Sub(want.pos).Norm() > tol || st.Tangent.Sub(want.tangent).Norm() > tol || st.Normal.Sub(want.normal).Norm() > tol {
				t.Errorf("ratio %v, quarter %d: %+v, want %+v", ratio, i, st, want)
			}
		}
	}
}

// A circle in closed form.
func TestNecklineCircle(t *testing.T) {
	n, err := NewNeckline(2*math.Pi*50, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, st := range n.Stations(97) {
		sin, cos := math.Sincos(st.S/50 - math.Pi/2)
		if st.Pos.Sub(Vec2{50 * cos, 50 * sin}).Norm() > 1e-12 || math.Abs(st.Curvature*50-1) > 1e-14 || st.Normal.Sub(Vec2{cos, sin}).Norm() > 1e-13 {
			t.Errorf("circle at %v: %+v", st.S, st)
		}
	}
}

// Arc length, frame and curvature by differences, for any neckline, at any
// place, however often round.
func TestNecklineArc(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		girth := rapid.Float64Range(1, 2000).Draw(t, "girth")
		ratio := math.Pow(10, rapid.Float64Range(-1, 1).Draw(t, "log ratio"))
		s := rapid.Float64Range(-3, 3).Draw(t, "s") * girth
		n, err := NewNeckline(girth, ratio)
		if err != nil {
			t.Fatal(err)
		}
		st := n.At(s)
		x, y := 2*st.Pos.X/n.Breadth(), 2*st.Pos.Y/n.Depth()
		if math.Abs(x*x+y*y-1) > 1e-12 {
			t.Fatalf("%v is off the ellipse by %g", st.Pos, x*x+y*y-1)
		}
		if math.Abs(st.Tangent.Norm()-1) > 1e-14 || math.Abs(st.Tangent.Cross(st.Normal)+1) > 1e-14 || st.Normal.Dot(st.Pos) <= 0 || !(st.Curvature > 0) {
			t.Fatalf("frame of %+v", st)
		}
		// The chord of a short arc h: h·(1 − (κh)²/24), along the middle's tangent.
		h := 1e-4 / st.Curvature
		a, b := n.At(s-h/2), n.At(s+h/2)
		chord := b.Pos.Sub(a.Pos)
		if miss := math.Abs(chord.Norm()/h - 1); miss > 1e-9+1e-12*girth/h {
			t.Fatalf("an arc of %g mm spans %g mm", h, chord.Norm())
		}
		turn := a.Tangent.Cross(b.Tangent) / h
		if math.Abs(turn/st.Curvature-1) > 1e-4 {
			t.Fatalf("curvature %g, the tangent turns by %g per mm", st.Curvature, turn)
		}
	})
}

func TestNecklineErrors(t *testing.T) {
	for _, c := range []struct {
		girth, ratio float64
		want         string
	}{
		{0, 1, "girth is 0 mm"}, {-5, 1, "girth is -5 mm"}, {math.NaN(), 1, "girth is NaN"}, {math.Inf(1), 1, "girth is +Inf"},
		{400, 0, "is 0, want 0.001 to 1000"}, {400, math.NaN(), "is NaN"}, {400, 1e9, "is 1e+09"},
	} {
		if _, err := NewNeckline(c.girth, c.ratio); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("NewNeckline(%v, %v): %v, want %q", c.girth, c.ratio, err, c.want)
		}
	}
	n, _ := NewNeckline(400, 1.1)
	for _, s := range []float64{math.NaN(), math.Inf(1), -1e-300, 400, math.Nextafter(400, 0), 1e300} {
		if st := n.At(s); !(st.S >= 0 && st.S < 400) || !finite(st.Pos.X) || !finite(st.Curvature) {
			t.Errorf("At(%v) = %+v", s, st)
		}
	}
	if n.Stations(0) != nil || len(n.Stations(3)) != 3 {
		t.Error("Stations")
	}
	if st := (Neckline{}).At(3); st.S != 0 {
		t.Errorf("zero neckline: %+v", st)
	}
}

func BenchmarkNecklineAt(b *testing.B) {
	n, _ := NewNeckline(415, 1.15)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		n.At(float64(i%40) * 415 / 40)
	}
}
