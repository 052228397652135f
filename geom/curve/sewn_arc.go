package curve

import (
	"math"

	"gonum.org/v1/gonum/mathext"

	"ruffwright/geom"
)

// arc is half a sewn elastica: its pendulum from the inflection to v = w, where
// the strip runs level and φ = phi.
type arc struct {
	p   pendulum
	w   float64
	phi float64
}

// see returns what an arc's ends show: the angle of the straight way between
// the sewn points below the level, in (−π, π], and the excess of the length
// over it, slack − 1.
func (a *arc) see() (gamma, excess float64) {
	r := a.p.at(a.w)
	gamma = a.phi - math.Atan2(r.s, r.c)
	if gamma > math.Pi {
		gamma -= 2 * math.Pi
	}
	h := math.Hypot(r.c, r.s)
	// w − h = (w² − C² − S²)/(w + h), and w² − C² = (w − C)(w + C) without
	// cancellation, whether C is near w (taut) or −w (flat).
	excess = ((2*a.w-r.push)*r.push - r.s*r.s) / ((a.w + h) * h)
	return gamma, excess
}

// miss returns how far the arc's end is from where it should be, for a strip of
// length 1 that spans x level and y upright.
func (a *arc) miss(x, y float64) float64 {
	r := a.p.at(a.w)
	end := geom.Vec2{X: r.c, Y: r.s}.Rotate(math.Cos(a.phi), -math.Sin(a.phi)).Scale(1 / a.w)
	return math.Hypot(end.X-x, end.Y+y)
}

// straightArc is the straight line descending at gamma but for two bends, each
// a ten-millionth of it.
func straightArc(gamma float64) arc {
	const w = 1e7
	return arc{p: newTaut(w, gamma), w: w, phi: gamma}
}

// tautEnd is the w from which the two ends' bends no longer feel each other:
// exp(−35) = 6e-16.
const tautEnd = 35

// solveArc finds the arc that shows the angle gamma in [0, π/2) and the excess
// in [0, MaxSlack − 1]. Three regimes, in order of growing excess at one gamma:
// taut (m within 1e-30 of 1), shorter than the free elastica of that gamma
// (w < K, φ < π), longer than it (w > K).
func solveArc(gamma, excess float64) arc {
	if gamma == 0 && excess == 0 {
		return straightArc(0)
	}
	excess = math.Max(excess, 1e-16)
	if a, ok := tautArc(gamma, excess, tautEnd, 60); ok {
		return a
	}
	k, excessFree := freeArc(gamma)
	if excess > excessFree {
		return looseArc(gamma, excess)
	}
	return firmArc(gamma, excess, k)
}

// tautArc solves w and φ_w where the middle is straight: with p = 2N =
// 2(1 − cos(φ/2)) and S = 2·sin(φ/2),
//
//	(w − p)² + S² = w²/slack²,  φ = gamma + atan2(S, w − p)
//
// by substitution, which gains a factor near 1/w a pass. ok is false where w
// comes out below least.
func tautArc(gamma, excess, least float64, passes int) (a arc, ok bool) {
	// 1 − 1/slack²
	short := excess * (2 + excess) / ((1 + excess) * (1 + excess))
	phi, w := gamma, 0.0
	for range passes {
		sin, cos := math.Sincos(phi / 2)
		p, s := 2*(1-cos), 2*sin
		root := p*p - short*(p*p+s*s)
		if root < 0 {
			return arc{}, false
		}
		w = (p + math.Sqrt(root)) / short
		if w < least {
			return arc{}, false
		}
		next := gamma + math.Atan2(s, w-p)
		if math.Abs(next-phi) <= 4e-16*next {
			break
		}
		phi = next
	}
	return arc{p: newTaut(w, phi), w: w, phi: phi}, true
}

// freeArc returns the modulus and the excess of the free elastica (w = K) whose
// straight way descends at gamma: tan γ = 2k/(2E − K).
func freeArc(gamma float64) (k, excess float64) {
	f := func(k float64) float64 {
		p := newPendulum(k*k, (1-k)*(1+k))
		return math.Atan2(2*k, 2*p.bigE-p.bigK) - gamma
	}
	const top = 0.92 // γ is above π/2 there
	k, ok := root(f, 0, -gamma, top, f(top))
	if !ok {
		k = 0
	}
	p := newPendulum(k*k, (1-k)*(1+k))
	return k, p.bigK/math.Hypot(2*p.bigE-p.bigK, 2*k) - 1
}

