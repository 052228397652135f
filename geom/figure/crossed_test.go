package figure

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"ruffwright/geom/draw"
)

// No line runs through a label: of every demo in every view, on sheets of three sizes,
// with notes and without, and as the wearer bows; on the first of them no line of what is
// solid either. A line
// counts that something covers before the label is set as little as one that ends beside
// it.
func TestNoLabelIsCrossed(t *testing.T) {
	t.Parallel()
	demos, err := filepath.Glob(filepath.Join("..", "..", "assets", "demos", "*.json"))
	if err != nil || len(demos) < 12 {
		t.Fatal(demos, err)
	}
	for _, file := range demos {
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		plan, shape := design{"crossed " + name, name, nil, 8, 4}.make(t)
		for _, size := range [][2]float64{{240, 180}, {120, 180}, {100, 140}} {
			for _, v := range Views {
				for _, o := range []Options{{}, {Notes: longNotes()}, {Bow_deg: 60, Rest: &shape}} {
					o.Width_mm, o.Height_mm, o.Turn_deg, o.Tilt_deg, o.Plain = size[0], size[1], 28, 26, true
					d, err := v.Draw(plan, shape, o)
					if err != nil {
						t.Fatal(err)
					}
					if size[0] == 240 && o.Notes == nil {
						d.Items = lined(d)
					}
					for _, c := range crossed(d) {
						t.Errorf("%s, %s, %g × %g, bowed %g°, %d notes: %s", name, v.Name, size[0], size[1], o.Bow_deg, len(o.Notes), c)
					}
				}
			}
		}
	}
}

// The test sees a line that crosses, and none that is covered or stays beside.
func TestCrossed(t *testing.T) {
	label := draw.Label{At: draw.Pt(50, 50), Text: "here", Size_mm: 3}
	box := label.Box()
	through := draw.Path{Lines: [][]draw.Point{{draw.Pt(40, 51.5), draw.Pt(80, 51.5)}}, Stroke: draw.Light().Ink, Width_mm: 0.3}
	plate := draw.Path{Closed: true, Fill: draw.Light().Ground, Lines: [][]draw.Point{{draw.Pt(45, 45), draw.Pt(70, 45), draw.Pt(70, 60), draw.Pt(45, 60)}}}
	beside := through
	beside.Lines = [][]draw.Point{{draw.Pt(40, box.Max.Y+0.2), draw.Pt(80, box.Max.Y+0.2)}}
	for n, items := range [][]draw.Item{{label, through}, {through, label}, {label, plate, through}} {
		if len(crossed(draw.Drawing{Items: items})) != 1 {
			t.Errorf("%d: the line is not seen", n)
		}
	}
	for n, items := range [][]draw.Item{{label, beside}, {through, plate, label}, {label}} {
		if c := crossed(draw.Drawing{Items: items}); len(c) != 0 {
			t.Errorf("%d: %v", n, c)
		}
	}
}

// lined are the items of a drawing, with what is solid as the lines that show on it.
func lined(d draw.Drawing) (items []draw.Item) {
	for _, it := range d.Items {
		if s, ok := it.(draw.Solid); ok {
			_, _, lines := s.Seen(d.Width_mm, d.Height_mm, 4)
			for _, l := range lines {
				items = append(items, l)
			}
			continue
		}
		items = append(items, it)
	}
	return items
}

// crossed tells which labels of a drawing a line runs through.
func crossed(d draw.Drawing) (all []string) {
	for i, it := range d.Items {
		l, ok := it.(draw.Label)
		if !ok {
			continue
		}
		box := l.Box().Grow(-0.15)
		covered := -1 // what lies below a plate that holds the label is not seen
		for k, under := range d.Items[:i] {
			if p, ok := under.(draw.Path); ok && p.Closed && p.Fill.A > 200 && len(p.Lines) == 1 && holds(p.Lines[0], l.Box().Grow(-0.4)) {
				covered = k
			}
		}
		for k, other := range d.Items {
			p, ok := other.(draw.Path)
			if !ok || k <= covered || p.Stroke.A == 0 || p.Width_mm == 0 {
				continue
			}
			for _, line := range p.Lines {
				if p.Closed {
					line = append(line[:len(line):len(line)], line[0])
				}
				for n := 1; n < len(line); n++ {
					if passes(line[n-1], line[n], box) {
						all = append(all, l.Text)
						n = len(line)
					}
				}
			}
		}
	}
	return all
}

// holds tells whether a box lies within the box about a line.
func holds(line []draw.Point, box draw.Rect) bool {
	about := draw.Rect{Min: line[0], Max: line[0]}
	for _, p := range line {
		about.Min = draw.Pt(min(about.Min.X, p.X), min(about.Min.Y, p.Y))
		about.Max = draw.Pt(max(about.Max.X, p.X), max(about.Max.Y, p.Y))
	}
	return box.Inside(about)
}

// passes tells whether the way from a to b passes through a box: tried every 0.05 mm.
func passes(a, b draw.Point, box draw.Rect) bool {
	n := int(20*math.Hypot(b.X-a.X, b.Y-a.Y)) + 1
	for i := range n + 1 {
		t := float64(i) / float64(n)
		p := draw.Pt(a.X+(b.X-a.X)*t, a.Y+(b.Y-a.Y)*t)
		if (draw.Rect{Min: p, Max: p}).Inside(box) {
			return true
		}
	}
	return false
}
