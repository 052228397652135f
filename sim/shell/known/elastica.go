package known

import (
	"context"
	"errors"
	"fmt"
	"math"

	"ruffwright/geom/curve"
	"ruffwright/sim/shell"
)

// elasticas is chord, modulus m, height, loop width and end force P·L²/B of
// half a period of length 1 between mirror planes:
// testdata/reference/elastica.csv, closed form by elliptic integrals.
var elasticas = [][5]float64{
	{0.99, 0.0099874686421614, 0.126925443529273, 0.99, 9.91923163458587},
	{0.9, 0.0987176325277914, 0.389848622751148, 0.9, 10.3925639482889},
	{0.7, 0.287807760046528, 0.628625225912214, 0.7, 11.6530302199578},
	{0.5, 0.464009825174169, 0.746612854890418, 0.5, 13.3185281490608},
	{0.35, 0.586035255030474, 0.791343352624016, 0.385141717566859, 14.9731718401874},
	{0.2, 0.697595579390767, 0.806263198469281, 0.319752055076614, 17.1699894518511},
	{0.1, 0.765089948689133, 0.800832361139427, 0.286117620159069, 19.0875088028126},
	{0, 0.82611476598497, 0.783187490392672, 0.256937443580526, 21.5490874435182},
}

// contacts is half pitch, height and contact force N·L²/B with neighbouring
// loops touching: testdata/reference/elastica_contact.csv, first integrals.
var contacts = [][3]float64{
	{0.1475, 0.81215355739, 4.16773132549}, {0.14, 0.82527853496, 12.271965194}, {0.13, 0.841744875044, 23.2852123923},
	{0.12, 0.857160387824, 34.9768654123}, {0.1, 0.885387198037, 63.3128575722}, {0.08, 0.910978885242, 107.663499797},
}

const (
	elasticaSource = "elliptic integrals (elastica.csv)"
	contactSource  = "first integrals of the elastica in contact (elastica_contact.csv)"
)

// Elasticas are free loops at 64 segments: height and loop width within 0.1 %.
func Elasticas() []Problem {
	var ps []Problem
	for _, c := range elasticas {
		loop := func(ctx context.Context) (Loop, error) {
			return HalfLoop(ctx, LoopSetting{Chord: c[0], Segments: 64})
		}
		ps = append(ps, Problem{
			Name: fmt.Sprintf("elastica, chord %g of the length, 64 segments: height", c[0]), Source: elasticaSource,
			Unit: "L", Reference: c[2], Allowed: 1e-3, Relative: true,
			Run: func(ctx context.Context) (float64, error) { l, err := loop(ctx); return l.Height, err },
		})
		if c[0] < 0.45 {
			ps = append(ps, Problem{
				Name: fmt.Sprintf("elastica, chord %g of the length, 64 segments: loop width", c[0]), Source: elasticaSource,
				Unit: "L", Reference: c[3], Allowed: 1e-3, Relative: true,
				Run: func(ctx context.Context) (float64, error) { l, err := loop(ctx); return l.Width, err },
			})
		}
	}
	return ps
}

// Contacts are loops that touch their neighbours, and where they begin to.
func Contacts() []Problem {
	var ps []Problem
	for _, c := range contacts {
		ps = append(ps, Problem{
			Name: fmt.Sprintf("loops touching, half pitch %g of the length, 64 segments: height", c[0]), Source: contactSource,
			Unit: "L", Reference: c[1], Allowed: 1e-3, Relative: true,
			Run: func(ctx context.Context) (float64, error) {
				l, err := HalfLoop(ctx, LoopSetting{Chord: c[0], Segments: 64, Skin: 1e-4})
				return l.Height, err
			},
		})
	}
	return append(ps, Problem{
		Name: "half pitch at which loops first touch", Source: elasticaSource,
		Unit: "L", Reference: 0.151348490427787, Allowed: 0.01, Relative: true,
		Run: ContactOnset,
	})
}

// LoopSetting asks for half a period of an elastic strip of length 1.
type LoopSetting struct {
	Chord    float64 // half pitch over the length, −0.3 to 1
	Segments int
	Skin     float64 // contact skin over the length; 0 means loops pass through each other
}

// Loop is half a period of an elastic strip of length 1 and rigidity 1.
type Loop struct {
	Height float64 // crest to trough
	Width  float64 // clear width of the loop at the crest
	Force  float64 // contact force on one plane
	Energy float64
	Result shell.Result
}

