package draw

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Sizes of what stands on every sheet, sheet mm.
const (
	margin    = 5.0
	TextSize  = 3.2 // numbers and names
	SmallSize = 2.9
	titleSize = 4.4
	Leading   = 1.28 // from line to line, in sizes
	thin      = 0.18
)

// Sheet is a drawing under way: its items, what is left of its space, and the
// boxes that labels must not cover.
type Sheet struct {
	Drawing
	Pal   Palette
	Units scheme.Units
	Room  Rect   // space left for the view
	View  Rect   // all the space that the view has
	taken []Rect // by labels
}

// NewSheet lays down the title, a note beside it and the rule below them, and leaves
// the rest as room. What is said is put into the language when it is set, since labels
// are laid out by their width. letter names the sheet where it stands beside another.
func NewSheet(width_mm, height_mm float64, pal Palette, units scheme.Units, language word.Language, letter string, title, note word.Text) *Sheet {
	s := &Sheet{Pal: pal, Units: units}
	s.Width_mm, s.Height_mm, s.Ground = width_mm, height_mm, pal.Ground
	s.Language, s.Scale = language, 1
	s.Title = s.Say(title)
	s.Room = Rect{Point{margin, margin}, Point{width_mm - margin, height_mm - margin}}
	s.Letter, s.dye = letter, pal.Ink
	if letter != "" {
		s.Room.Min.X += letterRoom
		if letter != "A" {
			s.dye = pal.Woad
		}
	}
	s.Label(Label{At: s.Room.Min, Text: s.Title, Size_mm: titleSize, Face: Italic, Color: s.Pal.Ink})
	if !note.Empty() {
		left := s.Room.Min.X + TextWidth(s.Title, titleSize, Italic) + 4
		text := Clip(s.Say(note), TextSize, Italic, s.Room.Max.X-left)
		s.Label(Label{At: Point{s.Room.Max.X, s.Room.Min.Y + titleSize*baseline - TextSize*baseline}, Text: text, Size_mm: TextSize, Face: Italic, Anchor: Point{1, 0}, Color: s.Pal.Quiet})
	}
	s.Room.Min.X = margin
	s.Room.Min.Y += titleSize*lineHeight + 1.2
	// The rule comes first: what is solid may be laid over it.
	s.Items = slices.Insert(s.Items, 0, Item(Path{Lines: [][]Point{{s.Room.Min, {s.Room.Max.X, s.Room.Min.Y}}}, Stroke: s.Pal.Rule, Width_mm: 0.22, Dash_mm: []float64{1.5, 0.9}}))
	s.Room.Min.Y += 2.4
	s.View = s.Room
	return s
}

// Add paints an item over what is there.
func (s *Sheet) Add(it Item) { s.Items = append(s.Items, it) }

// Say puts a text into the language of the sheet.
func (s *Sheet) Say(t word.Text) string { return t.In(s.Language) }

// Label sets a label where it is and keeps its place.
func (s *Sheet) Label(l Label) {
	if l.Text == "" {
		return
	}
	s.taken = append(s.taken, l.Box())
	s.Add(l)
}

// Free tells whether a box lies on the sheet and covers no label.
func (s *Sheet) Free(b Rect) bool {
	if !b.Inside(Rect{Point{1, 1}, Point{s.Width_mm - 1, s.Height_mm - 1}}) {
		return false
	}
	b = b.Grow(0.4)
	for _, t := range s.taken {
		if t.Overlaps(b) {
			return false
		}
	}
	return true
}

// Place sets the label at the first of the offsets from its place that is free,
// and gives its box; ok is false where there was none. A label without a place is
// left out: the words are in the description too.
func (s *Sheet) Place(l Label, offsets ...Point) (box Rect, ok bool) {
	at := l.At
	for _, o := range offsets {
		l.At = Point{at.X + o.X, at.Y + o.Y}
		// The anchor follows the side that the label is moved to.
		l.Anchor = Point{0.5 - 0.5*sign(o.X), 0.5 - 0.5*sign(o.Y)}
		if box = l.Box(); s.Free(box) {
			s.Label(l)
			return box, true
		}
	}
	return Rect{}, false
}

