package figure

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/word"
)

// Where each view has each place: there a note about it is marked on the drawing
// itself, at every size and on every ruff, with no label under another; elsewhere
// its words at the foot are all.
func TestNotesAreMarked(t *testing.T) {
	t.Parallel()
	for _, d := range designs() {
		plan, shape := d.make(t)
		for _, sheet := range sheets()[:2] {
			for _, v := range Views {
				for _, where := range wheres {
					opt := sheet.Options
					opt.Plain, opt.Turn_deg, opt.Tilt_deg = true, 28, 26
					opt.Joins_mm = []float64{plan.Row[2].Place_mm}
					opt.Notes = []Note{{where, word.Name("what will be seen at the work table, in a sentence that fills more than a line of the sheet"), SignStop, nil}}
					name := fmt.Sprintf("%s %s %s: %s", v.Name, d.name, sheet.name, where)
					dr, err := v.Draw(plan, shape, opt)
					if err != nil {
						t.Fatalf("%s: %v", name, err)
					}
					n := 0
					for _, l := range dr.Labels() {
						if l.Text == "a" && l.Face == draw.Bold {
							n++
						}
					}
					want := 2 // at the foot, and at the place
					if slices.Contains(v.Lacks, where) {
						want = 1
					}
					if n != want {
						t.Errorf("%s is marked %d times, want %d", name, n-1, want-1)
					}
				}
			}
		}
	}
}

// TestNotesAtMarks: a note about a mark is pointed at that mark, in every view of
// the whole ruff or strip: its dot lies where the mark lies, and elsewhere for
// another mark.
func TestNotesAtMarks(t *testing.T) {
	plan, shape := designs()[0].make(t)
	for _, name := range []string{"above", "hand", "flat", "side"} {
		v := Named(name)
		places := map[int]draw.Point{}
		for _, m := range []int{1, 6, 11} {
			d, err := v.Draw(plan, shape, Options{Tilt_deg: 60, Notes: []Note{{Where: WhereMarks, Text: word.Name("x"), Sign: SignStop, At: []int{m}}}})
			if err != nil {
				t.Fatal(err)
			}
			dots := 0
			for _, it := range d.Items {
				p, ok := it.(draw.Path)
				if !ok || !p.Closed || p.Fill != draw.Light().Madder || len(p.Lines[0]) != 20 { // a dot is a ring of 20 corners
					continue
				}
				dots++
				c := draw.Point{}
				for _, q := range p.Lines[0] {
					c.X, c.Y = c.X+q.X/20, c.Y+q.Y/20
				}
				places[m] = c
			}
			if dots == 0 {
				t.Errorf("%s: mark %d has no dot", v.Name, m)
			}
		}
		if v.Name == "side" { // its section is cut at the very mark
			continue
		}
		for _, pair := range [][2]int{{1, 6}, {6, 11}, {1, 11}} {
			if a, b := places[pair[0]], places[pair[1]]; math.Hypot(a.X-b.X, a.Y-b.Y) < 3 {
				t.Errorf("%s: marks %d and %d are both pointed at (%.0f, %.0f)", v.Name, pair[0], pair[1], a.X, a.Y)
			}
		}
	}
}

// A long note takes two lines at the foot, and its end is left out.
func TestLongNote(t *testing.T) {
	plan, shape := designs()[1].make(t)
	d, err := Named("flat").Draw(plan, shape, Options{Width_mm: 92, Height_mm: 120, Notes: []Note{{WhereStrip, word.Name(strings.Repeat("again ", 60)), SignMend, nil}}})
	if err != nil {
		t.Fatal(err)
	}
	lines := slices.DeleteFunc(d.Labels(), func(l draw.Label) bool { return !strings.HasPrefix(l.Text, "again") })
	if len(lines) != 2 || !strings.HasSuffix(lines[1].Text, "…") {
		t.Fatalf("%v", lines)
	}
	if a, b := lines[0].Box(), lines[1].Box(); a.Min.X != b.Min.X || math.Abs(b.Min.Y-a.Min.Y-draw.TextSize*draw.Leading) > 1e-9 || a.Min.Y < 120 || b.Max.Y > d.Height_mm {
		t.Errorf("its lines lie at %v and %v", a, b)
	}
}

// Of a note about every mark 24 have a dot, and the first has its sign.
func TestManyMarksAreDotted(t *testing.T) {
	plan, shape := designs()[0].make(t)
	var at []int
	for m := range plan.Panels {
		at = append(at, m+1)
	}
	d, err := Named("flat").Draw(plan, shape, Options{Notes: []Note{{Where: WhereMarks, Sign: SignStop, At: at}}})
	if err != nil {
		t.Fatal(err)
	}
	dots := slices.DeleteFunc(d.Items, func(it draw.Item) bool {
		p, ok := it.(draw.Path)
		return !ok || !p.Closed || p.Fill != draw.Light().Madder || len(p.Lines[0]) != 20
	})
	if len(dots) != 25 { // and once more where its sign points
		t.Errorf("%d dots, want 24 and one", len(dots))
	}
	first := dots[0].(draw.Path).Lines[0][0]
	if last := dots[24].(draw.Path).Lines[0][0]; first != last {
		t.Errorf("the sign points at %v, want the first mark, %v", last, first)
	}
}
