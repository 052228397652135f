package sheet

import (
	"ruffwright/geom/word"
	"strings"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
)

func words1(p *Page) string {
	var all []string
	for _, l := range labels(p) {
		all = append(all, l.Text)
	}
	return strings.Join(all, "|")
}

// TestFrame: every page has its number, title, name and code; a code too long for
// the foot says where it stands whole; what stops takes the name's place in the head,
// in the longest wording that has room.
func TestFrame(t *testing.T) {
	square, err := NewSquare("rw1-code")
	if err != nil {
		t.Fatal(err)
	}
	frame := Frame{Name: word.Name("The ruff"), About: word.Name("a day"), Units: scheme.Millimetres, Code: "rw1-code", NoCode: word.Name("no code"), Square: square}
	set := func(f Frame, title string) *Page {
		pages := []*Page{{Title: word.Name("First")}, {Title: word.Name(title)}}
		f.Set(pages)
		return pages[1]
	}
	p := set(frame, "Second")
	for _, want := range []string{"Second|The ruff|", "sheet 2 of 2  ·  The ruff|a day|", "|rw1-code", "|50 mm|15 mm|"} {
		if got := words1(p); !strings.Contains(got, want) {
			t.Errorf("%q is not in %q", want, got)
		}
	}
	frame.Code = ""
	if got := words1(set(frame, "Second")); !strings.Contains(got, "|no code") {
		t.Errorf("without a code: %q", got)
	}
	frame.Code = strings.Repeat("code", 80)
	if got := words1(set(frame, "Second")); !strings.Contains(got, "…  whole on sheet 1") {
		t.Errorf("with a long code: %q", got)
	}
	frame.Stop = []word.Text{word.Say("Do not sew this: the reason stands elsewhere"), word.Say("Do not sew this")}
	for title, want := range map[string]string{"Second": frame.Stop[0].String(), strings.Repeat("Title ", 8): frame.Stop[1].String(), strings.Repeat("Title ", 30): frame.Stop[1].String()} {
		p := set(frame, title)
		l := labels(p)[1]
		if l.Text != want || l.Color != White || l.Box().Max.X > Live_mm {
			t.Errorf("under %q: %+v, want %q in white", title, l, want)
		}
	}
}

// TestSquareSize: a square is drawn in the foot only where a telephone reads it, and
// its modules fill the size that it is given.
func TestSquareSize(t *testing.T) {
	for length, drawn := range map[int]bool{20: true, 2000: false} {
		s, err := NewSquare(strings.Repeat("x", length))
		if err != nil {
			t.Fatal(err)
		}
		p := &Page{}
		Frame{Square: s, Code: "x"}.Set([]*Page{p})
		found := false
		for _, it := range p.Items {
			path, ok := it.(draw.Path)
			if !ok || len(path.Lines) < 20 {
				continue
			}
			found = true
			x0, x1 := 1e9, 0.0
			for _, l := range path.Lines {
				x0, x1 = min(x0, l[0].X), max(x1, l[1].X)
			}
			if x0 < Live_mm-18-1e-9 || x0 > Live_mm-18+0.01 || x1 > Live_mm+1e-9 || x1 < Live_mm-0.01 {
				t.Errorf("the square reaches from %g to %g", x0, x1)
			}
		}
		if found != drawn {
			t.Errorf("%d letters: square in the foot %v", length, found)
		}
		if wide := s.Least() / 0.33; wide != float64(int(wide+0.5)) && !(wide > 20) {
			t.Errorf("%g modules", wide)
		}
	}
	if _, err := NewSquare(strings.Repeat("x", 4000)); err == nil {
		t.Error("a text longer than any square was taken")
	}
}

// TestMeasure: the words of a dimension line stand in a gap where there is room, else
// above it; upright they stand on white.
func TestMeasure(t *testing.T) {
	for _, c := range []struct {
		x, y  float64
		lines int // of the line itself
		up    float64
	}{{60, 0, 2, 0}, {8, 0, 1, 1}, {0, 60, 1, 0}} {
		p := &Page{}
		p.Measure(draw.Pt(10, 10), draw.Pt(10+c.x, 10+c.y), word.Name("60 mm"))
		lines := 0
		for _, it := range p.Items {
			if path, ok := it.(draw.Path); ok && !path.Closed {
				lines++
				if d := path.Lines[0][1].X - path.Lines[0][0].X; d < 0 || d > c.x {
					t.Errorf("%+v: a line of %g", c, d)
				}
			}
		}
		l := labels(p)[0]
		base := l.At.Y + above*l.Size_mm
		want := 10 + c.y/2 + 0.33*l.Size_mm
		if c.up > 0 {
			want = 10 - c.up
		}
		if lines != c.lines || base < want-1e-9 || base > want+1e-9 || l.At.X != 10+c.x/2 {
			t.Errorf("%+v: %d lines, words at %g, %g", c, lines, l.At.X, base)
		}
	}
}
