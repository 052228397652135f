package portrait

import (
	"math"

	"ruffwright/geom"
)

// model is a sheet with all that may be off in it: knobs that can be turned.
type model struct {
	s       Sheet
	knobs   []knob
	used    []int     // references of the source that count
	weights []float64 // of these

	middle  [4]float64 // of a people's faces, ln mm
	within  [4][4]float64
	between [4]float64
	person  [5]float64 // where in the people the face stands, standard deviations

	drawn        []float64 // ln of the painter's freedom in each reference,
	ruff         float64   // and in the ruff
	away, camera float64   // ln of how far painter and camera may be off
	tape         [4]float64
	wide         float64 // ln by which references that disagree widen the scale
	level        float64 // the turn's own degrees, near which it is told
}

// knob is one thing that may be off, by one standard deviation.
type knob struct {
	part Part
	at   *float64
	sd   float64
}

// Part is where an interval comes from.
type Part string

// The parts of an interval.
const (
	Placing  Part = "placing"  // where the points were put
	Face     Part = "face"     // how faces differ, or the tape
	Turn     Part = "turn"     // how the heads are held
	Painter  Part = "painter"  // the painter's freedom
	Distance Part = "distance" // how far off the eye was, and what lies before or behind the face
	Count    Part = "count"    // the sets counted, and their share where it was typed
	Disagree Part = "disagree" // references that do not agree
)

// Parts lists them in order.
var Parts = []Part{Placing, Face, Turn, Painter, Distance, Count, Disagree}

// sure is how many standard deviations hold 19 times in 20.
const sure = 1.959964

// newModel takes a sheet that was checked, with its usual values in place.
func newModel(s Sheet) *model {
	m := &model{s: s}
	m.middle, m.within, m.between = people(s.Wearer.People)
	m.use()
	m.drawn = make([]float64, len(m.used))
	src := &m.s.Source
	turn := func(part Part, at *float64, off float64) {
		if off > 0 {
			m.knobs = append(m.knobs, knob{part, at, off / sure})
		}
	}
	for i := range m.used {
		r := &src.References[m.used[i]]
		m.placed(&r.Line, src.Placing)
		turn(Painter, &m.drawn[i], math.Log(src.Freedom)/math.Sqrt2)
	}
	for i := range src.Depths {
		m.placed(&src.Depths[i], src.Placing)
	}
	for i := range src.Heights {
		m.placed(&src.Heights[i], src.Placing)
	}
	for i := range src.Sets {
		a := &src.Sets[i]
		turn(Count, &a.Count, a.CountOff)
		if a.markedArc {
			m.point(&a.From, src.Placing)
			m.point(&a.To, src.Placing)
		} else {
			turn(Count, &a.Share, a.ShareOff)
		}
	}
	turn(Painter, &m.ruff, math.Log(src.Freedom)/math.Sqrt2)
	turn(Distance, &m.away, math.Log(src.Factor))
	turn(Distance, &src.Ahead, src.AheadOff)
	turn(Turn, &src.Head.Turn, src.Head.TurnOff)
	turn(Turn, &src.Head.Nod, src.Head.NodOff)
	m.wearer(turn)
	return m
}

// placed makes knobs of both ends of a line, and point of a point.
func (m *model) placed(l *Line, off float64) {
	m.point(&l.From, off)
	m.point(&l.To, off)
}

func (m *model) point(p *Point, off float64) {
	m.knobs = append(m.knobs, knob{Placing, &p[0], off / sure}, knob{Placing, &p[1], off / sure})
}

// wearer makes knobs of what is said of the wearer.
func (m *model) wearer(turn func(Part, *float64, float64)) {
	w := &m.s.Wearer
	taken := map[origin]bool{}
	for _, i := range m.used {
		of := face(m.s.Source.References[i].Kind)
		from := m.origin(of)
		if from == byTape && m.tape[of] == 0 { // once a kind
			m.tape[of] = w.Face[faces[of].kind]
			turn(Face, &m.tape[of], w.Tape)
		}
		taken[from] = true
	}
	if taken[byPeople] {
		for i := range m.person {
			turn(Face, &m.person[i], sure)
		}
	}
	if q := w.Picture; taken[byPicture] {
		m.placed(&q.Ruler, q.Placing)
		for i := range q.References {
			m.placed(&q.References[i].Line, q.Placing)
		}
		turn(Distance, &m.camera, math.Log(q.Factor))
		turn(Distance, &q.Behind, q.BehindOff)
		turn(Turn, &q.Head.Turn, q.Head.TurnOff)
		turn(Turn, &q.Head.Nod, q.Head.NodOff)
	}
}

// origin is where the length of a measure of the wearer's face comes from.
type origin string

const (
	byTape    origin = "measured"
	byPicture origin = "picture"
	byPeople  origin = "people"
)

// origin says where the wearer's measure comes from: the tape before the picture before
// the people.
func (m *model) origin(of int) origin {
	w := m.s.Wearer
	if w.Face[faces[of].kind] > 0 {
		return byTape
	}
	if w.Picture != nil {
		for _, r := range w.Picture.References {
			if face(r.Kind) == of {
				return byPicture
			}
		}
	}
	return byPeople
}

