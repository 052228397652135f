package easel

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"ruffwright/geom/portrait"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// opened is an easel with a portrait of 1,400 × 1,200 px on a pad of 700 × 600.
func opened(t *testing.T) *Easel {
	t.Helper()
	e := New(&say.Voice{})
	e.See(Now{scheme.Millimetres, scheme.First()})
	e.Do("open")
	e.Size("700 600 1")
	brings(t, e, wire.Opened{Format: "PNG", Wide: 1400, High: 1200, Width: 1400, Height: 1200})
	return e
}

func brings(t *testing.T, e *Easel, o wire.Opened) {
	t.Helper()
	head, err := o.Encode()
	if err != nil {
		t.Fatal(err)
	}
	e.Chosen("12345 falconer.png", 0)
	if out := e.Hear(head); len(out) != 2 || e.bring.why != "" || e.bring.busy {
		t.Fatalf("opened: %v, %s", out, e.bring.why)
	}
}

// presses puts a finger down and up at a place of the picture.
func (e *Easel) presses(at portrait.Point) {
	s := e.boards[e.on].seen(at)
	v := fmt.Sprintf("1 %g %g", s.x, s.y)
	e.Point("down", v)
	e.Point("up", v)
}

// falconer are the points of a portrait as the command's example has them.
var falconer = portrait.Source{
	References: []portrait.Reference{{Kind: portrait.FaceHeight, Line: portrait.Line{From: portrait.Point{700, 355}, To: portrait.Point{700, 644}}}},
	Edge:       []portrait.Point{{1034, 882}, {1060, 934}, {1041, 985}, {982, 1026}, {882, 1059}, {756, 1068}, {624, 1058}, {500, 1031}, {406, 987}, {351, 938}},
	Depths:     []portrait.Line{{From: portrait.Point{891, 939}, To: portrait.Point{1055, 963}}},
	Heights:    []portrait.Line{{From: portrait.Point{1000, 1058}, To: portrait.Point{1008, 972}}},
	Sets:       []portrait.Arc{{Count: 10, From: portrait.Point{975, 1030}, To: portrait.Point{447, 1011}}},
}

// places puts the points of a source on the easel.
func (e *Easel) places(s portrait.Source) {
	line := func(k kind, l portrait.Line) {
		e.Do("tool " + string(k))
		e.presses(l.From)
		e.presses(l.To)
	}
	for _, r := range s.References {
		line(kind(r.Kind), r.Line)
	}
	for _, l := range s.Depths {
		line(depth, l)
	}
	for _, l := range s.Heights {
		line(height, l)
	}
	for _, a := range s.Sets {
		line(sets, portrait.Line{From: a.From, To: a.To})
		e.Enter(fmt.Sprintf("easel.count-%d", e.newest), fmt.Sprint(a.Count), false)
	}
	e.Do("tool edge")
	for _, p := range s.Edge {
		e.presses(p)
	}
}

// TestMeasures: points that are pressed tell what portrait.Measure tells of them, to the
// last figure, and each step of the way says what is lacking.
func TestMeasures(t *testing.T) {
	e := opened(t)
	if e.measure(); len(e.lacks) != 3 || e.got != nil {
		t.Errorf("nothing is placed, and it lacks %q", e.lacks)
	}
	e.places(falconer)
	want, err := portrait.Measure(portrait.Sheet{Source: falconer})
	if err != nil || e.got == nil {
		t.Fatalf("%v; %s, lacks %q", err, e.why, e.lacks)
	}
	if e.got.Depth_mm != want.Depth_mm || e.got.Height_mm != want.Height_mm || e.got.Sets != want.Sets {
		t.Errorf("depth %v, height %v, sets %v; want %v, %v, %v", e.got.Depth_mm, e.got.Height_mm, e.got.Sets, want.Depth_mm, want.Height_mm, want.Sets)
	}
	said := strings.Join(append(append(e.figures(), e.doubts()...), e.scales()...), "\n")
	for _, words := range []string{"Depth: ", "Height: ", "Sets all the way round: ", "Tilt: ", "The interval comes from: ", "What would narrow it most: Measure the wearer’s own face", "by the face height of 118 mm, as people’s are"} {
		if !strings.Contains(said, words) {
			t.Errorf("it never says %q:\n%s", words, said)
		}
	}
	wide := e.got.Depth_mm
	e.Enter("easel.face", "118", false)
	if now := e.got.Depth_mm; !(now.High/now.Low < 0.95*wide.High/wide.Low) {
		t.Errorf("the wearer's own face narrows nothing: %v from %v", now, wide)
	}
	e.Enter("easel.turn", "25", false)
	if e.got.Depth_mm == wide || e.sheetOf(t).Source.Head.Turn != 25 {
		t.Errorf("a turned head changes nothing: %v", e.got.Depth_mm)
	}
}

