package shell

// grip is a run of a stick's spots, all of the same nodes.
type grip struct {
	first, end int32   // among Sheet.Spots; those of no weight between count for nothing
	less       float64 // the largest of its spots
}

// layGrips gathers each stick's spots into grips.
func (s *Solver) layGrips() {
	s.grips = s.grips[:0]
	s.gripsOf = append(s.gripsOf[:0], 0)
	for k := range s.sheet.Sticks {
		last := int32(-1)
		for n, w := range s.sheet.Sticks[k].Weight {
			if w == 0 {
				continue
			}
			q := &s.sheet.Spots[n]
			if q.n[0] != last {
				s.grips = append(s.grips, grip{first: int32(n)})
				last = q.n[0]
			}
			g := &s.grips[len(s.grips)-1]
			g.end, g.less = int32(n+1), max(g.less, q.less)
		}
		s.gripsOf = append(s.gripsOf, len(s.grips))
	}
}

// onStick gives touched every spot that feels a stick at s.x, its place and gap. Most
// grips are passed over by a bound.
func (s *Solver) onStick(k int, touched func(a *axis, n int, spot *Spot, p [3]float64, gap float64)) {
	q, a := &s.sheet.Sticks[k], &s.on
	*a = q.axis(s.levels(s.x))
	for _, g := range s.grips[s.gripsOf[k]:s.gripsOf[k+1]] {
		if a.clears(&s.sheet.Spots[g.first], g.less, s.x) {
			continue
		}
		for n := int(g.first); n < int(g.end); n++ {
			if q.Weight[n] == 0 {
				continue
			}
			spot := &s.sheet.Spots[n]
			p := spot.At(s.x)
			if gap := a.gap(p); gap < q.Skin {
				touched(a, n, spot, p, gap)
			}
		}
	}
}

// clears reports that no spot of these nodes feels the stick, of which none has more than
// less in negative weights: each of s, n and e of such a spot lies between the nodes'
// least and largest, widened by less times their distance. (Plain comparisons, and own's
// sums written out: calls of min, max and own were a twelfth of a solve in wasm.)
func (a *axis) clears(spot *Spot, less float64, x []float64) bool {
	o, out, inner, height := a.q.Origin, a.q.Out, a.q.Ends[0].Out_mm, a.height
	var los, his, lon, hin, loe, hie float64
	for k, m := range spot.n {
		y := x[3*m : 3*m+3 : 3*m+3]
		x0, x1 := y[0]-o[0], y[1]-o[1]
		s, n := x0*out[0]+x1*out[1], x1*out[0]-x0*out[1]
		e := y[2] - o[2] - height - a.slope*(s-inner)
		if k == 0 {
			los, his, lon, hin, loe, hie = s, s, n, n, e, e
			continue
		}
		if s < los {
			los = s
		} else if s > his {
			his = s
		}
		if n < lon {
			lon = n
		} else if n > hin {
			hin = n
		}
		if e < loe {
			loe = e
		} else if e > hie {
			hie = e
		}
	}
	thickest := los - less*(his-los) // where the stick is thickest
	if a.taper > 0 {
		thickest = his + less*(his-los)
	}
	r := a.q.Ends[0].Radius_mm + a.taper*(thickest-inner) + a.q.Clear + a.q.Skin
	n, e := beyond(lon, hin, less), beyond(loe, hie, less)
	return r <= 0 || n*n+e*e/(1+a.slope*a.slope) > r*r
}

// beyond is how far 0 lies outside from lo to hi, widened by less times their distance.
func beyond(lo, hi, less float64) float64 {
	wide := less * (hi - lo)
	if lo-wide > 0 {
		return lo - wide
	}
	if hi+wide < 0 {
		return -hi - wide
	}
	return 0
}

