package paper

import (
	"math"

	"ruffwright/geom/draw"
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/paper/sheet"
)

// Piece is one piece to cut, full size, for a plotter or a cutting machine.
type Piece struct {
	Name             string // "strip 3", "band", "swatch, warp 1"
	Wide_mm, High_mm float64
	SVG              []byte // in mm: width and height say so, one unit of the viewBox is one mm
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
	add := func(d *sheet.Plot) { out = append(out, Piece{d.Name.In(j.Language), d.Wide_mm, d.High_mm, d.SVG()}) }
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
			if s.Count > 1 {
				s.Number = n + 1
			}
			d := &sheet.Plot{Language: j.Language, Name: s.Name(), About: word.Say("%s; thread along its length: %s", s.For, along[s.Along]), Wide_mm: s.Long_mm, High_mm: s.Wide_mm}
			d.Say(3, s.Wide_mm/2, sheet.Body, 0, word.Say("%s, %s →", d.Name, along[s.Along]))
			add(d)
		}
	}
	return out, nil
}

// twice says of a piece of a pair that it is cut for each.
func (j *job) twice() word.Text {
	return when(j.Pattern.Made < 2, word.Text{}, word.Say("Cut it twice, for the right cuff as its mirror image."))
}

// stripPiece draws a piece of the strip, its raw inner edge at the top.
func (j *job) stripPiece(p pattern.Piece) *sheet.Plot {
	st := j.Pattern.Strip
	d := &sheet.Plot{Language: j.Language, Name: word.Say("strip %d", p.Number), Wide_mm: p.Length_mm, High_mm: p.Width_mm}
	d.About = word.Join(" ", word.Say("Strip %d of %s. Raw inner edge at the top; the line along it is the stitch line, where it is turned in and sewn. Marks as on the table: from %s.", p.Number, j.name(), j.zero()), j.twice())
	x := func(place float64) float64 { return place - p.From_mm + p.JoinA_mm }
	on := func(place float64) bool { return x(place) >= -1e-9 && x(place) <= p.Length_mm+1e-9 }
	if p.JoinA_mm > 0 {
		d.Sew(draw.Pt(p.JoinA_mm, 0), draw.Pt(p.JoinA_mm, p.Width_mm))
	}
	if p.JoinB_mm > 0 {
		d.Sew(draw.Pt(p.Length_mm-p.JoinB_mm, 0), draw.Pt(p.Length_mm-p.JoinB_mm, p.Width_mm))
	}
	if st.Hem_mm > 0 {
		d.Fold(draw.Pt(0, p.Width_mm-st.Hem_mm), draw.Pt(p.Length_mm, p.Width_mm-st.Hem_mm))
		for _, end := range []float64{0, st.Marked_mm} {
			if on(end) {
				d.Fold(draw.Pt(x(end), 0), draw.Pt(x(end), p.Width_mm))
			}
		}
	}
	if st.Takeup_mm > 0 {
		d.Sew(draw.Pt(0, st.Takeup_mm), draw.Pt(p.Length_mm, st.Takeup_mm))
	}
	long := math.Min(12, p.Width_mm/3)
	last := -9.0
	for _, r := range j.table.Rows {
		if r.Mark < 0 {
			continue
		}
		if at := x(r.Place.Exact_mm); on(r.Place.Exact_mm) {
			if r.Fold == scheme.Crest {
				d.Mark(draw.Pt(at, 0), draw.Pt(at, long))
			} else { // a bottom fold: two strokes with a gap
				d.Mark(draw.Pt(at, 0), draw.Pt(at, long*0.4))
				d.Mark(draw.Pt(at, long*0.6), draw.Pt(at, long))
			}
			words := word.Say("%d", r.Set)
			if w := draw.TextWidth(words.In(j.Language), 3, draw.Upright); at-w/2 > last+1 && at+w/2 < p.Length_mm && at > w/2 {
				d.Say(at, long+1, 3, 0.5, words)
				last = at + w/2
			}
		}
		if r.Tucked {
			for _, q := range []pattern.Place{r.TuckA, r.TuckB} {
				if on(q.Exact_mm) {
					d.Mark(draw.Pt(x(q.Exact_mm), 0), draw.Pt(x(q.Exact_mm), long/3))
				}
			}
		}
	}
	d.Say(p.Length_mm/2, p.Width_mm*0.6, math.Min(5, p.Width_mm/4), 0.5, word.Say("%s · strip %d", j.name(), p.Number))
	return d
}

// bandPiece draws the band as on its sheet: outer half below.
func (j *job) bandPiece() *sheet.Plot {
	b := j.Pattern.Band
	d := &sheet.Plot{Language: j.Language, Name: word.Say("band"), Wide_mm: b.CutLong_mm, High_mm: b.CutWide_mm}
	d.About = word.Join(" ", word.Say("Band of %s. Folded along the middle, the fold is its top edge; outer half below.", j.name()), j.twice())
	at := func(y float64) float64 { return b.CutWide_mm - y }
	d.Fold(draw.Pt(0, at(b.Fold_mm)), draw.Pt(b.CutLong_mm, at(b.Fold_mm)))
	if s := b.Seam_mm; s > 0 {
		d.Sew(draw.Pt(s, s), draw.Pt(b.CutLong_mm-s, s), draw.Pt(b.CutLong_mm-s, b.CutWide_mm-s), draw.Pt(s, b.CutWide_mm-s), draw.Pt(s, s))
	}
	size := math.Min(3, b.Height_mm/3)
	for k, m := range b.Marks {
		d.Mark(draw.Pt(m.X_mm, at(b.Seam_mm)), draw.Pt(m.X_mm, at(b.CutWide_mm-b.Seam_mm)))
		anchor, x := 0.0, m.X_mm+1
		if k == len(b.Marks)-1 {
			anchor, x = 1, m.X_mm-1
		}
		d.Say(x, at(b.Fold_mm)-size-1, size, anchor, m.Name)
	}
	for k, m := range j.Ruff.Plan.Row {
		x := b.RowFrom_mm + j.Ruff.Plan.Row.Along(k)
		switch {
		case x < 0 || x > b.CutLong_mm: // a row too long for the band made
		case m.Edge == scheme.EdgeTop:
			d.Mark(draw.Pt(x, at(b.Fold_mm)), draw.Pt(x, at(b.Fold_mm-1.6)))
		case m.Edge == scheme.EdgeBottom:
			d.Mark(draw.Pt(x, at(b.Seam_mm)), draw.Pt(x, at(b.Seam_mm+1.6)))
		}
	}
	for _, c := range b.Closures {
		x, y := c.X_mm, at(b.Y_mm(c))
		d.Mark(draw.Pt(x-1, y), draw.Pt(x+1, y))
		d.Mark(draw.Pt(x, y-1), draw.Pt(x, y+1))
		d.Say(x+1.5, y-size/2, size, 0, c.Name)
	}
	return d
}
