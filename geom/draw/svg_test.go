package draw

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"

	"ruffwright/geom/light"
)

// A label's text comes back from the SVG as it was, and stands on the baseline of
// its box: 0.77 of its size below the box's top.
func TestSVGLabel(t *testing.T) {
	l := Label{At: Pt(20, 30), Text: `a & b < "c" > 'd'`, Size_mm: 4, Anchor: Pt(0, 0.5), Color: Light().Ink}
	d := Drawing{Width_mm: 100, Height_mm: 60, Title: "x", Items: []Item{l}}
	var read struct {
		G struct {
			Text struct {
				Y    string `xml:"y,attr"`
				Text string `xml:",chardata"`
			} `xml:"text"`
		} `xml:"g"`
	}
	if err := xml.Unmarshal(d.SVG(), &read); err != nil {
		t.Fatal(err)
	}
	if got := read.G.Text.Text; got != l.Text {
		t.Errorf("the text is %q, want %q", got, l.Text)
	}
	if got, want := read.G.Text.Y, fmt.Sprint(28+0.77*4); !strings.HasPrefix(want, got) {
		t.Errorf("its baseline lies at %s, want %s", got, want)
	}
}

// Paths as they are written: what is filled, what is stroked, in what strength.
func TestSVGPath(t *testing.T) {
	line, half := [][]Point{{{1, 2}, {3.5, 4}}}, color.NRGBA{255, 0, 16, 51}
	for _, c := range []struct {
		p    Path
		want string
	}{
		{Path{Lines: line, Closed: true, Fill: half}, `d="M1 2L3.5 4Z" fill="#ff0010" fill-opacity="0.2"/>`},
		{Path{Lines: line, Fill: half}, `d="M1 2L3.5 4" fill="none"/>`},
		{Path{Lines: line, Closed: true, Stroke: rgb(1), Width_mm: 0.5}, `d="M1 2L3.5 4Z" fill="none" stroke="#000001" stroke-width="0.5"/>`},
		{Path{Lines: line, Stroke: rgb(1)}, `d="M1 2L3.5 4" fill="none"/>`},
		{Path{Lines: line, Width_mm: 1}, `d="M1 2L3.5 4" fill="none"/>`},
	} {
		var b bytes.Buffer
		if svgPath(&b, c.p); b.String() != "<path "+c.want+"\n" {
			t.Errorf("%+v is written as %s, want %s", c.p, b.String(), c.want)
		}
	}
}

// A solid is a picture of 5.5 px/mm that covers the place it may take, its corner at a
// pixel of the sheet's: from 10 to 30 mm its pixels 55 to 165, from 20 to 26 mm 110 to
// 143. Its lines are paths.
func TestSVGSolid(t *testing.T) {
	s := board(rgb(0x808080), Rect{Point{12, 21}, Point{28, 25}})
	s.Scene.Sheets[0].Hem_mm[light.FirstRow], s.Clip = 0.3, Rect{Point{10, 20}, Point{30, 26}}
	d := Drawing{Width_mm: 100, Height_mm: 60, Items: []Item{s}}
	svg := string(d.SVG())
	_, after, _ := strings.Cut(svg, "<g class=\"solid\">\n<image ")
	place, picture, _ := strings.Cut(after, ` href="data:image/png;base64,`)
	if want := `x="10" y="20" width="20" height="6"`; place != want {
		t.Errorf("it lies at %s, want %s", place, want)
	}
	picture, paths, _ := strings.Cut(picture, `"`)
	img, err := png.Decode(base64.NewDecoder(base64.StdEncoding, strings.NewReader(picture)))
	if err != nil || img.Bounds().Dx() != 110 || img.Bounds().Dy() != 33 {
		t.Errorf("the picture: %v, %v", img, err)
	}
	paths, _, closed := strings.Cut(paths, "</g>")
	if n := strings.Count(paths, "<path "); n != 1 || !closed || !strings.Contains(paths, `stroke-width="0.3"`) {
		t.Errorf("%d paths, want its hem: %s", n, paths)
	}
	for _, beyond := range []Rect{{Point{-9, 20}, Point{-1, 26}}, {Point{10, 61}, Point{30, 66}}} {
		s.Clip = beyond
		d.Items[0] = s
		if strings.Contains(string(d.SVG()), "<image") {
			t.Errorf("what lies beyond the sheet is painted: %v", beyond)
		}
	}
}

// What XML forbids is left out, what ends a line is a blank, and no number is NaN.
func TestSVGOddities(t *testing.T) {
	if got, want := Escape("a\x01b\uFFFDc\uFFFEd\uFFFFe\x7Ff\tg\nh\ri j~\u00e9"), "abcdef g h i j~\u00e9"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	for x, want := range map[float64]string{math.NaN(): "0", math.Inf(1): "0", math.Inf(-1): "0", -0.0001: "0", -12.3456: "-12.346", 1000: "1000"} {
		if got := Number(x); got != want {
			t.Errorf("%g is written %s, want %s", x, got, want)
		}
	}
}
