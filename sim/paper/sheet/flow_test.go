package sheet

import (
	"ruffwright/geom/word"
	"strings"
	"testing"

	"ruffwright/geom/draw"
)

// labels gives the words of a page.
func labels(p *Page) []draw.Label {
	var out []draw.Label
	for _, it := range p.Items {
		if l, ok := it.(draw.Label); ok {
			out = append(out, l)
		}
	}
	return out
}

// TestColumns: text fills one column after the other, then the next page, and keeps
// to the column and to the body.
func TestColumns(t *testing.T) {
	f := NewFlow(word.Language{}, word.Name("long"))
	f.Para(word.Name("first"))
	begin := f.Y
	f.Split(2, 8)
	if f.W != 91 || f.X != 0 || f.Last() {
		t.Fatalf("two columns of 190 mm, 8 mm apart: %g wide at %g", f.W, f.X)
	}
	const lines = 120
	for range lines {
		f.Para(word.Name(strings.Repeat("word ", 9)))
	}
	if len(f.Pages) != 2 {
		t.Fatalf("%d pages", len(f.Pages))
	}
	set := 0
	for n, p := range f.Pages {
		at := map[float64]int{}
		for _, l := range labels(p)[1-n:] {
			at[l.At.X]++
			b, top := l.Box(), begin
			if n > 0 {
				top = BodyTop_mm
			}
			if b.Max.X > l.At.X+f.W || b.Min.Y < top-0.1 || l.At.Y+above*Body > BodyBottom_mm {
				t.Fatalf("page %d: %q at %v in columns %g wide from %g down", n+1, l.Text, b, f.W, top)
			}
			set++
		}
		if len(at) != 2 || at[0] == 0 || at[99] == 0 {
			t.Errorf("page %d: lines at %v, want columns at 0 and 99", n+1, at)
		}
	}
	if set < lines {
		t.Errorf("%d lines of %d", set, lines)
	}
}

// TestTogether: a heading goes to the next page with what must follow it, a box to
// tick with its paragraph, and nothing is skipped at a page's top.
func TestTogether(t *testing.T) {
	for what, set := range map[string]func(*Flow){
		"a heading": func(f *Flow) { f.Head(word.Name("Heading"), 30) },
		"a tick":    func(f *Flow) { f.Tick(word.Name(strings.Repeat("word ", 150))) },
		"a point":   func(f *Flow) { f.Y = BodyBottom_mm - 6; f.Point(word.Name("word")) },
		"a caution": func(f *Flow) { f.Flagged(word.Name(strings.Repeat("word ", 150))) },
		"a form": func(f *Flow) {
			f.Form([]Col{Words(word.Name("a"), 1), Words(word.Name("b"), 1)}, word.Name("1"), word.Name("2"), word.Name("3"))
		},
		"a table": func(f *Flow) {
			f.Y = BodyBottom_mm - 12
			f.Table(Body, []Col{Words(word.Name("a"), 1)}, [][]word.Text{{word.Name("1")}})
		},
		"room needed": func(f *Flow) { f.Need(20.1) },
	} {
		f := NewFlow(word.Language{}, word.Text{})
		f.Y = BodyBottom_mm - 20
		set(f)
		if len(f.Pages) != 2 || len(f.Pages[0].Items) > 0 {
			t.Errorf("%s: %d pages, %d items on the first", what, len(f.Pages), len(f.Pages[0].Items))
		}
	}
	f := NewFlow(word.Language{}, word.Text{})
	f.Skip(5)
	if f.Y != BodyTop_mm {
		t.Errorf("skipped to %g at the top", f.Y)
	}
	f.Need(300) // more than a page has: no page is better
	if len(f.Pages) != 1 {
		t.Error("an empty page was turned")
	}
	f.Y = 100
	f.Skip(5)
	f.Need(BodyBottom_mm - 105)
	if f.Y != 105 || len(f.Pages) != 1 {
		t.Errorf("skipped from 100 to %g", f.Y)
	}
}