// assembleSticks adds the sticks' second derivatives to the band and fills s.border;
// of what their curvature and their turning make, keep.
func (s *Solver) assembleSticks(m *unknowns, b *Band, keep float64) {
	levels := len(s.sheet.Levels)
	for k := range levels {
		clear(s.border.b[k])
	}
	clear(s.border.c)
	for k := range levels {
		_, _, d2 := s.sheet.Levels[k].stop(s.levels(s.x)[k])
		s.border.c[k*levels+k] = d2
	}
	for k := range s.sheet.Sticks {
		var pile stickPile
		s.onStick(k, func(a *axis, n int, spot *Spot, p [3]float64, gap float64) {
			if pile.spot == nil || pile.spot.n != spot.n {
				s.putStick(m, b, &pile)
				pile.spot = spot
			}
			_, d1, d2 := a.force(gap)
			w := a.q.Weight[n]
			d, h := a.bend(p)
			for i := range h {
				for j := range h[i] {
					h[i][j] = w * (d2*d[i]*d[j] + keep*d1*h[i][j])
				}
			}
			s.addStick(&pile, a, spot, &h)
		})
		s.putStick(m, b, &pile)
	}
}

// stickPile sums what spots of the same nodes give before it is put into the band.
type stickPile struct {
	spot   *Spot          // one of them
	blocks [36][6]float64 // of nodes i and j ≤ i: xx, xy, xz, yy, yz, zz
	ends   [2][8][3]float64
}

// addStick adds the second derivatives h by the five of one spot.
func (s *Solver) addStick(pile *stickPile, a *axis, spot *Spot, h *[five][five]float64) {
	var at, full [9]float64
	for i := range 3 {
		row := a.push(h[i][:])
		copy(at[3*i:], row[:])
	}
	for r := range 3 { // and its rows, as columns
		col := a.push([]float64{at[r], at[3+r], at[6+r]})
		for i := range 3 {
			full[3*i+r] = col[i]
		}
	}
	k := 0
	for i := range spot.c {
		for j := range i + 1 {
			f := spot.c[i] * spot.c[j]
			t := &pile.blocks[k]
			t[0] += f * full[0]
			t[1] += f * full[1]
			t[2] += f * full[2]
			t[3] += f * full[4]
			t[4] += f * full[5]
			t[5] += f * full[8]
			k++
		}
	}
	for e, by := range [2]int{innerEnd, outerEnd} {
		g := a.push([]float64{h[0][by], h[1][by], h[2][by]})
		for c, f := range spot.c {
			for r := range g {
				pile.ends[e][c][r] += f * g[r]
			}
		}
	}
	in, out := a.q.Ends[0].Lift, a.q.Ends[1].Lift
	for l := range in {
		for k := range in {
			s.border.c[l*len(in)+k] += in[l]*(h[innerEnd][innerEnd]*in[k]+h[innerEnd][outerEnd]*out[k]) + out[l]*(h[outerEnd][innerEnd]*in[k]+h[outerEnd][outerEnd]*out[k])
		}
	}
}

// putStick puts a pile into the band and the border, and empties it.
func (s *Solver) putStick(m *unknowns, b *Band, pile *stickPile) {
	if pile.spot == nil {
		return
	}
	k := 0
	for i, p := range pile.spot.n {
		for _, q := range pile.spot.n[:i+1] {
			t := &pile.blocks[k]
			m.add(s, b, p, q, &[9]float64{t[0], t[1], t[2], t[1], t[3], t[4], t[2], t[4], t[5]})
			k++
		}
	}
	in, out := s.on.q.Ends[0].Lift, s.on.q.Ends[1].Lift
	for l := range in {
		for c, n := range pile.spot.n {
			var g [3]float64
			for r := range g {
				g[r] = in[l]*pile.ends[0][c][r] + out[l]*pile.ends[1][c][r]
			}
			m.addColumn(s, s.border.b[l], n, g)
		}
	}
	*pile = stickPile{}
}

// addColumn adds g, by the x, y, z of a node, to a column of the unknowns.
func (m *unknowns) addColumn(s *Solver, column []float64, node int32, g [3]float64) {
	if q := m.frame[node]; q >= 0 {
		g = apply(s.frames[q], g)
	}
	for r := range g {
		if i := m.at[3*int(node)+r]; i >= 0 {
			column[i] += g[r]
		}
	}
}