func (e *Easel) sheetOf(t *testing.T) portrait.Sheet {
	t.Helper()
	s, ok := e.sheet()
	if !ok {
		t.Fatalf("entries cannot be used: %v", e.wrong)
	}
	return s
}

// TestScaled: of a picture that is shown smaller, points are in its own pixels.
func TestScaled(t *testing.T) {
	e := opened(t)
	brings(t, e, wire.Opened{Format: "JPEG", Wide: 8000, High: 6000, Width: 2000, Height: 1500})
	e.presses(portrait.Point{4000, 3000})
	if got := e.marks[0].at[0]; got != (portrait.Point{4000, 3000}) || e.sheetOf(t).Source.Placing != 8 {
		t.Errorf("at %v, off by %g px", got, e.sheetOf(t).Source.Placing)
	}
}

// TestSteps: each point that is placed, moved, nudged or taken away is one step back, and
// forward again.
func TestSteps(t *testing.T) {
	e := opened(t)
	var states []string
	state := func() string { return fmt.Sprint(e.marks) }
	step := func(do func()) {
		states = append(states, state())
		before := len(e.past)
		if do(); len(e.past) != before+1 {
			t.Errorf("step %d makes %d steps", len(states), len(e.past)-before)
		}
	}
	step(func() { e.presses(portrait.Point{700, 400}) })
	step(func() { e.presses(portrait.Point{700, 640}) })
	step(func() { // dragged
		e.Point("down", "1 351 201")
		e.Point("move", "1 361 211")
		e.Point("move", "1 371 221")
		e.Point("up", "1 371 221")
	})
	if got := e.marks[0].at[0]; got != (portrait.Point{740, 440}) {
		t.Errorf("dragged to %v", got)
	}
	e.Do("tool sets")
	e.presses(portrait.Point{746, 446}) // another kind, beside it
	if len(e.marks) != 2 || e.marks[0].at[0] != (portrait.Point{740, 440}) {
		t.Errorf("beside a point of another kind: %v", e.marks)
	}
	e.Do("undo")
	e.future = nil
	e.Do("tool face_height")
	e.Key("PageDown", false)
	step(func() { // nudged by keys
		e.Key("ArrowRight", false)
		e.Key("ArrowRight", false)
		e.Key("ArrowDown", true)
	})
	if got := e.marks[0].at[0]; got != (portrait.Point{744, 460}) {
		t.Errorf("nudged to %v", got)
	}
	step(func() { e.Enter("easel.at-1-1", "701,5 633", false) })
	step(func() { e.Key("PageDown", false); e.Key("Delete", false) })
	if len(e.marks) != 0 {
		t.Errorf("%v is left", e.marks)
	}
	end := state()
	for i := len(states) - 1; i >= 0; i-- {
		if e.Do("undo"); state() != states[i] {
			t.Errorf("step %d back is %s, want %s", i, state(), states[i])
		}
	}
	for range states {
		e.Do("redo")
	}
	if state() != end {
		t.Errorf("forward again it is %s", state())
	}
}