// arcOf returns the arc whose φ goes from a, 0 < a, to a + turn, at most π;
// log is ln tan(a/2).
func arcOf(log, turn float64) arc {
	t := math.Exp(log)
	a := 2 * math.Atan(t)
	r := 1 / (1 + t*t)
	out := arc{p: newPendulum(r, t*t*r), phi: math.Min(a+turn, math.Pi)}
	// cos χ = cn w = tan(a/2)/tan(φ/2), formed without cancellation.
	sinEnd, cosEnd := math.Sincos(out.phi / 2)
	down := out.p.k * sinEnd
	sin2 := math.Min(math.Sin(turn/2)*math.Sin(a+turn/2)/(down*down), 1)
	cos := math.Max(out.p.kc*cosEnd/down, 0)
	out.w = math.Sqrt(sin2) * mathext.EllipticRF(cos*cos, cos*cos+t*t*r*sin2, 1)
	return out
}

// firmArc solves an arc with w ≤ K in ln tan(a/2), a the angle of the middle
// from the force, and the turn φ − a: Newton's method on gamma and 1/excess,
// which are nearly straight in the two where the strip is almost taut; nested
// bracketing where that strays.
func firmArc(gamma, excess, kFree float64) arc {
	// a = π − 2·asin k at the free elastica.
	hi := math.Log(math.Sqrt((1-kFree)*(1+kFree)) / kFree)
	// Start from the taut strip's formulas if they are not too far off.
	x := [2]float64{math.Min(-1, hi-0.5), 1.45 * gamma}
	if t, ok := tautArc(gamma, excess, 2.5, 4); ok {
		x[0] = math.Min(math.Log(4*math.Tan(t.phi/4))-t.w, hi)
		x[1] = t.phi - 2*math.Atan(math.Exp(x[0]))
	}
	fit := func(from, to [2]float64) [2]float64 {
		to[0] = math.Min(math.Max(to[0], from[0]-4), math.Min(from[0]+4, (from[0]+hi)/2+1e-9))
		most := math.Pi - 2*math.Atan(math.Exp(to[0]))
		to[1] = math.Min(math.Max(to[1], 0.9*gamma), most)
		return to
	}
	x = fit(x, x)
	x, ok := solvePair(func(x [2]float64) [2]float64 {
		a := arcOf(x[0], x[1])
		g, e := a.see()
		return [2]float64{g/gamma - 1, excess/e - 1}
	}, x, [2]float64{1e-6, 1e-6 * gamma}, fit)
	if ok {
		return arcOf(x[0], x[1])
	}
	return firmBracketed(gamma, excess, hi)
}

// firmBracketed is firmArc by two nested brackets: for each a one turn shows
// gamma, and on that line the excess grows with a, from 0 to the free
// elastica's at hi.
func firmBracketed(gamma, excess, hi float64) arc {
	var best arc
	miss := func(log float64) float64 {
		f := func(turn float64) float64 {
			best = arcOf(log, turn)
			g, _ := best.see()
			return g - gamma
		}
		most := math.Pi - 2*math.Atan(math.Exp(log))
		turn := gamma
		if least := f(turn); least < 0 {
			var ok bool
			if turn, ok = root(f, gamma, least, most, f(most)); !ok {
				turn = most
			}
		}
		best = arcOf(log, turn)
		_, e := best.see()
		return 1/math.Max(e, 1e-300) - 1/excess
	}
	// A taut strip has tan(φ/4) = ¼k′·exp w at its end: a little beyond tautEnd.
	lo := math.Log(4*math.Tan(gamma/4)) - tautEnd - 2
	atLo, atHi := miss(lo), miss(hi)
	log, ok := root(miss, lo, atLo, hi, atHi)
	if !ok {
		// Only rounding puts the excess outside: the nearer end.
		log = hi
		if math.Abs(atLo) < math.Abs(atHi) {
			log = lo
		}
	}
	miss(log)
	return best
}

