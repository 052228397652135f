package easel

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"ruffwright/geom/portrait"
	"ruffwright/geom/scheme"
	"ruffwright/wasm/page/say"
)

// entry is a control in which the reader says what the points do not.
type entry struct {
	key    string // after the easel's own
	field  string // of the sheet: what its errors name
	label  string
	length bool   // it is a length, in the reader's unit
	usual  string // what is taken where nothing is typed, in words
	put    func(s *portrait.Sheet, x float64)
}

// entries are these controls, in their order.
var entries = []entry{
	{"face", "wearer.face_mm.face_height", "The wearer’s face height", true, "that of the people",
		func(s *portrait.Sheet, x float64) { faceOf(s)[portrait.FaceHeight] = x }},
	{"breadth", "wearer.face_mm.face_breadth", "The wearer’s face breadth", true, "that of the people",
		func(s *portrait.Sheet, x float64) { faceOf(s)[portrait.FaceBreadth] = x }},
	{"turn", "source.head.turn_deg", "The portrait’s head is turned by", false, "0°: it looks straight out",
		func(s *portrait.Sheet, x float64) { s.Source.Head.Turn = x }},
	{"freedom", "source.freedom", "The painter may be off by a factor of", false, "1.1",
		func(s *portrait.Sheet, x float64) { s.Source.Freedom = x }},
	{"distance", "source.distance_mm", "The painter stood off by", true, "2,000 mm, by a factor of 1.5",
		func(s *portrait.Sheet, x float64) { s.Source.Distance = x }},
	{"placing", "source.placing_px", "A point may be off by", false, "2 px of what is shown",
		func(s *portrait.Sheet, x float64) { s.Source.Placing = x }},
	{"ruler", "wearer.picture.ruler_mm", "The ruler’s length", true, "nothing",
		func(s *portrait.Sheet, x float64) {
			if s.Wearer.Picture != nil {
				s.Wearer.Picture.Length = x
			}
		}},
}

// faceOf are the wearer's own measures of a sheet.
func faceOf(s *portrait.Sheet) map[portrait.Kind]float64 {
	if s.Wearer.Face == nil {
		s.Wearer.Face = map[portrait.Kind]float64{}
	}
	return s.Wearer.Face
}

// choices are the controls that offer what may stand in them, the usual one first.
var choices = []struct {
	key, label string
	of         [][2]string // value, words
	put        func(s *portrait.Sheet, value string)
}{
	{"people", "Faces of", [][2]string{{"either", "women or men"}, {"women", "women"}, {"men", "men"}},
		func(s *portrait.Sheet, v string) { s.Wearer.People = v }},
	{"near", "Nearer to you is the ruff’s", [][2]string{{"below", "lower side"}, {"above", "upper side"}},
		func(s *portrait.Sheet, v string) { s.Source.Near = v }},
}

// own is what the keys of all controls of the easel begin with.
const own = "easel."

// Enter takes what is entered in a control of the easel; ok is whether it is one. While it is
// typed nothing is made of it.
func (e *Easel) Enter(key, text string, live bool) (ok bool) {
	key, ok = strings.CutPrefix(key, own)
	if !ok || live {
		return ok
	}
	part := strings.Split(key, "-")
	if len(part) > 1 {
		e.enterMark(part, text)
	} else {
		e.typed[key] = text
	}
	e.measure()
	return true
}

