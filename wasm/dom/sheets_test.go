//go:build !js

package dom

import (
	"archive/zip"
	"bytes"
	"context"
	"strings"
	"testing"
	"time"

	"ruffwright/wasm/doc"
	"ruffwright/wasm/page"
	"ruffwright/wasm/printing"
	"ruffwright/wasm/solving"
	"ruffwright/wasm/wire"
)

var someDay = time.Date(2026, 5, 4, 21, 30, 0, 0, time.UTC)

// bureau is a page whose press is the real one, on a thread of its own.
type bureau struct {
	*Document
	t    *testing.T
	p    *page.Page
	news chan message
	stop context.CancelFunc
	ask  func(head string, body []byte)
	did  int
}

func printer(t *testing.T) *bureau {
	d, p := opened(t)
	b := &bureau{Document: d, t: t, p: p}
	t.Cleanup(func() { b.end() })
	return b
}

func (b *bureau) end() {
	if b.stop != nil {
		b.stop()
	}
	b.stop, b.ask, b.news = nil, nil, nil
}

func (b *bureau) send(kind doc.Kind, name, value string) {
	b.Send(10, kind, name, value)
	b.carry()
}

func (b *bureau) carry() {
	for ; b.did < len(b.Press); b.did++ {
		switch p := b.Press[b.did]; p.Name {
		case "start":
			b.end()
			ctx, stop := context.WithCancel(context.Background())
			news := make(chan message, 10000)
			bench := solving.New(func(head string, body []byte) { news <- message{head: head, body: body} }, func() {})
			bench.Prints(printing.Maker{Today: func() time.Time { return someDay }}.Print)
			b.news, b.stop, b.ask = news, stop, bench.Take
			go bench.Serve(ctx)
		case "end":
			b.end()
		case "ask":
			b.ask(p.Value, p.Body)
		}
	}
}

// until lets messages of the press come in until the page's line begins so, and
// gives all that it said.
func (b *bureau) until(state string) []string {
	b.t.Helper()
	var said []string
	for b.Attr["press"]["data-state"] != state {
		select {
		case m := <-b.news:
			b.HearPress(20, m.head, m.body)
			b.carry()
			if words := b.Text["pressing"]; len(said) == 0 || said[len(said)-1] != words {
				said = append(said, words)
			}
		case <-time.After(time.Minute):
			b.t.Fatalf("the press says nothing; the page: %s", b.Text["pressing"])
		}
	}
	return said
}

// TestSheets: the reader asks for sheets, is told how far they are, and finds the
// PDF, the marks and the pieces behind three links; a change makes them old.
func TestSheets(t *testing.T) {
	b := printer(t)
	if len(b.Press) > 0 {
		t.Error("the press starts before anybody asks")
	}
	b.send(doc.Place, "", "https://ruffs.example/plan/")
	b.send(doc.Set, "name", "The Cooper’s ruff")
	b.send(doc.Set, "sheets.paper", "Letter")
	b.send(doc.Set, "sheets.across", "98,5")
	b.send(doc.Set, "sheets.up", "101 mm")
	b.send(doc.Do, "sheets", "make")
	if got := b.Attr["press"]["data-state"]; got != "busy" || b.Text["pressing"] != "Fetching the program that makes the sheets." {
		t.Errorf("at once: %q, %q", got, b.Text["pressing"])
	}
	if b.Attr["make-sheets"]["aria-disabled"] != "true" || b.Attr["stop-sheets"]["aria-disabled"] != "false" {
		t.Error("while it works the buttons do not say so")
	}
	said := strings.Join(b.until("done"), "|")
	for _, want := range []string{"Solving how the cloth hangs", "Finding how stiff the starch must be: try ", "Drawing sheet "} {
		if !strings.Contains(said, want) {
			t.Errorf("it never said %q: %s", want, said)
		}
	}
	if got := b.Text["pressing"]; !strings.HasPrefix(got, "Ready: ") || strings.Contains(got, "Do not sew") {
		t.Errorf("then it says %q", got)
	}
	if b.stop != nil {
		t.Error("the press is kept when it is done")
	}
	pdf := b.Files["save-sheets"]
	if pdf.Name != "The-Coopers-ruff.pdf" || pdf.Type != "application/pdf" || !bytes.HasPrefix(pdf.Bytes, []byte("%PDF-1.")) || len(pdf.Bytes) < 200_000 {
		t.Errorf("the sheets: %q, %s, %d bytes", pdf.Name, pdf.Type, len(pdf.Bytes))
	}
	if marks := b.Files["save-marks"]; marks.Name != "The-Coopers-ruff-marks.csv" || bytes.Count(marks.Bytes, []byte("\r\n")) < 80 {
		t.Errorf("the marks: %q, %.200s", marks.Name, marks.Bytes)
	}
	pieces := b.Files["save-pieces"]
	z, err := zip.NewReader(bytes.NewReader(pieces.Bytes), int64(len(pieces.Bytes)))
	if err != nil {
		t.Fatal(err)
	}
	bands := 0
	for _, f := range z.File {
		if f.Name == "band.svg" {
			bands++
		}
	}
	if pieces.Name != "The-Coopers-ruff-pieces.zip" || bands != 1 || len(z.File) < 3 {
		t.Errorf("the pieces: %q, %d of them, %d bands", pieces.Name, len(z.File), bands)
	}
	if got := b.Text["save-sheets"]; !strings.HasPrefix(got, "Save the sheets, PDF (") {
		t.Errorf("the link says %q", got)
	}
	// What the page asked is what the command is asked by its flags.
	r, err := wire.ReadRequest(b.Press[1].Value, nil)
	if err != nil {
		t.Fatal(err)
	}
	if want := (wire.Printing{Paper: "Letter", Units: "mm", Language: "en", Wide_mm: 98.5, High_mm: 101, Address: "https://ruffs.example/plan/#"}); *r.Print != want {
		t.Errorf("asked for %+v, want %+v", *r.Print, want)
	}

	for _, change := range [][3]string{{"set", "ruff.depth", "64"}, {"set", "sheets.paper", "A4"}, {"do", "units", "in"}} {
		b.send(doc.Kind(change[0]), change[1], change[2])
		if got := b.Text["pressing"]; !strings.HasPrefix(got, "These sheets are of the ruff, the paper or the unit as it was") {
			t.Errorf("after %v: %q", change, got)
		}
	}
	b.send(doc.Do, "units", "mm")
	b.send(doc.Set, "sheets.paper", "Letter")
	b.send(doc.Do, "undo", "")
	if got := b.Text["pressing"]; !strings.HasPrefix(got, "Ready: ") {
		t.Errorf("all as it was, and it says %q", got)
	}
}

