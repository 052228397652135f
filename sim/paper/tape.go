package paper

import (
	"math"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/paper/sheet"
)

// Measures of one tile of the marking tape, in mm.
const (
	tapeHead_mm  = 4.3  // words over it
	tapeHigh_mm  = 21.5 // the tape itself
	tapePitch_mm = 27.8 // tile to tile down the sheet
	tapeCross_mm = 14.9 // from its upper edge to its crosses, below the words of the marks
)

// tape is the marking tape, full size: tiles of the strip's length, each laid by
// its own place on the maker's tape measure.
func (j *job) tape() ([]*sheet.Page, error) {
	length := j.Ruff.Plan.Marked_mm
	all := sheet.Tiles(length, j.Units)
	var pages []*sheet.Page
	turn := func() *sheet.Page {
		p := &sheet.Page{Language: j.Language, Title: word.Say("Marking tape, full size")}
		pages = append(pages, p)
		return p
	}
	p := turn()
	y := j.tapeWords(p, len(all), length)
	on := [][]int{nil} // tiles on each sheet
	for i, t := range all {
		if y+tapeHead_mm+tapeHigh_mm > sheet.BodyBottom_mm {
			p = turn()
			on = append(on, nil)
			y = sheet.BodyTop_mm
		}
		j.tile(p, y, i, len(all), t)
		on[len(on)-1] = append(on[len(on)-1], i)
		y += tapePitch_mm
	}
	for k, numbers := range on {
		a, b := numbers[0], numbers[len(numbers)-1]
		pages[k].Holds = word.Say("tapes %d to %d: %s to %s", a+1, b+1, j.len(all[a].From_mm), j.len(all[b].To_mm))
	}
	return j.tapeMap(pages, on, all, y), nil
}

// tapeWords says how the tape is used; it gives where the first tile begins.
func (j *job) tapeWords(p *sheet.Page, n int, length float64) float64 {
	c := sheet.Column{Page: p, W: sheet.Live_mm, Y: sheet.BodyTop_mm}
	c.Para(word.Say("Cut the tapes out along their outlines. Lay a tape measure along the strip's inner edge, turned in before, zero at %s, and leave it there. **Lay each tape by the place printed on it, its upper edge along the stitch line**, which is the turned-in edge: then an error of one does not move the next. Or glue them, letter on letter and cross on cross, and still check each place. Mark the cloth at the lines.", j.zero()))
	c.Para(word.Say("%s, %s in all, from the first mark to the last; the sum of the tapes less their overlaps of %s. %s", word.Count(n, "%s tape", "%s tapes", thousands(n)), j.place(j.lastMark().Place), j.len(sheet.TileOverlap(j.Units)), j.beyondLast()))
	y := c.Y + 2
	x := 0.0
	sign := func(w float64, paint func(x float64), words word.Text) {
		paint(x + 2)
		p.Text(x+w, y+2.6, sheet.Small, draw.Upright, 0, words)
		x += w + p.Width(words, sheet.Small, draw.Upright) + 4.5
	}
	sign(7, func(x float64) { p.Line(sheet.Bold, nil, draw.Pt(x-1.5, y+1.6), draw.Pt(x+4, y+1.6)) }, word.Say("upper edge: stitch line"))
	sign(5, func(x float64) { p.Line(sheet.Bold, nil, draw.Pt(x, y-1), draw.Pt(x, y+4)) }, word.Say("top fold, its set"))
	sign(5, func(x float64) { p.Line(sheet.Bold, []float64{1.2, 1}, draw.Pt(x, y-1), draw.Pt(x, y+4)) }, word.Say("bottom fold"))
	if j.tucked() {
		sign(9, func(x float64) {
			p.Line(0.3, []float64{0.1, 0.9}, draw.Pt(x, y+0.5), draw.Pt(x, y+3.5), draw.Pt(x+5, y+3.5), draw.Pt(x+5, y+0.5))
		}, word.Say("tuck: bring its ends together"))
	}
	sign(5, func(x float64) { p.Dot(x, y+1.6, 1) }, word.Say("quarter: pin here"))
	if len(j.Pattern.Cut.Joins) > 0 {
		sign(7, func(x float64) { joinSign(p, x+1, y-0.6, 4.5, 0, sheet.Live_mm) }, word.Say("join"))
	}
	return c.Y + 9
}