func sign(x float64) float64 { return float64(cmp.Compare(x, 0)) }

// Around gives offsets at distance d to the sides and corners.
func Around(d float64) []Point {
	e := 0.75 * d
	return []Point{{d, 0}, {-d, 0}, {0, -d}, {0, d}, {e, -e}, {-e, -e}, {e, e}, {-e, e},
		{2 * d, 0}, {-2 * d, 0}, {0, -2 * d}, {0, 2 * d}, {3 * e, -3 * e}, {-3 * e, -3 * e}, {3 * e, 3 * e}, {-3 * e, 3 * e}}
}

// Line adds an open polyline.
func (s *Sheet) Line(c color.NRGBA, width float64, dash []float64, pts ...Point) {
	s.Add(Path{Lines: [][]Point{pts}, Stroke: c, Width_mm: width, Dash_mm: dash})
}

// Dot adds a filled disc.
func (s *Sheet) Dot(at Point, r float64, c color.NRGBA) {
	s.Add(Path{Lines: [][]Point{Ring(at, r, r, 20)}, Closed: true, Fill: c})
}

// Ring is an ellipse as a polygon of n corners.
func Ring(at Point, rx, ry float64, n int) []Point {
	out := make([]Point, n)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out[i] = Point{at.X + rx*cos, at.Y + ry*sin}
	}
	return out
}

// Length writes a length of the ruff in the unit of the sheet, no finer than
// a hand measures it: to a millimetre from 100 mm, a tenth below; to a
// sixteenth of an inch from 2 in, a thirty-second below.
func (s *Sheet) Length(mm float64) word.Text {
	step := 0.1
	switch {
	case s.Units == scheme.Inches && mm >= 50.8:
		step = 25.4 / 16
	case s.Units == scheme.Inches:
		step = 25.4 / 32
	case mm >= 100:
		step = 1
	}
	return scheme.Length(math.Round(mm/step)*step, s.Units)
}

// Across draws a dimension line from a to b (points of the view, same height
// not needed) at height y, thin threads leading to it, its number in the line
// or, where that is too short, beside it. The number may be empty. It gives the number's
// box, the zero one where it found no place.
func (s *Sheet) Across(a, b Point, y float64, number word.Text) (box Rect) {
	text := s.Say(number)
	if a.X > b.X {
		a, b = b, a
	}
	w := TextWidth(text, TextSize, Upright)/2 + 1
	mid, ok := s.dimension(a, b, Point{a.X, y}, Point{b.X, y}, Point{w, 0}, 2*w+5, text)
	if box = mid.Box(); !ok {
		h := TextSize*0.5 + 1.5
		right, left := b.X+1.6-mid.At.X, a.X-1.6-mid.At.X
		if y < a.Y { // outward
			h = -h
		}
		h -= sign(h) * TextSize / 2 // the anchor goes to the near side
		box, _ = s.Place(mid, Point{0, h}, Point{0, -h}, Point{right, 0}, Point{left, 0}, Point{right, h}, Point{left, h}, Point{0, 3 * h}, Point{0, -3 * h})
	}
	s.stitchEnd(Point{a.X, y}, false)
	s.stitchEnd(Point{b.X, y}, false)
	return box
}

// Upright is Across for a dimension line at x, its number set level in it.
func (s *Sheet) Upright(a, b Point, x float64, number word.Text) (box Rect) {
	if a.Y > b.Y {
		a, b = b, a
	}
	const h = TextSize/2 + 0.7
	mid, ok := s.dimension(a, b, Point{x, a.Y}, Point{x, b.Y}, Point{0, h}, 2*h+4, s.Say(number))
	if box = mid.Box(); !ok {
		up, down := a.Y-1.5-mid.At.Y, b.Y+1.5-mid.At.Y
		box, _ = s.Place(mid, Point{0, up}, Point{0, down}, Point{1.8, 0}, Point{-1.8, 0}, Point{1.6, up}, Point{1.6, down}, Point{-1.6, up}, Point{-1.6, down}, Point{0, up - 4}, Point{0, down + 4})
	}
	s.stitchEnd(Point{x, a.Y}, true)
	s.stitchEnd(Point{x, b.Y}, true)
	return box
}

