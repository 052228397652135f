package figure

import (
	"math"

	"ruffwright/geom/draw"
)

type dress struct {
	pal      draw.Palette
	selected func(col int) bool // tinted woad; nil = none
	hatch    float64            // sheet mm between hatching lines along the strip, about; 0 = none
	inner    bool               // a faint line along the inner edge
	tone     *toned             // of cloth that is dyed
}

// paint adds the cloth to the body: lit faces, hatching where it is dark, the
// outlines of folds and the hem.
func (c *cloth) paint(b *draw.Body, e *draw.Eye, d dress) {
	p := painting{cloth: c, dress: d, body: b, shades: c.shades(e.Scale)}
	p.light(e)
	p.rule(e.Scale)
	turned := make([]bool, c.rows-1) // of each row's last cell
	for col := range c.cols - 1 {
		hatched := p.step > 0 && math.Floor(float64(col)/p.step) != math.Floor(float64(col-1)/p.step)
		for j := range c.rows - 1 {
			p.cell(col, j, hatched, &turned[j])
		}
	}
}

type painting struct {
	*cloth
	dress
	body   *draw.Body
	first  uint32 // of the body's vertices
	bright []float32
	shades []shade

	step  float64 // columns from one hatched to the next; 0: no hatching
	lines int     // in a hatched cell
	most  float32 // of a cell's length that a line swells to
	thin  float32 // half of a line between two steps of a dye, sheet mm
}

// light adds the nodes with the light that falls on them, from over the eye's shoulder;
// the side turned to the eye is lit, whichever it is. Deep places lie in shade.
func (p *painting) light(e *draw.Eye) {
	light := e.Light()
	p.first = uint32(len(p.body.Vertices))
	p.bright = make([]float32, p.cols*p.rows)
	plain, tinted := p.pal.Ramp()
	for col := range p.cols {
		ramp := &plain
		if p.selected != nil && p.selected(col) {
			ramp = &tinted
		}
		for j := range p.rows {
			i, row := col*p.rows+j, &p.shades[j]
			v, normal := p.v[i], p.normal(col, j)
			to := e.Toward
			if e.Far != 0 {
				to = e.From(v)
			}
			t := normal.Dot(light)
			if normal.Dot(to) < 0 {
				t = -t
			}
			t = 0.5 + 0.5*t
			t *= t
			// How deep the place lies below the crests, for this eye.
			low := (v.Z - row.lo) * row.perHeight
			side := -to.Z
			if to.Z > 0 {
				low, side = 1-low, to.Z
			}
			deep := side*low*0.55 + row.inward*0.45
			t = clamp((0.17+0.89*t)*(1-deep), 0, 1)
			p.bright[i] = float32(t)
			tint := ramp[int(t*255+0.5)]
			if p.tone != nil {
				tint = p.tone.color(p.dye[i], t)
			}
			at, z := e.See(v)
			p.body.Vertices = append(p.body.Vertices, draw.Vertex{X: float32(at.X), Y: float32(at.Y), Z: float32(z), Color: tint})
		}
	}
}

// rule says where the hatching goes. It follows the lines from neck to outer edge,
// evenly along the cloth: every so many columns, or several lines within a cell.
func (p *painting) rule(scale float64) {
	p.thin = 0.13 * float32(clamp(0.3+0.6*scale, 0.4, 1))
	if p.hatch <= 0 {
		return
	}
	var long float64
	for col := 1; col < p.cols; col++ {
		long += p.at(col, p.rows-1).Sub(p.at(col-1, p.rows-1)).Norm()
	}
	if cell := long / float64(p.cols-1) * scale; cell > 0 {
		p.step = math.Max(1, p.hatch/cell)
		p.lines = int(clamp(math.Round(cell/p.hatch), 1, 12))
		p.most = float32(math.Min(0.5, 0.27/cell))
	}
}

