package paper

import (
	"strconv"
	"strings"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/paper/sheet"
)

// said is all the text of the pages of a kind, in order, single-spaced.
func said(pages []sheet.Page, kind string) string {
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
		for _, want := range []string{"sheet " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(pages)), s.Name, "4 May 2026", "lengths in inches", p.Title.String()} {
			if !strings.Contains(text, want) {
				t.Errorf("sheet %d does not say %q", i+1, want)
			}
		}
		if joined := strings.ReplaceAll(text, "\n", ""); !strings.Contains(joined, s.Code()) {
			t.Errorf("sheet %d does not carry the share code", i+1)
		}
		if p.Holds.Empty() && p.Sheet != "marks" && p.Number > 1 && pages[i-1].Sheet != p.Sheet {
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
		if !strings.Contains(said(pages, "record"), f.Sentence.String()) {
			t.Errorf("finding %s is not on the record sheet", f.ID)
		}
	}
	// Not solved: says so and how to get it; with a need: the target.
	in = input(t, cases()[0].set, scheme.Centimetres)
	pages, _ = Pages(in)
	if text := said(pages, "starch"); !strings.Contains(text, "Not solved yet.") || !strings.Contains(text, "ruffwright need") {
		t.Error("the starch card does not say that nothing is solved and how to solve it")
	}
	in.Need = &sim.Needed{Bend_mm: 62, Droop_mm: 1.2, Bow_mm: 1.8}
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
func everyMark(t *testing.T, in Input, pages []sheet.Page) {
	t.Helper()
	table := in.Pattern.Marks(in.Units)
	text := said(pages, "marks")
	at := 0
	for _, r := range table.Rows {
		if r.Mark < 0 {
			continue
		}
		want := strconv.Itoa(r.Set) + " " + markName[r.Fold].String() + " " + table.Text(r.Place) + " " + table.Text(r.TuckA) + " " + table.Text(r.TuckB)
		n := strings.Index(text[at:], want)
		if n < 0 {
			t.Fatalf("the table lacks %q", want)
		}
		at += n
	}
}

// TestOddName: letters that the fonts lack are printed as question marks, and the
// first sheet says why.
func TestOddName(t *testing.T) {
	in := input(t, []string{"name", "襞襟 🎭 (odd) \\name"}, scheme.Millimetres)
	sheets, _ := readPDF(t, pdfOf(t, in))
	found := false
	for _, w := range sheets[1].words {
		found = found || w.text == "?? ? (odd) \\name"
	}
	if !found {
		t.Error("the odd name is not on sheet 2 as it can be printed")
	}
	var first []string
	for _, w := range sheets[0].words {
		first = append(first, w.text)
	}
	if !strings.Contains(strings.Join(first, " "), "fonts lack the letters of the name") {
		t.Errorf("sheet 1 does not say why the name is odd: %q", first)
	}
}

// TestMeasured: what a picture told stands on the record sheet, and only there.
func TestMeasured(t *testing.T) {
	const told = "depth 62 (55–70) mm"
	for _, set := range [][]string{nil, {"look.measured", told}} {
		pages, err := Pages(input(t, set, scheme.Millimetres))
		if err != nil {
			t.Fatal(err)
		}
		if has := strings.Contains(said(pages, "record"), "Measured on a picture: "+told+"."); has != (set != nil) {
			t.Errorf("measured %q, and the record says so: %t", set, has)
		}
	}
}
