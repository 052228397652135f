package paper

import (
	"math"

	"ruffwright/geom/draw"
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/paper/sheet"
)

// band is the band's pattern, full size, in tiles along it. Down the sheet stand as
// many tiles as fit.
func (j *job) band() ([]*sheet.Page, error) {
	b := j.Pattern.Band
	all := sheet.Tiles(b.CutLong_mm, j.Units)
	const head = 4.4
	const between = 5.0
	var pages []*sheet.Page
	turn := func() *sheet.Page {
		p := &sheet.Page{Language: j.Language, Title: word.Say("Band, full size")}
		pages = append(pages, p)
		return p
	}
	p := turn()
	y := j.bandWords(p, all)
	from := 0
	close := func(last int) { p.Holds = word.Say("band, tiles %d to %d", from+1, last+1) }
	for i, t := range all {
		if y+head+b.CutWide_mm > sheet.BodyBottom_mm {
			if i > from || i == 0 {
				if i > 0 {
					close(i - 1)
				} else {
					p.Holds = word.Say("how the band is made")
				}
				p = turn()
				from = i
			}
			y = sheet.BodyTop_mm
			if y+head+b.CutWide_mm > sheet.BodyBottom_mm {
				y = sheet.BodyBottom_mm + 0.8 - head - b.CutWide_mm // the tallest bands: close under the title
			}
		}
		j.bandTile(p, y+head, i, len(all), t)
		y += head + b.CutWide_mm + between
	}
	close(len(all) - 1)
	return pages, nil
}

// bandWords says how the band is made; it gives where the first tile begins.
func (j *job) bandWords(p *sheet.Page, all []sheet.Tile) float64 {
	b := j.Pattern.Band
	c := sheet.Column{Page: p, W: sheet.Live_mm, Y: sheet.BodyTop_mm}
	var pair, made, tiles, pin word.Text
	if j.Pattern.Made > 1 {
		pair = word.Say("This is the left cuff's band; for the right one lay the pattern face down.")
	}
	switch {
	case b.AtHand:
		made = word.Say("The band is made already: lay it beside this pattern and check its length and marks.")
	case j.s.Wearer.Girth > 0:
		made = word.Say("Finished length %s = %s %s + ease %s + overlap %s.", j.len(b.Length_mm), partWord[j.s.Wearer.Part], j.len(j.s.Wearer.Girth), j.len(j.s.Wearer.Ease), j.len(b.Overlap_mm))
	}
	cut := when(b.Seam_mm > 0,
		word.Say("Cut %s × %s, seam allowance %s all round; folded along the middle it is %s high, the fold is its top edge.", j.len(b.CutLong_mm), j.len(b.CutWide_mm), j.len(b.Seam_mm), j.len(b.Height_mm)),
		word.Say("Cut %s × %s, without seam allowance; folded along the middle it is %s high, the fold is its top edge.", j.len(b.CutLong_mm), j.len(b.CutWide_mm), j.len(b.Height_mm)))
	c.Para(word.Join(" ", pair, made, cut, word.Say("Finish it all round before the strip is sewn to it: the strip's turned-in edge is whipped to its edges from outside.")))
	c.Para(word.Say("**%s** %s Parts on the inner half stand above the fold line of this pattern, those on the outer half below.", j.overlapWords(), j.closureWords()))
	if n := len(all); n > 1 {
		tiles = word.Say("It lies on %s that overlap by %s: lay each by the place printed on it, measured from the cut end, letter on letter and cross on cross.", word.Count(n, "%d tile", "%d tiles", n), j.len(sheet.TileOverlap(j.Units)))
	}
	if len(b.Pins) > 0 {
		pin = word.Say("Pin the strip at the quarters first, then share out the folds between them.")
	}
	var edges []word.Text
	for _, e := range []scheme.Edge{scheme.EdgeTop, scheme.EdgeBottom} {
		if j.sewn()[e] != nil {
			edges = append(edges, edgeName[e])
		}
	}
	strokes := word.Say("Short strokes: where folds are sewn to the %s.", list(edges))
	if n := j.strokesEvery(); n > 1 {
		strokes = word.Say("Short strokes: where folds are sewn to the %s (one stroke for every %d folds of an edge).", list(edges), n)
	}
	c.Para(word.Join(" ", tiles, pin, strokes))
	for _, k := range j.at(StepBand) {
		c.Flagged(k.words())
		c.Y += 1
	}
	return c.Y + 2
}

// strokesEvery is how many folds of one edge a stroke stands for, so that strokes
// stay 2 mm apart.
func (j *job) strokesEvery() int {
	return max(1, int(math.Ceil(2/j.Ruff.Plan.Pitch_mm-1e-9)))
}

// sewn is how many folds of a kind are sewn to each edge of the band.
func (j *job) sewn() map[scheme.Edge]map[scheme.Fold]int {
	n := map[scheme.Edge]map[scheme.Fold]int{}
	for _, m := range j.Ruff.Plan.Row {
		if n[m.Edge] == nil {
			n[m.Edge] = map[scheme.Fold]int{}
		}
		n[m.Edge][m.Fold]++
	}
	return n
}

