package page

import (
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// TestForm: every field of the table is in the form once, with a label, its
// unit, its range and its help, and all that describes it is there. The HTML
// is read back with a parser of its own.
func TestForm(t *testing.T) {
	start, err := Start()
	if err != nil {
		t.Fatal(err)
	}
	html := start.HTML["form"]
	ids, labels, described := map[string]int{}, map[string]bool{}, map[string]string{}
	read := xml.NewDecoder(strings.NewReader("<form>" + html + "</form>"))
	read.Strict = false
	read.AutoClose = xml.HTMLAutoClose
	for {
		token, err := read.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		attr := map[string]string{}
		for _, a := range e.Attr {
			attr[a.Name.Local] = a.Value
		}
		if id := attr["id"]; id != "" {
			ids[id]++
		}
		if e.Name.Local == "label" {
			labels[attr["for"]] = true
		}
		if key := attr["data-key"]; key != "" {
			described[key] = attr["aria-describedby"]
		}
	}
	for _, f := range scheme.Fields() {
		id := doc.Control(f.Key)
		if ids[id] != 1 || !labels[id] {
			t.Errorf("%s: %d controls, label %v", f.Key, ids[id], labels[id])
		}
		for _, part := range strings.Fields(described[f.Key]) {
			if ids[part] != 1 {
				t.Errorf("%s is described by %s, which stands %d times", f.Key, part, ids[part])
			}
		}
		if f.Help == "" || !strings.Contains(html, doc.HTML(doc.Node{Text: f.Help, Tag: "p"})[3:20]) {
			t.Errorf("%s: no help", f.Key)
		}
		if f.Changes == "" || !strings.Contains(html, doc.HTML(doc.Text(say.Text("Changes: %s", say.Inside(f.Changes))))[5:]) {
			t.Errorf("%s: what it changes is not told", f.Key)
		}
	}
	if len(described) != len(scheme.Fields()) {
		t.Errorf("%d controls for %d fields", len(described), len(scheme.Fields()))
	}
	for _, name := range []string{"demos", "views", "verdict", "findings", "numbers", "description"} {
		if start.HTML[name] == "" {
			t.Errorf("nothing fills %s", name)
		}
	}
	if len(Demos()) < 8 {
		t.Errorf("%d demos can be read", len(Demos()))
	}
}

// TestHTML: text and attributes from outside never become markup.
func TestHTML(t *testing.T) {
	hostile := `<img src=x onerror="a()">&'`
	got := doc.HTML(doc.El("p", "", doc.Text(hostile)).With("title", hostile))
	want := `<p title="&lt;img src=x onerror=&#34;a()&#34;&gt;&amp;&#39;"><span>&lt;img src=x onerror=&#34;a()&#34;&gt;&amp;&#39;</span></p>` + "\n"
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// TestSteps: at least 100 steps can be undone, and all of them done again.
func TestSteps(t *testing.T) {
	p := newPage(t)
	for i := range 150 {
		p.Handle(doc.Event{Kind: doc.Set, Name: "ruff.depth", Value: fmt.Sprint(60 + i%50)})
	}
	last := p.Scheme().Ruff.Depth
	for range 100 {
		p.Handle(doc.Event{Kind: doc.Do, Name: "undo"})
	}
	if got := p.Scheme().Ruff.Depth; got != 60+49 {
		t.Errorf("100 steps back the depth is %g, want 109", got)
	}
	for range 100 {
		p.Handle(doc.Event{Kind: doc.Do, Name: "redo"})
	}
	if got := p.Scheme().Ruff.Depth; got != last {
		t.Errorf("done again the depth is %g, want %g", got, last)
	}
}

// TestRemedies: what a button of a remedy promises the page does, for every
// demo and every remedy that it offers: the finding is gone, and undo brings
// the scheme back.
func TestRemedies(t *testing.T) {
	tried := 0
	for _, d := range Demos() {
		p := newPage(t)
		p.Handle(doc.Event{Kind: doc.Do, Name: "demo", Value: d.Name})
		was := p.Scheme().Code()
		for _, f := range p.Findings() {
			for i := range f.Remedies {
				p.Handle(doc.Event{Kind: doc.Do, Name: "apply", Value: fmt.Sprint(f.ID, " ", i)})
				for _, left := range p.Findings() {
					if left.ID == f.ID {
						t.Errorf("%s: %q leaves %s", d.Name, f.Remedies[i].Sentence, f.ID)
					}
				}
				tried++
				p.Handle(doc.Event{Kind: doc.Do, Name: "undo"})
				if p.Scheme().Code() != was {
					t.Fatalf("%s: undo of %q gives another scheme", d.Name, f.Remedies[i].Sentence)
				}
			}
		}
	}
	if tried < 5 {
		t.Errorf("%d remedies tried", tried)
	}
}

// newPage is the page on a stage of 800 × 600.
func newPage(t *testing.T) *Page {
	t.Helper()
	p, err := New()
	if err != nil {
		t.Fatal(err)
	}
	p.Handle(doc.Event{Kind: doc.Sized, Value: "800 600 1"})
	return p
}
