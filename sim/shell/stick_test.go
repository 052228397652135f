package shell

import (
	"context"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// sticked is everything with two sticks, one tapered, that share three levels.
func sticked(seed uint64) (*Sheet, []float64) {
	sh, x := everything(seed)
	r := rand.New(rand.NewPCG(seed, 5))
	sh.Levels = []Level{{30, 0.4}, {20, 3}, {}}
	for k := range 2 {
		a, side := 0.2*float64(k), 1-2*float64(k)
		q := Stick{Origin: [3]float64{0.3, 2 + float64(k), 0}, Out: [3]float64{math.Cos(a), math.Sin(a), 0}, Clear: 0.1, Stiffness: 3, Skin: 2}
		q.Ends[0] = StickEnd{1, side * 0.5, 0.8, []float64{side, 0, 1}}
		q.Ends[1] = StickEnd{7, side * 0.9, 1 + 0.3*float64(k), []float64{0, side, 1}}
		q.Weight = make([]float64, len(sh.Spots))
		for n, p := range sh.Spots {
			if p.V > 1 {
				q.Weight[n] = p.Area * (0.5 + r.Float64())
			}
		}
		sh.Sticks = append(sh.Sticks, q)
	}
	return sh, x
}

// TestSticksDerivatives: the gradient is the energy's derivative by every unknown and
// level, the Hessian's product with a direction that of the gradient, by differences.
func TestSticksDerivatives(t *testing.T) {
	for seed := range uint64(4) {
		sh, x := sticked(seed)
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		n := s.sym.n + len(sh.Levels)
		r := rand.New(rand.NewPCG(seed, 8))
		dir := make([]float64, n)
		for k := range dir {
			dir[k] = 2*r.Float64() - 1
		}
		base := make([]float64, len(s.x))
		at := func(d []float64, h float64) (e float64, g []float64) {
			s.spread(x)
			copy(s.levels(s.x), []float64{0.2, -0.1, 0.15})
			clear(s.px)
			s.sym.scatter(s, d, s.px)
			s.reflect(s.px, false)
			copy(base, s.x)
			for k := range s.x {
				s.x[k] = base[k] + h*s.px[k]
			}
			e = s.evaluate(true).Total()
			s.foldGhosts()
			g = make([]float64, n)
			s.sym.collect(s, g)
			return
		}
		_, g := at(dir, 0)
		if s.evaluateSticks(false) == 0 || g[n-1] == 0 {
			t.Fatal("no stick is felt")
		}
		const h = 1e-5
		for k := range n {
			unit := make([]float64, n)
			unit[k] = 1
			up, _ := at(unit, h)
			down, _ := at(unit, -h)
			if got := (up - down) / (2 * h); math.Abs(got-g[k]) > 1e-6*(1+math.Abs(g[k]))+1e-9*math.Abs(up)/h {
				t.Errorf("seed %d: gradient %d of %d is %g, by differences %g", seed, k, n, g[k], got)
			}
		}
		at(dir, 0)
		s.measureStrains(s.strain, s.skew)
		s.assemble(&s.sym, &s.base, &s.work, 0, false)
		got := make([]float64, n)
		for i := range s.sym.n {
			for j := range s.sym.n {
				got[i] += s.work.At(max(i, j), min(i, j)) * dir[j]
			}
			for l := range sh.Levels {
				got[i] += s.border.b[l][i] * dir[s.sym.n+l]
				got[s.sym.n+l] += s.border.b[l][i] * dir[i]
			}
		}
		for l := range sh.Levels {
			for k := range sh.Levels {
				got[s.sym.n+l] += s.border.c[l*len(sh.Levels)+k] * dir[s.sym.n+k]
			}
		}
		_, up := at(dir, h)
		_, down := at(dir, -h)
		for k := range got {
			if want := (up[k] - down[k]) / (2 * h); math.Abs(got[k]-want) > 1e-5*(1+math.Abs(want)) {
				t.Errorf("seed %d: Hessian's product %d of %d is %g, by differences %g", seed, k, n, got[k], want)
			}
		}
	}
}

// TestBorder: the factor solves the whole system, and refuses what is not positive
// definite though the band is.
func TestBorder(t *testing.T) {
	sh, x := sticked(1)
	s, err := NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	s.spread(x)
	s.measureStrains(s.strain, s.skew)
	fill := func() {
		s.assemble(&s.sym, &s.base, &s.work, 1, false)
		s.work.Shift(100)
		for l := range sh.Levels {
			s.border.c[l*4] += 100
		}
	}
	fill()
	n := s.sym.n
	want := make([]float64, n+3)
	for k := range want {
		want[k] = math.Sin(float64(k))
	}
	right := make([]float64, n+3)
	for i := range right {
		for j := range right {
			v := 0.0
			switch a, b := max(i, j), min(i, j); {
			case a < n:
				v = s.work.At(a, b)
			case b < n:
				v = s.border.b[a-n][b]
			default:
				v = s.border.c[(a-n)*3+b-n]
			}
			right[i] += v * want[j]
		}
	}
	if !s.factor(0) {
		t.Fatal("not positive definite")
	}
	s.solve(right)
	for k := range want {
		if math.Abs(right[k]-want[k]) > 1e-9 {
			t.Fatalf("unknown %d is %g, want %g", k, right[k], want[k])
		}
	}
	fill()
	s.border.c[4] = -1
	if s.factor(0) {
		t.Error("a level that nothing holds counts as held")
	}
}

// TestStop: a level's pull works upward, and the stop bears all of it at Most_mm, none
// of it half a millimetre below; between them the derivatives are those of the energy.
func TestStop(t *testing.T) {
	l := Level{Pull_mN: 30, Most_mm: 4}
	for _, q := range []struct{ y, force float64 }{{-3, 30}, {3.5, 30}, {4, 0}, {3.75, 22.5}} {
		if _, d1, _ := l.stop(q.y); math.Abs(-d1-q.force) > 1e-12 {
			t.Errorf("at %g mm it is driven up with %g mN, want %g", q.y, -d1, q.force)
		}
	}
	if _, d1, d2 := l.stop(4.2); d1 <= 0 || d2 <= 0 {
		t.Errorf("past the stop it is driven on: %g", -d1)
	}
	const h = 1e-5
	for _, y := range []float64{3.6, 3.9, 4.3, 5} {
		up, g1, _ := l.stop(y + h)
		down, g0, _ := l.stop(y - h)
		if _, d1, d2 := l.stop(y); math.Abs((up-down)/(2*h)-d1) > 1e-6 || math.Abs((g1-g0)/(2*h)-d2) > 1e-5 {
			t.Errorf("at %g mm: %g and %g, by differences %g and %g", y, d1, d2, (up-down)/(2*h), (g1-g0)/(2*h))
		}
	}
}

// TestStoppedLevel: sticks that meet no cloth come to rest at their stop, those that meet
// it below, where it bears their pull; and the sheet there is at rest too.
func TestStoppedLevel(t *testing.T) {
	for _, meets := range []bool{false, true} {
		sh, x := under(meets)
		s, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		r := s.Solve(context.Background(), x, Settings{StepCap: 2})
		if r.Status != Converged || len(r.Levels) != 1 {
			t.Fatalf("meets %v: %v, levels %v", meets, r.Status, r.Levels)
		}
		t.Logf("meets %v: level %.4f mm, deepest %.3f, %d factorisations", meets, r.Levels[0], r.Deepest, r.Iterations)
		if at := r.Levels[0]; !meets && math.Abs(at-6) > 1e-6 || meets && (at > 5.4 || at < 0.5) {
			t.Errorf("meets %v: level at %g mm", meets, at)
		}
		if !meets {
			continue
		}
		// the reactions at the held nodes bear what pulls the stick
		g := make([]float64, len(x))
		s.spread(x)
		copy(s.levels(s.x), r.Levels)
		s.evaluate(true)
		s.foldGhosts()
		copy(g, s.g)
		up := 0.0
		for _, h := range sh.Held {
			up -= g[3*sh.Node(h.I, h.J)+2]
		}
		if math.Abs(up-sh.Levels[0].Pull_mN) > 1e-3 {
			t.Errorf("the held nodes bear %.6g mN of %g", up, sh.Levels[0].Pull_mN)
		}
	}
}

// under is a level sheet without weight, held at both ends, and a stick across it below
// that a level pulls up, 6 mm at most; so far beside it that it meets nothing, or not.
func under(meets bool) (*Sheet, []float64) {
	sh := &Sheet{BendU: 15, BendV: 15, StretchU: 800, StretchV: 800, Shear: 60}
	for k := range 13 {
		sh.U = append(sh.U, 2*float64(k))
	}
	for k := range 4 {
		sh.V = append(sh.V, 3*float64(k))
	}
	x := make([]float64, 3*sh.Nodes())
	for i, u := range sh.U {
		for j, v := range sh.V {
			n := sh.Node(i, j)
			x[3*n], x[3*n+1] = v, u
			if i == 0 || i == len(sh.U)-1 {
				sh.Held = append(sh.Held, Hold{I: i, J: j, Axes: All})
			}
		}
	}
	sh.Spots = Spots(sh.U, sh.V)
	sh.Levels = []Level{{Pull_mN: 40, Most_mm: 6}}
	q := Stick{Origin: [3]float64{0, 12, 0}, Out: [3]float64{1, 0, 0}, Clear: 0.1, Stiffness: 2, Skin: 0.3}
	if !meets {
		q.Origin[1] = 40
	}
	for e := range q.Ends {
		q.Ends[e] = StickEnd{9 * float64(e), -3, 2, []float64{1}}
	}
	q.Weight = make([]float64, len(sh.Spots))
	for n := range q.Weight {
		q.Weight[n] = sh.Spots[n].Area
	}
	sh.Sticks = []Stick{q}
	return sh, x
}

// TestStickGap: how far a place is from a stick's axis, by the cross product with its
// direction in space, less the radius where the place lies out and the clearance.
func TestStickGap(t *testing.T) {
	sh, _ := sticked(3)
	r := rand.New(rand.NewPCG(3, 9))
	levels := []float64{0.4, -0.2, 0.7}
	for k := range sh.Sticks {
		q := &sh.Sticks[k]
		var end [2][3]float64
		for e := range end {
			up := q.Ends[e].Height_mm
			for l, v := range q.Ends[e].Lift {
				up += v * levels[l]
			}
			for c := range 3 {
				end[e][c] = q.Origin[c] + q.Ends[e].Out_mm*q.Out[c]
			}
			end[e][2] += up
		}
		var along [3]float64
		for c := range along {
			along[c] = end[1][c] - end[0][c]
		}
		a := q.axis(levels)
		for range 50 {
			p := [3]float64{8 * r.Float64(), 4 * r.Float64(), 4*r.Float64() - 2}
			var d [3]float64
			out := 0.0
			for c := range d {
				d[c] = p[c] - end[0][c]
				out += (p[c] - q.Origin[c]) * q.Out[c]
			}
			share := (out - q.Ends[0].Out_mm) / (q.Ends[1].Out_mm - q.Ends[0].Out_mm)
			radius := q.Ends[0].Radius_mm*(1-share) + q.Ends[1].Radius_mm*share
			want := norm(cross(d, along))/norm(along) - radius - q.Clear
			if got := a.gap(p); math.Abs(got-want) > 1e-12 {
				t.Fatalf("stick %d, place %v: gap %g, want %g", k, p, got, want)
			}
		}
	}
}

// TestSticksRefused: what is wrong with sticks and levels is named.
func TestSticksRefused(t *testing.T) {
	for name, spoil := range map[string]func(*Sheet){
		"Sticks[1]":        func(s *Sheet) { s.Sticks[1].Ends[0].Lift = []float64{1} },
		"Sticks[0]":        func(s *Sheet) { s.Sticks[0].Ends[1].Radius_mm = -1 },
		"Sticks[0] ":       func(s *Sheet) { s.Sticks[0].Ends[0].Radius_mm = math.NaN() },
		"Sticks[0] =":      func(s *Sheet) { s.Sticks[0].Out = [3]float64{1.1, 0, 0} },
		"Sticks[0] = {":    func(s *Sheet) { s.Sticks[0].Out = [3]float64{0.6, 0, 0.8} },
		"Sticks[0] = {Or":  func(s *Sheet) { s.Sticks[0].Ends[1].Out_mm = s.Sticks[0].Ends[0].Out_mm },
		"Sticks[0] = {Ori": func(s *Sheet) { s.Sticks[0].Weight = s.Sticks[0].Weight[1:] },
		"Sticks[0] = {Origin": func(s *Sheet) {
			w := append([]float64(nil), s.Sticks[0].Weight...)
			w[0] = -1
			s.Sticks[0].Weight = w
		},
		"Sticks[0] = {Origin:":     func(s *Sheet) { s.Sticks[0].Skin = -1 },
		"Sticks[0] = {Origin:[0.3": func(s *Sheet) { s.Sticks[0].Clear = math.Inf(1) },
		"Sticks[0] = {Origin:[0":   func(s *Sheet) { s.Sticks[0].Ends[1].Lift[2] = math.NaN() },
		"Levels[1]":                func(s *Sheet) { s.Levels[1].Pull_mN = -1 },
		"Levels[2]":                func(s *Sheet) { s.Levels[2].Most_mm = math.NaN() },
		"no Sticks":                func(s *Sheet) { s.Sticks = nil },
	} {
		sh, _ := sticked(1)
		spoil(sh)
		if _, err := NewSolver(sh); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: error %v", name, err)
		}
	}
	sh, _ := sticked(1)
	if _, err := NewSolver(sh); err != nil {
		t.Error(err)
	}
}

