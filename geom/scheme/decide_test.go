package scheme

import (
	"slices"
	"testing"
)

// TestDecide: of two ways to decide one value the later word holds, and what no
// longer counts is told.
func TestDecide(t *testing.T) {
	pictured := with(t, "wearer.face", "118", "look.depth_ratio", "0.55")
	for _, c := range []struct {
		what, key, text string
		from            Scheme
		depth           float64
		ratio           float64
		told            []Overruled
	}{
		{"a depth after the ratio", "ruff.depth", "95", pictured, 95, 0, []Overruled{{"look.depth_ratio", "0.55", "ruff.depth", "95"}}},
		{"the default's own depth after the ratio", "ruff.depth", "70", pictured, 70, 0, []Overruled{{"look.depth_ratio", "0.55", "ruff.depth", "70"}}},
		{"the value in force", "ruff.depth", "64.9", pictured, 64.9, 0.55, nil},
		{"the ratio after a depth", "look.depth_ratio", "0.55", with(t, "wearer.face", "118", "ruff.depth", "95"), 64.9, 0.55, []Overruled{{"ruff.depth", "95", "look.depth_ratio", "64.9"}}},
		{"another face", "wearer.face", "100", pictured, 55, 0.55, []Overruled{{"ruff.depth", "64.9", "look.depth_ratio", "55"}}},
		{"no ratio any more", "look.depth_ratio", "0", pictured, 70, 0, nil},
		{"something else", "ruff.height", "50", pictured, 64.9, 0.55, nil},
	} {
		s := c.from
		told, err := s.Decide(c.key, c.text)
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
			continue
		}
		if err := s.Validate(); err != nil {
			t.Errorf("%s: %v", c.what, err)
		}
		if d := s.Looked().Ruff.Depth; d-c.depth > 1e-9 || c.depth-d > 1e-9 || s.Look.DepthRatio != c.ratio {
			t.Errorf("%s: depth %g, ratio %g, want %g and %g", c.what, d, s.Look.DepthRatio, c.depth, c.ratio)
		}
		if !slices.Equal(told, c.told) {
			t.Errorf("%s: told %+v, want %+v", c.what, told, c.told)
		}
	}
	bad := pictured
	if _, err := bad.Decide("ruff.depth", "deep"); err == nil || bad.Look.DepthRatio != 0.55 {
		t.Errorf("%v, ratio %g", err, bad.Look.DepthRatio)
	}
}

// TestDecideSets: sets follow the quarter that was counted or, before it, own
// marks; a number typed puts the quarter aside and never the marks.
func TestDecideSets(t *testing.T) {
	s := with(t, "look.quarter", "11")
	if got := s.DecidedBy("ruff.sets"); !slices.Equal(got, []string{"look.quarter"}) {
		t.Errorf("decided by %v", got)
	}
	if err := s.Set("ruff.sets", "48"); err != nil || s.Looked().Ruff.Sets != 48 || s.Look.Quarter != 0 {
		t.Errorf("%v: %d sets, quarter %d", err, s.Looked().Ruff.Sets, s.Look.Quarter)
	}
	marks := "0 trough bottom"
	for i := 1; i <= 20; i++ {
		fold := map[bool]string{true: " crest top", false: " trough bottom"}[i%2 == 1]
		marks += "; " + exact(float64(50*i)) + fold
	}
	told, err := s.Decide("pleat.marks", marks)
	if err != nil || len(told) != 1 || told[0] != (Overruled{"ruff.sets", "48", "pleat.marks", "10"}) {
		t.Errorf("%v: told %+v", err, told)
	}
	if err := s.Set("ruff.sets", "40"); err != nil || len(s.Pleat.Marks) != 21 || s.Looked().Ruff.Sets != 10 {
		t.Errorf("%v: %d marks, %d sets", err, len(s.Pleat.Marks), s.Looked().Ruff.Sets)
	}
	if got := s.DecidedBy("ruff.sets"); !slices.Equal(got, []string{"pleat.marks"}) {
		t.Errorf("decided by %v", got)
	}
}

// TestUnheard: a document in which a length and a picture's ratio stand side by side tells
// which does not count; a length that was never typed, or is the same, is not worth it.
func TestUnheard(t *testing.T) {
	for doc, want := range map[string][]Overruled{
		`{"version":1,"wearer":{"face":118},"look":{"depth_ratio":0.5},"ruff":{"depth":95}}`: {{"ruff.depth", "95", "look.depth_ratio", "59"}},
		`{"version":1,"wearer":{"face":118},"look":{"depth_ratio":0.5},"ruff":{"depth":59}}`: nil,
		`{"version":1,"wearer":{"face":118},"look":{"depth_ratio":0.5}}`:                     nil,
		`{"version":1,"wearer":{"face":118},"ruff":{"depth":95}}`:                            nil,
		`{"version":1,"look":{"quarter":11},"ruff":{"sets":48}}`:                             {{"ruff.sets", "48", "look.quarter", "44"}},
	} {
		s, err := Parse([]byte(doc))
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Unheard(); !slices.Equal(got, want) {
			t.Errorf("%s: %+v, want %+v", doc, got, want)
		}
	}
}
