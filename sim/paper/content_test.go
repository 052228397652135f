package paper

import (
	"bytes"
	"encoding/xml"
	"errors"
	"math"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
	"ruffwright/geom/draw"
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// said is all the text of the pages of a kind, in order, single-spaced.
func said(pages []Page, kind string) string {
	var b strings.Builder
	for _, p := range pages {
		if p.Sheet != kind {
			continue
		}
		for _, it := range p.Items {
			if l, ok := it.(draw.Label); ok {
				b.WriteString(l.Text + " ")
			}
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// TestCautions: every caution stands whole on the sheet of each of its steps, at a
// neck and at a wrist; flame comes first and stands on the first sheet always.
func TestCautions(t *testing.T) {
	on := map[Step]string{
		StepCloth: "cutting", StepSew: "order", StepBand: "order", StepCook: "starch", StepDry: "starch",
		StepSet: "starch", StepColour: "starch", StepWear: "wear", StepKeep: "wear",
	}
	for _, c := range cases()[:2] {
		in := input(t, c.set, c.u)
		pages, err := Pages(in)
		if err != nil {
			t.Fatal(err)
		}
		all := Cautions(in.Ruff.Plan.Scheme.Wearer.Part)
		if all[0].ID != "flame" {
			t.Errorf("%s: the first caution is %s", c.name, all[0].ID)
		}
		for _, k := range all {
			if len(k.Steps) == 0 {
				t.Errorf("%s stands at no step", k.ID)
			}
			for _, step := range k.Steps {
				if text := said(pages, on[step]); !strings.Contains(text, k.Text) || !strings.Contains(text, "Caution: "+k.Title+".") {
					t.Errorf("%s: caution %s is not on sheet %s", c.name, k.ID, on[step])
				}
			}
		}
		for _, kind := range []string{"start", "order", "wear"} {
			if !strings.Contains(said(pages, kind), all[0].Text) {
				t.Errorf("%s: no flame caution on sheet %s", c.name, kind)
			}
		}
		if !strings.Contains(said(pages, "band"), all[1].Text) {
			t.Errorf("%s: the band's pattern does not warn of a tight band", c.name)
		}
		if !strings.Contains(said(pages, "start"), "local rules say more") {
			t.Error("the first sheet does not defer to local rules")
		}
	}
}

// TestContents: what must be said is said, from the figures of this ruff.
func TestContents(t *testing.T) {
	c := cases()[2]
	in := input(t, c.set, c.u)
	pages, err := Pages(in)
	if err != nil {
		t.Fatal(err)
	}
	s := in.Ruff.Plan.Scheme
	for i, p := range pages {
		text := ""
		for _, it := range p.Items {
			if l, ok := it.(draw.Label); ok {
				text += l.Text + "\n"
			}
		}
		for _, want := range []string{"sheet " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(pages)), s.Name, "4 May 2026", "lengths in inches", p.Title} {
			if !strings.Contains(text, want) {
				t.Errorf("sheet %d does not say %q", i+1, want)
			}
		}
		if joined := strings.ReplaceAll(text, "\n", ""); !strings.Contains(joined, s.Code()) {
			t.Errorf("sheet %d does not carry the share code", i+1)
		}
		if p.Holds == "" && p.Sheet != "marks" && p.Number > 1 && pages[i-1].Sheet != p.Sheet {
			t.Errorf("sheet %d, %s, does not say what it holds", i+1, p.Title)
		}
	}
	for _, c := range cases() {
		in := input(t, c.set, c.u)
		pages, err := Pages(in)
		if err != nil {
			t.Fatal(err)
		}
		everyMark(t, in, pages)
	}
	long := input(t, extremes()["longest"], scheme.Millimetres) // five figures and a half
	if pages, err := Pages(long); err != nil {
		t.Fatal(err)
	} else {
		everyMark(t, long, pages)
	}
	// Findings, word for word.
	for _, f := range in.Findings {
		if !strings.Contains(said(pages, "record"), f.Sentence) {
			t.Errorf("finding %s is not on the record sheet", f.ID)
		}
	}
	// Not solved: says so and how to get it; with a need: the target.
	in = input(t, cases()[0].set, scheme.Centimetres)
	pages, _ = Pages(in)
	if text := said(pages, "starch"); !strings.Contains(text, "Not solved yet.") || !strings.Contains(text, "ruffwright need") {
		t.Error("the starch card does not say that nothing is solved and how to solve it")
	}
	in.Need = &Need{Bend_mm: 62, Droop_mm: 1.2, Bow_mm: 1.8}
	pages, _ = Pages(in)
	for _, want := range []string{"hangs over by 12.4 cm", "droops by 1.2 mm and moves by 1.8 mm"} {
		if !strings.Contains(said(pages, "starch"), want) {
			t.Errorf("the starch card does not say %q", want)
		}
	}
	if !strings.Contains(said(pages, "swatch"), "target 12.4 cm") {
		t.Error("the swatch card has no target")
	}
}

// everyMark finds each row of the table of marks, in order, with its tuck.
func everyMark(t *testing.T, in Input, pages []Page) {
	t.Helper()
	table := in.Pattern.Marks(in.Units)
	text := said(pages, "marks")
	at := 0
	for _, r := range table.Rows {
		if r.Mark < 0 {
			continue
		}
		want := strconv.Itoa(r.Set) + " " + markName(r.Fold) + " " + table.Text(r.Place) + " " + table.Text(r.TuckA) + " " + table.Text(r.TuckB)
		n := strings.Index(text[at:], want)
		if n < 0 {
			t.Fatalf("the table lacks %q", want)
		}
		at += n
	}
}

// extremes are schemes at the ends of what is allowed, where layouts break.
func extremes() map[string][]string {
	var own []string
	for i := range 40 {
		fold, sewn := "trough", "bottom"
		if i%2 == 1 {
			fold, sewn = "crest", "top"
		}
		own = append(own, strconv.FormatFloat(float64(i)*31.7+float64(i%3), 'f', -1, 64)+" "+fold+" "+sewn)
	}
	return map[string][]string{
		"tallest band": {"band.height", "80", "band.seam", "30", "band.closure", "ties", "ruff.height", "90"},
		"lowest band":  {"band.height", "5", "band.seam", "0", "band.overlap", "0", "ruff.height", "10", "pleat.tuck_top", "0", "pleat.tuck_bottom", "0", "band.closure", "buttons"},
		"fewest sets":  {"ruff.sets", "8", "pleat.panel", "60"},
		"most sets":    {"ruff.sets", "400", "pleat.panel", "5", "pleat.tuck_top", "0", "pleat.tuck_bottom", "0", "ruff.height", "5", "band.height", "5"},
		"longest":      {"ruff.sets", "400", "pleat.panel", "100", "ruff.depth", "250"},
		"wide name":    {"name", strings.Repeat("W", 80)},
		"odd name":     {"name", "Ægir’s (ruff) \\ 襞襟 🎭 <&>"},
		"own marks":    {"pleat.marks", strings.Join(own, "; ")},
		"top edge":     {"pleat.anchor", "top", "pleat.tuck_top", "0"},
		"at hand":      {"strip.have", "2000", "band.length", "430"},
		"warp":         {"strip.along", "warp", "support.kind", "supporter", "starch.bath", "0", "starch.bend", "240"},
		"two lines":    {"pleat.lines", "2", "ruff.flaps", "stand", "strip.hem", "0", "strip.takeup", "0", "strip.join", "0"},
		"small wrist":  {"wearer.part", "wrist", "wearer.girth", "130", "ruff.sets", "20", "ruff.depth", "20", "ruff.height", "15", "pleat.tuck_top", "1", "pleat.tuck_bottom", "1", "band.height", "12"},
	}
}

// TestExtremes: sheets of every extreme scheme stay in the live area, no words lie
// on other words, and tapes and band cover what they must.
func TestExtremes(t *testing.T) {
	for name, set := range extremes() {
		for _, u := range []scheme.Units{scheme.Millimetres, scheme.Inches} {
			if runtime.GOOS == "js" && u == scheme.Inches {
				continue // natively
			}
			t.Run(name+"/"+u.String(), func(t *testing.T) {
				s := scheme.Default()
				for i := 0; i < len(set); i += 2 {
					if err := s.Set(set[i], set[i+1]); err != nil {
						t.Fatal(err)
					}
				}
				if err := s.Validate(); err != nil {
					t.Fatal(err)
				}
				in := input(t, set, u)
				pages, err := Pages(in)
				if err != nil {
					t.Fatal(err)
				}
				inside(t, pages)
			})
		}
	}
	for _, c := range cases() {
		pages, err := Pages(input(t, c.set, c.u))
		if err != nil {
			t.Fatal(err)
		}
		inside(t, pages)
	}
}

// inside holds pages to the live area and their words apart.
func inside(t *testing.T, pages []Page) {
	t.Helper()
	for _, p := range pages {
		var words []draw.Label
		for _, it := range p.Items {
			switch it := it.(type) {
			case draw.Path:
				for _, l := range it.Lines {
					for _, q := range l {
						if d := outside(q.X, q.Y, q.X, q.Y); !(d < 0.01) {
							t.Fatalf("sheet %d %s: a line reaches %.2f mm out at %.1f, %.1f", p.Number, p.Title, d, q.X, q.Y)
						}
					}
				}
			case draw.Label:
				b := it.Box()
				if d := outside(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y); !(d < 0.3) {
					t.Errorf("sheet %d %s: %q reaches %.2f mm out", p.Number, p.Title, it.Text, d)
				}
				words = append(words, it)
			}
		}
		for i, a := range words {
			for _, b := range words[:i] {
				// Letters take the middle of their line: a quarter of it above and below is air.
				x, y := a.Box(), b.Box()
				x.Min.Y, x.Max.Y = x.Min.Y+0.2*a.Size_mm, x.Max.Y-0.25*a.Size_mm
				y.Min.Y, y.Max.Y = y.Min.Y+0.2*b.Size_mm, y.Max.Y-0.25*b.Size_mm
				x.Min.X, x.Max.X = x.Min.X+0.02, x.Max.X-0.02
				if x.Overlaps(y) {
					t.Errorf("sheet %d %s: %q lies on %q", p.Number, p.Title, a.Text, b.Text)
				}
			}
		}
	}
}

// TestBadInput: what does not hold together is refused with the field's name.
func TestBadInput(t *testing.T) {
	good := input(t, nil, scheme.Millimetres)
	other := input(t, []string{"ruff.sets", "44"}, scheme.Millimetres)
	for field, spoil := range map[string]func(*Input){
		"ruff":          func(in *Input) { in.Ruff = sim.Ruff{} },
		"pattern":       func(in *Input) { in.Pattern = other.Pattern },
		"units":         func(in *Input) { in.Units = 9 },
		"paper":         func(in *Input) { in.Paper = 7 },
		"date":          func(in *Input) { in.Date = time.Time{} },
		"need.bend":     func(in *Input) { in.Need = &Need{Bend_mm: math.NaN()} },
		"need.overhang": func(in *Input) { in.Need = &Need{Bend_mm: 50, Overhang_mm: -1} },
		"printer.wide":  func(in *Input) { in.Printer.Wide_mm = 94.9 },
		"printer.high":  func(in *Input) { in.Printer.High_mm = 105.1 },
		"address":       func(in *Input) { in.Address = strings.Repeat("x", 4000) },
	} {
		in := good
		spoil(&in)
		var e scheme.Error
		if err := Sheets(in, &bytes.Buffer{}); !errors.As(err, &e) || e.Field != field || e.Allowed.Empty() {
			t.Errorf("%s: %v", field, err)
		}
	}
	if _, err := Pieces(Input{}); err == nil {
		t.Error("pieces of nothing")
	}
	if p, err := ParsePaper("letter"); err != nil || p != Letter {
		t.Errorf("letter: %v, %v", p, err)
	}
	if _, err := ParsePaper("foolscap"); err == nil {
		t.Error("foolscap was taken")
	}
}

// TestPieces: a plotter's pieces have the washed sizes, make the strip, and carry
// every mark.
func TestPieces(t *testing.T) {
	type group struct {
		ID    string `xml:"id,attr"`
		Paths []struct {
			D string `xml:"d,attr"`
		} `xml:"path"`
	}
	for _, c := range cases() {
		in := input(t, c.set, c.u)
		pieces, err := Pieces(in)
		if err != nil {
			t.Fatal(err)
		}
		sum, strips, marks := 0.0, 0, 0
		for _, p := range pieces {
			var s struct {
				Width   string  `xml:"width,attr"`
				Height  string  `xml:"height,attr"`
				ViewBox string  `xml:"viewBox,attr"`
				Groups  []group `xml:"g"`
			}
			if err := xml.Unmarshal(p.SVG, &s); err != nil {
				t.Fatalf("%s: %v", p.Name, err)
			}
			if s.Width != mm(p.Wide_mm)+"mm" || s.Height != mm(p.High_mm)+"mm" || s.ViewBox != "0 0 "+mm(p.Wide_mm)+" "+mm(p.High_mm) {
				t.Errorf("%s: %s × %s, viewBox %s", p.Name, s.Width, s.Height, s.ViewBox)
			}
			if len(s.Groups) != 5 || s.Groups[0].ID != "cut" || len(s.Groups[0].Paths) != 1 {
				t.Errorf("%s: no single cut line", p.Name)
			}
			if strings.HasPrefix(p.Name, "strip ") {
				sum += p.Wide_mm
				strips++
				marks += len(s.Groups[3].Paths)
			}
		}
		st := in.Pattern.Strip
		want := st.Length_mm
		for _, j := range in.Pattern.Cut.Joins {
			want += j.Consumes_mm
		}
		if strips != len(in.Pattern.Cut.Pieces) || math.Abs(sum-want) > 1e-6 {
			t.Errorf("%s: %d strips of %.3f mm, want %d of %.3f", c.name, strips, sum, len(in.Pattern.Cut.Pieces), want)
		}
		if marks < len(in.Ruff.Plan.Row) {
			t.Errorf("%s: %d mark lines for %d marks", c.name, marks, len(in.Ruff.Plan.Row))
		}
	}
	if got := escape("a<b>&\"c\x00"); got != "a&lt;b&gt;&amp;&quot;c " {
		t.Errorf("escaped: %q", got)
	}
}

// TestTiles: tiles begin at whole steps, overlap by 10 mm or 3/8 in, and end at the end.
func TestTiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(1, 60000).Draw(t, "length")
		units := rapid.SampledFrom([]scheme.Units{scheme.Millimetres, scheme.Inches}).Draw(t, "units")
		step, overlap_mm := 180.0, 10.0
		if units == scheme.Inches {
			step, overlap_mm = 177.8, 9.525
		}
		all := tiles(length, units)
		for i, x := range all {
			if x.From_mm != float64(i)*step || x.To_mm-x.From_mm > step+overlap_mm+1e-9 || x.To_mm <= x.From_mm {
				t.Fatalf("tile %d: %+v", i, x)
			}
			if i > 0 && math.Abs(all[i-1].To_mm-x.From_mm-overlap_mm) > 1e-9 {
				t.Fatalf("tile %d overlaps by %g", i, all[i-1].To_mm-x.From_mm)
			}
		}
		if all[len(all)-1].To_mm != length {
			t.Fatalf("ends at %g, want %g", all[len(all)-1].To_mm, length)
		}
	})
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := joinLetters(i); got != want {
			t.Errorf("join %d: %s, want %s", i, got, want)
		}
	}
}

