package sheet

import (
	"math"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
)

// strokes gives the strokes of the ruler on a page: x, and how far down from y.
func strokes(p *Page, y float64) map[float64]float64 {
	out := map[float64]float64{}
	for _, it := range p.Items {
		if path, ok := it.(draw.Path); ok {
			for _, l := range path.Lines {
				if l[0].X == l[1].X {
					out[math.Round(l[0].X*1000)/1000] = math.Round((l[1].Y-y)*1000) / 1000
				}
			}
		}
	}
	return out
}

// number is a label of a ruler: its words and the middle of them.
type number struct {
	words string
	at    float64
}

func numbers(p *Page) []number {
	var out []number
	for _, it := range p.Items {
		if l, ok := it.(draw.Label); ok {
			out = append(out, number{l.Text, math.Round(l.At.X*1000) / 1000})
		}
	}
	return out
}

// TestRuler: each stroke and number of a piece of a long ruler stands at its own
// place, a longer one at 5, the longest at 10 (inches: a half, a whole). A number
// that would stand on the near end is moved off it.
func TestRuler(t *testing.T) {
	for _, c := range []struct {
		u        scheme.Units
		from, to float64
		strokes  int
		at       map[float64]float64 // some of them
		numbers  []number
	}{
		{scheme.Millimetres, 178, 201, 24, map[float64]float64{5: -1.5, 7: -3.4, 8: -1.5, 12: -2.5, 27: -3.4}, []number{{"180", 7.535}, {"190", 17}}},
		{scheme.Centimetres, 178, 212, 35, map[float64]float64{7: -3.4, 37: -3.4, 39: -1.5}, []number{{"18", 7}, {"19", 17}, {"20", 27}, {"21", 37}}},
		{scheme.Inches, 7 * 25.4, 8.5 * 25.4, 25, map[float64]float64{5: -3.4, 8.175: -1.5, 17.7: -2.5, 30.4: -3.4, 43.1: -2.5}, []number{{"7", 6.312}, {"8", 30.4}}},
	} {
		p := &Page{}
		p.Ruler(5, 30, c.from, c.to, c.u)
		all := strokes(p, 30)
		if len(all) != c.strokes {
			t.Errorf("%v: %d strokes, want %d", c.u, len(all), c.strokes)
		}
		for x, want := range c.at {
			if got, ok := all[x]; !ok || got != want {
				t.Errorf("%v: the stroke at %g is %g long, want %g", c.u, x, got, want)
			}
		}
		got := numbers(p)
		if len(got) != len(c.numbers) {
			t.Fatalf("%v: numbers %v, want %v", c.u, got, c.numbers)
		}
		for i, n := range got {
			if n.words != c.numbers[i].words || math.Abs(n.at-c.numbers[i].at) > 1e-3 {
				t.Errorf("%v: number %v, want %v", c.u, n, c.numbers[i])
			}
		}
	}
}

// TestRulerBack: its zero is at the right, and numbers grow to the left.
func TestRulerBack(t *testing.T) {
	for u, want := range map[scheme.Units][]number{
		scheme.Millimetres: {{"10", 90}, {"20", 80}}, scheme.Centimetres: {{"1", 90}, {"2", 80}}, scheme.Inches: {{"1", 74.6}},
	} {
		p := &Page{}
		p.RulerBack(100, 10, 26, u)
		got := numbers(p)
		if len(got) != len(want) || got[0] != want[0] || got[len(got)-1] != want[len(want)-1] {
			t.Errorf("%v: numbers %v, want %v", u, got, want)
		}
		all, half := strokes(p, 10), 95.0
		if u == scheme.Inches {
			half = 87.3
		}
		if all[100] != 6 || all[half] != 4.4 || all[want[0].at] != 6 || len(all) != map[bool]int{true: 17, false: 27}[u == scheme.Inches] {
			t.Errorf("%v: strokes %v", u, all)
		}
	}
}

// TestRulerKeepsOff: numbers stand off the lines that the ruler is cut along.
func TestRulerKeepsOff(t *testing.T) {
	for _, u := range []scheme.Units{scheme.Millimetres, scheme.Inches} {
		p := &Page{}
		p.Ruler(0, 20, 0, 190, u)
		if n := numbers(p); n[0].words != "0" || len(n) < 7 {
			t.Errorf("%v: numbers %v", u, n)
		}
		for to := 186.0; to < 196; to += 0.1 {
			p := &Page{}
			p.Ruler(0, 20, 0, to, u)
			for _, l := range labels(p) {
				if l.Box().Min.X < 0.5 || l.Box().Max.X > to-0.5 {
					t.Errorf("the number %s stands on a line that is cut, at %g", l.Text, to)
				}
			}
		}
	}
}
