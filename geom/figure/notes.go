package figure

import (
	"image/color"
	"slices"

	"ruffwright/geom/draw"
	"ruffwright/geom/word"
)

const (
	badge   = 2.1 // half the width of a note's sign
	maxDots = 24  // marks of one note that are pointed at; more would hide the ruff
)

// noted is the options' notes and the selected set, each with its letter.
func (s *sheet) noted() []Note {
	notes := s.opt.Notes
	if len(notes) > maxNotes {
		notes = notes[:maxNotes]
	}
	if s.opt.Set > 0 {
		notes = append(notes[:len(notes):len(notes)], Note{Where: whereSet, Text: word.Say("set %d", s.opt.Set), Sign: SignSelected})
	}
	return notes
}

const whereSet = "selected set"

func letter(i int) string { return string(rune('a' + i)) }

// key writes the notes below the sheet, which grows by them.
func (s *sheet) key() {
	notes := s.noted()
	if len(notes) == 0 || s.opt.Signs {
		return
	}
	left := s.Room.Min.X + 2*badge + 1.6
	type row struct {
		words string
		lines []string
		dye   color.NRGBA
	}
	rows := make([]row, len(notes))
	height := 0.0
	const lead = draw.TextSize * draw.Leading
	for i, n := range notes {
		dye, sign := n.Sign.dye(s.Pal)
		words := s.Say(sign)
		w := draw.TextWidth(words, draw.TextSize, draw.Italic) + 1.4
		// The first line shares its row with the word; later ones hang below it.
		rows[i] = row{words, draw.Wrap(s.Say(n.Text), draw.TextSize, draw.Upright, s.Room.Max.X-left-w, 2), dye}
		height += lead*float64(max(1, len(rows[i].lines))) + 1.3
	}
	y := s.Height_mm
	s.Height_mm += height + 4
	for i, r := range rows {
		mid := y + draw.TextSize/2
		s.badge(draw.Pt(s.Room.Min.X+badge, mid), notes[i].Sign, letter(i), false)
		s.Label(draw.Label{At: draw.Pt(left, mid), Text: r.words, Size_mm: draw.TextSize, Face: draw.Italic, Anchor: draw.Pt(0, 0.5), Color: r.dye})
		x := left + draw.TextWidth(r.words, draw.TextSize, draw.Italic) + 1.4
		for k, text := range r.lines {
			s.Label(draw.Label{At: draw.Pt(x, mid+lead*float64(k)), Text: text, Size_mm: draw.TextSize, Anchor: draw.Pt(0, 0.5), Color: s.Pal.Ink})
		}
		y += lead*float64(max(1, len(r.lines))) + 1.3
	}
}

// badge is a note's sign with its letter; hollow: of what lies behind.
func (s *sheet) badge(at draw.Point, kind Sign, letter string, hollow bool) {
	dye, _ := kind.dye(s.Pal)
	r := badge
	var shape []draw.Point
	switch kind {
	case SignStop: // a patch with a cross stitch over its corners
		q := 0.8 * r
		shape = []draw.Point{draw.Pt(at.X-q, at.Y-q), draw.Pt(at.X+q, at.Y-q), draw.Pt(at.X+q, at.Y+q), draw.Pt(at.X-q, at.Y+q)}
		s.Add(draw.Path{Lines: [][]draw.Point{{draw.Pt(at.X-r, at.Y-r), draw.Pt(at.X+r, at.Y+r)}, {draw.Pt(at.X-r, at.Y+r), draw.Pt(at.X+r, at.Y-r)}}, Stroke: dye, Width_mm: 0.45})
	case SignMend:
		q := 1.15 * r
		shape = []draw.Point{draw.Pt(at.X, at.Y-q), draw.Pt(at.X+q, at.Y), draw.Pt(at.X, at.Y+q), draw.Pt(at.X-q, at.Y)}
	case SignCaution:
		shape = []draw.Point{draw.Pt(at.X, at.Y-1.25*r), draw.Pt(at.X+1.2*r, at.Y+0.9*r), draw.Pt(at.X-1.2*r, at.Y+0.9*r)}
	default:
		shape = draw.Ring(at, 0.95*r, 0.95*r, 28)
	}
	fill, ink := dye, s.Pal.Ground
	if kind == SignNote || hollow {
		fill, ink = s.Pal.Ground, dye
	}
	s.Add(draw.Path{Lines: [][]draw.Point{shape}, Closed: true, Fill: fill, Stroke: dye, Width_mm: 0.35})
	s.badges = append(s.badges, draw.Rect{Min: at, Max: at}.Grow(1.3*r))
	if s.opt.Signs {
		return
	}
	l := draw.Label{At: draw.Pt(at.X, at.Y-0.12), Text: letter, Size_mm: draw.SmallSize, Face: draw.Bold, Anchor: draw.Pt(0.5, 0.5), Color: ink}
	s.badged[l.At] = true
	s.Label(l)
}