// TestSticksAllocateNothing: nor do sticks in the Newton loop.
func TestSticksAllocateNothing(t *testing.T) {
	sh, x := sticked(1)
	s, err := NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	s.spread(x)
	if n := testing.AllocsPerRun(20, func() {
		s.evaluate(true)
		s.assemble(&s.sym, &s.base, &s.work, 0.5, false)
		s.factor(1)
		s.solve(s.p)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

// TestFrozenSkew: starch that holds the skew of a sheared sheet has no energy as it was
// set, half the stiffness times the square of the skew flat, and keeps the part of it
// that quality says.
func TestFrozenSkew(t *testing.T) {
	sh := &Sheet{U: []float64{0, 2, 5, 6}, V: []float64{0, 3, 4}, BendU: 1, BendV: 1, StretchU: 1, StretchV: 1, Shear: 1}
	flat := make([]float64, 3*sh.Nodes())
	skewed := make([]float64, 3*sh.Nodes())
	const skew, shear = 0.2, 50.0
	for i, u := range sh.U {
		for j, v := range sh.V {
			n := sh.Node(i, j)
			copy(flat[3*n:], []float64{v, u, 0})
			copy(skewed[3*n:], []float64{v + skew*u, u, 0})
		}
	}
	s, err := NewSolver(sh)
	if err != nil {
		t.Fatal(err)
	}
	for _, quality := range []float64{1, 0.5, 0} {
		sh.Frozen = s.Freeze(skewed, 0, 0, 0, shear, quality)
		q, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		sh.Frozen = nil
		plain, err := NewSolver(sh)
		if err != nil {
			t.Fatal(err)
		}
		held := func(x []float64) float64 { return q.Energy(x).Total() - plain.Energy(x).Total() }
		kept := quality * skew
		if e, want := held(flat), shear/2*24*kept*kept; math.Abs(e-want) > 1e-9 {
			t.Errorf("quality %g, flat: %g µJ, want %g", quality, e, want)
		}
		if e, want := held(skewed), shear/2*24*(skew-kept)*(skew-kept); math.Abs(e-want) > 1e-9 {
			t.Errorf("quality %g, as it was set: %g µJ, want %g", quality, e, want)
		}
	}
}
