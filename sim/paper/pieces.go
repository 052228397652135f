package paper

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"

	"ruffwright/geom/draw"
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
)

// Piece is one piece to cut, full size, for a plotter or a cutting machine.
type Piece struct {
	Name             string // "strip 3", "band", "swatch, warp 1"
	Wide_mm, High_mm float64
	SVG              []byte // in mm: width and height say so, one unit of the viewBox is one mm
}

// layer is a group of an SVG, so that a machine can cut some lines and draw
// others.
type layer struct {
	id, what string
	dash     []float64
	lines    [][]draw.Point
	closed   bool
}

// drawing is a piece being drawn: lines only, nothing filled, no background.
type drawing struct {
	name, desc           string
	wide, high           float64
	cut, fold, sew, mark layer
	labels               []draw.Label
}

func newDrawing(name, desc string, wide, high float64) *drawing {
	d := &drawing{
		name: name, desc: desc, wide: wide, high: high,
		cut:  layer{id: "cut", what: "cut", closed: true},
		fold: layer{id: "fold", what: "fold", dash: []float64{5, 1.6}},
		sew:  layer{id: "sew", what: "sew", dash: []float64{0.1, 1.4}},
		mark: layer{id: "mark", what: "draw with a pen that washes out"},
	}
	d.cut.lines = [][]draw.Point{box(0, 0, wide, high)}
	return d
}

func (l *layer) add(pts ...draw.Point) { l.lines = append(l.lines, pts) }

func (d *drawing) say(x, y, size float64, anchor float64, text string) {
	d.labels = append(d.labels, draw.Label{At: pt(x, y), Text: text, Size_mm: size, Anchor: pt(anchor, 0)})
}

// Pieces gives every piece that is to be cut, in washed size, with its folds,
// seams and marks in groups named cut, fold, sew, mark and text. What is at hand
// already is not among them. The error is that of Pages.
func Pieces(in Input) ([]Piece, error) {
	j, err := newJob(in)
	if err != nil {
		return nil, err
	}
	var out []Piece
	add := func(d *drawing) { out = append(out, Piece{d.name, d.wide, d.high, d.svg()}) }
	for _, p := range j.Pattern.Cut.Pieces {
		if !p.AtHand {
			add(j.stripPiece(p))
		}
	}
	if !j.Pattern.Band.AtHand {
		add(j.bandPiece())
	}
	for _, s := range j.Pattern.Swatches() {
		for n := range s.Count {
			name := s.Name
			if s.Count > 1 {
				name += " " + strconv.Itoa(n+1)
			}
			d := newDrawing(name, s.For+"; thread along its length: "+string(s.Along), s.Long_mm, s.Wide_mm)
			d.say(3, s.Wide_mm/2, sizeBody, 0, name+", "+string(s.Along)+" →")
			add(d)
		}
	}
	return out, nil
}

// twice says of a piece of a pair that it is cut for each.
func (j *job) twice() string {
	if j.Pattern.Made < 2 {
		return ""
	}
	return " Cut it twice, for the right cuff as its mirror image."
}

// stripPiece draws a piece of the strip, its raw inner edge at the top.
func (j *job) stripPiece(p pattern.Piece) *drawing {
	st := j.Pattern.Strip
	d := newDrawing(fmt.Sprintf("strip %d", p.Number), fmt.Sprintf("Strip %d of %s. Raw inner edge at the top; the line along it is the stitch line, where it is turned in and sewn. Marks as on the table: from %s.%s", p.Number, j.name(), j.zero(), j.twice()), p.Length_mm, p.Width_mm)
	// x of a place along the strip.
	x := func(place float64) float64 { return place - p.From_mm + p.JoinA_mm }
	on := func(place float64) bool { return x(place) >= -1e-9 && x(place) <= p.Length_mm+1e-9 }
	if p.JoinA_mm > 0 {
		d.sew.add(pt(p.JoinA_mm, 0), pt(p.JoinA_mm, p.Width_mm))
	}
	if p.JoinB_mm > 0 {
		d.sew.add(pt(p.Length_mm-p.JoinB_mm, 0), pt(p.Length_mm-p.JoinB_mm, p.Width_mm))
	}
	if st.Hem_mm > 0 {
		d.fold.add(pt(0, p.Width_mm-st.Hem_mm), pt(p.Length_mm, p.Width_mm-st.Hem_mm))
		for _, end := range []float64{0, st.Marked_mm} {
			if on(end) {
				d.fold.add(pt(x(end), 0), pt(x(end), p.Width_mm))
			}
		}
	}
	if st.Takeup_mm > 0 {
		d.sew.add(pt(0, st.Takeup_mm), pt(p.Length_mm, st.Takeup_mm))
	}
	long := math.Min(12, p.Width_mm/3)
	last := -9.0
	for _, r := range j.table.Rows {
		if r.Mark < 0 {
			continue
		}
		if at := x(r.Place.Exact_mm); on(r.Place.Exact_mm) {
			if r.Fold == scheme.Crest {
				d.mark.add(pt(at, 0), pt(at, long))
			} else { // a bottom fold: two strokes with a gap
				d.mark.add(pt(at, 0), pt(at, long*0.4))
				d.mark.add(pt(at, long*0.6), pt(at, long))
			}
			words := strconv.Itoa(r.Set)
			if w := draw.TextWidth(words, 3, draw.Upright); at-w/2 > last+1 && at+w/2 < p.Length_mm && at > w/2 {
				d.say(at, long+1, 3, 0.5, words)
				last = at + w/2
			}
		}
		if r.Tucked {
			for _, q := range []pattern.Place{r.TuckA, r.TuckB} {
				if on(q.Exact_mm) {
					d.mark.add(pt(x(q.Exact_mm), 0), pt(x(q.Exact_mm), long/3))
				}
			}
		}
	}
	d.say(p.Length_mm/2, p.Width_mm*0.6, math.Min(5, p.Width_mm/4), 0.5, fmt.Sprintf("%s · strip %d", j.name(), p.Number))
	return d
}