// enterMark takes what is entered in the row of a mark: "at-number-end", "count-number" or
// "share-number".
func (e *Easel) enterMark(part []string, text string) {
	n, err := strconv.Atoi(part[1])
	m := e.find(n)
	if err != nil || m == nil {
		return
	}
	switch key := strings.Join(part, "-"); {
	case part[0] == "count" || part[0] == "share":
		e.remember()
		m = e.find(n)
		if part[0] == "count" {
			m.count = text
		} else {
			m.share = text
		}
	case part[0] == "at" && len(part) == 3:
		end, err := strconv.Atoi(part[2])
		if err != nil || end < 0 || end >= len(m.at) {
			return
		}
		b := &e.boards[m.on]
		x, y, ok := pair(text)
		if !ok || !(x >= 0 && y >= 0 && x <= b.wide && y <= b.high) {
			e.typed[key] = text
			e.wrong[key] = say.Text("%s: “%s” is no point of the picture; allowed: two numbers, 0 to %.0f and 0 to %.0f px", e.named(m), text, b.wide, b.high)
			return
		}
		delete(e.typed, key)
		delete(e.wrong, key)
		e.remember()
		e.find(n).at[end] = portrait.Point{x, y}
	}
}

// pair reads two numbers with a blank or a semicolon between them; a comma between them as
// well where each has no other.
func pair(text string) (x, y float64, ok bool) {
	part := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ';' })
	if len(part) == 1 {
		part = strings.Split(text, ",")
	}
	if len(part) != 2 {
		return 0, 0, false
	}
	x, okX := number(strings.TrimSuffix(part[0], ","))
	y, okY := number(part[1])
	return x, y, okX && okY
}

// number reads a number with a point or a comma in it.
func number(text string) (x float64, ok bool) {
	x, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
	return x, err == nil && math.Abs(x) < 1e12
}

// measure reckons what the points tell.
func (e *Easel) measure() {
	e.got, e.why, e.lacks = nil, "", nil
	sheet, ok := e.sheet()
	e.lacks = e.missing(&sheet)
	if !ok || len(e.lacks) > 0 {
		return
	}
	got, err := portrait.Measure(sheet)
	if err != nil {
		e.why = faults(err)
		return
	}
	e.got = &got
}

// sheet is all that was placed and typed; ok is whether all entries can be used.
func (e *Easel) sheet() (s portrait.Sheet, ok bool) {
	s.Source.Placing = 2 * max(e.boards[source].times, 1)
	var shot portrait.Shot
	ok = true
	for i := range e.marks {
		m := &e.marks[i]
		if !m.whole() {
			continue
		}
		var line portrait.Line
		if len(m.at) == 2 {
			line = portrait.Line{From: m.at[0], To: m.at[1]}
		}
		switch m.kind {
		case edge:
			s.Source.Edge = append(s.Source.Edge, m.at[0])
		case depth:
			s.Source.Depths = append(s.Source.Depths, line)
		case height:
			s.Source.Heights = append(s.Source.Heights, line)
		case sets, share:
			ok = e.run(m, line, &s) && ok
		case ruler:
			shot.Ruler = line
		default:
			r := portrait.Reference{Kind: portrait.Kind(m.kind), Line: line}
			if m.on == wearer {
				shot.References = append(shot.References, r)
			} else {
				s.Source.References = append(s.Source.References, r)
			}
		}
	}
	if shot.Ruler != (portrait.Line{}) && len(shot.References) > 0 {
		shot.Placing = 2 * max(e.boards[wearer].times, 1)
		s.Wearer.Picture = &shot
	}
	return s, e.fill(&s) && ok
}

// run adds a run of sets; ok is whether its numbers can be used.
func (e *Easel) run(m *mark, line portrait.Line, s *portrait.Sheet) (ok bool) {
	a := portrait.Arc{From: line.From, To: line.To}
	ok = true
	read := func(what, text, allowed string, to *float64) {
		key := what + "-" + strconv.Itoa(m.n)
		delete(e.wrong, key)
		if strings.TrimSpace(text) == "" {
			return
		}
		x, is := number(text)
		if !is || x <= 0 {
			e.wrong[key] = say.Text("%s: “%s” is no number of it; allowed: %s", e.named(m), text, say.Text(allowed))
			ok = false
		}
		*to = x
	}
	read("count", m.count, "1 to 400 sets, halves too", &a.Count)
	if m.kind == share {
		read("share", m.share, "0.02 to 1", &a.Share)
		if a.Share == 0 {
			return ok // told as missing
		}
	}
	if a.Count > 0 && ok {
		s.Source.Sets = append(s.Source.Sets, a)
	}
	return ok
}