// joinSign is a row of slanting stitches across x, cut off at lo and hi.
func joinSign(p *sheet.Page, x, y, high, lo, hi float64) {
	var lines [][]draw.Point
	in := func(x float64) float64 { return math.Min(math.Max(x, lo), hi) }
	for d := 0.0; d+1.2 <= high; d += 1.5 {
		lines = append(lines, []draw.Point{draw.Pt(in(x-0.8), y+d+1.2), draw.Pt(in(x+0.8), y+d)})
	}
	p.Lines(sheet.Medium, nil, lines...)
}

// tile draws tape i of n with its head at y.
func (j *job) tile(p *sheet.Page, y float64, i, n int, t sheet.Tile) {
	size := t.Long()
	head := when(i == 0, word.Say("tape 1 of %d  ·  lay this end at 0, %s", n, j.zero()), word.Say("tape %d of %d  ·  lay this end at %s on your tape measure", i+1, n, j.len(t.From_mm)))
	p.Text(0, y+3.2, sheet.Body, draw.Bold, 0, head)
	top := y + tapeHead_mm
	bottom := top + tapeHigh_mm
	p.Box(sheet.Medium, 0, top, size, bottom)
	p.Line(sheet.Bold, nil, draw.Pt(0, top), draw.Pt(size, top)) // the stitch line
	p.Ruler(0, bottom, t.From_mm, t.To_mm, j.Units)

	if i > 0 {
		p.Cross(sheet.TileOverlap(j.Units)/2, top+tapeCross_mm)
		tapeLetter(p, 0.6, top, sheet.JoinLetters(i-1))
	}
	if i < n-1 {
		at := t.To_mm - sheet.TileOverlap(j.Units) - t.From_mm
		p.Lines(sheet.Fine, []float64{1.4, 0.8}, []draw.Point{draw.Pt(at, top), draw.Pt(at, top+5.7)}, []draw.Point{draw.Pt(at, top+13.4), draw.Pt(at, bottom-6)})
		p.Cross(at+sheet.TileOverlap(j.Units)/2, top+tapeCross_mm)
		tapeLetter(p, at+0.6, top, sheet.JoinLetters(i))
		p.Text(sheet.Live_mm, y+3.2, sheet.Small, draw.Italic, 1, word.Say("%s: tape %d begins here, at %s", sheet.JoinLetters(i), i+2, j.len(t.To_mm-sheet.TileOverlap(j.Units))))
	} else if size+40 < sheet.Live_mm {
		p.Text(size+3, (top+bottom)/2, sheet.Body, draw.Italic, 0, word.Say("the last mark, at %s", j.place(j.lastMark().Place)))
	}
	j.tileMarks(p, t, top)
}

// beyondLast says what of the strip lies beyond the last mark.
func (j *job) beyondLast() word.Text {
	var what []word.Text
	if j.Pattern.Strip.Hem_mm > 0 {
		what = append(what, word.Say("the end hem"))
	}
	if j.Pattern.Strip.Spare_mm > 0 {
		what = append(what, word.Say("the spare"))
	}
	return when(len(what) == 0, word.Say("The strip ends at the last mark."), word.Say("Beyond the last mark: %s.", list(what)))
}

// tapeLetter sets a join's letters between the join and its cross.
func tapeLetter(p *sheet.Page, x, top float64, s string) {
	size := sheet.Small
	if len(s) > 1 {
		size = 1.9
	}
	p.Text(x, top+tapeCross_mm+0.6, size, draw.Bold, 0, word.Name(s))
}

