package shell

import (
	"errors"
	"math"
)

// Spot is a place on the sheet between its nodes, where a contact with Between
// acts. Along u it lies on the straight line between two grid lines, so that the
// ridge of a fold stays a ridge; along v on the cubic through four, for there
// the cells are long. Made by Spots.
type Spot struct {
	U, V float64 // rest coordinates, mm
	Area float64 // the part of the sheet that it stands for, mm²
	n    [8]int32
	c    [8]float64
	less float64 // the sum of |c| where c < 0; all c add up to 1
}

// At returns the spot's position in a shape, mm.
func (q *Spot) At(shape []float64) (p [3]float64) {
	for k, n := range q.n {
		w := q.c[k]
		y := shape[3*n : 3*n+3 : 3*n+3]
		p[0] += w * y[0]
		p[1] += w * y[1]
		p[2] += w * y[2]
	}
	return
}

// gaussU and gaussV are the points and weights of Gauss's rule of four and of
// two points on (0, 1).
var (
	gaussU = [4][2]float64{
		{0.06943184420297371, 0.17392742256872692}, {0.33000947820757187, 0.32607257743127308},
		{0.66999052179242813, 0.32607257743127308}, {0.93056815579702629, 0.17392742256872692},
	}
	gaussV = [2][2]float64{{0.21132486540518712, 0.5}, {0.78867513459481288, 0.5}}
)

// Spots returns the spots of the grid of u and v in mm, cell by cell: Gauss's points,
// four along u, for what touches is a ridge much narrower than a cell, by two along v.
// A pressure that is a cubic along each side of each cell is summed exactly (TestSpots).
func Spots(u, v []float64) []Spot {
	nu, nv := len(u)-1, len(v)-1
	list := make([]Spot, 0, nu*nv*len(gaussU)*len(gaussV))
	m := min(4, nv+1)
	for i := range nu {
		for j := range nv {
			lo := min(max(j-1, 0), nv+1-m)
			for _, p := range gaussU {
				for _, q := range gaussV {
					hu, hv := u[i+1]-u[i], v[j+1]-v[j]
					s := Spot{U: u[i] + p[0]*hu, V: v[j] + q[0]*hv, Area: p[1] * hu * q[1] * hv}
					for k := range 4 {
						l := 0.0
						at := lo
						if k < m {
							at, l = lo+k, 1
							for r := range m {
								if r != k {
									l *= (s.V - v[lo+r]) / (v[lo+k] - v[lo+r])
								}
							}
						}
						s.n[2*k], s.n[2*k+1] = int32(i*(nv+1)+at), int32((i+1)*(nv+1)+at)
						s.c[2*k], s.c[2*k+1] = (1-p[0])*l, p[0]*l
						s.less += math.Max(0, -l)
					}
					list = append(list, s)
				}
			}
		}
	}
	return list
}

// press is a contact at a spot.
type press struct {
	contact, spot int32
	weight, back  float64
}

// validateSpots reports a spot that was made for a larger grid.
func (s *Sheet) validateSpots() error {
	nodes := int32(s.Nodes())
	for k := range s.Spots {
		for _, n := range s.Spots[k].n {
			if n >= nodes {
				return errors.New("shell: Spots belong to another grid")
			}
		}
	}
	return nil
}

// layPresses lists the contacts between nodes, obstacle by obstacle.
func (s *Solver) layPresses() {
	s.presses = s.presses[:0]
	for k := range s.sheet.Contacts {
		c := &s.sheet.Contacts[k]
		if !c.Between {
			continue
		}
		for n := range s.sheet.Spots {
			if w, back := c.at(n); w > 0 {
				s.presses = append(s.presses, press{int32(k), int32(n), w, back})
			}
		}
	}
	s.layPatches()
}

// patch is a run of presses of one obstacle at spots of the same nodes.
type patch struct {
	contact, first, end int32
	less, back          float64 // the largest and the least of its presses
}

// layPatches gathers presses into patches.
func (s *Solver) layPatches() {
	s.patches = s.patches[:0]
	last := int32(-1)
	for k := range s.presses {
		t := &s.presses[k]
		q := &s.sheet.Spots[t.spot]
		if n := len(s.patches); n == 0 || q.n[0] != last || s.patches[n-1].contact != t.contact {
			s.patches = append(s.patches, patch{contact: t.contact, first: int32(k), back: t.back})
			last = q.n[0]
		}
		w := &s.patches[len(s.patches)-1]
		w.end, w.less, w.back = int32(k+1), max(w.less, q.less), min(w.back, t.back)
	}
	s.felt = resized(s.felt, len(s.presses))
	s.gap = resized(s.gap, s.nodes)
}

// felt is a press that is felt, and its gap with Back.
type felt struct {
	press int32
	gap   float64
}

