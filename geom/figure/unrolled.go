package figure

import (
	"math"

	"ruffwright/geom"
	"ruffwright/geom/pleat"
)

// unrolled is a set and its neighbours with the neckline made straight: X along
// it (at each distance from the neck in its own true length), Y inward, Z up.
type unrolled struct {
	c             cloth
	first         int     // panel of the first column
	lo, hi, crest int     // panels of the set, and its crest's mark
	r             float64 // the neckline's radius here, mm
}

// unroll lays out the panels from lo to hi, a set with this crest, and their
// neighbours.
func unroll(plan pleat.Plan, shape pleat.Shape, tone *toned, lo, hi, crest int) unrolled {
	first, end := max(0, lo-1), min(plan.Panels, hi+1)
	u := unrolled{c: newCloth(shape, first, end), first: first, lo: lo, hi: hi, crest: crest}
	u.c.dyed(shape, tone, first)
	st := nearest(plan.Neckline, innerAt(shape, crest, 0).XY())
	r := 1 / st.Curvature
	u.r = r
	centre := st.Pos.Sub(st.Normal.Scale(r))
	for i, v := range u.c.v {
		d := v.XY().Sub(centre)
		a := math.Atan2(st.Normal.Cross(d), st.Normal.Dot(d))
		u.c.v[i] = geom.Vec3{X: a * d.Norm(), Y: r - d.Norm(), Z: v.Z}
	}
	if n := 64 / u.c.per; n > 1 {
		u.c = u.c.refine(n)
	}
	return u
}

func (u *unrolled) node(mark, row int) geom.Vec3 {
	return u.c.at((mark-u.first)*u.c.per, row)
}

// loop measures the loop of the fold at a mark at the outer edge: the two places,
// in the middle of the cloth, between which it is widest within its own half of the
// height. The clear width is less by the cloth's thickness.
func (u *unrolled) loop(mark int) (a, b geom.Vec3) {
	row := u.c.rows - 1
	at := (mark - u.first) * u.c.per
	from, to := max(0, at-u.c.per), min(u.c.cols-1, at+u.c.per)
	top := u.node(mark, row)
	mid := (top.Z + max(u.c.at(from, row).Z, u.c.at(to, row).Z)) / 2
	side := -1.0
	if (mark-u.crest)%2 == 0 {
		side, mid = 1, (top.Z+min(u.c.at(from, row).Z, u.c.at(to, row).Z))/2
	}
	a, b = top, top
	for col := at; col <= to && side*(u.c.at(col, row).Z-mid) >= 0; col++ {
		if v := u.c.at(col, row); v.X > b.X {
			b = v
		}
	}
	for col := at; col >= from && side*(u.c.at(col, row).Z-mid) >= 0; col-- {
		if v := u.c.at(col, row); v.X < a.X {
			a = v
		}
	}
	return a, b
}

// loops are the clear widths of a set's two loops, mm: its crest's and that of a
// trough beside it, 0 where no neighbour closes it.
func (u *unrolled) loops(thickness_mm float64) (top_mm, bottom_mm float64) {
	clear := func(mark int) float64 {
		a, b := u.loop(mark)
		return math.Max(0, b.X-a.X-thickness_mm)
	}
	top_mm = clear(u.crest)
	last := u.first + (u.c.cols-1)/u.c.per
	switch {
	case u.hi > u.crest && u.hi < last:
		bottom_mm = clear(u.hi)
	case u.lo < u.crest && u.lo > u.first:
		bottom_mm = clear(u.lo)
	}
	return top_mm, bottom_mm
}

// roomOuter is the room that a set of a pitch takes at the outer edge, mm, at the
// edge's mean distance from the neck.
func (u *unrolled) roomOuter(pitch_mm float64) float64 {
	row := u.c.rows - 1
	along, far := 0.0, 0.0
	for col := (u.lo - u.first) * u.c.per; col < (u.hi-u.first)*u.c.per; col++ {
		a, b := u.c.at(col, row), u.c.at(col+1, row)
		l := a.Sub(b).Norm()
		along, far = along+l, far+l*(u.r-(a.Y+b.Y)/2)
	}
	return pitch_mm * far / along / u.r
}
