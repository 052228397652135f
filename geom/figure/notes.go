package figure

import (
	"image/color"
	"math"

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

// key writes the notes at the foot of the sheet, and takes their space from the room.
func (s *sheet) key() {
	notes := s.noted()
	if len(notes) == 0 {
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
	y := s.Room.Max.Y - height + 1
	s.Room.Max.Y -= height + 1
	for i, r := range rows {
		mid := y + draw.TextSize/2
		s.badge(draw.Pt(s.Room.Min.X+badge, mid), notes[i].Sign, letter(i))
		s.Label(draw.Label{At: draw.Pt(left, mid), Text: r.words, Size_mm: draw.TextSize, Face: draw.Italic, Anchor: draw.Pt(0, 0.5), Color: r.dye})
		x := left + draw.TextWidth(r.words, draw.TextSize, draw.Italic) + 1.4
		for k, text := range r.lines {
			s.Label(draw.Label{At: draw.Pt(x, mid+lead*float64(k)), Text: text, Size_mm: draw.TextSize, Anchor: draw.Pt(0, 0.5), Color: s.Pal.Ink})
		}
		y += lead*float64(max(1, len(r.lines))) + 1.3
	}
}

func (s *sheet) badge(at draw.Point, kind Sign, letter string) {
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
	if kind == SignNote {
		fill, ink = s.Pal.Ground, dye
	}
	s.Add(draw.Path{Lines: [][]draw.Point{shape}, Closed: true, Fill: fill, Stroke: dye, Width_mm: 0.35})
	s.Label(draw.Label{At: draw.Pt(at.X, at.Y-0.12), Text: letter, Size_mm: draw.SmallSize, Face: draw.Bold, Anchor: draw.Pt(0.5, 0.5), Color: ink})
}

// point sets each note's sign beside its place, with a thread to the very point; what
// the view does not show (ok false) is pointed at nowhere. mark gives where a mark lies
// and how near to the eye: of a note's marks the nearest has the sign, the others a dot;
// nil: the view shows no single marks. where gives the place of a note without marks.
func (s *sheet) point(mark func(m int, place string) (at draw.Point, near float64, ok bool), where func(place string) (at draw.Point, ok bool)) {
	for i, n := range s.noted() {
		dye, _ := n.Sign.dye(s.Pal)
		var at draw.Point
		ok, nearest := false, math.Inf(-1)
		var dots []draw.Point
		for _, m := range n.At[:min(len(n.At), maxDots)] {
			if mark == nil {
				break
			}
			if p, near, shown := mark(m-1, n.Where); shown {
				dots = append(dots, p)
				if near > nearest {
					at, nearest, ok = p, near, true
				}
			}
		}
		if !ok {
			if at, ok = where(n.Where); !ok {
				continue
			}
		}
		for _, p := range dots {
			s.Dot(p, 0.9, s.Pal.Ground)
			s.Dot(p, 0.65, dye)
		}
		if c, ok := s.beside(at); ok {
			s.Line(s.Pal.Ground, 1, nil, at, c)
			s.Line(dye, 0.35, nil, at, c)
			s.Dot(at, 0.9, s.Pal.Ground)
			s.Dot(at, 0.65, dye)
			s.badge(c, n.Sign, letter(i))
		}
	}
}

// beside is the nearest place about a point that has room for a note's sign.
func (s *sheet) beside(at draw.Point) (draw.Point, bool) {
	for _, d := range []float64{5, 8, 11, 15, 20} {
		for _, o := range draw.Around(d)[:8] {
			c := draw.Pt(at.X+o.X, at.Y+o.Y)
			if b := (draw.Rect{Min: c, Max: c}).Grow(1.3 * badge); s.Free(b) && b.Inside(s.View.Grow(1)) {
				return c, true
			}
		}
	}
	return draw.Point{}, false
}