// bandPiece draws the band as on its sheet: outer half below.
func (j *job) bandPiece() *drawing {
	b := j.Pattern.Band
	d := newDrawing("band", "Band of "+j.name()+". Folded along the middle, the fold is its top edge; outer half below."+j.twice(), b.CutLong_mm, b.CutWide_mm)
	at := func(y float64) float64 { return b.CutWide_mm - y }
	d.fold.add(pt(0, at(b.Fold_mm)), pt(b.CutLong_mm, at(b.Fold_mm)))
	if s := b.Seam_mm; s > 0 {
		d.sew.add(pt(s, s), pt(b.CutLong_mm-s, s), pt(b.CutLong_mm-s, b.CutWide_mm-s), pt(s, b.CutWide_mm-s), pt(s, s))
	}
	size := math.Min(3, b.Height_mm/3)
	for k, m := range b.Marks {
		d.mark.add(pt(m.X_mm, at(b.Seam_mm)), pt(m.X_mm, at(b.CutWide_mm-b.Seam_mm)))
		anchor, x := 0.0, m.X_mm+1
		if k == len(b.Marks)-1 {
			anchor, x = 1, m.X_mm-1
		}
		d.say(x, at(b.Fold_mm)-size-1, size, anchor, m.Name)
	}
	for _, m := range j.Ruff.Plan.Row {
		x := b.RowFrom_mm + m.Station_mm
		switch {
		case x < 0 || x > b.CutLong_mm: // a row too long for the band made
		case m.Edge == scheme.EdgeTop:
			d.mark.add(pt(x, at(b.Fold_mm)), pt(x, at(b.Fold_mm-1.6)))
		case m.Edge == scheme.EdgeBottom:
			d.mark.add(pt(x, at(b.Seam_mm)), pt(x, at(b.Seam_mm+1.6)))
		}
	}
	for _, c := range b.Closures {
		x, y := c.X_mm, at(b.Y_mm(c))
		d.mark.add(pt(x-1, y), pt(x+1, y))
		d.mark.add(pt(x, y-1), pt(x, y+1))
		d.say(x+1.5, y-size/2, size, 0, c.Kind)
	}
	return d
}

// svg writes the piece.
func (d *drawing) svg() []byte {
	var b bytes.Buffer
	w, h := mm(d.wide), mm(d.high)
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s">`+"\n", w, h, w, h)
	fmt.Fprintf(&b, "<title>%s</title>\n<desc>%s</desc>\n", escape(d.name), escape(d.desc))
	for _, l := range []layer{d.cut, d.fold, d.sew, d.mark} {
		fmt.Fprintf(&b, `<g id="%s" fill="none" stroke="#000000" stroke-width="0.2" stroke-linecap="round"`, l.id)
		if len(l.dash) > 0 {
			fmt.Fprintf(&b, ` stroke-dasharray="%s %s"`, mm(l.dash[0]), mm(l.dash[1]))
		}
		fmt.Fprintf(&b, ">\n<title>%s</title>\n", l.what)
		for _, line := range l.lines {
			b.WriteString(`<path d="`)
			for i, q := range line {
				b.WriteByte("ML"[min(i, 1)])
				b.WriteString(mm(q.X) + " " + mm(q.Y))
			}
			if l.closed {
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
			mm(box.Min.X), mm(box.Min.Y+l.Size_mm*above), mm(l.Size_mm), mm(box.Max.X-box.Min.X), escape(l.Text))
	}
	b.WriteString("</g>\n</svg>\n")
	return b.Bytes()
}

// mm writes a number to a thousandth of a mm.
func mm(x float64) string { return trim(x, 3) }

// escape makes text safe inside an element.
func escape(s string) string {
	s = strings.Map(noControl, strings.ToValidUTF8(s, "?"))
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;").Replace(s)
}
