package easel

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/page/say"
)

// FuzzEasel: whatever hands and keys do, points stay on their picture, what is shown can be
// written, and every number that is told is finite, low before high.
func FuzzEasel(f *testing.F) {
	for _, text := range []string{
		"do tool face_height\ndown 1 350 180\nup 1 350 180\ndown 1 350 330\nmove 1 352 335\nup 1 352 335\ndo undo\ndo redo",
		"do tool edge\ndown 1 170 450\nup 1 170 450\ndown 1 200 520\nup 1 200 520\ndown 1 350 530\nup 1 350 530\ndown 1 500 520\nup 1 500 520\ndown 1 530 450\nup 1 530 450",
		"key ArrowLeft shift\nkey Enter\nkey Enter\nkey PageDown\nkey Delete\nkey +\nkey Escape\nwheel -300 5 5\nsize 90 40 2",
		"do tool share\nset count-1 20\nset share-1 0.5\nset turn 80\nset face 11 cm\nset at-1-0 9 9\ndo wearer\ndo clear\ndo source",
		"do tool edge\ndown 1 350 300\nmove 1 9000 -50\nup 1 9000 -50",
		"down 1 300 300 touch\ndown 2 400 300 touch\nmove 2 500 300 touch\nup 1 0 0\nup 2 0 0\ndo close\ndo open",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		e := New(&say.Voice{})
		e.See(Now{scheme.Millimetres, scheme.First()})
		e.Size("700 600 1")
		e.Chosen("3 x.png", 0)
		e.Hear(`{"wide":1400,"high":1200,"width":1400,"height":1200}`)
		e.places(falconer)
		lines := strings.Split(text, "\n")
		for _, line := range lines[:min(len(lines), 12)] {
			what, value, _ := strings.Cut(line, " ")
			switch what {
			case "down", "move", "up":
				e.Point(what, value)
			case "wheel":
				e.Wheel(value)
			case "size":
				e.Size(value)
			case "key":
				name, shift := strings.CutSuffix(value, " shift")
				e.Key(name, shift)
			case "set":
				key, typed, _ := strings.Cut(value, " ")
				e.Enter(own+key, typed, false)
			default:
				e.Do(value)
			}
			for _, m := range e.marks {
				for _, p := range m.at {
					if b := e.boards[m.on]; !(p[0] >= 0 && p[1] >= 0 && p[0] <= b.wide && p[1] <= b.high) {
						t.Fatalf("%q: a point of %s lies at %v", line, m.kind, p)
					}
				}
			}
			if e.got == nil {
				continue
			}
			for _, key := range Fields {
				if b := bounds(e.got, key); !(b.Low <= b.Value && b.Value <= b.High) || math.IsInf(b.High, 0) {
					t.Fatalf("%q: %s is %v", line, key, b)
				}
			}
		}
		if _, err := json.Marshal(e.Patches()); err != nil {
			t.Fatal(err)
		}
	})
}
