package figure

import (
	"math"
	"strconv"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// flat draws the strip laid flat, its inner edge up: above, the whole of it in rows;
// below, larger, its first sets and its last with a break between. The shape may be
// empty. Scale is that of the lower picture.
func flat(s *sheet) error {
	plan := s.plan
	s.head(word.Join(", ", sets(plan), word.Count(plan.Panels, "%d panel", "%d panels", plan.Panels)))
	f := strip{sheet: s, joins: s.opt.Joins_mm, spots: map[string]draw.Point{}, marks: map[int]draw.Point{}}
	f.overview()
	f.detail()
	s.Desc = s.Say(word.Say("The strip laid flat with its marks. From the first mark to the last it is %s long, in %d panels of %s from fold to fold. It is %s wide, of which %s are turned in at the stitch line. It begins on %s and ends on %s.",
		s.Length(plan.Marked_mm), plan.Panels, s.Length(plan.Panel_mm), s.Length(f.width()), s.Length(plan.Scheme.Strip.Takeup),
		name[plan.Row[0].Fold], name[plan.Row[plan.Panels].Fold]))
	s.point(flatPlaces{f.marked, func(place string) (draw.Point, bool) {
		if place == WhereTucks {
			if _, ok := f.spots[WhereTucks]; !ok {
				place = WhereMarks
			}
		}
		p, ok := f.spots[place]
		return p, ok
	}})
	return nil
}

func (f *strip) marked(m int, _ string) (seen, bool) {
	p, ok := f.marks[m]
	return seen{Point: p, near: -float64(m)}, ok // the first of a note's marks has its sign
}

var name = map[scheme.Fold]word.Text{scheme.Crest: word.Say("a top mark"), scheme.Trough: word.Say("a bottom mark")}

type strip struct {
	*sheet
	joins []float64             // places of joins, mm from the first mark
	spots map[string]draw.Point // where places of notes lie
	marks map[int]draw.Point    // where marks lie in the whole strip
}

// width of the strip when hemmed: the ruff's depth and what the band takes up.
func (f *strip) width() float64 {
	return f.plan.Scheme.Ruff.Depth + math.Max(0, f.plan.Scheme.Strip.Takeup)
}

// piece is a stretch of the strip on the sheet: from mm on, its left top corner
// and scale.
type piece struct {
	from, to float64
	at       draw.Point
	k        float64
}

func (p piece) x(mm float64) float64 { return p.at.X + (mm-p.from)*p.k }

// overview draws the whole strip in as few rows as keep its panels apart, and
// takes its height from the room.
func (f *strip) overview() {
	s, long := f.sheet, f.plan.Marked_mm
	const least = 1.5 // sheet mm a panel
	number := draw.TextWidth("000", draw.SmallSize, draw.Upright) + 2
	wide := s.Room.Max.X - s.Room.Min.X - number
	rows := int(math.Ceil(float64(f.plan.Panels) * least / wide))
	most := (s.Room.Max.Y - s.Room.Min.Y) * 0.42
	rows = max(rows, 1)
	if rows == 1 && f.width()*wide/long <= 4 && f.plan.Panels >= 24 {
		rows = 2
	}
	k := wide * float64(rows) / long
	tall := math.Min(f.width()*k, 22)
	gap := 3.2
	if s.Room.Max.Y-s.Room.Min.Y < low_mm {
		tall = math.Min(tall, 2.4)
	}
	if float64(rows)*(tall+gap) > most { // too many rows: flatter ones
		tall = math.Max(1.6, most/float64(rows)-gap)
	}
	// Rows break at marks, so that no panel is cut.
	each := (f.plan.Panels + rows - 1) / rows
	y := s.Room.Min.Y + 1
	total := s.Say(word.Say("%s from first to last mark", s.Length(long)))
	rowLong := 0.0
	for q := 0; q < f.plan.Panels; q += each {
		rowLong = math.Max(rowLong, f.plan.Row[min(f.plan.Panels, q+each)].Place_mm-f.plan.Row[q].Place_mm)
	}
	for r := range rows {
		a, b := r*each, min(f.plan.Panels, (r+1)*each)
		if a >= b {
			break
		}
		p := piece{from: f.plan.Row[a].Place_mm, to: f.plan.Row[b].Place_mm, at: draw.Pt(s.Room.Min.X+number, y), k: wide / rowLong}
		f.row(p, a, b, tall)
		s.Label(draw.Label{At: draw.Pt(p.at.X-1.6, y+tall/2), Text: strconv.Itoa(f.setOf(a)), Size_mm: draw.SmallSize, Anchor: draw.Pt(1, 0.5), Color: s.Pal.Quiet})
		y += tall + gap
	}
	s.Label(draw.Label{At: draw.Pt(s.Room.Min.X+number, y+0.3), Text: draw.Clip(total, draw.TextSize, draw.Italic, s.Room.Max.X-s.Room.Min.X-number), Size_mm: draw.TextSize, Face: draw.Italic, Color: s.Pal.Quiet})
	s.Room.Min.Y = y + draw.TextSize + 4
}

// low_mm is the room for rows and detail below which the rows are flat, so that the
// detail, which has the measures, is drawn.
const low_mm = 66

// setOf is the number of the set that the panel after mark m belongs to.
func (f *strip) setOf(m int) int {
	n := 0
	for i := 0; i <= m && i < len(f.plan.Row); i++ {
		if f.plan.Row[i].Fold == scheme.Crest {
			n++
		}
	}
	if m < len(f.plan.Row) && f.plan.Row[m].Fold == scheme.Trough {
		n++ // the trough that begins a set comes before its crest
	}
	return max(1, min(n, max(1, f.plan.Crests)))
}

func (f *strip) row(p piece, a, b int, tall float64) {
	s := f.sheet
	x0, x1 := p.x(p.from), p.x(p.to)
	s.Add(draw.Path{Lines: [][]draw.Point{{draw.Pt(x0, p.at.Y), draw.Pt(x1, p.at.Y), draw.Pt(x1, p.at.Y+tall), draw.Pt(x0, p.at.Y+tall)}}, Closed: true, Fill: s.Pal.Wash})
	if lo, hi, ok := setPanels(f.plan, s.opt.Set); ok && lo < b && hi > a {
		l, r := p.x(f.plan.Row[max(a, lo)].Place_mm), p.x(f.plan.Row[min(b, hi)].Place_mm)
		s.Add(draw.Path{Lines: [][]draw.Point{{draw.Pt(l, p.at.Y), draw.Pt(r, p.at.Y), draw.Pt(r, p.at.Y+tall), draw.Pt(l, p.at.Y+tall)}}, Closed: true, Fill: draw.Mix(s.Pal.Wash, s.Pal.Woad, 0.4)})
		f.spots[whereSet] = draw.Pt((l+r)/2, p.at.Y+tall*0.5)
	}
	var tops, bottoms [][]draw.Point
	for m := a; m <= b; m++ {
		x := p.x(f.plan.Row[m].Place_mm)
		f.marks[m] = draw.Pt(x, p.at.Y+0.8*tall)
		if f.plan.Row[m].Fold == scheme.Crest {
			tops = append(tops, []draw.Point{draw.Pt(x, p.at.Y), draw.Pt(x, p.at.Y+tall)})
		} else {
			bottoms = append(bottoms, []draw.Point{draw.Pt(x, p.at.Y+tall*0.62), draw.Pt(x, p.at.Y+tall)})
		}
	}
	s.Add(draw.Path{Lines: tops, Stroke: s.Pal.Ink, Width_mm: 0.2})
	s.Add(draw.Path{Lines: bottoms, Stroke: s.Pal.Rule, Width_mm: 0.2})
	s.Line(s.Pal.Ink, 0.25, nil, draw.Pt(x0, p.at.Y), draw.Pt(x1, p.at.Y))
	s.Line(s.Pal.Ink, 0.45, nil, draw.Pt(x0, p.at.Y+tall), draw.Pt(x1, p.at.Y+tall))
	for _, j := range f.joins {
		if j > p.from && j < p.to {
			x := p.x(j)
			f.join(x, p.at.Y-0.6, p.at.Y+tall+0.6)
			f.spots[WhereJoins] = draw.Pt(x, p.at.Y+tall/2)
		}
	}
	for m := a; m <= b; m++ {
		if f.plan.Row[m].Quarter && (m < b || b == f.plan.Panels) {
			x := p.x(f.plan.Row[m].Place_mm)
			s.pin(draw.Pt(x, p.at.Y-1.5), draw.Pt(x, p.at.Y+math.Min(tall*0.5, 2.5)))
		}
	}
	f.spots[WhereOpening] = draw.Pt(x1, p.at.Y+tall/2)
	if _, ok := f.spots[WhereStrip]; !ok {
		f.spots[WhereStrip] = draw.Pt(x0+(x1-x0)*0.4, p.at.Y+tall/2)
		f.spots[WhereWhole] = f.spots[WhereStrip]
	}
}

func (f *strip) join(x, y0, y1 float64) {
	d := []float64{0.7, 0.7}
	f.Line(f.Pal.Walnut, 0.4, d, draw.Pt(x-0.45, y0), draw.Pt(x-0.45, y1))
	f.Line(f.Pal.Walnut, 0.4, d, draw.Pt(x+0.45, y0), draw.Pt(x+0.45, y1))
}

// legend explains the lines at the foot of the sheet and gives its height.
func (f *strip) legend() float64 {
	s := f.sheet
	type sample struct {
		text string
		draw func(x, y float64)
	}
	samples := []sample{
		{s.Say(word.Say("top mark")), func(x, y float64) { s.Line(s.Pal.Ink, 0.32, nil, draw.Pt(x+2, y-2), draw.Pt(x+2, y+2)) }},
		{s.Say(word.Say("bottom mark")), func(x, y float64) {
			s.Line(s.Pal.Ink, 0.32, []float64{1.1, 0.8}, draw.Pt(x+2, y-2), draw.Pt(x+2, y+2))
		}},
		{s.Say(word.Say("stitch line")), func(x, y float64) { s.Line(s.Pal.Rule, 0.25, []float64{1.4, 0.9}, draw.Pt(x, y), draw.Pt(x+4, y)) }},
		{s.Say(word.Say("sewn")), func(x, y float64) { f.cross(draw.Pt(x+2, y), 0.9) }},
		{s.Say(word.Say("quarter")), func(x, y float64) { s.pin(draw.Pt(x+0.4, y), draw.Pt(x+3.8, y)) }},
	}
	if len(f.joins) > 0 {
		samples = append(samples, sample{s.Say(word.Say("join")), func(x, y float64) { f.join(x+2, y-2, y+2) }})
	}
	// Lay out in lines from the left, then set them upward from the foot.
	const row = 4.6
	x, line := s.Room.Min.X, 0
	at := make([]draw.Point, len(samples))
	for i, p := range samples {
		w := 5 + draw.TextWidth(p.text, draw.SmallSize, draw.Italic)
		if x > s.Room.Min.X && x+w > s.Room.Max.X {
			x, line = s.Room.Min.X, line+1
		}
		at[i] = draw.Pt(x, float64(line)*row)
		x += w + 3.5
	}
	height := float64(line)*row + 4
	for i, p := range samples {
		y := s.Room.Max.Y - height + 2 + at[i].Y
		p.draw(at[i].X, y)
		s.Label(draw.Label{At: draw.Pt(at[i].X+5, y), Text: p.text, Size_mm: draw.SmallSize, Face: draw.Italic, Anchor: draw.Pt(0, 0.5), Color: s.Pal.Quiet})
	}
	return height
}

func (s *sheet) cross(at draw.Point, r float64) {
	s.Add(draw.Path{Lines: [][]draw.Point{{draw.Pt(at.X-r, at.Y-r), draw.Pt(at.X+r, at.Y+r)}, {draw.Pt(at.X-r, at.Y+r), draw.Pt(at.X+r, at.Y-r)}}, Stroke: s.Pal.Thread, Width_mm: 0.45})
}