// bandTile draws one tile, the piece's upper cut edge at `top`. The outer half
// lies below, so that the band stands on the sheet as it is worn: bottom edge
// down, with the inner half folded up behind it.
func (j *job) bandTile(p *sheet.Page, top float64, i, n int, t sheet.Tile) {
	b := j.Pattern.Band
	size := t.Long()
	head := when(i > 0, word.Say("band, tile %d of %d  ·  lay this end at %s from the cut end", i+1, n, j.len(t.From_mm)), word.Say("band, tile %d of %d  ·  begins at the cut end", i+1, n))
	p.Text(0, top-1.2, sheet.Body, draw.Bold, 0, head)
	// y on the sheet of y across the band (from the outer half's cut edge).
	at := func(y float64) float64 { return top + b.CutWide_mm - y }
	x := func(place float64) float64 { return place - t.From_mm }
	clip := func(place float64) float64 { return math.Min(math.Max(place, t.From_mm), t.To_mm) - t.From_mm }
	across := func(width float64, dash []float64, y, from, to float64) {
		if to > t.From_mm && from < t.To_mm {
			p.Line(width, dash, draw.Pt(clip(from), at(y)), draw.Pt(clip(to), at(y)))
		}
	}
	upright := func(width float64, dash []float64, place, y0, y1 float64) bool {
		if place < t.From_mm-1e-9 || place > t.To_mm+1e-9 {
			return false
		}
		p.Line(width, dash, draw.Pt(x(place), at(y0)), draw.Pt(x(place), at(y1)))
		return true
	}
	fold := []float64{5, 1.6}
	sew := []float64{0.1, 1.4}
	across(sheet.Bold, nil, 0, 0, b.CutLong_mm)
	across(sheet.Bold, nil, b.CutWide_mm, 0, b.CutLong_mm)
	upright(sheet.Bold, nil, 0, 0, b.CutWide_mm)
	upright(sheet.Bold, nil, b.CutLong_mm, 0, b.CutWide_mm)
	across(sheet.Medium, fold, b.Fold_mm, 0, b.CutLong_mm)
	if b.Seam_mm > 0 {
		in, out := b.Seam_mm, b.CutLong_mm-b.Seam_mm
		across(0.35, sew, b.Seam_mm, in, out)
		across(0.35, sew, b.CutWide_mm-b.Seam_mm, in, out)
		upright(0.35, sew, in, b.Seam_mm, b.CutWide_mm-b.Seam_mm)
		upright(0.35, sew, out, b.Seam_mm, b.CutWide_mm-b.Seam_mm)
	}
	if i > 0 {
		p.Line(sheet.Fine, nil, draw.Pt(0, top), draw.Pt(0, top+b.CutWide_mm))
		for _, y := range []float64{0.3, 0.7} {
			p.Cross(sheet.TileOverlap(j.Units)/2, at(b.CutWide_mm*y))
		}
		p.Text(0.6, at(b.CutWide_mm*0.7)+1.2, sheet.Body, draw.Bold, 0, word.Name(sheet.JoinLetters(i-1)))
	}
	if i < n-1 {
		e := t.To_mm - sheet.TileOverlap(j.Units)
		p.Line(sheet.Fine, []float64{2, 1}, draw.Pt(x(e), top), draw.Pt(x(e), top+b.CutWide_mm))
		for _, y := range []float64{0.3, 0.7} {
			p.Cross(x(e)+sheet.TileOverlap(j.Units)/2, at(b.CutWide_mm*y))
		}
		p.Text(x(e)+0.6, at(b.CutWide_mm*0.7)+1.2, sheet.Body, draw.Bold, 0, word.Name(sheet.JoinLetters(i)))
		p.Text(sheet.Live_mm, top-1.2, sheet.Small, draw.Italic, 1, word.Say("%s: tile %d begins here, at %s", sheet.JoinLetters(i), i+2, j.len(e)))
	}
	j.bandStrokes(p, t, x, at)
	for k, m := range b.Marks {
		if !upright(sheet.Medium, []float64{3, 1, 0.2, 1}, m.X_mm, b.Seam_mm, b.CutWide_mm-b.Seam_mm) {
			continue
		}
		j.bandName(p, x(m.X_mm), size, at(b.Fold_mm)-3.2-3.4*float64(k%2), m.Name)
	}
	for _, c := range b.Closures {
		if c.X_mm < t.From_mm || c.X_mm > t.To_mm {
			continue
		}
		j.closure(p, c, x(c.X_mm), at(b.Y_mm(c)), size)
	}
	j.overlap(p, t, x, at)
	if i == 0 || n == 1 {
		j.grain(p, t, at)
	}
}

