package sheet

import (
	"bytes"
	"fmt"
	"image/color"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/testdata/frozen"
)

// everything is a few pages with all that the kit sets.
func everything(t testing.TB, u scheme.Units) []*Page {
	t.Helper()
	long := word.Name(strings.Repeat("These **bold words** and ~~slanted ones~~ go on to the next line, ", 4) + "unbroken" + strings.Repeat("-and-on", 40))
	short := word.Name("A line.")
	f := NewFlow(word.English, word.Name("Everything"))
	columns := []Col{Numbers(word.Name("no."), 10), Words(word.Name("what it is"), 40), Words(word.Text{}, 12)}
	rows := make([][]word.Text, 90)
	for i := range rows {
		rows[i] = []word.Text{word.Say("%d", i), word.Name(strings.Repeat("words ", 1+i%12)), word.Text{}}
	}
	set := func() {
		f.Head(short, 20)
		for _, say := range []func(word.Text){f.Para, f.Bold, f.Small, f.Tick, f.Point, f.Flagged} {
			say(long)
			say(short)
		}
		f.Form(columns, short, short, long)
	}
	set()
	f.Skip(3)
	f.Split(3, 5)
	f.Table(Small, columns, rows)
	f.Turn()
	f.Split(2, 8)
	for range 3 {
		set()
	}
	p := f.Page
	p.Cross(10, 20)
	p.Bar(draw.Pt(5, 30), draw.Pt(80, 30))
	p.Measure(draw.Pt(5, 40), draw.Pt(80, 60), short)
	p.Measure(draw.Pt(5, 70), draw.Pt(5, 170), short)
	p.Circle(Medium, 20, 30, 5)
	p.Filled(Fine, Pale, 10, 10, 60, 50)
	for i, from := range []float64{0, 3.7, 250} {
		p.Ruler(5, 80+20*float64(i), from, from+170, u)
		p.RulerBack(5, 140+20*float64(i), 40*float64(i+1), u)
	}
	c := Column{Page: p, X: 120, Y: 30, W: 60}
	c.Head(short)
	c.Flagged(long)
	c.Page.Text(120, c.Y+c.FlaggedHigh(long), Body, draw.Upright, 0, short)
	square, err := NewSquare("rw1-" + strings.Repeat("code", 12))
	if err != nil {
		t.Fatal(err)
	}
	p.Square(square, 100, 100, square.Least())
	frame := Frame{Name: long, About: word.Name("a day"), Units: u, Code: strings.Repeat("code", 80), NoCode: short, Square: square}
	frame.Set(f.Pages)
	return f.Pages
}

// TestFrozen holds the kit to what it was: pages in each unit, tiles, and what is
// written of them as a PDF.
func TestFrozen(t *testing.T) {
	texts := map[string]string{}
	var last Page
	for u := range scheme.Units(3) {
		for i, p := range everything(t, u) {
			texts[fmt.Sprintf("page-%s-%d", u, i)] = fmt.Sprintf("%+v", p.Items)
			last = *p
		}
		text := ""
		for _, long := range []float64{20, 189, 190, 191, 380, 1234.5, 40000} {
			text += fmt.Sprintln(Tiles(long, u))
		}
		texts["tiles-"+u.String()] = text
	}
	for i := range 800 {
		texts["letters"] += JoinLetters(i) + " "
	}
	cloth := draw.Solid{Eye: draw.NewEye(0, 0), Scene: &light.Scene{Sheets: []light.Sheet{{
		Cols: 2, Rows: 2, Tints: make([]light.Tint, 1), V: []geom.Vec3{{X: 2, Z: -2}, {X: 2, Z: -20}, {X: 20, Z: -3}, {X: 9, Z: -30}},
	}}}}
	line := draw.Path{Lines: [][]draw.Point{{draw.Pt(1, 1), draw.Pt(30, 20)}}, Stroke: color.NRGBA{R: 90, A: 200}, Width_mm: 0.3, Dash_mm: []float64{2, 1}}
	name := draw.Label{At: draw.Pt(3, 3), Text: "−1 ≈ é", Size_mm: 4, Face: draw.Italic, Anchor: draw.Pt(0.5, 0.5), Color: color.NRGBA{B: 200, A: 255}}
	last.Pictures = []Picture{
		{At: draw.Pt(10, 20), Drawing: draw.Drawing{Width_mm: 40, Height_mm: 50, Items: []draw.Item{line, cloth, line, name}}},
		{At: draw.Pt(60, 20), Drawing: draw.Drawing{Width_mm: 40, Height_mm: 50, Items: []draw.Item{cloth, name}}},
		{At: draw.Pt(110, 20), Drawing: draw.Drawing{Width_mm: 40, Height_mm: 50, Items: []draw.Item{line, name}}},
	}
	for i, how := range []Print{{Wide_mm: 210, High_mm: 297, StretchX: 1, StretchY: 1}, {Wide_mm: 216, High_mm: 279, StretchX: 1.01, StretchY: 0.98}} {
		how.Title, how.Date = "Everything", time.Unix(0, 0).UTC()
		texts[fmt.Sprintf("pdf-%d", i)] = contentOf(t, last, how)
	}
	frozen.Hold(t, texts)
}

// contentOf is what a page paints in the PDF, by another library, and the sizes of
// its pictures.
func contentOf(t testing.TB, p Page, how Print) string {
	t.Helper()
	var b bytes.Buffer
	if err := WritePDF(&b, []Page{p}, how); err != nil {
		t.Fatal(err)
	}
	api.DisableConfigDir()
	ctx, err := api.ReadValidateAndOptimize(bytes.NewReader(b.Bytes()), model.NewDefaultConfiguration())
	if err != nil {
		t.Fatal(err)
	}
	r, err := pdfcpu.ExtractPageContent(ctx, 1)
	if err != nil {
		t.Fatal(err)
	}
	content, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	pictures, err := pdfcpu.ExtractPageImages(ctx, 1, true)
	if err != nil {
		t.Fatal(err)
	}
	sizes := map[string]bool{}
	for _, q := range pictures {
		sizes[fmt.Sprint(q.Width, q.Height)] = true
	}
	return fmt.Sprint(string(content), sizes)
}
