//go:build !js

package dom

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"image/png"
	"io"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page"
)

// file is the newest file that the reader was given.
func file(t *testing.T, d *Document) (name string, text []byte) {
	t.Helper()
	if len(d.Saved) == 0 {
		t.Fatal("no file was given")
	}
	p := d.Saved[len(d.Saved)-1]
	_, code, _ := strings.Cut(p.Value, ";base64,")
	text, err := base64.StdEncoding.DecodeString(code)
	if err != nil {
		t.Fatal(err)
	}
	return p.Name, text
}

// TestUndoFar: 150 changes go back one by one to the start and forward again;
// what is typed in one field, what is opened and what is started from are one
// step each.
func TestUndoFar(t *testing.T) {
	d, p := visit(t, "a", &Storage{}, "")
	var states []string
	change := func(what func()) {
		states = append(states, p.Scheme().Code())
		what()
	}
	for i := range 50 {
		change(func() {
			for _, typed := range []string{"3", "39", "39" + fmt.Sprint(i%10), fmt.Sprintf("39%d.%d", i%10, 1+i/10)} {
				d.Send(30, doc.Typing, "wearer.girth", typed)
			}
			d.Send(30, doc.Set, "wearer.girth", fmt.Sprintf("39%d.%d", i%10, 1+i/10))
		})
		change(func() { d.Send(30, doc.Set, "ruff.sets", fmt.Sprint(44+i)) })
		change(func() {
			switch i % 3 {
			case 0:
				d.Send(30, doc.Do, "demo", page.Demos()[i%5].Name)
			case 1:
				d.Send(30, doc.Do, "pick", "")
				s := scheme.Default()
				s.Ruff.Sets, s.Ruff.Depth = 100+i, 60
				d.Choose("ruff.json", s.JSON())
			case 2:
				d.Send(30, doc.Set, "ruff.depth", fmt.Sprint(50+i))
			}
		})
	}
	end := p.Scheme().Code()
	for i := len(states) - 1; i >= 0; i-- {
		d.Send(30, doc.Do, "undo", "")
		if got := p.Scheme().Code(); got != states[i] {
			t.Fatalf("step %d back gives %s, want %s", len(states)-i, got, states[i])
		}
	}
	if d.Attr["undo"]["aria-disabled"] != "true" {
		t.Error("there is more to undo than was done")
	}
	for i := range states {
		d.Send(30, doc.Do, "redo", "")
		want := end
		if i+1 < len(states) {
			want = states[i+1]
		}
		if got := p.Scheme().Code(); got != want {
			t.Fatalf("step %d forward gives %s, want %s", i+1, got, want)
		}
	}
}

// TestFileAgain: saved, opened and saved again is the same to the byte, for
// every demo; opening is one step, and looks at the ruff as at first.
func TestFileAgain(t *testing.T) {
	d, p := visit(t, "a", &Storage{}, "")
	for _, demo := range page.Demos() {
		d.Send(100, doc.Do, "demo", demo.Name)
		d.Send(100, doc.Do, "save", "")
		name, first := file(t, d)
		if !strings.HasSuffix(name, ".json") || strings.ContainsAny(name, " /\\:*?\"<>|'’") {
			t.Errorf("the file is called %q", name)
		}
		d.Send(100, doc.Do, "fresh", "")
		d.Send(100, doc.Do, "pick", "")
		d.Choose(name, first)
		d.Send(100, doc.Do, "save", "")
		if _, again := file(t, d); !bytes.Equal(first, again) || len(first) == 0 {
			t.Errorf("%s: saved again it differs", demo.Name)
		}
		d.Send(100, doc.Do, "undo", "")
		if p.Scheme().Code() != scheme.First().Code() {
			t.Errorf("%s: opening is not undone by one step", demo.Name)
		}
	}
}

