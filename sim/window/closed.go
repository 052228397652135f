package window

import (
	"math"

	"ruffwright/sim/shell"
)

// closed is one whole set, crest to crest, closed round onto the next: what all
// sets do alike, symmetric about no plane.
type closed struct {
	half, sheet *shell.Sheet
	nu, nv      int
	r0          float64       // the neckline's radius, mm
	tc, tt      int           // grid lines that the tucks take, at least 1
	own         []shell.Pair  // between folds and their own images
	press       shell.Contact // of the sectors' planes
	weight      []float64     // per node of the half
	back        [2][]float64  // of the crest's and the trough's plane
	scale       float64       // weight × depth, µJ
}

// guard is how many grid lines apart cloth must be to count as another layer.
const guard = 3

// closed unfolds the released half set.
func (s *solver) closed(c *Window) (*closed, error) {
	// unfolded, node meets node: contact between nodes has no image there
	spots := s.f.spots
	s.f.spots = nil
	half := s.released(c)
	s.f.spots = spots
	whole, err := half.Unfold()
	if err != nil {
		return nil, err
	}
	w := &closed{half: half, sheet: whole, nu: len(c.U) - 1, nv: len(c.V) - 1, r0: s.f.r0, scale: whole.Weight() * c.Design.Width_mm}
	w.tc, w.tt = max(s.f.ic, 1), max(len(c.U)-1-s.f.it, 1)
	for _, q := range whole.Pairs {
		if w.fromCrest(q.N[0]/len(c.V)) <= w.tc || w.fromTrough(q.N[0]/len(c.V)) <= w.tt {
			w.own = append(w.own, q)
		}
	}
	// the two sectors' planes, as sheet lists them
	w.press = half.Contacts[0]
	w.weight = half.Contacts[0].Weight
	w.back = [2][]float64{half.Contacts[0].Back, half.Contacts[1].Back}
	return w, nil
}

// fromCrest and fromTrough are how many grid lines a line of the whole is from
// the nearest crest and from the trough.
func (w *closed) fromCrest(i int) int  { return min(i, 2*w.nu-i) }
func (w *closed) fromTrough(i int) int { return max(w.nu-i, i-w.nu) }

// place returns node (i, j), i counted on from −2nu to 4nu − 1, and the corner
// that shell.Near calls it.
func (w *closed) place(x []float64, i, j int) (p [3]float64, corner int32) {
	n, image := 2*w.nu, 0
	p = w.sheet.Place(x, i, j)
	if i < 0 {
		i, image = i+n, 1
	} else if i >= n {
		i, image = i-n, 2
	}
	return p, int32(image*w.sheet.Nodes() + w.sheet.Node(i, j))
}

// quad is a cell of a panel with its box.
type quad struct {
	i, j   int
	p      [4][3]float64
	n      [4]int32 // corners
	lo, hi [3]float64
}

// near lists for every node the cloth of the panel before and of the panel after
// that it may touch before any node has moved by more than reach mm.
func (w *closed) near(x []float64, reach float64) (list []shell.Near) {
	if w.sheet.Round == nil {
		return nil
	}
	n := 2 * w.nu
	panels := make([][]quad, 4) // −1, 0, 1, 2
	for k := range panels {
		for i := (k - 1) * w.nu; i < k*w.nu; i++ {
			for j := range w.nv {
				q := quad{i: i, j: j}
				for m := range 4 {
					q.p[m], q.n[m] = w.place(x, i+m&1, j+m>>1)
				}
				q.lo, q.hi = q.p[0], q.p[0]
				for _, p := range q.p[1:] {
					for r := range 3 {
						q.lo[r], q.hi[r] = min(q.lo[r], p[r]), max(q.hi[r], p[r])
					}
				}
				panels[k] = append(panels[k], q)
			}
		}
	}
	held := make([]bool, w.sheet.Nodes())
	for _, h := range w.sheet.Held {
		held[w.sheet.Node(h.I, h.J)] = true
	}
	// nearer than this now, cloth may come within the skin
	most := 2*(w.press.Clear+w.press.Skin) + 2*reach
	for i := range n {
		for j := range w.nv + 1 {
			a := w.sheet.Node(i, j)
			at := w.half.Node(w.fromCrest(i), j)
			weight := w.weight[at]
			if i == 0 || i == w.nu {
				weight = w.weight[w.half.Node(w.nu/2, j)]
			}
			if weight == 0 || held[a] {
				continue
			}
			p := [3]float64(x[3*a:])
			panel := i / w.nu
			for _, other := range [2]int{panel - 1, panel + 1} {
				fold := w.nu * max(panel, other) // the fold between the two
				tuck := w.tt
				if fold != w.nu {
					tuck = w.tc
				}
				q := shell.Near{Node: a, Clear: w.press.Clear, Stiffness: w.press.Stiffness, Skin: w.press.Skin, Weight: weight}
				if b := w.back[fold/w.nu&1]; b != nil {
					q.Back = b[at]
				}
				for k := range panels[other+1] {
					c := &panels[other+1][k]
					if c.i < i+guard && c.i+1 > i-guard || boxDistance(p, c) >= most {
						continue
					}
					if max(i-fold, fold-i) <= tuck && (c.i < fold && fold-c.i-1 <= tuck || c.i >= fold && c.i-fold <= tuck) {
						continue
					}
					q.Patch = append(q.Patch, [3]int32{c.n[0], c.n[1], c.n[2]}, [3]int32{c.n[3], c.n[2], c.n[1]})
				}
				if len(q.Patch) > 0 {
					list = append(list, q)
				}
			}
		}
	}
	return list
}

func boxDistance(p [3]float64, q *quad) float64 {
	s := 0.0
	for r := range 3 {
		d := max(q.lo[r]-p[r], p[r]-q.hi[r], 0)
		s += d * d
	}
	return math.Sqrt(s)
}

// sideways is how far node (i, j) has gone round the neck from shape a to b, mm.
func (w *closed) sideways(a, b []float64, i, j int) float64 {
	k := 3 * w.sheet.Node(i, j)
	px, py := w.r0+a[k], a[k+1]
	return (px*(b[k+1]-a[k+1]) - py*(b[k]-a[k])) / math.Hypot(px, py)
}

// outer is how far the crest or the trough has gone sideways at the outer edge,
// whichever more.
func (w *closed) outer(a, b []float64) float64 {
	return max(math.Abs(w.sideways(a, b, 0, w.nv)), math.Abs(w.sideways(a, b, w.nu, w.nv)))
}

// most is how far any node has.
func (w *closed) most(a, b []float64) (m float64) {
	for i := range 2 * w.nu {
		for j := range w.nv + 1 {
			m = max(m, math.Abs(w.sideways(a, b, i, j)))
		}
	}
	return
}

// through counts where one panel passes through another by more than deep mm.
// What is pressed together inside a tuck does not count.
func (w *closed) through(x []float64, deep float64) (n int) {
	panel := func(i int) int { return (i+2*w.nu)/w.nu - 2 }
	for _, c := range w.sheet.Crossings(x, deep) {
		p, q := panel(c.I), panel(c.AtI)
		if p == q {
			continue
		}
		fold := w.nu * max(p, q)
		tuck := w.tt
		if fold/w.nu&1 == 0 {
			tuck = w.tc
		}
		if p-q <= 1 && q-p <= 1 && max(c.I-fold, fold-c.I) <= tuck+1 && max(c.AtI-fold, fold-c.AtI) <= tuck+1 {
			continue
		}
		n++
	}
	return n
}