// fill puts in what is typed; ok is whether all of it can be used.
func (e *Easel) fill(s *portrait.Sheet) (ok bool) {
	if x := e.Now.Scheme.Wearer.Face; x > 0 {
		faceOf(s)[portrait.FaceHeight] = x
	}
	ok = true
	for _, c := range entries {
		delete(e.wrong, c.key)
		text := strings.TrimSpace(e.typed[c.key])
		if text == "" {
			continue
		}
		var x float64
		var why string
		if c.length {
			mm, err := scheme.ParseLength(text, e.Now.Units)
			if err != nil {
				why = say.Why(err)
			}
			x = mm
		} else if n, is := number(strings.TrimSuffix(text, "°")); is {
			x = n
		} else {
			why = say.Text("“%s” is no number", text)
		}
		if why != "" {
			e.wrong[c.key], ok = why, false
			continue
		}
		c.put(s, x)
	}
	for _, c := range choices {
		if v := e.typed[c.key]; v != "" {
			c.put(s, v)
		}
	}
	return ok
}

// missing says what is to be placed or typed before the points tell anything.
func (e *Easel) missing(s *portrait.Sheet) (lacks []string) {
	if len(s.Source.References) == 0 {
		lacks = append(lacks, say.Text("a line over the portrait’s face: the ruler"))
	}
	if n := len(s.Source.Edge); n < 5 {
		lacks = append(lacks, say.Text("points on the ruff’s outer edge: %s of five", say.Number(n)))
	}
	if len(s.Source.Depths)+len(s.Source.Heights)+len(s.Source.Sets) == 0 {
		lacks = append(lacks, say.Text("a line for depth or height, or a run of sets with its count"))
	}
	for i := range e.marks {
		if m := &e.marks[i]; m.whole() && m.counted() && (strings.TrimSpace(m.count) == "" || m.kind == share && strings.TrimSpace(m.share) == "") {
			lacks = append(lacks, say.Text("the count of “%s”, in the list", e.named(m)))
		}
	}
	if s.Wearer.Picture != nil && strings.TrimSpace(e.typed["ruler"]) == "" {
		lacks = append(lacks, say.Text("the length of the ruler in the wearer’s picture"))
	}
	return lacks
}

// mostFaults is how many faults are told at once.
const mostFaults = 3

// faults says what is wrong with a sheet in the words of the page.
func faults(err error) string {
	list := []error{err}
	if many, is := err.(interface{ Unwrap() []error }); is {
		list = many.Unwrap()
	}
	var out []string
	for _, one := range list[:min(len(list), mostFaults)] {
		var of portrait.Error
		if !errors.As(one, &of) {
			out = append(out, say.Why(one))
			continue
		}
		out = append(out, say.Sentence(say.Text("%s: %s; allowed: %s", fieldWords(of.Field), of.Why, of.Allowed)))
	}
	return strings.Join(out, " ")
}

// fieldWords is a field of a sheet as the page calls it.
func fieldWords(field string) string {
	for _, c := range entries {
		if c.field == field {
			return say.Text(c.label)
		}
	}
	for _, of := range []struct{ begins, label string }{
		{"source.references", "A line over the portrait’s face"}, {"source.edge", "The outer edge"}, {"source.depths", "Depth"},
		{"source.heights", "Height"}, {"source.sets", "Sets"}, {"wearer.picture.ruler", "The ruler"},
		{"wearer.picture.references", "A line over the wearer’s face"}, {"wearer", "The wearer"},
	} {
		if strings.HasPrefix(field, of.begins) {
			return say.Text(of.label)
		}
	}
	return say.Text("The portrait")
}