func (j *job) bandStrokes(p *sheet.Page, t sheet.Tile, x, at func(float64) float64) {
	b := j.Pattern.Band
	every := j.strokesEvery()
	var strokes [][]draw.Point
	seen := map[scheme.Edge]int{}
	for k, m := range j.Ruff.Plan.Row {
		place := b.RowFrom_mm + j.Ruff.Plan.Row.Along(k)
		seen[m.Edge]++
		if (seen[m.Edge]-1)%every != 0 || m.Edge == scheme.EdgeNone || place < t.From_mm || place > t.To_mm {
			continue
		}
		y := b.Fold_mm
		long := -1.6
		if m.Edge == scheme.EdgeBottom {
			y, long = b.Seam_mm, 1.6
		}
		strokes = append(strokes, []draw.Point{draw.Pt(x(place), at(y)), draw.Pt(x(place), at(y+long))})
	}
	p.Lines(sheet.Fine, nil, strokes...)
}

func (j *job) bandName(p *sheet.Page, x, size, y float64, words word.Text) {
	w := p.Width(words, sheet.Small, draw.Italic)
	anchor, at := 0.0, x+1
	if x+1+w > size {
		anchor, at = 1, x-1
	}
	if anchor == 1 && at-w < 0 {
		return // a tile too short for its words: the neighbour shows them
	}
	p.Text(at, y, sheet.Small, draw.Italic, anchor, words)
}

// overlap names the part that goes under the other end, on the outer half, where no
// set lies.
func (j *job) overlap(p *sheet.Page, t sheet.Tile, x, at func(float64) float64) {
	b := j.Pattern.Band
	from := b.Seam_mm + b.Carry_mm
	to := from + b.Overlap_mm
	if b.Overlap_mm < 2 || from < t.From_mm || to > t.To_mm {
		return
	}
	y := at(b.Seam_mm) - 1
	p.Lines(sheet.Fine, nil, []draw.Point{draw.Pt(x(from), y-1), draw.Pt(x(from), y), draw.Pt(x(to), y), draw.Pt(x(to), y-1)})
	words := word.Say("overlap, goes under")
	w := p.Width(words, sheet.Small, draw.Italic)
	if b.Height_mm < 12 || x(from)-1-w < 0 {
		return
	}
	p.Text(x(from)-1, y-1.9, sheet.Small, draw.Italic, 1, words) // over the strokes
}

func (j *job) closure(p *sheet.Page, c pattern.Closure, x, y, size float64) {
	if r := math.Min(1.1, math.Min(x, size-x)); r > 0.4 {
		p.Circle(sheet.Medium, x, y, r)
	}
	p.Dot(math.Min(math.Max(x, 0.3), size-0.3), y, 0.3)
	w := p.Width(c.Name, sheet.Small, draw.Upright)
	if x+2+w < size {
		p.Text(x+2, y+0.9, sheet.Small, draw.Upright, 0, c.Name)
	} else if x-2-w > 0 {
		p.Text(x-2, y+0.9, sheet.Small, draw.Upright, 1, c.Name)
	}
}

func (j *job) grain(p *sheet.Page, t sheet.Tile, at func(float64) float64) {
	b := j.Pattern.Band
	thread := scheme.Warp
	for _, q := range j.Pattern.Cut.Layout.Placed {
		if q.Kind == pattern.KindBand {
			thread = q.Along
		}
	}
	room := b.Carry_mm / 4 // between the first two quarter marks
	y := at(b.Fold_mm + b.Height_mm*0.5)
	left := b.Seam_mm + 0.26*room
	right := b.Seam_mm + 0.58*room
	if b.Height_mm < 12 || b.Seam_mm+room > t.To_mm || room < 25 {
		return
	}
	p.Line(sheet.Medium, nil, draw.Pt(left, y), draw.Pt(right, y))
	p.Lines(sheet.Medium, nil, []draw.Point{draw.Pt(left+2, y-1.1), draw.Pt(left, y), draw.Pt(left+2, y+1.1)}, []draw.Point{draw.Pt(right-2, y-1.1), draw.Pt(right, y), draw.Pt(right-2, y+1.1)})
	p.Text((left+right)/2, y-1, sheet.Small, draw.Italic, 0.5, word.Say("thread: %s", along[thread]))
	p.Fitted(right+2, y+0.9, sheet.Small, draw.Italic, b.Seam_mm+room-right-3, word.Say("inner half"))
	p.Fitted(right+2, at(b.Seam_mm+b.Height_mm*0.5), sheet.Small, draw.Italic, b.Seam_mm+room-right-3, word.Say("outer half"))
	if b.Height_mm < 16 {
		return
	}
	w := 0.74*room - 1
	p.Fitted(left, at(b.Fold_mm)+4.6, sheet.Small, draw.Italic, w, word.Say("fold: the band's top edge"))
	p.Fitted(left, at(b.Seam_mm)-2.6, sheet.Small, draw.Italic, w, word.Say("seam: the band's bottom edge"))
}

func (j *job) pinsWords() []word.Text {
	var out []word.Text
	for _, q := range j.Pattern.Band.Pins {
		for _, r := range j.table.Rows {
			if r.Mark == q.Mark { // the place as the table of marks has it
				out = append(out, word.Say("the %s of set %d (%s) at %s of the pattern", foldName[r.Fold], r.Set, j.place(r.Place), j.len(q.Band_mm)))
			}
		}
	}
	return out
}
