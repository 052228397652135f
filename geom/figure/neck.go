package figure

import (
	"image/color"
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// Neck block, band and stitches: what the ruff sits on. All are drawn a little
// inside the neckline, so that the cloth hides them where it should.
const (
	bandIn  = 0.8 // mm from the neckline to the band's outer face
	blockIn = 3.5 // mm to the wooden block
)

// blockWithin is how far within the neckline the block stands, mm: less in a narrow one.
func blockWithin(n geom.Neckline) float64 { return math.Min(blockIn, 0.15*narrow(n)) }

// rim is a closed line at height z, in mm inside the neckline.
func rim(n geom.Neckline, inside, z float64, count int) []geom.Vec3 {
	out := make([]geom.Vec3, count+1)
	for i, st := range n.Stations(count) {
		p := st.Pos.Sub(st.Normal.Scale(inside))
		out[i] = geom.Vec3{X: p.X, Y: p.Y, Z: z}
	}
	out[count] = out[0]
	return out
}

// block adds the neck as a quiet wooden block from z0 to z1, its edge rounded,
// growth rings on its top and grain down its side.
func block(b *draw.Body, e *draw.Eye, n geom.Neckline, z0, z1 float64, pal draw.Palette) {
	const round, around = 4, 96
	light := e.Light()
	in, edge := blockWithin(n), math.Min(5, 0.2*narrow(n))
	type step struct{ inside, z, nr, nz float64 }
	var prof []step
	const down = 8
	for i := range down + 1 {
		prof = append(prof, step{in, z0 + (z1-edge-z0)*float64(i)/down, 1, 0})
	}
	for i := 1; i <= round; i++ {
		s, c := math.Sincos(float64(i) / round * math.Pi / 2)
		prof = append(prof, step{in + edge*(1-c), z1 - edge*(1-s), c, s})
	}
	shade := func(nrm geom.Vec3, grain float64) color.NRGBA {
		t := 0.5 + 0.5*nrm.Dot(light)
		return draw.Mix(pal.WoodDeep, pal.WoodLight, clamp(0.08+0.95*t*t+grain, 0, 1))
	}
	stations := n.Stations(around)
	ring := func(st step) ([]geom.Vec3, []color.NRGBA) {
		pts := make([]geom.Vec3, around+1)
		cols := make([]color.NRGBA, around+1)
		for i, s := range stations {
			p := s.Pos.Sub(s.Normal.Scale(st.inside))
			pts[i] = geom.Vec3{X: p.X, Y: p.Y, Z: st.z}
			a := float64(i)
			grain := 0.05*math.Sin(a*2.1+0.02*st.z) + 0.04*math.Sin(a*0.9+1.3) + 0.03*math.Sin(a*5.7+0.05*st.z)
			cols[i] = shade(geom.Vec3{X: s.Normal.X * st.nr, Y: s.Normal.Y * st.nr, Z: st.nz}, grain*st.nr)
		}
		pts[around], cols[around] = pts[0], cols[0]
		return pts, cols
	}
	lastP, lastC := ring(prof[0])
	for _, st := range prof[1:] {
		p, c := ring(st)
		for i := range around {
			b.Quad(e, [4]geom.Vec3{lastP[i], lastP[i+1], p[i+1], p[i]}, [4]color.NRGBA{lastC[i], lastC[i+1], c[i+1], c[i]})
		}
		lastP, lastC = p, c
	}
	// Both ends: growth rings about a pith off the middle.
	pith := geom.Vec3{X: 0.16 * n.Breadth() / 2, Y: 0.1 * n.Depth() / 2}
	for _, end := range []struct{ z, nz, inside float64 }{{z1, 1, in + edge}, {z0, -1, in}} {
		if end.nz*e.Toward.Z <= 0 {
			continue
		}
		border := rim(n, end.inside, end.z, around)
		centre := geom.Vec3{X: pith.X, Y: pith.Y, Z: end.z}
		const parts = 5
		tone := shade(geom.Vec3{Z: end.nz}, -0.1)
		for k := range parts {
			t0, t1 := float64(k)/parts, float64(k+1)/parts
			for i := range around {
				b.Quad(e, [4]geom.Vec3{centre.Lerp(border[i], t0), centre.Lerp(border[i+1], t0), centre.Lerp(border[i+1], t1), centre.Lerp(border[i], t1)},
					[4]color.NRGBA{tone, tone, tone, tone})
			}
		}
		line := draw.Mix(tone, pal.WoodDeep, 0.55)
		for k, t := range [...]float64{0.05, 0.12, 0.21, 0.31, 0.4, 0.52, 0.61, 0.73, 0.82, 0.93} {
			pts := make([]geom.Vec3, around+1)
			for i := range pts {
				a := 2 * math.Pi * float64(i%around) / around
				r := t * (1 + 0.02*math.Sin(3*a+float64(k)) + 0.012*math.Sin(5*a+2*float64(k)))
				pts[i] = centre.Lerp(border[i], math.Min(r, 0.97))
			}
			b.Thread(e, 0.05+0.03*float32(k%3), 0.4, line, pts...)
		}
	}
}

// neckband adds the neckband, z from 0 to its height, its edges and its opening at
// the centre front.
func neckband(b *draw.Body, e *draw.Eye, plan pleat.Plan, pal draw.Palette) {
	const around, up = 96, 4
	n, h := plan.Neckline, plan.Scheme.Band.Height
	light := e.Light()
	sts := n.Stations(around)
	at := func(i int, z float64) (geom.Vec3, color.NRGBA) {
		s := sts[i%around]
		p := s.Pos.Sub(s.Normal.Scale(bandIn))
		v := geom.Vec3{X: p.X, Y: p.Y, Z: z}
		nrm := geom.Vec3{X: s.Normal.X, Y: s.Normal.Y}
		if nrm.Dot(e.From(v)) < 0 {
			nrm = nrm.Scale(-1)
		}
		t := 0.5 + 0.5*nrm.Dot(light)
		return v, pal.Cloth(clamp(0.16+0.72*t*t, 0, 1))
	}
	for k := range up {
		z0, z1 := h*float64(k)/up, h*float64(k+1)/up
		for i := range around {
			var v [4]geom.Vec3
			var c [4]color.NRGBA
			v[0], c[0] = at(i, z0)
			v[1], c[1] = at(i+1, z0)
			v[2], c[2] = at(i+1, z1)
			v[3], c[3] = at(i, z1)
			b.Quad(e, v, c)
		}
	}
	b.Thread(e, 0.12, 0.2, pal.Hatch, rim(n, bandIn, h, around)...)
	b.Thread(e, 0.12, 0.2, pal.Hatch, rim(n, bandIn, 0, around)...)
	front, _ := at(0, 0)
	b.Thread(e, 0.15, 0.4, pal.Hatch, front, geom.Vec3{X: front.X, Y: front.Y, Z: h})
}

// stitches adds a stitch where a mark's fold is sewn to the band: over the edge
// and back, length_mm long.
func stitches(b *draw.Body, e *draw.Eye, plan pleat.Plan, shape pleat.Shape, length_mm, half_mm float32, c color.NRGBA) {
	for m, mark := range plan.Row {
		if mark.Edge == scheme.EdgeNone {
			continue
		}
		v := innerAt(shape, m, 0)
		out := geom.Vec3{X: v.X, Y: v.Y}.Unit()
		z, d := plan.Edge_mm(mark.Edge), float64(length_mm)
		if mark.Edge == scheme.EdgeTop {
			d = -d
		}
		on := geom.Vec3{X: v.X, Y: v.Y, Z: z}
		b.Thread(e, half_mm, 1, c, on.Add(out.Scale(0.6)), on.Sub(out.Scale(2*bandIn)), geom.Vec3{X: on.X - 2*bandIn*out.X, Y: on.Y - 2*bandIn*out.Y, Z: z + d})
	}
}

// innerAt is the node of mark m's fold line at row j.
func innerAt(shape pleat.Shape, m, j int) geom.Vec3 {
	if m < len(shape.Panels) {
		return shape.Panels[m].V[j]
	}
	return shape.Panels[len(shape.Panels)-1].V[shape.NU*(shape.NV+1)+j]
}