// TestKeys: without a mouse a line is placed, looked at nearer, and walked through.
func TestKeys(t *testing.T) {
	e := opened(t)
	for _, k := range []string{"ArrowLeft", "Enter", "Enter", "ArrowDown", "Enter"} {
		e.Key(k, k == "ArrowDown")
	}
	if len(e.marks) != 1 || e.marks[0].at[0] != (portrait.Point{698, 600}) || e.marks[0].at[1] != (portrait.Point{698, 620}) {
		t.Fatalf("placed %v", e.marks)
	}
	was := e.boards[source].scale
	if e.Key("+", false); e.boards[source].scale <= was {
		t.Error("+ comes no nearer")
	}
	e.Key("PageUp", false)
	if p, ok := e.heldAt(); !ok || p != (portrait.Point{698, 600}) {
		t.Errorf("walked to %v", p)
	}
	if _, leave := e.Key("Escape", false); leave || e.hand.mark != 0 {
		t.Error("Escape lets go of the point first")
	}
	if _, leave := e.Key("Escape", false); !leave {
		t.Error("Escape does not leave")
	}
}

// TestTwoFingers: two fingers come nearer and place nothing.
func TestTwoFingers(t *testing.T) {
	e := opened(t)
	was := e.boards[source].scale
	e.Point("down", "1 300 300 touch")
	e.Point("down", "2 400 300 touch")
	e.Point("move", "2 500 300 touch")
	e.Point("up", "2 500 300 touch")
	e.Point("up", "1 300 300 touch")
	if len(e.marks) != 0 || len(e.past) != 0 || math.Abs(e.boards[source].scale/was-2) > 1e-9 {
		t.Errorf("%v placed, %g times nearer", e.marks, e.boards[source].scale/was)
	}
	for _, bad := range []string{"", "1 NaN 3", "x y z", "1 1e99 2"} {
		e.Point("down", bad)
		e.Wheel(bad)
		e.Size(bad)
	}
	if len(e.marks) != 0 || e.pad != (spot{700, 600}) {
		t.Errorf("what is no place places %v on a pad of %v", e.marks, e.pad)
	}
}

// TestEntries: what cannot be used is told where it stands, with what is allowed; then
// nothing is measured.
func TestEntries(t *testing.T) {
	e := opened(t)
	e.places(falconer)
	for key, c := range map[string][2]string{
		"turn":                              {"much", "is no number"},
		"face":                              {"9 tea", "9 tea"},
		"at-1-0":                            {"1401 3", "0 to 1400 and 0 to 1200 px"},
		fmt.Sprintf("count-%d", countOf(e)): {"ten", "1 to 400 sets"},
	} {
		e.Enter(own+key, c[0], false)
		if !strings.Contains(e.wrong[key], c[1]) {
			t.Errorf("%s: %q, told %q", key, c[0], e.wrong[key])
		}
		if words := doc.HTML(e.told()...); strings.Contains(words, "Depth") {
			t.Errorf("%s: %q, and yet it tells %s", key, c[0], words)
		}
		good := map[string]string{"at-1-0": "700 355"}[key]
		if strings.HasPrefix(key, "count") {
			good = "10"
		}
		if e.Enter(own+key, good, false); e.wrong[key] != "" || e.got == nil {
			t.Errorf("%s mended: %q, %v", key, e.wrong[key], e.lacks)
		}
	}
	for _, c := range [][3]string{{"turn", "80", "The portrait’s head is turned by: 80 is out of range; allowed: -75 to 75 °"}, {"freedom", "9", "1 to 3"}, {"face", "30", "The wearer’s face height: 30 is out of range"}} {
		if e.Enter(own+c[0], c[1], false); !strings.Contains(e.why, c[2]) || e.got != nil {
			t.Errorf("%s %s: %q", c[0], c[1], e.why)
		}
		e.Enter(own+c[0], "", false)
	}
	if e.Enter("ruff.depth", "60", false) {
		t.Error("a field is taken for a control of the easel")
	}
}

func countOf(e *Easel) int {
	for _, m := range e.marks {
		if m.kind == sets {
			return m.n
		}
	}
	return 0
}