// solvePair finds the root of two functions of two unknowns by Newton's method
// from x, with differences over step; fit keeps an iterate in its domain. ok
// tells that both functions, which must be relative misses, came below 2e-13,
// or stopped changing below 1e-10.
func solvePair(miss func([2]float64) [2]float64, x, step [2]float64, fit func(from, to [2]float64) [2]float64) (root [2]float64, ok bool) {
	f := miss(x)
	for range 25 {
		size := math.Max(math.Abs(f[0]), math.Abs(f[1]))
		if size <= 2e-13 {
			return x, true
		}
		f1 := miss([2]float64{x[0] + step[0], x[1]})
		f2 := miss([2]float64{x[0], x[1] + step[1]})
		a, c := (f1[0]-f[0])/step[0], (f1[1]-f[1])/step[0]
		b, d := (f2[0]-f[0])/step[1], (f2[1]-f[1])/step[1]
		det := a*d - b*c
		to := [2]float64{x[0] - (f[0]*d-f[1]*b)/det, x[1] - (f[1]*a-f[0]*c)/det}
		if !finite(to[0]) || !finite(to[1]) {
			return x, false
		}
		to = fit(x, to)
		g := miss(to)
		if bigger := math.Max(math.Abs(g[0]), math.Abs(g[1])); size <= 1e-10 && !(bigger < 0.5*size) {
			return x, true
		}
		x, f = to, g
	}
	return x, false
}

// looseArc solves an arc with w = σK, 1 ≤ σ < 2.87: Newton's method in σ and m
// on γ/√excess, which depends on σ nearly alone, and excess/(1 + 1.17 excess),
// nearly in proportion to m; nested bracketing where that strays.
func looseArc(gamma, excess float64) arc {
	wantRatio := gamma / math.Sqrt(excess)
	wantSize := excess / (1 + 1.17*excess)
	fit := func(from, to [2]float64) [2]float64 {
		return [2]float64{
			math.Min(math.Max(to[0], 0.9), 2.95),
			math.Min(math.Max(to[1], 0.2*from[1]), math.Min(2*from[1], 0.86)),
		}
	}
	x := [2]float64{looseGuess(wantRatio), math.Min(wantSize, 0.75)}
	x, ok := solvePair(func(x [2]float64) [2]float64 {
		a := looseOf(x[0], x[1])
		g, e := a.see()
		e = math.Max(e, 1e-300)
		return [2]float64{g/math.Sqrt(e) - wantRatio, e/(1+1.17*e)/wantSize - 1}
	}, x, [2]float64{1e-6, 1e-6 * x[1]}, fit)
	if ok {
		return looseOf(x[0], x[1])
	}
	return looseBracketed(gamma, excess)
}

// looseOf returns the arc with w = sigma·K.
func looseOf(sigma, m float64) arc {
	a := arc{p: newPendulum(m, 1-m)}
	a.w = sigma * a.p.bigK
	a.phi = a.p.at(a.w).phi()
	return a
}

// looseGuess inverts γ/√excess of small waves, θ = cos v − cos w:
// γ = sin w/w − cos w, 2·excess = ½ + sin 2w/4w − (sin w/w)², w = σπ/2.
func looseGuess(ratio float64) float64 {
	table := [...][2]float64{{0, 2.8606}, {1.258, 2.4}, {2, 2}, {2.583, 1.5}, {2.924, 1}}
	for i := 1; i < len(table); i++ {
		a, b := table[i-1], table[i]
		if ratio <= b[0] || i == len(table)-1 {
			t := math.Min((ratio-a[0])/(b[0]-a[0]), 1)
			return a[1] + t*(b[1]-a[1])
		}
	}
	return 1
}

// looseBracketed is looseArc by two nested brackets: for each σ the excess
// grows with m up to 0.86 (σ = 1) or 0.8 (σ ≥ 2) at least, and on the line of one excess γ falls as
// σ grows.
func looseBracketed(gamma, excess float64) arc {
	var best arc
	miss := func(sigma float64) float64 {
		f := func(m float64) float64 {
			a := looseOf(sigma, m)
			_, e := a.see()
			return e - excess
		}
		most := 0.86 - 0.06*math.Min(sigma-1, 1)
		top := f(most)
		if top < 0 {
			return math.Pi // too short at any m: γ is beyond π/2
		}
		m, ok := root(f, 0, -excess, most, top)
		if !ok {
			return math.NaN()
		}
		best = looseOf(sigma, m)
		g, _ := best.see()
		return g - gamma
	}
	sigma, ok := root(miss, 0.98, miss(0.98), 2.95, miss(2.95))
	if !ok {
		return arc{w: 1}
	}
	miss(sigma)
	return best
}