// TestLengths: what is written can be read back by the scheme's own reader, within
// half a step of the exact length, in every unit.
func TestLengths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom([]scheme.Units{scheme.Millimetres, scheme.Centimetres, scheme.Inches}).Draw(t, "unit")
		x := rapid.Float64Range(0, 999).Draw(t, "mm")
		j := job{Input: Input{Units: u}}
		back, err := scheme.ParseLength(j.len(x), scheme.Millimetres)
		half := 0.25
		if u == scheme.Inches {
			half = 25.4 / 64
			if x > 12.5 {
				half = 25.4 / 32 // as a tape measure shows it
			}
		}
		if err != nil || math.Abs(back-x) > half+1e-9 {
			t.Fatalf("%g mm is written %q, read %g, %v", x, j.len(x), back, err)
		}
	})
	j := job{Input: Input{Units: scheme.Millimetres}}
	for x, want := range map[float64]string{1260: "1260 mm", 0: "0 mm", -0.5: "−0.5 mm", 1234567.6: "1234567.5 mm", -1500: "−1500 mm"} {
		if got := j.len(x); got != want {
			t.Errorf("%g: %q, want %q", x, got, want)
		}
	}
	if got := j.len(math.NaN()); got != "– mm" {
		t.Errorf("NaN: %q", got)
	}
	for n, want := range map[int]string{0: "0", 1: "1/32", 16: "1/2", 48: "1 1/2", 63: "1 31/32", 64: "2"} {
		if got := thirtySeconds(n); got != want {
			t.Errorf("%d/32: %q, want %q", n, got, want)
		}
	}
	for n, want := range map[int]string{1: "1/8 yd", 8: "1 yd", 11: "1 3/8 yd"} {
		if got := yards(n); got != want {
			t.Errorf("%d eighths: %q, want %q", n, got, want)
		}
	}
	for _, c := range []struct {
		r    pattern.Range
		want string
	}{{pattern.Range{Least: 0.2, Most: 0.7}, "10 to 40 min"}, {pattern.Range{Least: 3.2, Most: 8.6}, "3 to 8.5 h"}, {pattern.Range{Least: 11.6, Most: 30.2}, "12 to 30 h"}, {pattern.Range{}, "–"}} {
		if got := hours(c.r); got != c.want {
			t.Errorf("%v: %q, want %q", c.r, got, c.want)
		}
	}
}

