package page

import (
	"encoding/json"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
)

// fuzzed is an event as the fuzzer writes it: a line of kind, name and value.
func fuzzed(line string) doc.Event {
	parts := strings.SplitN(line, "\t", 3)
	for len(parts) < 3 {
		parts = append(parts, "")
	}
	return doc.Event{Kind: doc.Kind(parts[0]), Name: parts[1], Value: parts[2], Body: []byte(parts[2])}
}

// FuzzEvents: whatever the document sends, the page answers with patches that a
// document can carry out, keeps a valid scheme, and what the form shows is either
// that scheme or is said not to be.
func FuzzEvents(f *testing.F) {
	for _, text := range []string{
		"typing\twearer.girth\t15\nset\twearer.girth\t150\ndo\tsave\ndo\tsave-last\ndo\tgoto\twearer.girth",
		"set\twearer.face\t118\nset\tlook.depth_ratio\t0.55\ntyping\truff.depth\t95\ndo\tundo\ndo\tredo",
		"set\tpleat.marks\t0 trough bottom; 30 crest top; 60 trough bottom\nset\truff.sets\t44\ndo\tunits\tin",
		"set\truff.depth\t14\nset\truff.height\t40\nset\tband.height\t20\nset\tpleat.tuck_top\t12\nset\tpleat.tuck_bottom\t12",
		"sized\t\t390 844 2\npointer\tdown\t1 5 5\npointer\tmove\t1 50 5\nwheel\t\t-120 NaN 4\nkey\tArrowLeft",
		"do\ttwin\ndo\tcompare-swap\ndo\thand\tquarters\ndo\tapply\tquarters 9\ndo\tview\tflat\nwheel\t\t1e300 1 1",
		"address\t\t#1.AAAA\naddress\t\t#lesson=top-only\ndo\tlesson-next\nrecalled\t\t{\"ruffwright.work\":\"x\"}\nelsewhere\truffwright.work\t{}",
		"easel\tsize\t700 600 1\neasel\tchosen\t3 x.png\neasel\tsaid\t{\"wide\":1400,\"high\":1200,\"width\":1400,\"height\":1200}\neasel\tdown\t1 5 5\neasel\tup\t1 5 5\neasel\tkey\tEnter\nset\teasel.at-1-0\t9 9\ndo\teasel\ttake",
		"easel\tsize\t1 1 1\neasel\tchosen\t3 x.png\neasel\tsaid\t{\"wide\":900,\"high\":9,\"width\":90,\"height\":9}\ndo\teasel\ttool share\nset\teasel.count-1\t1e9\neasel\twheel\t-400 0 0\ndo\teasel\tlay\ndo\teasel\tclose",
		"file\ta.json\t12\nset\tsheets.across\t9\ndo\tsheets\tmake\npress\tsaid\t{}\nsolver\tdied\tx\nsolver\tsaid\t{\nkept\truffwright.work\t",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		lines := strings.Split(text, "\n")
		lines = lines[:min(len(lines), 8)]
		const begin = "begin\t\t"
		tells(t, append([]string{begin}, lines...))
		tells(t, append(lines, begin)) // what comes before the page begins is shown then
	})
}

// tells sends a page events, as lines, and holds what its fields show to the ruff, once it
// shows anything.
func tells(t *testing.T, lines []string) {
	keys := scheme.Fields()
	p, err := New()
	if err != nil {
		t.Fatal(err)
	}
	control := map[string]string{}
	for i, line := range lines {
		e := fuzzed(line)
		e.At_ms = float64(100 * i)
		patches := p.Handle(e)
		if _, err := json.Marshal(patches); err != nil {
			t.Fatalf("%q: patches that cannot be written: %v", line, err)
		}
		if e.Kind == doc.Typing || e.Kind == doc.Set {
			control["f-"+strings.ReplaceAll(e.Name, ".", "-")] = e.Value
		}
		for _, c := range patches {
			if c.Op == doc.OpValue {
				control[c.ID] = c.Value
			}
		}
		if err := p.Scheme().Validate(); err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		s := p.tell().State()
		for _, k := range keys {
			shown, ok := control["f-"+strings.ReplaceAll(k.Key, ".", "-")]
			if ok && p.marked && !s.Old() && p.work.Under != k.Key && shown != k.Show(p.Scheme().Looked(), p.work.Units) {
				t.Fatalf("%q: %s shows %.40q, the ruff has %.40q, and the state is %s", line, k.Key, shown, k.Show(p.Scheme().Looked(), p.work.Units), s.Kind)
			}
		}
	}
}
