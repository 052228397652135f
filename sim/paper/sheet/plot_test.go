package sheet

import (
	"encoding/xml"
	"ruffwright/geom/draw"
	"ruffwright/geom/word"
	"strings"
	"testing"
)

// TestPlot: the outline is as large as the piece, one unit is one mm, and every
// number can be read: a hyphen stands for a minus.
func TestPlot(t *testing.T) {
	d := &Plot{Name: word.Name("a <piece>"), About: word.Name("of \"cloth\" & thread\x00"), Wide_mm: 120.5, High_mm: 40}
	d.Fold(draw.Pt(0, 10), draw.Pt(120.5, 10))
	d.Sew(draw.Pt(-0.0001, 5), draw.Pt(3, 5.1234))
	d.Mark(draw.Pt(1, 0), draw.Pt(1, 4))
	d.Mark(draw.Pt(2, 0), draw.Pt(2, 4))
	d.Say(0, 20, 5, 0.5, word.Name(strings.Repeat("a name wider than its piece ", 9)))
	var svg struct {
		Width   string `xml:"width,attr"`
		ViewBox string `xml:"viewBox,attr"`
		Title   string `xml:"title"`
		Desc    string `xml:"desc"`
		Groups  []struct {
			ID    string `xml:"id,attr"`
			Dash  string `xml:"stroke-dasharray,attr"`
			Paths []struct {
				D string `xml:"d,attr"`
			} `xml:"path"`
			Text []struct {
				X float64 `xml:"x,attr"`
			} `xml:"text"`
		} `xml:"g"`
	}
	if err := xml.Unmarshal(d.SVG(), &svg); err != nil {
		t.Fatal(err)
	}
	if svg.Width != "120.5mm" || svg.ViewBox != "0 0 120.5 40" || svg.Title != "a <piece>" || svg.Desc != "of \"cloth\" & thread" {
		t.Errorf("%+v", svg)
	}
	want := map[string][]string{"cut": {"M0 0L120.5 0L120.5 40L0 40Z"}, "fold": {"M0 10L120.5 10"}, "sew": {"M0 5L3 5.123"}, "mark": {"M1 0L1 4", "M2 0L2 4"}}
	for _, g := range svg.Groups {
		if len(g.Paths) != len(want[g.ID]) || (g.Dash != "") != (g.ID == "fold" || g.ID == "sew") {
			t.Errorf("group %s: %+v", g.ID, g)
			continue
		}
		for i, p := range g.Paths {
			if p.D != want[g.ID][i] {
				t.Errorf("group %s: %q, want %q", g.ID, p.D, want[g.ID][i])
			}
		}
	}
	if last := svg.Groups[len(svg.Groups)-1]; last.ID != "text" || len(last.Text) != 1 || !(last.Text[0].X < -100) {
		t.Errorf("the name: %+v", last)
	}
}