// TestIndent: what is set beside a sign keeps off it, and within the column.
func TestIndent(t *testing.T) {
	long := word.Name(strings.Repeat("wordy ", 300))
	for indent, set := range map[float64]func(*Flow){
		5.5: func(f *Flow) { f.Tick(long) }, 3.4: func(f *Flow) { f.Point(long) }, 8: func(f *Flow) { f.Flagged(long) },
	} {
		f := NewFlow(word.Language{}, word.Text{})
		f.Split(2, 10)
		f.Next()
		set(f)
		for _, l := range labels(f.Pages[0]) {
			if b := l.Box(); b.Min.X != 100+indent || b.Max.X > 190 {
				t.Fatalf("%q from %g to %g in a column from 100 to 190", l.Text[:10], b.Min.X, b.Max.X)
			}
		}
	}
}

// TestTable: the head comes again in every column and on every page, no row is lost,
// numbers end at one place, and a cell too wide takes lines of its own.
func TestTable(t *testing.T) {
	f := NewFlow(word.Language{}, word.Text{})
	f.Split(2, 6)
	var rows [][]word.Text
	for range 200 {
		rows = append(rows, []word.Text{word.Name("row"), word.Name(strings.Repeat("7", 1+len(rows)%5))})
	}
	f.Table(Small, []Col{Words(word.Name("head"), 2), Numbers(word.Name("number"), 1)}, rows)
	heads, ends := 0, map[int]int{}
	count := 0
	for _, p := range f.Pages {
		for _, l := range labels(p) {
			switch {
			case l.Text == "head":
				heads++
			case strings.HasPrefix(l.Text, "7"):
				ends[int(l.Box().Max.X*100+0.5)]++
				count++
			}
		}
	}
	if want := 2 * (len(f.Pages) - 1); heads <= want || heads > want+2 || count != len(rows) {
		t.Errorf("%d heads on %d pages, %d of %d rows", heads, len(f.Pages), count, len(rows))
	}
	// Columns of 92 mm at 0 and 98; a number ends 1.4 mm before its column does.
	if len(ends) != 2 || ends[9060] == 0 || ends[18860] == 0 {
		t.Errorf("numbers end at %v hundredths of a mm", ends)
	}
	one, more := NewFlow(word.Language{}, word.Text{}), NewFlow(word.Language{}, word.Text{})
	one.Table(Body, []Col{Numbers(word.Name("n"), 1), Words(word.Text{}, 1)}, [][]word.Text{{word.Name("1"), word.Name("short")}})
	more.Table(Body, []Col{Numbers(word.Name("n"), 1), Words(word.Text{}, 1)}, [][]word.Text{{word.Name("1"), word.Name(strings.Repeat("word ", 25))}})
	if d := more.Y - one.Y; d < 1.9*Body*Leading || d > 2.1*Body*Leading {
		t.Errorf("a cell of three lines makes the table %.2f mm higher", d)
	}
	for _, l := range labels(one.Page) {
		if l.Text == "short" && l.At.X != 95+2.2 {
			t.Errorf("words after numbers begin at %g", l.At.X)
		}
	}
}

// TestForm: every row is high enough to write in, between ruled columns.
func TestForm(t *testing.T) {
	f := NewFlow(word.Language{}, word.Text{})
	f.Form([]Col{Words(word.Name("a"), 1), Words(word.Name("b"), 3)}, word.Name("one"), word.Name("two"))
	upright, level := 0, 0
	for _, it := range f.Page.Items {
		if path, ok := it.(draw.Path); ok {
			a, b := path.Lines[0][0], path.Lines[0][1]
			switch {
			case a.Y == b.Y && a.X == 0 && b.X == Live_mm:
				level++
			case a.X == 47.5 && b.X == 47.5 && b.Y-a.Y > 14:
				upright++
			}
		}
	}
	if level != 3 || upright != 1 {
		t.Errorf("%d lines across, %d between the columns", level, upright)
	}
}