// cell adds one cell of the grid as a face with the lines that lie on it. turned
// tells whether the cell before it in the row shows its other side.
func (p *painting) cell(col, j int, hatched bool, turned *bool) {
	b, i := p.body, col*p.rows+j
	q0 := p.first + uint32(i)
	q := [4]uint32{q0, q0 + uint32(p.rows), q0 + uint32(p.rows) + 1, q0 + 1}
	v := [4]draw.Vertex{b.Vertices[q[0]], b.Vertices[q[1]], b.Vertices[q[2]], b.Vertices[q[3]]}
	first := len(b.Triangles)
	b.Triangles = append(b.Triangles, q[0], q[1], q[2], q[0], q[2], q[3])
	if hatched {
		p.hatching(&v, i, j)
	}
	if p.tone != nil {
		isolines(b, v, [4]float64{p.dye[i], p.dye[i+p.rows], p.dye[i+p.rows+1], p.dye[i+1]}, p.thin, p.tone.ink)
	}
	ink := p.pal.Hatch
	// The outline of a fold: here the cloth turns its other side.
	was := *turned
	*turned = (v[1].X-v[0].X)*(v[3].Y-v[0].Y)-(v[1].Y-v[0].Y)*(v[3].X-v[0].X) > 0
	if col > 0 && *turned != was {
		b.Ribbon(v[0], v[3], 0.1*p.shades[j].line, 0.1*p.shades[j+1].line, 0.25, ink)
	}
	if j == p.rows-2 { // the hem
		w := 0.13 * p.shades[j+1].line
		b.Ribbon(v[3], v[2], w, w, 0.3, ink)
	}
	if j == 0 && p.inner {
		w := 0.07 * p.shades[0].line
		b.Ribbon(v[0], v[1], w, w, 0.3, ink)
	}
	switch { // the strip's ends
	case col == 0:
		b.Ribbon(v[0], v[3], 0.13, 0.13, 0.3, ink)
	case col == p.cols-2:
		b.Ribbon(v[1], v[2], 0.13, 0.13, 0.3, ink)
	}
	b.Face(first, (v[0].Z+v[1].Z+v[2].Z+v[3].Z)/4)
}

// hatching adds the lines of a hatched cell whose first node is i, in row j: the
// darker the fuller, or, where the cloth is dyed, the deeper the fuller.
func (p *painting) hatching(v *[4]draw.Vertex, i, j int) {
	ink := p.pal.Hatch
	dark := [2]float32{hatchDark(p.bright[i]) * p.shades[j].line, hatchDark(p.bright[i+1]) * p.shades[j+1].line}
	if p.tone != nil {
		ink, dark = p.tone.ink, [2]float32{dense(p.dye[i]), dense(p.dye[i+1])}
	}
	if dark[0] <= 0 && dark[1] <= 0 {
		return
	}
	for k := range p.lines {
		p.body.Hatch(v[0], v[1], v[2], v[3], float32(k)/float32(p.lines), dark, p.most, ink)
	}
}

// shade is what a row's nodes have in common for the light.
type shade struct {
	lo, perHeight float64 // (z − lo)·perHeight is 0 at the row's lowest node, 1 at its highest
	inward        float64 // 0 at the outer edge to 1 at the neck, squared
	line          float32 // how full outlines are drawn: less where folds crowd on the sheet
}

func (c *cloth) shades(scale float64) []shade {
	rows := make([]shade, c.rows)
	for j := range rows {
		in := 1 - float64(j)/float64(c.rows-1)
		rows[j] = shade{lo: c.lo[j] - 0.5, perHeight: 1, inward: in * in}
		// Room that a panel takes on the sheet, mm; 2 and more: full lines.
		var room float64
		for col := c.per; col < c.cols; col += c.per {
			room += c.at(col, j).XY().Sub(c.at(col-c.per, j).XY()).Norm()
		}
		room *= scale * float64(c.per) / float64(c.cols-1)
		rows[j].line = float32(clamp(room/2, 0.25, 1))
		if h := c.hi[j] - c.lo[j]; h > 1e-6 {
			rows[j].lo, rows[j].perHeight = c.lo[j], 1/h
		}
	}
	return rows
}

// hatchDark swells an engraver's line with the dark: nothing in the light, 1 in
// full shade.
func hatchDark(bright float32) float32 {
	return min(1, max(0, (0.46-bright)/0.38))
}