// tileMarks draws the marks that lie on the tile, from its upper edge at top.
func (j *job) tileMarks(p *sheet.Page, t sheet.Tile, top float64) {
	const numberSize, placeSize = 2.9, 2.2
	size := t.Long()
	on := func(place float64) bool { return place >= t.From_mm-1e-9 && place <= t.To_mm+1e-9 }
	var tops, bottoms [][]draw.Point
	ends := [3]float64{-9, -9, -9} // right ends of the words in their rows
	words := func(row int, x, size_mm float64, face draw.Face, s word.Text, whole float64) bool {
		w := p.Width(s, size_mm, face)
		if x-w/2 < 0.3 || x+w/2 > whole-0.3 {
			switch { // only the strip's own ends are moved in: others stand whole on the neighbour
			case t.From_mm == 0 && x < w:
				x = w/2 + 0.6
			case t.To_mm >= j.Ruff.Plan.Marked_mm && x > whole-w:
				x = whole - w/2 - 0.6
			default:
				return false
			}
		}
		if x-w/2 < ends[row]+0.7 {
			return false
		}
		y := top + [3]float64{8.6, 10.8, 13}[row]
		p.Text(x, y, size_mm, face, 0.5, s)
		ends[row] = x + w/2
		return true
	}
	for _, r := range j.table.Rows {
		place := r.Place.Exact_mm
		if r.Tucked {
			a, b := r.TuckA.Exact_mm, r.TuckB.Exact_mm
			if on(a) || on(b) {
				tileTuck(p, t, a, b, top)
			}
		}
		if !on(place) {
			continue
		}
		x := place - t.From_mm
		if r.Join {
			joinSign(p, x, top+0.4, 5, 0, size)
		}
		if r.Mark < 0 {
			continue
		}
		line := []draw.Point{draw.Pt(x, top), draw.Pt(x, top+5.7)}
		if r.Fold == scheme.Crest {
			tops = append(tops, line)
		} else {
			bottoms = append(bottoms, line)
		}
		if r.Quarter {
			p.Dot(math.Min(math.Max(x+1.5, 1), size-1), top+1.6, 0.9)
		}
		words(0, x, numberSize, draw.Bold, word.Say("%d", r.Set), size)
		if s := j.placed(r.Place); !words(1, x, placeSize, draw.Upright, s, size) {
			words(2, x, placeSize, draw.Upright, s, size)
		}
	}
	p.Lines(sheet.Bold, nil, tops...)
	p.Lines(sheet.Bold, []float64{1.2, 1}, bottoms...)
}

// tileTuck draws the part of a tuck's bracket that lies on the tile.
func tileTuck(p *sheet.Page, t sheet.Tile, a, b, top float64) {
	const depth = 3.4
	dots := []float64{0.1, 0.9}
	x0, x1 := math.Max(a, t.From_mm)-t.From_mm, math.Min(b, t.To_mm)-t.From_mm
	if a >= t.From_mm && a < b {
		p.Line(0.3, dots, draw.Pt(x0, top), draw.Pt(x0, top+depth))
	}
	if b <= t.To_mm && a < b {
		p.Line(0.3, dots, draw.Pt(x1, top), draw.Pt(x1, top+depth))
	}
	p.Line(0.3, dots, draw.Pt(x0, top+depth), draw.Pt(x1, top+depth))
}

// tapeMap draws which tape lies on which sheet and where it begins: a row for
// every sheet, below the last tape or on a page of its own.
func (j *job) tapeMap(pages []*sheet.Page, on [][]int, all []sheet.Tile, y float64) []*sheet.Page {
	const rowHigh, left = 9.0, 20.0
	p := pages[len(pages)-1]
	head := func() {
		p.Text(0, y+5, sheet.Head, draw.Bold, 0, word.Say("Map of the tapes"))
		p.Text(sheet.Live_mm, y+5, sheet.Small, draw.Italic, 1, word.Say("below each where it begins, in %s", unitWord[j.Units]))
		y += 9
	}
	turn := func() {
		p = &sheet.Page{Language: j.Language, Title: word.Say("Marking tape: map"), Holds: word.Say("map of the tapes")}
		pages = append(pages, p)
		y = sheet.BodyTop_mm
		head()
	}
	if y+12+float64(len(on))*rowHigh > sheet.BodyBottom_mm {
		turn()
	} else {
		head()
	}
	cell := (sheet.Live_mm - left) / 8
	for k, numbers := range on {
		if y+rowHigh > sheet.BodyBottom_mm {
			turn()
		}
		p.Text(0, y+3.2, sheet.Body, draw.Upright, 0, word.Say("sheet %d", j.before+k+1))
		for c, i := range numbers {
			x := left + cell*float64(c)
			p.Box(sheet.Fine, x, y, x+cell-1, y+4)
			p.Text(x+(cell-1)/2, y+3, sheet.Small, draw.Bold, 0.5, word.Say("%d", i+1))
			p.Fitted(x+0.3, y+6.8, 2.2, draw.Upright, cell-1.3, j.bare(all[i].From_mm))
		}
		y += rowHigh
	}
	return pages
}
