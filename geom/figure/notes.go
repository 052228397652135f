package figure

import (
	"fmt"
	"image/color"
	"math"
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
		notes = append(notes[:len(notes):len(notes)], Note{Where: whereSet, Text: fmt.Sprintf("set %d", s.opt.Set), Sign: SignSelected})
	}
	return notes
}

// whereSet is the place of the selected set, not for callers.
const whereSet = "selected set"

func letter(i int) string { return string(rune('a' + i)) }

// key writes the notes at the foot of the sheet, and takes their space from
// the room: sign with its letter, its word in the dye, then the text.
func (s *sheet) key() {
	notes := s.noted()
	if len(notes) == 0 {
		return
	}
	left := s.room.Min.X + 2*badge + 1.6
	type row struct {
		word  string
		lines []string
		dye   color.NRGBA
	}
	rows := make([]row, len(notes))
	height := 0.0
	const lead = textSize * leading
	for i, n := range notes {
		dye, word := s.pal.dye(n.Sign)
		w := TextWidth(word, textSize, Italic) + 1.4
		// The first line shares its row with the word; later ones hang below it.
		rows[i] = row{word, wrap(n.Text, textSize, Upright, s.room.Max.X-left-w, 2), dye}
		height += lead*float64(max(1, len(rows[i].lines))) + 1.3
	}
	y := s.room.Max.Y - height + 1
	s.room.Max.Y -= height + 1
	for i, r := range rows {
		mid := y + textSize/2
		s.badge(Point{s.room.Min.X + badge, mid}, notes[i].Sign, letter(i))
		s.label(Label{At: Point{left, mid}, Text: r.word, Size_mm: textSize, Face: Italic, Anchor: Point{0, 0.5}, Color: r.dye})
		x := left + TextWidth(r.word, textSize, Italic) + 1.4
		for k, text := range r.lines {
			s.label(Label{At: Point{x, mid + lead*float64(k)}, Text: text, Size_mm: textSize, Anchor: Point{0, 0.5}, Color: s.pal.Ink})
		}
		y += lead*float64(max(1, len(r.lines))) + 1.3
	}
}

// badge draws a note's sign with its letter.
func (s *sheet) badge(at Point, kind Sign, letter string) {
	dye, _ := s.pal.dye(kind)
	r := badge
	var shape []Point
	switch kind {
	case SignStop: // a patch with a cross stitch over its corners
		q := 0.8 * r
		shape = []Point{{at.X - q, at.Y - q}, {at.X + q, at.Y - q}, {at.X + q, at.Y + q}, {at.X - q, at.Y + q}}
		s.add(Path{Lines: [][]Point{{{at.X - r, at.Y - r}, {at.X + r, at.Y + r}}, {{at.X - r, at.Y + r}, {at.X + r, at.Y - r}}}, Stroke: dye, Width_mm: 0.45})
	case SignMend:
		q := 1.15 * r
		shape = []Point{{at.X, at.Y - q}, {at.X + q, at.Y}, {at.X, at.Y + q}, {at.X - q, at.Y}}
	case SignCaution:
		shape = []Point{{at.X, at.Y - 1.25*r}, {at.X + 1.2*r, at.Y + 0.9*r}, {at.X - 1.2*r, at.Y + 0.9*r}}
	default:
		shape = ring(at, 0.95*r, 0.95*r, 28)
	}
	fill, ink := dye, s.pal.Ground
	if kind == SignNote {
		fill, ink = s.pal.Ground, dye
	}
	s.add(Path{Lines: [][]Point{shape}, Closed: true, Fill: fill, Stroke: dye, Width_mm: 0.35})
	s.label(Label{At: Point{at.X, at.Y - 0.12}, Text: letter, Size_mm: smallSize, Face: Bold, Anchor: Point{0.5, 0.5}, Color: ink})
}

// point sets each note's sign beside its place, with a thread from the sign to
// the very point; a place that the view does not show (ok false) is pointed at
// nowhere, its words stay at the foot. mark gives where a mark lies, at the place
// that the note names, and how near to the eye: of a note's marks the nearest has
// the sign, the others a dot. where gives the place of a note without marks. Where
// mark is nil the view shows no single marks.
func (s *sheet) point(mark func(m int, place string) (at Point, near float64, ok bool), where func(place string) (at Point, ok bool)) {
	for i, n := range s.noted() {
		dye, _ := s.pal.dye(n.Sign)
		var at Point
		ok, nearest := false, math.Inf(-1)
		var dots []Point
		if mark != nil {
			for _, m := range n.At[:min(len(n.At), maxDots)] {
				p, near, shown := mark(m-1, n.Where)
				if !shown {
					continue
				}
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
			s.dot(p, 0.9, s.pal.Ground)
			s.dot(p, 0.65, dye)
		}
		for _, d := range []float64{5, 8, 11, 15, 20} {
			done := false
			for _, o := range around(d)[:8] {
				c := Point{at.X + o.X, at.Y + o.Y}
				b := Rect{Point{c.X - 1.3*badge, c.Y - 1.3*badge}, Point{c.X + 1.3*badge, c.Y + 1.3*badge}}
				if !s.free(b) || !b.Inside(s.view.Grow(1)) {
					continue
				}
				s.line(s.pal.Ground, 1, nil, at, c)
				s.line(dye, 0.35, nil, at, c)
				s.dot(at, 0.9, s.pal.Ground)
				s.dot(at, 0.65, dye)
				s.badge(c, n.Sign, letter(i))
				done = true
				break
			}
			if done {
				break
			}
		}
	}
}