// TestPrintable: no letter reaches the PDF that its fonts do not have.
func TestPrintable(t *testing.T) {
	for in, want := range map[string]string{"plain": "plain", "Ægir’s ÷ ½ °": "Ægir’s ÷ ½ °", "襞🎭": "??", "a\x00b\n": "ab"} {
		if got := printable(in, draw.Italic); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
	in := input(t, []string{"name", "襞襟 🎭 (odd) \\name"}, scheme.Millimetres)
	sheets, _ := readPDF(t, pdfOf(t, in))
	found := false
	for _, w := range sheets[1].words {
		found = found || w.text == "?? ? (odd) \\name"
	}
	if !found {
		t.Error("the odd name is not on sheet 2 as it can be printed")
	}
	if got := Unprinted("襞襟 🎭 (odd) ? Ægir"); got != "襞襟🎭" {
		t.Errorf("not printed: %q", got)
	}
	var first []string
	for _, w := range sheets[0].words {
		first = append(first, w.text)
	}
	if !strings.Contains(strings.Join(first, " "), "fonts lack the letters of the name") {
		t.Errorf("sheet 1 does not say why the name is odd: %q", first)
	}
	for _, face := range []draw.Face{draw.Upright, draw.Italic, draw.Bold} {
		for _, p := range []string{"·", "–", "−", "×", "÷", "°", "²", "½", "…", "’"} {
			if printable(p, face) != p {
				t.Errorf("face %d has no %q, which the sheets use", face, p)
			}
		}
	}
}

// BenchmarkSheets makes all sheets of a ruff of 200 sets.
func BenchmarkSheets(b *testing.B) {
	in := input(b, cases()[2].set, scheme.Inches)
	b.ReportAllocs()
	for b.Loop() {
		var w bytes.Buffer
		if err := Sheets(in, &w); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(w.Len())/1024, "KiB")
	}
}

// BenchmarkPages lays them out without writing.
func BenchmarkPages(b *testing.B) {
	in := input(b, cases()[2].set, scheme.Inches)
	for b.Loop() {
		if _, err := Pages(in); err != nil {
			b.Fatal(err)
		}
	}
}

// TestLayoutMakesRoom: where a few lines would need a sheet of their own, the
// layout gets smaller instead, never too small to read.
func TestLayoutMakesRoom(t *testing.T) {
	j, err := newJob(input(t, []string{
		"ruff.sets", "200", "pleat.panel", "20", "ruff.depth", "60", "ruff.height", "16", "band.height", "17",
		"pleat.tuck_top", "0", "pleat.tuck_bottom", "0", "wearer.girth", "420", "strip.bolt", "1500",
	}, scheme.Millimetres))
	if err != nil {
		t.Fatal(err)
	}
	if n := len(j.cut(0).pages); n != 2 {
		t.Fatalf("the layout at its full size takes %d sheets: nothing is tried here", n)
	}
	pages, err := j.cutting()
	if err != nil || len(pages) != 1 {
		t.Errorf("%d sheets, %v", len(pages), err)
	}
}
