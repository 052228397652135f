package draw

import (
	"image/color"
	"math"
	"slices"

	"ruffwright/geom"
)

// Body gathers what is seen of solid things as faces: small groups of triangles
// that are painted together, sorted from far to near at the end.
type Body struct {
	Vertices  []Vertex
	Triangles []uint32
	faces     []face

	key    []uint16 // for sorting
	order  [2][]uint32
	sorted []uint32
}

type face struct {
	z        float32
	first, n uint32
}

// Hatch adds a line from neck outward within the cell a, b, c, d (a and d on
// the first column), at the part at of its length along the strip. It lies on
// the cloth; dark (0 to 1 at either end) swells it up to most of the cell's
// length, and pales it where it is thin, so that it fades and does not break.
func (s *Body) Hatch(a, b, c, d Vertex, at float32, dark [2]float32, most float32, ink color.NRGBA) {
	const lift = 0.12 // mm nearer than its cloth
	lerp := func(p, q Vertex, t, dark float32) Vertex {
		return Vertex{p.X + (q.X-p.X)*t, p.Y + (q.Y-p.Y)*t, p.Z + (q.Z-p.Z)*t + lift, Mix(p.Color, ink, float64(min(1, 1.5*dark)))}
	}
	w0, w1 := most*(0.35+0.65*dark[0]), most*(0.35+0.65*dark[1])
	i := uint32(len(s.Vertices))
	s.Vertices = append(s.Vertices, lerp(a, b, at, dark[0]), lerp(a, b, at+w0, dark[0]), lerp(d, c, at+w1, dark[1]), lerp(d, c, at, dark[1]))
	s.Triangles = append(s.Triangles, i, i+1, i+2, i, i+2, i+3)
}

// Ribbon adds a line from p to q, half widths in sheet mm, lifted towards the
// eye by lift mm. It belongs to the face under way.
func (s *Body) Ribbon(p, q Vertex, w0, w1, lift float32, c color.NRGBA) {
	dx, dy := q.X-p.X, q.Y-p.Y
	l := float32(math.Sqrt(float64(dx*dx + dy*dy)))
	if l < 1e-4 {
		return
	}
	nx, ny := -dy/l, dx/l
	// Ends reach out by half a width, so that bends stay closed.
	ex, ey := dx/l*w0*0.7, dy/l*w0*0.7
	i := uint32(len(s.Vertices))
	s.Vertices = append(s.Vertices,
		Vertex{p.X + nx*w0 - ex, p.Y + ny*w0 - ey, p.Z + lift, c}, Vertex{p.X - nx*w0 - ex, p.Y - ny*w0 - ey, p.Z + lift, c},
		Vertex{q.X - nx*w1 + ex, q.Y - ny*w1 + ey, q.Z + lift, c}, Vertex{q.X + nx*w1 + ex, q.Y + ny*w1 + ey, q.Z + lift, c})
	s.Triangles = append(s.Triangles, i, i+1, i+2, i, i+2, i+3)
}

// Thread adds a polyline of the ruff's space as a line of its own.
func (s *Body) Thread(e *Eye, half_mm, lift float32, c color.NRGBA, pts ...geom.Vec3) {
	for k := 1; k < len(pts); k++ {
		p, q := s.vertex(e, pts[k-1], c), s.vertex(e, pts[k], c)
		first := len(s.Triangles)
		s.Ribbon(p, q, half_mm, half_mm, lift, c)
		s.Face(first, (p.Z+q.Z)/2+lift)
	}
}

func (s *Body) vertex(e *Eye, v geom.Vec3, c color.NRGBA) Vertex {
	p, z := e.See(v)
	return Vertex{float32(p.X), float32(p.Y), float32(z), c}
}

// Quad adds a face of four corners with their colours.
func (s *Body) Quad(e *Eye, v [4]geom.Vec3, c [4]color.NRGBA) {
	i := uint32(len(s.Vertices))
	var z float32
	for k := range v {
		w := s.vertex(e, v[k], c[k])
		z += w.Z / 4
		s.Vertices = append(s.Vertices, w)
	}
	s.Triangles = append(s.Triangles, i, i+1, i+2, i, i+2, i+3)
	s.Face(len(s.Triangles)-6, z)
}

// Surface sorts the faces from far to near (two passes over 8 bits of depth
// each; faces within 1/65536 of the depth keep the order they were added in).
func (s *Body) Surface() Surface {
	if len(s.faces) == 0 {
		return Surface{}
	}
	lo, hi := float32(math.Inf(1)), float32(math.Inf(-1))
	for _, f := range s.faces {
		lo, hi = min(lo, f.z), max(hi, f.z)
	}
	k := float32(0)
	if hi > lo {
		k = 65535 / (hi - lo)
	}
	n := len(s.faces)
	s.key = slices.Grow(s.key[:0], n)[:n]
	from, to := slices.Grow(s.order[0][:0], n)[:n], slices.Grow(s.order[1][:0], n)[:n]
	s.order = [2][]uint32{from, to}
	key := s.key
	for i, f := range s.faces {
		key[i], from[i] = uint16((f.z-lo)*k), uint32(i)
	}
	for shift := 0; shift < 16; shift += 8 {
		var count [257]uint32
		for _, i := range from {
			count[(key[i]>>shift&0xff)+1]++
		}
		for i := 1; i < len(count); i++ {
			count[i] += count[i-1]
		}
		for _, i := range from {
			d := key[i] >> shift & 0xff
			to[count[d]] = i
			count[d]++
		}
		from, to = to, from
	}
	out := slices.Grow(s.sorted[:0], len(s.Triangles))
	for _, i := range from {
		f := s.faces[i]
		out = append(out, s.Triangles[f.first:f.first+f.n]...)
	}
	s.sorted = out
	return Surface{Vertices: s.Vertices, Triangles: out}
}

// Reusable is surface with its memory kept for the drawing that comes after.
func (s *Body) Reusable() Surface {
	f := s.Surface()
	f.work = s
	return f
}

// Reuse is an empty body made of the memory of a drawing that is no longer
// needed, whose surface becomes empty; of a drawing without one, or nil, a new body.
func (d *Drawing) Reuse() *Body {
	if d != nil {
		for i, it := range d.Items {
			if f, ok := it.(Surface); ok && f.work != nil {
				d.Items[i] = Surface{}
				return f.work
			}
		}
	}
	return &Body{}
}

// Grow empties the body and makes room for so many vertices, indices and faces.
func (s *Body) Grow(vertices, indices, faces int) {
	s.Vertices = slices.Grow(s.Vertices[:0], vertices)
	s.Triangles = slices.Grow(s.Triangles[:0], indices)
	s.faces = slices.Grow(s.faces[:0], faces)
}

// Face makes the triangles of the indices from first on one face, at depth z.
func (s *Body) Face(first int, z float32) {
	s.faces = append(s.faces, face{z: z, first: uint32(first), n: uint32(len(s.Triangles) - first)})
}