// dimension draws the line from p to q, with threads to it from a and b, and its
// number in a gap of half off to either side; ok is false where the line is shorter
// than least or the place is taken: then it is whole, and the number is not set.
func (s *Sheet) dimension(a, b, p, q, off Point, least float64, number string) (l Label, ok bool) {
	for _, t := range [][2]Point{{a, p}, {b, q}} {
		dx, dy := t[1].X-t[0].X, t[1].Y-t[0].Y
		if math.Abs(dx)+math.Abs(dy) > 1 {
			s.Line(s.Pal.Rule, 0.2, []float64{0.01, 0.9}, Point{t[0].X + 0.8*sign(dx), t[0].Y + 0.8*sign(dy)}, t[1])
		}
	}
	l = Label{At: Point{(p.X + q.X) / 2, (p.Y + q.Y) / 2}, Text: number, Size_mm: TextSize, Anchor: Point{0.5, 0.5}, Color: s.Pal.Ink}
	if ok = q.X-p.X+q.Y-p.Y > least && s.Free(l.Box()); !ok {
		s.Line(s.Pal.Rule, thin, nil, p, q)
		return l, false
	}
	s.Line(s.Pal.Rule, thin, nil, p, Point{l.At.X - off.X, l.At.Y - off.Y})
	s.Line(s.Pal.Rule, thin, nil, Point{l.At.X + off.X, l.At.Y + off.Y}, q)
	s.Label(l)
	return l, true
}

func (s *Sheet) stitchEnd(at Point, upright bool) {
	d := Point{0.55, -1.05}
	if upright {
		d = Point{1.05, -0.55}
	}
	s.Line(s.Pal.Ink, 0.42, nil, Point{at.X - d.X, at.Y - d.Y}, Point{at.X + d.X, at.Y + d.Y})
}

// Ruler sews a scale of round length from a place on, one stitch a centimetre
// or inch (or more, where they would run together), at most most mm long; none at a
// scale at which nothing is seen.
func (s *Sheet) Ruler(at Point, scale, most float64) {
	unit := 10.0
	if s.Units == scheme.Inches {
		unit = 25.4
	}
	if !(scale > 1e-6) { // smaller than anything that is drawn
		return
	}
	n := 0
	for _, k := range []int{1, 2, 5, 10, 20, 50, 100} {
		if float64(k)*unit*scale <= most {
			n = k
		}
	}
	if n == 0 {
		return
	}
	step, x := unit*scale, at.X
	k := 1
	for step*float64(k) < 1.6 { // stitches that can be told apart
		k *= 5
	}
	var lines [][]Point
	for i := 0; i < n; i += k {
		e := math.Min(float64(i+k), float64(n))
		lines = append(lines, []Point{{x + float64(i)*step + 0.35, at.Y}, {x + e*step - 0.35, at.Y}})
	}
	s.Add(Path{Lines: lines, Stroke: s.Pal.Ink, Width_mm: 0.5})
	end := x + float64(n)*step
	s.Line(s.Pal.Rule, thin, nil, Point{x, at.Y - 1}, Point{x, at.Y + 1})
	s.Line(s.Pal.Rule, thin, nil, Point{end, at.Y - 1}, Point{end, at.Y + 1})
	s.Place(Label{At: Point{end, at.Y}, Text: s.Say(s.Length(float64(n) * unit)), Size_mm: SmallSize, Color: s.Pal.Quiet}, Point{1.6, 0})
}
