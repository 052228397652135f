package portrait

import (
	"encoding/csv"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/mat"
	"ruffwright/geom"
)

// TestFit: points of an ellipse give it back, wherever it lies, of half of it too.
func TestFit(t *testing.T) {
	for _, c := range []struct{ a, b, angle, arc float64 }{
		{300, 120, 0, 2 * math.Pi}, {300, 120, 0.4, math.Pi}, {300, 290, -1.2, 4}, {5000, 200, 1.5, 2 * math.Pi}, {3, 1, 0.1, 5},
	} {
		e := ellipse{centre: geom.Vec2{X: 4000, Y: -700}, a: c.a, b: c.b, major: geom.Vec2{X: math.Cos(c.angle), Y: math.Sin(c.angle)}}
		for _, n := range []int{5, 12, 60} {
			var points []geom.Vec2
			for i := range n {
				s, k := math.Sincos(0.3 + c.arc*float64(i)/float64(n))
				minor := geom.Vec2{X: -e.major.Y, Y: e.major.X}
				points = append(points, e.centre.Add(e.major.Scale(e.a*k)).Add(minor.Scale(e.b*s)))
			}
			got, ok := fit(points)
			far := max(math.Abs(got.a-e.a), math.Abs(got.b-e.b), got.centre.Sub(e.centre).Norm(), e.a*math.Abs(got.major.Cross(e.major)))
			// Of a fit to squares the last half of the figures is lost where the ellipse is flat.
			if !ok || !(far < 1e-6*e.a) {
				t.Errorf("%+v, %d points: %+v", c, n, got)
			}
			for _, p := range points {
				if !(math.Abs(got.off(p)) < 1e-6*e.a) {
					t.Errorf("%+v: a point of it lies %g off", c, got.off(p))
				}
			}
		}
	}
	line := []geom.Vec2{{X: 1, Y: 1}, {X: 2, Y: 2}, {X: 3, Y: 3}, {X: 4, Y: 4}, {X: 7, Y: 7}}
	if e, ok := fit(line); ok {
		t.Errorf("points on a line: %+v", e)
	}
	if e, ok := fit(make([]geom.Vec2, 5)); ok {
		t.Errorf("one point: %+v", e)
	}
}

// TestFitLapack: the direct fit as first published (Fitzgibbon, Pilu and Fisher 1999),
// the generalised problem in 6 × 6 by gonum's LAPACK, gives the same ellipses of noisy
// points.
func TestFitLapack(t *testing.T) {
	lot := rand.New(rand.NewPCG(3, 1999))
	for range 50 {
		a := 1 + lot.Float64()
		b := a * (0.2 + 0.7*lot.Float64())
		var points []geom.Vec2
		for i := range 20 {
			s, c := math.Sincos(5 * float64(i) / 20)
			points = append(points, geom.Vec2{X: 0.3 + a*c + 0.02*lot.NormFloat64(), Y: -0.2 + b*s + 0.02*lot.NormFloat64()})
		}
		scatter, limit := mat.NewDense(6, 6, nil), mat.NewDense(6, 6, nil)
		for _, p := range points {
			d := mat.NewVecDense(6, []float64{p.X * p.X, p.X * p.Y, p.Y * p.Y, p.X, p.Y, 1})
			var square mat.Dense
			square.Outer(1, d, d)
			scatter.Add(scatter, &square)
		}
		limit.Set(0, 2, 2)
		limit.Set(2, 0, 2)
		limit.Set(1, 1, -1)
		var inverse, problem mat.Dense
		if err := inverse.Inverse(scatter); err != nil {
			t.Fatal(err)
		}
		problem.Mul(&inverse, limit)
		var eigen mat.Eigen
		if !eigen.Factorize(&problem, mat.EigenRight) {
			t.Fatal("LAPACK finds no eigenvalues")
		}
		var vectors mat.CDense
		eigen.VectorsTo(&vectors)
		best, conic := 0.0, [6]float64{}
		for i, v := range eigen.Values(nil) {
			if real(v) > best {
				best = real(v)
				for j := range 6 {
					conic[j] = real(vectors.At(j, i))
				}
			}
		}
		want, _ := axes(conic)
		got, ok := fit(points)
		if far := max(math.Abs(got.a-want.a), math.Abs(got.b-want.b), got.centre.Sub(want.centre).Norm(), math.Abs(got.major.Cross(want.major))*(1-want.b/want.a)); !ok || !(far < 1e-8) {
			t.Errorf("%+v, LAPACK %+v", got, want)
		}
	}
}

// TestFaces: the table of faces is that of the public ANSUR II records.
func TestFaces(t *testing.T) {
	file, err := os.Open("../scheme/testdata/anthropometry_ansur2.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	of := map[string]Kind{"mentonsellionlength": FaceHeight, "bizygomaticbreadth": FaceBreadth, "interpupillarybreadth": Pupils}
	seen := 0
	for _, row := range rows[1:] {
		k, ok := of[row[0]]
		if !ok {
			continue
		}
		seen++
		got := faces[face(k)].women
		if row[1] == "M" {
			got = faces[face(k)].men
		}
		mean, _ := strconv.ParseFloat(row[3], 64)
		sd, _ := strconv.ParseFloat(row[4], 64)
		if got != [2]float64{mean, sd} {
			t.Errorf("%s %s: %v, want %g, %g", k, row[1], got, mean, sd)
		}
	}
	if seen != 6 {
		t.Errorf("%d rows read, want 6", seen)
	}
	middle, _, between := people("either")
	for i, m := range faces {
		if math.Abs(middle[i]-between[i]-math.Log(m.women[0]))+math.Abs(middle[i]+between[i]-math.Log(m.men[0])) > 1e-12 {
			t.Errorf("%s: either people is %g ± %g", m.kind, middle[i], between[i])
		}
	}
	// How the mean of height and breadth spreads, and of the three, 3.7 to 3.8 % and 3.6 to
	// 3.8 %: computed from the same records.
	for _, n := range []int{2, 3} {
		_, within, _ := people("men")
		variance := 0.0
		for j := range 4 {
			sum := 0.0
			for i := range n {
				sum += within[i][j] / float64(n)
			}
			variance += sum * sum
		}
		if sd := 100 * math.Sqrt(variance); !(sd > 3.6 && sd < 3.85) {
			t.Errorf("the mean of %d measures spreads by %.2f %%", n, sd)
		}
	}
}
