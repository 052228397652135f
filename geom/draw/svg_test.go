package draw

import (
	"encoding/xml"
	"fmt"
	"strings"
	"testing"
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