// TestSheetsRefused: what cannot be used is said at its place, and nothing is made.
func TestSheetsRefused(t *testing.T) {
	b := printer(t)
	for text, want := range map[string]string{
		"94": "94 is too far off", "105.5": "95 to 105 mm", "wide": "“wide”", "4 in": "", "95": "", "105": "", " ": "",
	} {
		b.send(doc.Set, "sheets.across", text)
		got := b.Text["f-sheets-across-wrong"]
		if (got == "") != (want == "") || !strings.Contains(strings.NewReplacer(`"`, "“").Replace(got), strings.TrimSuffix(want, "”")) {
			t.Errorf("%q: says %q, want %q", text, got, want)
		}
	}
	b.send(doc.Set, "sheets.across", "")
	b.send(doc.Typing, "sheets.across", "9") // on the way to 98
	if got := b.Text["f-sheets-across-wrong"]; got != "" {
		t.Errorf("complains while it is typed: %s", got)
	}
	b.send(doc.Do, "sheets", "make")
	if got := b.Text["pressing"]; len(b.Press) != 0 || got != "No sheets were made: what the square measures cannot be used." {
		t.Errorf("says %q, asked %v", got, b.Press)
	}
	if b.Attr["f-sheets-across"]["aria-invalid"] != "true" {
		t.Error("the square is not marked")
	}
	b.send(doc.Set, "sheets.across", "")
	b.send(doc.Set, "ruff.sets", "lots")
	b.send(doc.Do, "sheets", "make")
	if got := b.Text["pressing"]; len(b.Press) != 0 || !strings.HasPrefix(got, "No sheets were made: they would leave out what is typed") || !strings.Contains(got, "Sets: “lots”") {
		t.Errorf("says %q, asked %v", got, b.Press)
	}
	b.send(doc.Set, "ruff.sets", "40")
	b.send(doc.Set, "sheets.paper", "A0")
	b.send(doc.Do, "sheets", "make")
	b.until("done")
}

// TestSheetsStop: Stop ends the press at once; one that dies, falls silent or
// speaks in riddles is told of; the page goes on, and the sheets at hand stay.
func TestSheetsStop(t *testing.T) {
	b := printer(t)
	b.send(doc.Do, "sheets", "make")
	b.until("done")
	was := b.Files["save-sheets"]
	for name, c := range map[string]struct {
		end  func()
		want string
	}{
		"stop":    {func() { b.send(doc.Do, "sheets", "stop") }, "Stopped; no new sheets were made. Ready: "},
		"dies":    {func() { b.send(doc.Press, "died", "its program ended by itself") }, "The sheets could not be made. Its program ended by itself. The rest of the page works on"},
		"missing": {func() { b.send(doc.Press, "died", "its program did not arrive (the server answered 404)") }, "(the server answered 404)"},
		"riddles": {func() { b.HearPress(10, "{]", nil); b.carry() }, "The sheets could not be made."},
		"silent": {func() {
			for range 6 {
				b.Send(30000, doc.Timer, "press", "")
			}
			b.carry()
		}, "It fell silent."},
	} {
		b.send(doc.Do, "sheets", "make")
		if b.Attr["press"]["data-state"] != "busy" || b.stop == nil {
			t.Fatalf("%s: not begun: %s", name, b.Text["pressing"])
		}
		c.end()
		if got := b.Text["pressing"]; !strings.Contains(got, c.want) || b.stop != nil {
			t.Errorf("%s: says %q, the worker runs: %t", name, got, b.stop != nil)
		}
		b.HearPress(10, `{"id":1,"last":true}`, nil) // late
		b.send(doc.Set, "ruff.depth", "71")
		if b.Failure != "" || !bytes.Equal(b.Files["save-sheets"].Bytes, was.Bytes) {
			t.Errorf("%s: the page fails (%s), or the sheets are gone", name, b.Failure)
		}
		b.send(doc.Do, "undo", "")
	}
}