// HalfLoop solves half a period between the mirror planes y = 0 (crest, u = 0)
// and y = Chord (trough, u = 1), chords of equal length, one cell wide.
func HalfLoop(ctx context.Context, q LoopSetting) (Loop, error) {
	if n := q.Segments; n < 4 || n > 4096 {
		return Loop{}, fmt.Errorf("Segments = %d; allowed is 4 to 4096", n)
	}
	sh := q.sheet()
	s, err := shell.NewSolver(sh)
	if err != nil {
		return Loop{}, err
	}
	x := q.start(sh)
	r := s.Solve(ctx, x, shell.Settings{StepCap: 0.05, Tolerance: 1e-8})
	if r.Status.Early() && r.Residual > 1e-6 {
		return Loop{Result: r}, fmt.Errorf("%w: residual %.3g", r.Status.Err(), r.Residual)
	}
	l := Loop{Height: x[3*sh.Node(0, 0)+2] - x[3*sh.Node(q.Segments, 0)+2], Energy: r.Energy.Total() / loopWidth, Result: r}
	l.Width = widest(sh, x, l.Height)
	if len(sh.Contacts) > 0 {
		c := &sh.Contacts[0]
		for i := 1; i < q.Segments; i++ {
			for j := range 2 {
				p := 3 * sh.Node(i, j)
				l.Force += c.Press(c.Gap([3]float64(x[p:p+3]))) / loopWidth
			}
		}
	}
	return l, nil
}

// loopWidth is the strip's width over its length.
const loopWidth = 0.25

// sheet is the strip of length 1 between its mirrors, and planes there if loops
// may not pass through each other.
func (q *LoopSetting) sheet() *shell.Sheet {
	n := q.Segments
	sh := &shell.Sheet{
		U: even(n, 1), V: []float64{0, loopWidth}, BendU: 1, BendV: 1,
		StretchU: 1e8, StretchV: 1e8, Shear: 1e3,
		UStart: shell.Edge{Kind: shell.Mirror, Normal: [3]float64{0, 1, 0}},
		UEnd:   shell.Edge{Kind: shell.Mirror, Normal: [3]float64{0, -1, 0}, Offset: -q.Chord},
	}
	for i := range n + 1 {
		// the strip stays in its plane: off the mirrors x is the first axis, on them
		// the second; the crest stays at its height
		a := shell.First
		switch i {
		case 0:
			a = shell.All
		case n:
			a = shell.First | shell.Second
		}
		sh.Held = append(sh.Held, shell.Hold{I: i, J: 0, Axes: a}, shell.Hold{I: i, J: 1, Axes: a})
	}
	if q.Skin > 0 {
		w := make([]float64, sh.Nodes())
		for i := 1; i < n; i++ {
			w[sh.Node(i, 0)], w[sh.Node(i, 1)] = 1, 1
		}
		lo, hi := shell.Plane([3]float64{0, 1, 0}, 0), shell.Plane([3]float64{0, -1, 0}, -q.Chord)
		for _, c := range []*shell.Contact{&lo, &hi} {
			// the skin is small beside the gap that counts, so the stiffness is what
			// a force of the order of 100 B/L² presses by half a skin
			c.Skin, c.Stiffness, c.Weight = q.Skin, 400*loopWidth/q.Skin, w
		}
		sh.Contacts = []shell.Contact{lo, hi}
	}
	return sh
}

// start is a wave whose slope is a sine, of the chord asked for.
func (q *LoopSetting) start(sh *shell.Sheet) []float64 {
	n := q.Segments
	x := make([]float64, 3*sh.Nodes())
	top := curve.Amplitude(q.Chord)
	y, z := 0.0, 0.0
	for i := range n + 1 {
		if i > 0 {
			f := top * math.Sin(math.Pi*(float64(i)-0.5)/float64(n))
			y += math.Cos(f) / float64(n)
			z -= math.Sin(f) / float64(n)
		}
		for j := range 2 {
			k := 3 * sh.Node(i, j)
			x[k], x[k+1], x[k+2] = sh.V[j], y, z
			if i == n {
				x[k+1] = q.Chord
			}
			if q.Skin > 0 {
				x[k+1] = min(max(x[k+1], 0), q.Chord)
			}
		}
	}
	return x
}

// widest returns the clear width of the crest's loop: twice the farthest reach of
// its upper half, by a parabola through three nodes.
func widest(sh *shell.Sheet, x []float64, height float64) float64 {
	at := func(i int) float64 { return x[3*sh.Node(i, 0)+1] }
	best, n := 0, len(sh.U)-1
	for i := range n + 1 {
		if z := x[3*sh.Node(i, 0)+2]; z < x[2]-height/2 {
			break
		}
		if at(i) > at(best) {
			best = i
		}
	}
	if best > 0 && best < n {
		a, b, c := at(best-1), at(best), at(best+1)
		if d := a - 2*b + c; d < 0 {
			return 2 * (b - (a-c)*(a-c)/(8*d))
		}
	}
	return 2 * at(best)
}

// ContactOnset returns the half pitch over the length at which neighbouring
// loops first touch: the contact force at two narrower pitches, extrapolated
// to zero along a straight line, with a thin skin.
func ContactOnset(ctx context.Context) (float64, error) {
	const a, b = 0.1475, 0.1495
	set := LoopSetting{Segments: 128, Skin: 1e-4}
	set.Chord = a
	fa, err := HalfLoop(ctx, set)
	if err != nil {
		return 0, err
	}
	set.Chord = b
	fb, err := HalfLoop(ctx, set)
	if err != nil {
		return 0, err
	}
	if fa.Force <= fb.Force {
		return 0, errors.New("the contact force does not fall as the pitch grows")
	}
	return b + fb.Force*(b-a)/(fa.Force-fb.Force), nil
}
