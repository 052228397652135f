//go:build !js

package dom

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"strings"
	"testing"

	"ruffwright/wasm/doc"
	"ruffwright/wasm/opening"
)

// paint opens a portrait of 1,400 × 1,200 px on the easel, on a pad of half its size, and
// places points on it: a face, an edge, a depth and a run of sets.
func paint(d *Document) {
	d.Send(10, doc.Do, "easel", "open")
	d.Send(10, doc.Easel, "size", "700 600 1")
	d.Send(10, doc.Easel, "chosen", "12345 falconer.png")
	var file bytes.Buffer
	if err := png.Encode(&file, image.NewGray(image.Rect(0, 0, 1400, 1200))); err != nil {
		panic(err)
	}
	head, _ := opening.Open(file.Bytes())
	d.Send(10, doc.Easel, "said", head)
	for tool, points := range map[string][][2]float64{
		"face_height": {{700, 355}, {700, 644}}, "depth": {{891, 939}, {1055, 963}}, "sets": {{975, 1030}, {447, 1011}},
		"edge": {{1034, 882}, {1060, 934}, {1041, 985}, {982, 1026}, {882, 1059}, {756, 1068}, {624, 1058}, {500, 1031}, {406, 987}, {351, 938}},
	} {
		d.Send(10, doc.Do, "easel", "tool "+tool)
		for _, p := range points {
			at := fmt.Sprintf("1 %g %g", p[0]/2, p[1]/2)
			d.Send(10, doc.Easel, "down", at)
			d.Send(10, doc.Easel, "up", at)
		}
	}
	for n := 1; n <= 16; n++ { // whichever of them the run of sets is
		d.Send(10, doc.Set, fmt.Sprintf("easel.count-%d", n), "10")
	}
}

// TestEasel: a portrait is opened and measured, its numbers are taken into the scheme as one
// step, and what is typed afterwards holds, with the measured word beside it; closing has the
// document forget both pictures.
func TestEasel(t *testing.T) {
	d, p := visit(t, "a", &Storage{}, "")
	before := p.Scheme()
	if len(d.Easel) > 0 {
		t.Errorf("before anybody asks: %v", d.Easel)
	}
	paint(d)
	if _, hidden := d.Attr["to-easel"]["hidden"]; hidden || d.Focus != "easel-canvas" || !strings.Contains(d.Text["easel-stands"], "falconer.png: 1400 × 1200 pixels") {
		t.Errorf("opened: %s, the focus on %s", d.Text["easel-stands"], d.Focus)
	}
	said := d.Words("easel-told")
	for _, words := range []string{"Depth: 69 mm, likely 59 mm to 82 mm", "Sets all the way round: 41"} {
		if !strings.Contains(said, words) {
			t.Fatalf("it never says %q: %s", words, said)
		}
	}
	d.Send(10, doc.Set, "look.depth_ratio", "0.5")
	d.Send(10, doc.Set, "wearer.face", "118") // the wearer's own: the interval is narrower
	if now := d.Words("easel-told"); now == said || !strings.Contains(now, "as measured") {
		t.Errorf("with the wearer's face: %s", now)
	}
	d.Send(10, doc.Do, "easel", "take")
	s := p.Scheme()
	if s.Ruff.Sets != 41 || s.Ruff.Depth < 69 || s.Ruff.Depth > 70 || s.Look.DepthRatio != 0 {
		t.Errorf("taken: %d sets, depth %g, ratio %g", s.Ruff.Sets, s.Ruff.Depth, s.Look.DepthRatio)
	}
	if s.Look.Measured != "depth 70 (62–77) mm, sets 41 (39–43)" {
		t.Errorf("for the record: %q", s.Look.Measured)
	}
	d.Send(10, doc.Do, "easel", "low")
	if d.Focus != "to-compare" || !strings.Contains(d.Words("compare"), "Depth") && !strings.Contains(d.Words("compare"), "depth") {
		t.Errorf("the low ends beside it: %q", d.Words("compare"))
	}
	measured := s.Ruff.Depth
	d.Send(10, doc.Set, "ruff.depth", "61")
	if got := d.Words("f-ruff-depth-measured"); !strings.Contains(got, fmt.Sprintf("%g mm as measured", measured)) || !strings.Contains(got, "Take it again") {
		t.Errorf("beside the typed depth: %q", got)
	}
	d.Send(10, doc.Do, "easel", "again ruff.depth")
	if p.Scheme().Ruff.Depth != measured || !strings.Contains(d.Words("f-ruff-depth-measured"), "61 mm as typed") {
		t.Errorf("taken again: %g, %q", p.Scheme().Ruff.Depth, d.Words("f-ruff-depth-measured"))
	}
	for range 6 {
		d.Send(10, doc.Do, "undo", "")
	}
	if got := p.Scheme().Code(); got != before.Code() {
		t.Error("six steps back it is not the ruff of before")
	}
	d.Send(10, doc.Do, "easel", "take")
	if d.Send(10, doc.Do, "demo", "floppy"); len(d.Children["f-ruff-depth-measured"]) > 0 {
		t.Errorf("beside another ruff's depth: %q", d.Words("f-ruff-depth-measured"))
	}
	d.Easel = nil
	d.Send(10, doc.Do, "easel", "lay")
	d.Send(10, doc.Easel, "painted", `{"Alive":true}`)
	d.Send(10, doc.Typing, "easel.faint", "35")
	var laid []string
	for _, patch := range d.Easel {
		laid = append(laid, patch.Name)
		if patch.Name == "paint ask" && len(patch.Body) < 1000 || patch.Name == "fade" && patch.Value != "0.35" {
			t.Errorf("%s: %s, %d bytes", patch.Name, patch.Value, len(patch.Body))
		}
	}
	if got := strings.Join(laid, ", "); got != "paint start, paint ask, fade" || d.Attr["easel-lay-go"]["aria-pressed"] != "true" {
		t.Errorf("laid over the portrait: %s", got)
	}
	d.Easel = nil
	d.Send(10, doc.Do, "easel", "close")
	var forgot []string
	for _, patch := range d.Easel {
		if patch.Name == "paint end" {
			laid = nil
		}
		if patch.Name == "forget" || patch.Name == "end" {
			forgot = append(forgot, patch.Name+" "+patch.Value)
		}
	}
	if got := strings.Join(forgot, ", "); got != "forget source, forget wearer, end " || laid != nil || d.Failure != "" {
		t.Errorf("closed: %s, %s", got, d.Failure)
	}
}