// feel lists the presses that are felt at s.x. A plane's gap at a spot is that
// of its nodes times their c, so at least m − less (M − m), m and M the least and
// the largest of theirs: most patches are passed over.
func (s *Solver) feel() []felt {
	list := s.felt[:0]
	contact := int32(-1)
	for k := range s.patches {
		w := &s.patches[k]
		c := &s.sheet.Contacts[w.contact]
		if c.Radial != 0 {
			for t := w.first; t < w.end; t++ {
				r := &s.presses[t]
				if gap := c.Gap(s.sheet.Spots[r.spot].At(s.x)) + r.back; gap < c.Skin {
					list = append(list, felt{t, gap})
				}
			}
			continue
		}
		if w.contact != contact {
			contact = w.contact
			for n := range s.gap {
				s.gap[n] = c.Normal[0]*s.x[3*n] + c.Normal[1]*s.x[3*n+1] + c.Normal[2]*s.x[3*n+2] - c.Clear
			}
		}
		var gaps [8]float64
		for r, n := range s.sheet.Spots[s.presses[w.first].spot].n {
			gaps[r] = s.gap[n]
		}
		least, most := gaps[0], gaps[0]
		for _, g := range gaps[1:] { // min and max are calls in wasm
			if g < least {
				least = g
			} else if g > most {
				most = g
			}
		}
		if least-w.less*(most-least)+w.back >= c.Skin {
			continue
		}
		for t := w.first; t < w.end; t++ {
			r := &s.presses[t]
			gap := r.back
			for k, f := range &s.sheet.Spots[r.spot].c {
				gap += f * gaps[k]
			}
			if gap < c.Skin {
				list = append(list, felt{t, gap})
			}
		}
	}
	return list
}

// pressed returns the energy of contact between nodes at s.x and, when grad is
// set, adds its gradient to s.g.
func (s *Solver) pressed(grad bool) (energy float64) {
	g := s.g
	for _, f := range s.feel() {
		t := &s.presses[f.press]
		c, q := &s.sheet.Contacts[t.contact], &s.sheet.Spots[t.spot]
		phi, d1, _ := c.force(f.gap)
		energy += t.weight * phi
		if !grad {
			continue
		}
		n := c.Normal
		if c.Radial != 0 {
			n, _, _, _ = c.gradient(q.At(s.x))
		}
		for r, m := range q.n {
			w := q.c[r] * t.weight * d1
			z := g[3*m : 3*m+3 : 3*m+3]
			z[0] += w * n[0]
			z[1] += w * n[1]
			z[2] += w * n[2]
		}
	}
	return energy
}

// assemblePresses is assembleContact for contact between nodes. Planes that
// press on spots of the same nodes share the direction of their stiffness, which
// is summed before it is put into the band.
func (s *Solver) assemblePresses(m *unknowns, b *Band, keep float64, anti bool) {
	var full, h [9]float64
	var sum [36]float64
	var c *Contact
	var q *Spot
	put := func() {
		if q == nil {
			return
		}
		at := 0
		for i := range q.n {
			for j := range i + 1 {
				if f := sum[at]; f != 0 {
					for r := range h {
						h[r] = f * full[r]
					}
					m.add(s, b, q.n[i], q.n[j], &h)
				}
				at++
			}
		}
		clear(sum[:])
	}
	for _, f := range s.feel() {
		t := &s.presses[f.press]
		d, p := &s.sheet.Contacts[t.contact], &s.sheet.Spots[t.spot]
		if anti && d.Image {
			continue
		}
		w := 1.0
		if d.Radial != 0 || c != d || q.n[0] != p.n[0] {
			put()
			c, q = d, p
			if d.Radial != 0 {
				d.stiffness(p.At(s.x), f.gap, t.weight, keep, &full)
			} else {
				for i := range 3 {
					for j := range 3 {
						full[3*i+j] = d.Normal[i] * d.Normal[j]
					}
				}
			}
		}
		if d.Radial == 0 {
			_, _, w = d.force(f.gap)
			w *= t.weight
		}
		at := 0
		for i := range p.c {
			for j := range i + 1 {
				sum[at] += w * p.c[i] * p.c[j]
				at++
			}
		}
	}
	put()
}

// deepest returns the largest −gap at nodes and spots, at least 0, ties aside.
func (s *Solver) deepest() (most float64) {
	for k := range s.touches {
		t := &s.touches[k]
		if c := &s.sheet.Contacts[t.contact]; !c.Tie {
			most = math.Max(most, -c.Gap([3]float64(s.x[3*t.node:3*t.node+3])))
		}
	}
	for k := range s.presses {
		t := &s.presses[k]
		most = math.Max(most, -s.sheet.Contacts[t.contact].Gap(s.sheet.Spots[t.spot].At(s.x)))
	}
	return most
}