// use picks the references that count: where the wearer's own face is known by one of
// them, those alone whose measure is known.
func (m *model) use() {
	var own, all []int
	for i, r := range m.s.Source.References {
		all = append(all, i)
		if m.origin(face(r.Kind)) != byPeople {
			own = append(own, i)
		}
	}
	m.used = all
	if len(own) > 0 {
		m.used = own
	}
}

// measured is the wearer's measure of the face, ln mm.
func (m *model) measured(of int) float64 {
	switch m.origin(of) {
	case byTape:
		return math.Log(m.tape[of])
	case byPicture:
		q := m.s.Wearer.Picture
		d := q.Distance * math.Exp(m.camera)
		perPx := math.Log(q.Length/q.Ruler.px()) - math.Log((d+q.Behind)/d)
		sum, n := 0.0, 0.0
		for _, r := range q.References {
			if face(r.Kind) == of {
				sum += math.Log(r.px()) - q.Head.shortens(of) + perPx + math.Log((d+faces[of].behind)/d)
				n++
			}
		}
		return sum / n
	}
	at := m.middle[of] + m.between[of]*m.person[4]
	for j := range 4 {
		at += m.within[of][j] * m.person[j]
	}
	return at
}

// shortens is the logarithm of how much a head held so shortens a measure.
func (h Head) shortens(of int) float64 {
	if faces[of].across {
		return math.Log(math.Cos(h.Turn * math.Pi / 180))
	}
	return math.Log(math.Cos(h.Nod * math.Pi / 180))
}

// scales gives what each reference makes of a pixel at the face, ln mm.
func (m *model) scales() ([]float64, bool) {
	src := &m.s.Source
	d := src.Distance * math.Exp(m.away)
	var each []float64
	for i, at := range m.used {
		r := src.References[at]
		of := face(r.Kind)
		each = append(each, m.measured(of)-math.Log(r.px())+src.Head.shortens(of)-math.Log((d+faces[of].behind)/d)+m.drawn[i])
	}
	return each, true
}

// The places of what evaluate gives.
const (
	lnDepth = iota
	lnHeight
	lnSets
	lnAcross
	tilt
	turn
	places
)

// ring is how the ruff's outer edge lies, and the logarithm of the mm that a pixel is at its
// middle; ok is false where the edge makes no ellipse.
func (m *model) ring() (r ring, lnPx float64, ok bool) {
	src := &m.s.Source
	points := make([]geom.Vec2, len(src.Edge))
	for i, p := range src.Edge {
		points[i] = p.vec()
	}
	e, ok := fit(points)
	if !ok {
		return r, 0, false
	}
	each, _ := m.scales()
	scale := m.wide
	for i, w := range m.weights {
		scale += w * each[i]
	}
	d := src.Distance * math.Exp(m.away)
	perPx := math.Exp(scale) * (d + src.Ahead) / d // at the ruff's middle, which lies behind the face
	return newRing(e, (d+src.Ahead)/perPx, src.Near == "below"), math.Log(perPx) + m.ruff, true
}

// evaluate measures the ruff: logarithms of mm and of sets, degrees. What was not asked
// for is 0. ok is false where the edge makes no ellipse.
func (m *model) evaluate() (out []float64, ok bool) {
	src := &m.s.Source
	r, lnPx, ok := m.ring()
	if !ok {
		return nil, false
	}
	out = make([]float64, places)
	if n := float64(len(src.Depths)); n > 0 {
		for _, l := range src.Depths {
			out[lnDepth] += r.place(l.To).Sub(r.place(l.From)).Norm() / n
		}
		out[lnDepth] = math.Log(out[lnDepth]) + lnPx
	}
	if n := float64(len(src.Heights)); n > 0 {
		for _, l := range src.Heights {
			out[lnHeight] += r.upright(l) / n
		}
		out[lnHeight] = math.Log(out[lnHeight]) + lnPx
	}
	if len(src.Sets) > 0 {
		count, share := 0.0, 0.0
		for _, a := range src.Sets {
			count += a.Count
			if a.markedArc {
				share += r.share(a.From, a.To)
			} else {
				share += a.Share
			}
		}
		out[lnSets] = math.Log(count / share)
	}
	out[lnAcross] = math.Log(2*r.radius) + lnPx
	out[tilt] = math.Asin(r.sin) * 180 / math.Pi
	out[turn] = math.Atan2(r.right.Y, r.right.X) * 180 / math.Pi
	out[turn] -= 180 * math.Round((out[turn]-m.level)/180) // a direction, not an angle
	return out, true
}

// lies is how the outer edge lies to the eye.
func (m *model) lies() (l Lying, ok bool) {
	r, _, ok := m.ring()
	if !ok {
		return l, false
	}
	l = Lying{
		Middle: Point{r.middle.X, r.middle.Y}, Radius_px: r.radius, Distance_px: r.distance,
		Tilt_deg: math.Asin(r.sin) * 180 / math.Pi, Roll_deg: math.Atan2(r.right.Y, r.right.X) * 180 / math.Pi,
	}
	if m.s.Source.Near == "above" {
		l.Tilt_deg = -l.Tilt_deg
	}
	return l, true
}
