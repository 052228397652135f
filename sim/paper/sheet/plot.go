package sheet

import (
	"bytes"
	"fmt"

	"ruffwright/geom/draw"
	"ruffwright/geom/word"
)

// Plot is one piece to cut, full size, for a plotter or a cutting machine: lines
// only, in groups, so that a machine can cut some and draw others.
type Plot struct {
	Language         word.Language
	Name, About      word.Text
	Wide_mm, High_mm float64
	fold, sew, mark  [][]draw.Point
	labels           []draw.Label
}

// Fold draws a line along which the piece is folded.
func (d *Plot) Fold(pts ...draw.Point) { d.fold = append(d.fold, pts) }

// Sew draws a seam.
func (d *Plot) Sew(pts ...draw.Point) { d.sew = append(d.sew, pts) }

// Mark draws a line that is washed out later.
func (d *Plot) Mark(pts ...draw.Point) { d.mark = append(d.mark, pts) }

// Say sets words with their top at y; anchor as in Page.Text.
func (d *Plot) Say(x, y, size float64, anchor float64, t word.Text) {
	d.labels = append(d.labels, draw.Label{At: draw.Pt(x, y), Text: t.In(d.Language), Size_mm: size, Anchor: draw.Pt(anchor, 0)})
}

// SVG writes the piece in mm: width and height say so, and one unit of the viewBox
// is one mm. The groups are cut (the outline), fold, sew, mark and text.
func (d *Plot) SVG() []byte {
	var b bytes.Buffer
	w, h := draw.Number(d.Wide_mm), draw.Number(d.High_mm)
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s">`+"\n", w, h, w, h)
	fmt.Fprintf(&b, "<title>%s</title>\n<desc>%s</desc>\n", draw.Escape(d.Name.In(d.Language)), draw.Escape(d.About.In(d.Language)))
	for _, g := range []struct {
		id    string
		what  word.Text
		dash  string
		lines [][]draw.Point
	}{
		{"cut", word.Say("cut"), "", [][]draw.Point{box(0, 0, d.Wide_mm, d.High_mm)}},
		{"fold", word.Say("fold"), "5 1.6", d.fold},
		{"sew", word.Say("sew"), "0.1 1.4", d.sew},
		{"mark", word.Say("draw with a pen that washes out"), "", d.mark},
	} {
		fmt.Fprintf(&b, `<g id="%s" fill="none" stroke="#000000" stroke-width="0.2" stroke-linecap="round"`, g.id)
		if g.dash != "" {
			fmt.Fprintf(&b, ` stroke-dasharray="%s"`, g.dash)
		}
		fmt.Fprintf(&b, ">\n<title>%s</title>\n", draw.Escape(g.what.In(d.Language)))
		for _, line := range g.lines {
			b.WriteString(`<path d="`)
			for i, q := range line {
				b.WriteByte("ML"[min(i, 1)])
				b.WriteString(draw.Number(q.X) + " " + draw.Number(q.Y))
			}
			if g.id == "cut" {
				b.WriteByte('Z')
			}
			b.WriteString("\"/>\n")
		}
		b.WriteString("</g>\n")
	}
	b.WriteString(`<g id="text" fill="#000000" font-family="sans-serif">` + "\n")
	for _, l := range d.labels {
		box := l.Box()
		fmt.Fprintf(&b, `<text x="%s" y="%s" font-size="%s" textLength="%s">%s</text>`+"\n",
			draw.Number(box.Min.X), draw.Number(box.Min.Y+l.Size_mm*above), draw.Number(l.Size_mm), draw.Number(box.Max.X-box.Min.X), draw.Escape(l.Text))
	}
	b.WriteString("</g>\n</svg>\n")
	return b.Bytes()
}