// TestBadFile: a file that cannot be opened changes nothing and says why: the
// field, the value, what is allowed.
func TestBadFile(t *testing.T) {
	d, p := visit(t, "a", &Storage{}, "")
	d.Send(100, doc.Set, "ruff.sets", "44")
	was := p.Scheme().Code()
	good := string(p.Scheme().JSON())
	for name, c := range map[string]struct {
		text string
		says []string
	}{
		"range":      {strings.Replace(good, `"sets": 44`, `"sets": 7`, 1), []string{"Sets: 7 ", "8", "400"}},
		"kind":       {strings.Replace(good, `"sets": 44`, `"sets": "many"`, 1), []string{"Sets: “many”"}},
		"unknown":    {strings.Replace(good, `"sets": 44`, `"stes": 44`, 1), []string{"ruff.stes"}},
		"newer":      {strings.Replace(good, `"version": 1`, `"version": 9`, 1), []string{"newer ruffwright"}},
		"cut":        {good[:100], []string{"Line"}},
		"empty":      {"", []string{"Line"}},
		"bytes":      {"\xff\xfe\x00", []string{"UTF-8"}},
		"huge":       {strings.Repeat(" ", 10<<20), []string{"10.5 MB", "1.05 MB"}},
		"<b>.json\n": {"{}", []string{"“<b>.json·”", "“version”"}},
	} {
		d.Send(2000, doc.Do, "pick", "")
		d.Choose(name, []byte(c.text))
		if p.Scheme().Code() != was || d.Failure != "" {
			t.Fatalf("%s changed the ruff or failed: %s", name, d.Failure)
		}
		for _, words := range append(c.says, "nothing was changed") {
			if !strings.Contains(d.Text["notice"], words) {
				t.Errorf("%s: says %q, without %q", name, d.Text["notice"], words)
			}
		}
	}
	d.Send(2000, doc.Do, "pick", "")
	d.Choose("good.json", []byte(good))
	if d.Text["notice"] != "" {
		t.Errorf("after a good file it still says %q", d.Text["notice"])
	}
}

// TestLongLink: a link that mail would cut off is refused with words, and the
// file takes its place; one that fits is copied.
func TestLongLink(t *testing.T) {
	d, p := visit(t, "a", &Storage{}, "")
	d.Send(100, doc.Do, "share", "")
	if d.Clip != "#"+p.Scheme().Code() || d.Fragment != d.Clip {
		t.Errorf("copied %q, address %q", d.Clip, d.Fragment)
	}
	var marks strings.Builder
	for i := range 700 { // at odd places, so that they do not pack
		fold, edge := "trough", "bottom"
		if i%2 == 1 {
			fold, edge = "crest", "top"
		}
		fmt.Fprintf(&marks, "%.3f %s %s\n", 10*float64(i)+float64(i*i*7919%4999)/1000, fold, edge)
	}
	d.Send(100, doc.Set, "pleat.tuck_top", "0")
	d.Send(100, doc.Set, "pleat.tuck_bottom", "0")
	d.Send(100, doc.Set, "pleat.marks", marks.String())
	if why := d.Text["f-pleat-marks-wrong"]; why != "" {
		t.Fatal(why)
	}
	clip := d.Clip
	if n := len(p.Scheme().Code()); n <= 2000 {
		t.Fatalf("the code has only %d characters: the test is blind", n)
	}
	d.Send(100, doc.Do, "share", "")
	if d.Clip != clip || d.Fragment != "" || !strings.Contains(d.Text["notice"], "at most 2000") || !strings.Contains(d.Text["notice"], "Save it as a file") || d.Focus != "save" {
		t.Errorf("a link of %d characters: address %.20q, says %q, focus on %s", len(p.Scheme().Code()), d.Fragment, d.Text["notice"], d.Focus)
	}
}

