package portrait

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"ruffwright/geom/word"
)

// Error says what is wrong with one field of a sheet.
type Error struct {
	Field        string // as 'source.edge[3][0]', after the keys of the sheet's JSON
	Why, Allowed word.Text
}

// Error is what is wrong, in English.
func (e Error) Error() string { return e.Said().String() }

// Said is what is wrong: the field, the value, what is allowed.
func (e Error) Said() word.Text {
	return word.Say("%s: %s; allowed: %s", word.Name(e.Field), e.Why, e.Allowed)
}

// bad is the error of one field.
func bad(field string, why, allowed word.Text) error { return Error{field, why, allowed} }

func noEllipse(n int) error {
	return bad("source.edge", word.Count(n, "%d point makes no ellipse", "%d points make no ellipse", n), word.Say("five or more points, well spread along the outer edge"))
}

// checks gathers what is wrong.
type checks struct{ wrong []error }

func number(x float64) word.Text { return word.Name(fmt.Sprintf("%.6g", x)) }

// in holds a number to its range; NaN lies in none.
func (c *checks) in(field string, x, least, most float64, unit string) {
	if !(x >= least && x <= most) {
		value, to := number(x), word.Say("%s to %s", number(least), number(most))
		if unit != "" {
			to = word.Say("%s %s", to, unit)
		}
		c.wrong = append(c.wrong, bad(field, word.Say("%s is out of range", value), to))
	}
}

func (c *checks) some(field string, n, least, most int) {
	if n < least || n > most {
		c.wrong = append(c.wrong, bad(field, word.Say("%d given", n), word.Say("%d to %d", least, most)))
	}
}

func (c *checks) one(field, value string, of ...string) {
	if !slices.Contains(of, value) {
		list := make([]word.Text, len(of))
		for i, o := range of {
			list[i] = word.Name(o)
		}
		c.wrong = append(c.wrong, bad(field, word.Name(fmt.Sprintf("%.40q", value)), word.Join(", ", list...)))
	}
}

// farthest is how far out a point may lie, px.
const farthest = 1e6

func (c *checks) point(field string, p Point) {
	c.in(field+"[0]", p[0], -farthest, farthest, "px")
	c.in(field+"[1]", p[1], -farthest, farthest, "px")
}

// line holds both ends, and the length to more than twice what its ends may be off.
func (c *checks) line(field string, l Line, placing float64) {
	n := len(c.wrong)
	c.point(field+".from", l.From)
	c.point(field+".to", l.To)
	if px := l.px(); len(c.wrong) == n && !(px > 2*placing) {
		c.wrong = append(c.wrong, bad(field, word.Say("%s px from end to end", number(px)), word.Say("more than %s px, twice what a point may be off", number(2*placing))))
	}
}

func (c *checks) head(field string, h Head) {
	c.in(field+".turn_deg", h.Turn, -75, 75, "°")
	c.in(field+".turn_off_deg", h.TurnOff, 0.1, 30, "°")
	c.in(field+".nod_deg", h.Nod, -60, 60, "°")
	c.in(field+".nod_off_deg", h.NodOff, 0.1, 30, "°")
}

func (c *checks) references(field string, list []Reference, placing float64) {
	c.some(field, len(list), 1, 8)
	for i, r := range list {
		at := fmt.Sprintf("%s[%d]", field, i)
		c.one(at+".kind", string(r.Kind), string(FaceHeight), string(FaceBreadth), string(Pupils), string(Nose))
		c.line(at, r.Line, placing)
	}
}

// check says all that is wrong with a sheet that has its usual values.
func (s *Sheet) check() error {
	var c checks
	c.source(&s.Source)
	c.wearer(&s.Wearer)
	return errors.Join(c.wrong...)
}

func (c *checks) source(p *Source) {
	c.in("source.placing_px", p.Placing, 0.1, 200, "px")
	c.in("source.distance_mm", p.Distance, 300, 20000, "mm")
	c.in("source.distance_factor", p.Factor, 1, 3, "")
	c.in("source.face_ahead_mm", p.Ahead, -100, 250, "mm")
	c.in("source.face_ahead_off_mm", p.AheadOff, 0.1, 200, "mm")
	c.in("source.freedom", p.Freedom, 1, 3, "")
	c.one("source.near", p.Near, "below", "above")
	c.head("source.head", p.Head)
	c.references("source.references", p.References, p.Placing)
	c.some("source.edge", len(p.Edge), 5, 200)
	for i, q := range p.Edge {
		c.point(fmt.Sprintf("source.edge[%d]", i), q)
	}
	for _, l := range []struct {
		field string
		lines []Line
	}{{"source.depths", p.Depths}, {"source.heights", p.Heights}} {
		c.some(l.field, len(l.lines), 0, 20)
		for i, line := range l.lines {
			c.line(fmt.Sprintf("%s[%d]", l.field, i), line, p.Placing)
		}
	}
	c.some("source.sets", len(p.Sets), 0, 10)
	for i, a := range p.Sets {
		at := fmt.Sprintf("source.sets[%d]", i)
		c.in(at+".count", a.Count, 1, 400, "sets")
		c.in(at+".count_off", a.CountOff, 0.1, max(a.Count/2, 0.5), "sets")
		if a.markedArc {
			c.line(at, Line{a.From, a.To}, p.Placing)
			continue
		}
		c.in(at+".share", a.Share, 0.02, 1, "")
		c.in(at+".share_off", a.ShareOff, 0.0001, max(a.Share/2, 0.02), "")
	}
}

func (c *checks) wearer(w *Wearer) {
	c.one("wearer.people", w.People, "women", "men", "either")
	c.in("wearer.tape_mm", w.Tape, 0.1, 20, "mm")
	for _, k := range slices.Sorted(maps.Keys(w.Face)) {
		if of := face(k); of < 0 {
			c.one("wearer.face_mm", string(k), string(FaceHeight), string(FaceBreadth), string(Pupils), string(Nose))
		} else {
			c.in("wearer.face_mm."+string(k), w.Face[k], faces[of].least, faces[of].most, "mm")
		}
	}
	q := w.Picture
	if q == nil {
		return
	}
	c.in("wearer.picture.placing_px", q.Placing, 0.1, 200, "px")
	c.in("wearer.picture.distance_mm", q.Distance, 300, 20000, "mm")
	c.in("wearer.picture.distance_factor", q.Factor, 1, 3, "")
	c.line("wearer.picture.ruler", q.Ruler, q.Placing)
	c.in("wearer.picture.ruler_mm", q.Length, 20, 2000, "mm")
	c.in("wearer.picture.behind_mm", q.Behind, -200, 300, "mm")
	c.in("wearer.picture.behind_off_mm", q.BehindOff, 0.1, 200, "mm")
	c.head("wearer.picture.head", q.Head)
	c.references("wearer.picture.references", q.References, q.Placing)
}