// TestWearer: a ruler in the wearer's own picture takes the place of people's faces.
func TestWearer(t *testing.T) {
	e := opened(t)
	e.places(falconer)
	e.Do("wearer")
	brings(t, e, wire.Opened{Format: "PNG", Wide: 1000, High: 1000, Width: 1000, Height: 1000})
	e.presses(portrait.Point{100, 900})
	e.presses(portrait.Point{700, 900})
	e.Do("tool face_height")
	e.presses(portrait.Point{500, 300})
	e.presses(portrait.Point{500, 536})
	if len(e.lacks) != 1 || !strings.Contains(e.lacks[0], "length of the ruler") {
		t.Errorf("lacks %q", e.lacks)
	}
	e.Enter("easel.ruler", "30 cm", false)
	if e.got == nil || e.got.Scales[0].From != "picture" || math.Abs(e.got.Scales[0].Face.Value-118) > 1 {
		t.Fatalf("%+v, %s, %q", e.got, e.why, e.lacks)
	}
	if e.Do("clear"); e.got == nil || e.got.Scales[0].From != "people" || len(e.marks) == 0 {
		t.Errorf("without the wearer's picture: %+v", e.got)
	}
}

// TestTakes: of what was typed and what was measured the last word holds, and the other can
// be taken again.
func TestTakes(t *testing.T) {
	e := opened(t)
	e.places(falconer)
	changes := e.Changes(Middle)
	if len(changes) != 4 || changes[0].Key != "ruff.depth" || changes[3].Value != "depth 69 (59–82) mm, height 39 (32–46) mm, sets 41 (39–43)" {
		t.Fatalf("it changes %v", changes)
	}
	low, high := e.Changes(Low), e.Changes(High)
	if len(low) != 3 || len(high) != 3 || low[0].Value != "59" || high[2].Value != "43" {
		t.Errorf("the low ends are %v, the high ones %v", low, high)
	}
	s := scheme.First()
	before := s
	for _, c := range changes {
		f, _ := scheme.Lookup(c.Key)
		if err := f.Set(&s, c.Value, scheme.Millimetres); err != nil {
			t.Fatal(err)
		}
	}
	e.Took(changes, before)
	e.See(Now{scheme.Millimetres, s})
	was := fmt.Sprint(before.Ruff.Depth)
	if c, ok := e.Other("ruff.depth"); !ok || c.Value != was {
		t.Errorf("beside the measured depth stands %v, want %s", c, was)
	}
	s.Ruff.Depth = 61
	e.See(Now{scheme.Millimetres, s})
	if c, ok := e.Other("ruff.depth"); !ok || c.Value != changes[0].Value {
		t.Errorf("beside the typed depth stands %v, want %s", c, changes[0].Value)
	}
	if _, ok := e.Other("ruff.pitch"); ok {
		t.Error("something stands beside a field that was not measured")
	}
	if e.Do("close"); e.open || len(e.marks) > 0 || e.boards[source].wide > 0 {
		t.Error("closed, and something is left")
	}
}

// TestRefused: a picture that is not opened is told by name and reason, and the one before
// stays; an opener that falls silent is ended.
func TestRefused(t *testing.T) {
	e := opened(t)
	head, _ := wire.Opened{Why: word.Packed{Text: word.Say("the picture cannot be used: it is an animated WebP")}}.Encode()
	e.Chosen("99 dance.webp", 0)
	if out := e.Hear(head); len(out) != 1 || out[0].Name != "end" || !strings.Contains(e.stand(), "dance.webp was not opened. The picture cannot be used: it is an animated WebP.") || e.boards[source].wide != 1400 {
		t.Errorf("%v, %s", out, e.stand())
	}
	e.Chosen("99 slow.jpg", 1000)
	if out := e.Check(60000); len(out) != 1 || !e.bring.busy {
		t.Errorf("after a minute: %v", out)
	}
	if out := e.Check(200000); len(out) != 1 || out[0].Name != "end" || e.bring.busy || !strings.Contains(e.stand(), "it took too long") && !strings.Contains(e.stand(), "It took too long") {
		t.Errorf("after three: %v, %s", out, e.stand())
	}
	for _, bad := range []string{"", "{", `{"wide":3}`, `{"wide":9,"high":9,"width":10,"height":9}`} {
		e.Chosen("99 odd.png", 0)
		if out := e.Hear(bad); len(out) != 1 || e.bring.why == "" {
			t.Errorf("%q: %v, %s", bad, out, e.stand())
		}
	}
}