// TestPictures: every view as PNG and as SVG, each valid and its own; what is
// enlarged on the stage is enlarged in the file.
func TestPictures(t *testing.T) {
	d, _ := visit(t, "a", &Storage{}, "")
	d.Send(10, doc.Sized, "", "400 300 1")
	seen := map[string]string{}
	for _, view := range []string{"hand", "above", "side", "set", "flat", "set +"} {
		view, key, _ := strings.Cut(view, " ")
		d.Send(10, doc.Do, "view", view)
		if key != "" {
			d.Send(10, doc.Do, "camera", key)
		}
		d.Send(10, doc.Do, "picture", "svg")
		name, text := file(t, d)
		if other := seen[string(text)]; other != "" || !strings.HasSuffix(name, ".svg") {
			t.Errorf("%s %s: the same as %s, named %s", view, key, other, name)
		}
		seen[string(text)] = view + key
		labels := 0
		for read := xml.NewDecoder(bytes.NewReader(text)); ; {
			token, err := read.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", view, err)
			}
			if e, ok := token.(xml.StartElement); ok && e.Name.Local == "text" {
				labels++
			}
		}
		if labels == 0 {
			t.Errorf("%s: an SVG without a word", view)
		}
		given := len(d.Saved)
		d.Timers = nil
		d.Send(10, doc.Do, "picture", "png")
		if !slices.ContainsFunc(d.Timers, func(p doc.Patch) bool { return p.Name == "png" }) || len(d.Saved) != given {
			t.Fatalf("%s: not said before it is drawn", view)
		}
		d.Send(20, doc.Timer, "png", "")
		name, text = file(t, d)
		img, err := png.Decode(bytes.NewReader(text))
		if err != nil {
			t.Fatalf("%s: %v", view, err)
		}
		if b := img.Bounds(); b.Dx() < 799 || b.Dx() > 801 || b.Dy() < 599 || b.Dy() > 601 || !strings.HasSuffix(name, ".png") {
			t.Errorf("%s: %s is %v, want twice the stage's 400 by 300", view, name, b)
		}
		colours := map[any]bool{}
		for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y += 3 {
			for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x += 3 {
				colours[img.At(x, y)] = true
			}
		}
		if len(colours) < 10 {
			t.Errorf("%s: a picture of %d colours", view, len(colours))
		}
	}
}

// TestCopyNumbers: the table as text, a row a line, three cells a row; the code
// in it is the ruff. Where the browser refuses, it stands there to copy.
func TestCopyNumbers(t *testing.T) {
	d, p := visit(t, "a", &Storage{}, "")
	d.Send(10, doc.Do, "demo", page.Demos()[0].Name)
	d.Send(10, doc.Do, "copy", "")
	lines := strings.Split(strings.TrimSuffix(d.Clip, "\n"), "\n")
	if len(lines) < 12 || !strings.HasPrefix(lines[0], p.Scheme().Name) {
		t.Fatalf("copied %q", d.Clip)
	}
	for _, line := range lines {
		if strings.Count(line, "\t") != 2 {
			t.Errorf("%q has not three cells", line)
		}
	}
	_, code, _ := strings.Cut(lines[len(lines)-1], "\t")
	if s, err := scheme.FromCode(code); err != nil || s.Code() != p.Scheme().Code() {
		t.Errorf("the last row is %q: %v", lines[len(lines)-1], err)
	}
	d.Send(10, doc.Set, "name", "=1+1")
	d.Send(10, doc.Do, "copy", "")
	if !strings.HasPrefix(d.Clip, "'=1+1\t") {
		t.Errorf("a spreadsheet runs the name: %.20q", d.Clip)
	}
	d.Send(2000, doc.Copied, "yes", "text")
	if !strings.Contains(d.Text["said"], "Numbers copied") {
		t.Errorf("it says %q", d.Text["said"])
	}
	d.Send(2000, doc.Copied, "no", "text")
	if _, hidden := d.Attr["by-hand-row"]["hidden"]; hidden || d.Control["by-hand"] != d.Clip || d.Focus != "by-hand" {
		t.Errorf("refused: focus on %q, %d characters to copy", d.Focus, len(d.Control["by-hand"]))
	}
}
