package portrait

import (
	"math"
	"strings"
	"testing"
)

// TestBad: what cannot be is refused by field, value and what is allowed.
func TestBad(t *testing.T) {
	for _, c := range []struct {
		field  string
		change func(*Sheet)
	}{
		{"source.placing_px", func(s *Sheet) { s.Source.Placing = -1 }},
		{"source.distance_mm", func(s *Sheet) { s.Source.Distance = math.NaN() }},
		{"source.distance_factor", func(s *Sheet) { s.Source.Factor = 0.5 }},
		{"source.face_ahead_mm", func(s *Sheet) { s.Source.Ahead = 900 }},
		{"source.freedom", func(s *Sheet) { s.Source.Freedom = 0.9 }},
		{"source.near", func(s *Sheet) { s.Source.Near = "left" }},
		{"source.head.turn_deg", func(s *Sheet) { s.Source.Head.Turn = 90 }},
		{"source.head.nod_off_deg", func(s *Sheet) { s.Source.Head.NodOff = math.Inf(1) }},
		{"source.references", func(s *Sheet) { s.Source.References = nil }},
		{"source.references[0].kind", func(s *Sheet) { s.Source.References[0].Kind = "chin" }},
		{"source.references[0]", func(s *Sheet) { s.Source.References[0].To = s.Source.References[0].From }},
		{"source.edge", func(s *Sheet) { s.Source.Edge = s.Source.Edge[:4] }},
		{"source.edge[3][1]", func(s *Sheet) { s.Source.Edge[3][1] = math.NaN() }},
		{"source.edge", func(s *Sheet) {
			for i := range s.Source.Edge {
				s.Source.Edge[i] = Point{float64(i), 2 * float64(i)}
			}
		}},
		{"source.depths[0].from[0]", func(s *Sheet) { s.Source.Depths[0].From[0] = 1e9 }},
		{"source.heights", func(s *Sheet) { s.Source.Heights = make([]Line, 21) }},
		{"source.sets[0].count", func(s *Sheet) { s.Source.Sets[0].Count = 0 }},
		{"source.sets[0].count_off", func(s *Sheet) { s.Source.Sets[0].CountOff = 11 }},
		{"source.sets[0].share", func(s *Sheet) { s.Source.Sets[0].Share = 1.2 }},
		{"source.sets[0]", func(s *Sheet) { s.Source.Sets[0].To = s.Source.Sets[0].From }},
		{"wearer.people", func(s *Sheet) { s.Wearer.People = "elves" }},
		{"wearer.face_mm.nose", func(s *Sheet) { s.Wearer.Face = map[Kind]float64{Nose: 5} }},
		{"wearer.face_mm", func(s *Sheet) { s.Wearer.Face = map[Kind]float64{"ear": 60} }},
		{"wearer.picture.ruler", func(s *Sheet) { s.Wearer.Picture = &Shot{} }},
	} {
		s := Sheet{}
		p := usualPainting()
		p.paint(nil, &s, FaceHeight)
		c.change(&s)
		_, err := Measure(s)
		if err == nil || !strings.Contains(err.Error(), c.field+": ") || !strings.Contains(err.Error(), "; allowed: ") {
			t.Errorf("%s: %v", c.field, err)
		}
	}
	s := Sheet{}
	p := usualPainting()
	s.Source.Placing = 0.1
	p.tilt = 80
	p.paint(nil, &s, FaceHeight)
	if _, err := Measure(s); err == nil || !strings.Contains(err.Error(), "source.heights: cannot be seen") {
		t.Errorf("a height seen from above: %v", err)
	}
	p.tilt = 0.2
	p.paint(nil, &s, FaceHeight)
	if _, err := Measure(s); err == nil || !strings.Contains(err.Error(), "source.edge: ") {
		t.Errorf("a ruff seen end on: %v", err)
	}
}
