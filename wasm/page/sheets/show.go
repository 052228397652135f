package sheets

import (
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// state is for the looks of the line that tells of the press.
func (t *Sheets) state() string {
	switch {
	case t.busy:
		return "busy"
	case t.why != "":
		return "gone"
	case t.printed != nil:
		return "done"
	}
	return ""
}

// words tells how it stands with the sheets.
func (t *Sheets) words() string {
	var words []string
	switch {
	case t.busy:
		return t.pressWords()
	case t.why != "":
		words = append(words, t.why)
	case t.stopped:
		words = append(words, say.Text("Stopped; no new sheets were made."))
	case t.printed == nil:
		return say.Text("It takes some seconds: the cloth is solved once more, and the starch that it needs.")
	}
	if t.printed != nil {
		ready := say.Text("Ready: %d sheets.", t.printed.Sheets)
		switch {
		case t.of != t.now():
			ready = say.Text("These sheets are of the ruff, the paper or the unit as it was before your last change. Make them again.")
		case t.Now.Old:
			ready = say.Text("%d sheets are ready, but of the last good ruff, not of what is typed.", t.printed.Sheets)
		}
		words = append(words, ready)
		if t.of == t.now() && t.printed.Stops > 0 {
			words = append(words, say.Text("Do not sew this as it is: what stops stands on the record sheet, with what to change."))
		}
		if t.printed.Unsolved {
			words = append(words, say.Text("How the cloth hangs cannot be solved for these sets; the pictures are geometry’s alone."))
		}
	}
	return strings.Join(words, " ")
}

// pressWords is how far the press is.
func (t *Sheets) pressWords() string {
	far := t.far
	switch {
	case !t.runs:
		return say.Text("Fetching the program that makes the sheets.")
	case far.Phase == "sheets" && far.Cells > 0:
		return say.Text("Drawing sheet %d of %d.", far.Cell+1, far.Cells)
	case far.Phase == "pieces":
		return say.Text("Drawing the pieces.")
	case far.Phase == "starch":
		return say.Text("Finding how stiff the starch must be: try %d.", far.Factorisation)
	case far.Cells > 1:
		return say.Text("Solving how the cloth hangs: half set %d of %d.", far.Cell+1, far.Cells)
	}
	return say.Text("Solving how the cloth hangs.")
}

// fileWords is what the link to a file says.
func (t *Sheets) fileWords(k wire.Kind) string {
	words := say.Text(saveWords[k])
	if t.printed != nil {
		for _, f := range t.printed.Files {
			if f.Kind == k {
				return sized(words, f.Bytes)
			}
		}
	}
	return words
}

// sized is a file with its size.
func sized(file string, bytes int) string {
	if bytes < 100_000 {
		return say.Text("%s (%d kB)", file, max(1, bytes/1000))
	}
	return say.Text("%s (%s MB)", file, strconv.FormatFloat(float64(bytes)/1e6, 'f', 1, 64))
}

// saveWords are what the links to the files say.
var saveWords = map[wire.Kind]string{
	wire.SheetsFile: "Save the sheets, PDF", wire.MarksFile: "Save the marks, CSV", wire.PiecesFile: "Save the pieces to cut, SVG in a ZIP",
}

// savesOrder is the order of the links.
var savesOrder = []wire.Kind{wire.SheetsFile, wire.MarksFile, wire.PiecesFile}

// Nodes is the room 'Sheets to print', as it stands before anybody asks.
func (t *Sheets) Nodes() []doc.Node {
	paper := doc.El("select", "id=f-sheets-paper").With("data-key", paperKey)
	for _, name := range papers {
		paper = paper.WithNodes(doc.El("option", "").With("value", name).Say(say.Text(paperWords[name])))
	}
	paper.Nodes[0] = paper.Nodes[0].With("selected", "")
	square := doc.El("fieldset", "class=square", doc.El("legend", "").Say(say.Text("The first sheet’s square measures")), doc.El("p", "class=aside").Say(say.Text("Printers stretch a little, and not both ways alike. Enter what your ruler reads, and new sheets come out true on the same printer and paper. Empty means 100 mm.")))
	for i, key := range []string{acrossKey, upKey} {
		id, label := doc.Control(key), []string{"across", "up"}[i]
		square = square.WithNodes(doc.El("div", "class=field",
			doc.El("label", "for="+id).Say(say.Text(label)),
			doc.El("span", "class=entry",
				doc.El("input", "type=text inputmode=decimal autocomplete=off spellcheck=false placeholder=100 id="+id).
					With("data-key", key).With("aria-describedby", id+"-wrong"),
				doc.El("span", "class=unit").Say(scheme.Millimetres.Symbol())),
			doc.El("p", "class=wrong id="+id+"-wrong")))
	}
	saves := doc.El("ul", "class=saves")
	for _, k := range savesOrder {
		saves = saves.WithNodes(doc.El("li", "", doc.El("a", "hidden= id="+saveID(k)).Say(say.Text(saveWords[k]))))
	}
	return []doc.Node{
		doc.El("p", "class=aside").Say(say.Text("One PDF in true size: what to cut, every mark, the band’s pattern, the order of work, cards for swatches, starching and wear.")),
		doc.El("div", "class=field", doc.El("label", "for=f-sheets-paper").Say(say.Text("Paper")), doc.El("span", "class=entry", paper)),
		doc.El("details", "", doc.El("summary", "").Say(say.Text("If the printed square is not 100 mm")), square),
		doc.El("p", "class=hundred").Say(say.Text("Print at 100 %% (actual size), never “fit to page”. Then measure the square on the first sheet, across and up, before you cut or mark.")),
		doc.El("div", "class=solver id=press data-state=", doc.El("p", "id=pressing").Say(t.words()),
			doc.El("span", "class=acts",
				doc.El("button", "type=button id=make-sheets class=apply data-do=sheets data-with=make aria-disabled=false").Say(say.Text("Make the sheets")),
				doc.El("button", "type=button id=stop-sheets class=quiet data-do=sheets data-with=stop aria-disabled=true").Say(say.Text("Stop")))),
		saves,
	}
}

// Patches are what the room 'Sheets to print' shows just now.
func (t *Sheets) Patches() []doc.Patch {
	var out doc.List
	out.Text("pressing", t.words())
	out.Attr("press", "data-state", t.state())
	out.Bool("make-sheets", "aria-disabled", t.busy)
	out.Bool("stop-sheets", "aria-disabled", !t.busy)
	out.Value(doc.Control(paperKey), t.paper)
	for i, id := range []string{doc.Control(acrossKey), doc.Control(upKey)} {
		out.Value(id, t.square[i])
		out.Flag(id, "aria-invalid", t.wrong[i] != "")
		out.Text(id+"-wrong", t.wrong[i])
	}
	for _, k := range savesOrder {
		out.Text(saveID(k), t.fileWords(k))
	}
	return out
}
