package shell

import (
	"fmt"
	"math"
)

// Pair keeps a node clear of up to three others, of the sheet or of its images.
// The gap (mm)
//
//	gap = Σ D·x(N) − Clear
//
// is pressed on like that of a Contact, energy Weight·φ(gap + Back). Nodes whose
// D is zero do not count. See Sheet.Facing.
type Pair struct {
	N            [4]int // node indices, those that count all different
	D            [4][3]float64
	Clear        float64
	Stiffness    float64 // k of doc.go, mN/mm, > 0
	Skin         float64 // w of doc.go, mm, > 0
	Weight, Back float64 // as of a Contact; Weight ≥ 0
}

// Facing returns the pair of a node and a corner (Sheet.Corner) that face each
// other along dir, of length 1, from the corner to the node:
//
//	gap = ½ dir·(x − x′) − clear
//
// Each presses as on a plane midway between them, at a distance of clear mm; a node
// that faces its own image in a mirror, on the mirror's plane. Stiffness, Skin and
// Weight are still to be set.
func (s *Sheet) Facing(node, corner int, dir [3]float64, clear float64) Pair {
	p := facing(node, dir, clear)
	g := itself
	if end := corner/s.Nodes() - 1; end >= 0 {
		g, _ = s.beyond(end)
	}
	p.face(corner%s.Nodes(), 1, &g, dir)
	return p
}

// facing returns the node's own part of a pair that faces something along dir.
func facing(node int, dir [3]float64, clear float64) Pair {
	p := Pair{N: [4]int{node, node, node, node}, Clear: clear}
	for r := range 3 {
		p.D[0][r] = dir[r] / 2
	}
	return p
}

// face adds the share that node n of image g has in the place that is faced.
func (p *Pair) face(n int, share float64, g *image, dir [3]float64) {
	slot := 0
	for slot < 3 && (slot == 0 || p.counts(slot)) && p.N[slot] != n {
		slot++
	}
	p.N[slot] = n
	d := apply(transposed(g.s), dir)
	for r := range 3 {
		p.D[slot][r] -= share / 2 * d[r]
	}
	p.Clear += share / 2 * dot3(dir, g.c)
}

// Gap returns the pair's gap in mm in a shape, before Back.
func (p *Pair) Gap(x []float64) float64 {
	g := -p.Clear
	for k, n := range p.N {
		g += p.D[k][0]*x[3*n] + p.D[k][1]*x[3*n+1] + p.D[k][2]*x[3*n+2]
	}
	return g
}

func (s *Sheet) validatePairs() error {
	for k := range s.Pairs {
		if p := &s.Pairs[k]; !p.valid(s.Nodes()) {
			return fmt.Errorf("shell: Pairs[%d] = %+v; N must be different nodes of %d, the rest finite, Stiffness and Skin > 0, Weight ≥ 0", k, *p, s.Nodes())
		}
	}
	return nil
}

func (p *Pair) valid(nodes int) bool {
	sum := p.Clear + p.Back
	for i, n := range p.N {
		if n < 0 || n >= nodes {
			return false
		}
		for j := range i {
			if p.N[j] == n && p.counts(i) && p.counts(j) {
				return false
			}
		}
		sum += norm(p.D[i])
	}
	return finite(sum) && presses(p.Stiffness, p.Skin, p.Weight)
}

// presses reports whether a contact's numbers make one.
func presses(stiffness, skin, weight float64) bool {
	return stiffness > 0 && skin > 0 && weight >= 0 && finite(stiffness+skin+weight)
}

func (p *Pair) counts(k int) bool { return p.D[k] != [3]float64{} }

func (p *Pair) force(x []float64) (phi, d1, d2 float64) {
	g := p.Gap(x) + p.Back
	if g >= p.Skin {
		return 0, 0, 0
	}
	c := Contact{Stiffness: p.Stiffness, Skin: p.Skin}
	phi, d1, d2 = c.force(g)
	return p.Weight * phi, p.Weight * d1, p.Weight * d2
}

// evaluatePairs returns the energy of the pairs and, when grad is set, adds
// their gradient to s.g.
func (s *Solver) evaluatePairs(grad bool) (e float64) {
	for k := range s.sheet.Pairs {
		p := &s.sheet.Pairs[k]
		phi, d1, _ := p.force(s.x)
		e += phi
		if grad && d1 != 0 {
			s.pressPair(p, d1)
		}
	}
	return e
}

// pressPair adds the gradient of a pair whose φ′ is d1 to s.g.
func (s *Solver) pressPair(p *Pair, d1 float64) {
	for m, n := range p.N {
		for r := range 3 {
			s.g[3*n+r] += d1 * p.D[m][r]
		}
	}
}

func (s *Solver) assemblePairs(m *unknowns, b *Band) {
	for k := range s.sheet.Pairs {
		s.assemblePair(m, b, &s.sheet.Pairs[k])
	}
}

// assemblePair adds a pair's second derivatives to the band. Where its nodes lie
// farther apart than the band is wide it adds only the blocks on the diagonal,
// enlarged so that they bound the whole (Cauchy and Schwarz).
func (s *Solver) assemblePair(m *unknowns, b *Band, p *Pair) {
	var h [9]float64
	_, _, d2 := p.force(s.x)
	if d2 == 0 {
		return
	}
	lo, hi, count := int32(math.MaxInt32), int32(-1), 0.0
	for i, n := range p.N {
		if !p.counts(i) {
			continue
		}
		count++
		for c := range 3 {
			if d := m.at[3*n+c]; d >= 0 {
				lo, hi = min(lo, d), max(hi, d)
			}
		}
	}
	rough := int(hi-lo) > m.kd
	if rough {
		d2 *= count
	}
	for i := range p.N {
		for j := range i + 1 {
			if !p.counts(i) || !p.counts(j) || rough && i != j {
				continue
			}
			for r := range 9 {
				h[r] = d2 * p.D[i][r/3] * p.D[j][r%3]
			}
			m.add(s, b, int32(p.N[i]), int32(p.N[j]), &h)
		}
	}
}
