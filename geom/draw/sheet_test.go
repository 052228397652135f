package draw

import (
	"image/color"
	"math"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Lengths are written no finer than a hand measures them: by hand, 61.5 mm are
// 2.421 in, 38.7 sixteenths; 40 mm are 1.575 in, 50.4 thirty-seconds.
func TestLength(t *testing.T) {
	for _, c := range []struct {
		mm, written float64
		u           scheme.Units
	}{
		{12.34, 12.3, scheme.Millimetres},
		{123.4, 123, scheme.Millimetres},
		{61.5, 39 * 25.4 / 16, scheme.Inches},
		{40, 50 * 25.4 / 32, scheme.Inches},
	} {
		s := Sheet{Units: c.u}
		if got, want := s.Length(c.mm).String(), scheme.FormatLength(c.written, c.u); got != want {
			t.Errorf("%g mm is written %q, want %q", c.mm, got, want)
		}
	}
}

// The sign of a direction: the side that a label is moved to.
func TestSign(t *testing.T) {
	if sign(0.3) != 1 || sign(-7) != -1 || sign(0) != 0 {
		t.Errorf("%g, %g, %g", sign(0.3), sign(-7), sign(0))
	}
}

// A ruler has a round length that fits, is labelled with it, and its stitches can
// be told apart.
func TestRuler(t *testing.T) {
	for _, c := range []struct {
		u     scheme.Units
		scale float64
		long  float64 // of the ruff, mm: the longest of 1, 2, 5 … units that takes 40 mm of the sheet
	}{
		{scheme.Millimetres, 1, 20}, {scheme.Millimetres, 0.1, 200}, {scheme.Inches, 1, 25.4}, {scheme.Inches, 0.1, 254},
	} {
		s := NewSheet(240, 180, Light(), c.u, word.English, "", word.Text{}, word.Text{})
		s.Items = nil
		s.Ruler(Pt(10, 100), c.scale, 40)
		stitches := s.Items[0].(Path)
		last := stitches.Lines[len(stitches.Lines)-1][1].X
		if got := (last + 0.35 - 10) / c.scale; math.Abs(got-c.long) > 1e-9 {
			t.Errorf("%s at %g: %g mm long, want %g", c.u, c.scale, got, c.long)
		}
		for _, l := range stitches.Lines {
			if l[1].X-l[0].X < 0.9-1e-9 {
				t.Errorf("%s at %g: a stitch is %g mm long", c.u, c.scale, l[1].X-l[0].X)
			}
		}
		if l := s.Labels(); len(l) != 1 || l[0].Text != s.Length(c.long).String() {
			t.Errorf("%s at %g: %v, want %q", c.u, c.scale, l, s.Length(c.long))
		}
	}
}

// A label goes where it covers no other, on the side that it is moved to, and is
// left out where there is no room.
func TestPlace(t *testing.T) {
	s := NewSheet(100, 80, Light(), scheme.Millimetres, word.English, "", word.Text{}, word.Text{})
	l := Label{At: Pt(50, 40), Text: "word", Size_mm: TextSize}
	first, ok := s.Place(l, Around(3)...)
	if !ok || first.Min.X < 53-1e-9 {
		t.Errorf("the first lies at %v, %v", first, ok)
	}
	second, ok := s.Place(l, Around(3)...)
	if !ok || second.Grow(0.4).Overlaps(first) || second.Max.X > 47+1e-9 {
		t.Errorf("the second lies at %v beside %v, %v", second, first, ok)
	}
	l.At = Pt(99, 79)
	if box, ok := s.Place(l, Pt(1, 1)); ok || len(s.Labels()) != 2 {
		t.Errorf("a label was set beyond the sheet at %v", box)
	}
	// Nearer than 0.4 mm to another is no room either.
	if s.Free(Rect{Pt(first.Min.X, first.Max.Y+0.3), Pt(first.Max.X, first.Max.Y+3)}) {
		t.Error("a label stands free where it would touch another")
	}
}

// The room for the view begins below title and rule, 2.4 mm apart from it, and ends 5 mm
// from the sheet's edges; a letter beside the title does not narrow it.
func TestRoom(t *testing.T) {
	for _, letter := range []string{"", "A", "B"} {
		s := NewSheet(100, 80, Light(), scheme.Millimetres, word.English, letter, word.Name("Title"), word.Name("note"))
		title, rule := s.Labels()[0].Box(), s.Items[0].(Path).Lines[0]
		want := Rect{Pt(5, title.Max.Y+1.2+2.4), Pt(95, 75)}
		if s.Room != want || s.View != want || rule[0] != Pt(5, title.Max.Y+1.2) || rule[1] != Pt(95, title.Max.Y+1.2) || s.Scale != 1 {
			t.Errorf("%q: room %v below a rule at %v, scale %g, want %v", letter, s.Room, rule, s.Scale, want)
		}
		if left := title.Min.X; left != map[string]float64{"": 5, "A": 12, "B": 12}[letter] {
			t.Errorf("%q: the title begins at %g", letter, left)
		}
		if want := map[string]color.NRGBA{"": Light().Ink, "A": Light().Ink, "B": Light().Woad}[letter]; s.dye != want {
			t.Errorf("%q: its letter is %v", letter, s.dye)
		}
	}
}