// seen is where a place of the ruff lies on the sheet.
type seen struct {
	draw.Point
	near   float64 // towards the eye, mm
	hidden bool    // something lies before it
}

// pointing says where on what is drawn notes' places lie. ok is false for what it does
// not show.
type pointing interface {
	// mark is the place of a mark, at the edge that a note's place is on.
	mark(m int, where string) (at seen, ok bool)
	// spot is the place of a note without marks; nth counts such notes on a sheet, which
	// stand apart.
	spot(where string, nth int) (at seen, ok bool)
}

// flatPlaces are those of a view that is not of the whole ruff. marks nil: it shows no
// single marks.
type flatPlaces struct {
	marks func(m int, where string) (seen, bool)
	spots func(where string) (draw.Point, bool)
}

func (f flatPlaces) mark(m int, where string) (seen, bool) {
	if f.marks == nil {
		return seen{}, false
	}
	return f.marks(m, where)
}

func (f flatPlaces) spot(where string, _ int) (seen, bool) {
	p, ok := f.spots(where)
	return seen{Point: p}, ok
}

// point sets each note's sign beside its place, with a thread to the very point, broken
// where something lies before it; what the view does not show is pointed at nowhere. Of
// a note's marks the nearest that is seen has the sign, the others a dot.
func (s *sheet) point(on pointing) {
	nth := 0
	for i, n := range s.noted() {
		dye, _ := n.Sign.dye(s.Pal)
		var at seen
		ok := false
		var dots []draw.Point
		for _, m := range n.At[:min(len(n.At), maxDots)] {
			p, shown := on.mark(m-1, n.Where)
			if !shown {
				continue
			}
			if !p.hidden {
				dots = append(dots, p.Point)
			}
			if !ok || at.hidden && !p.hidden || at.hidden == p.hidden && p.near > at.near {
				at, ok = p, true
			}
		}
		if !ok {
			if slices.Contains(s.lacks, n.Where) {
				continue
			}
			if at, ok = on.spot(n.Where, nth); !ok {
				continue
			}
			nth++
		}
		for _, p := range dots {
			s.Dot(p, 0.9, s.Pal.Ground)
			s.Dot(p, 0.65, dye)
		}
		c, ok := s.beside(at.Point)
		switch {
		case !ok:
		case at.hidden:
			s.Line(dye, 0.3, []float64{0.7, 1}, at.Point, c)
			s.badge(c, n.Sign, letter(i), true)
		default:
			s.Line(s.Pal.Ground, 1, nil, at.Point, c)
			s.Line(dye, 0.35, nil, at.Point, c)
			s.Dot(at.Point, 0.9, s.Pal.Ground)
			s.Dot(at.Point, 0.65, dye)
			s.badge(c, n.Sign, letter(i), false)
		}
	}
}

// beside is the nearest place about a point that has room for a note's sign.
func (s *sheet) beside(at draw.Point) (draw.Point, bool) {
	for _, d := range []float64{5, 8, 11, 15, 20} {
		for _, o := range draw.Around(d)[:8] {
			c := draw.Pt(at.X+o.X, at.Y+o.Y)
			b := (draw.Rect{Min: c, Max: c}).Grow(1.3 * badge)
			thread := slices.ContainsFunc(s.Items, func(it draw.Item) bool {
				l, ok := it.(draw.Label)
				return ok && meets(at, c, l.Box())
			})
			if !thread && s.Free(b) && b.Inside(s.View.Grow(1)) && !slices.ContainsFunc(s.badges, b.Overlaps) {
				return c, true
			}
		}
	}
	return draw.Point{}, false
}
