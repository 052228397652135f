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
		words = append(words, say.Word("sheets.stopped"))
	case t.printed == nil:
		return say.Word("sheets.idle")
	}
	if t.printed != nil {
		ready := say.Word("sheets.ready", "n", t.printed.Sheets)
		switch {
		case t.of != t.now():
			ready = say.Word("sheets.old")
		case t.Now.Old:
			ready = say.Word("sheets.last", "n", t.printed.Sheets)
		}
		words = append(words, ready)
		if t.of == t.now() && t.printed.Stops > 0 {
			words = append(words, say.Word("sheets.stops"))
		}
		if t.printed.Unsolved {
			words = append(words, say.Word("sheets.drawn"))
		}
	}
	return strings.Join(words, " ")
}

// pressWords is how far the press is.
func (t *Sheets) pressWords() string {
	far := t.far
	switch {
	case !t.runs:
		return say.Word("press.comes")
	case far.Phase == "sheets" && far.Cells > 0:
		return say.Word("press.sheets", "n", far.Cell+1, "of", far.Cells)
	case far.Phase == "pieces":
		return say.Word("press.pieces")
	case far.Phase == "starch":
		return say.Word("press.starch", "n", far.Factorisation)
	case far.Cells > 1:
		return say.Word("press.solvesof", "n", far.Cell+1, "of", far.Cells)
	}
	return say.Word("press.solves")
}

// fileWords is what the link to a file says.
func (t *Sheets) fileWords(k wire.Kind) string {
	words := say.Word("save." + string(k))
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
		return say.Word("sheets.kB", "file", file, "n", max(1, bytes/1000))
	}
	return say.Word("sheets.MB", "file", file, "n", strconv.FormatFloat(float64(bytes)/1e6, 'f', 1, 64))
}

// savesOrder is the order of the links.
var savesOrder = []wire.Kind{wire.SheetsFile, wire.MarksFile, wire.PiecesFile}

// Nodes is the room 'Sheets to print', as it stands before anybody asks.
func (t *Sheets) Nodes() []doc.Node {
	paper := doc.El("select", "id=f-sheets-paper").With("data-key", paperKey)
	for _, name := range papers {
		paper = paper.WithNodes(doc.El("option", "").With("value", name).Say(say.Word("sheets." + name)))
	}
	paper.Nodes[0] = paper.Nodes[0].With("selected", "")
	square := doc.El("fieldset", "class=square", doc.El("legend", "").Say(say.Word("square")), doc.El("p", "class=aside").Say(say.Word("square.help")))
	for _, key := range []string{acrossKey, upKey} {
		id := doc.Control(key)
		square = square.WithNodes(doc.El("div", "class=field",
			doc.El("label", "for="+id).Say(say.Word("square."+strings.TrimPrefix(key, keys))),
			doc.El("span", "class=entry",
				doc.El("input", "type=text inputmode=decimal autocomplete=off spellcheck=false placeholder=100 id="+id).
					With("data-key", key).With("aria-describedby", id+"-wrong"),
				doc.El("span", "class=unit").Say(scheme.Millimetres.Symbol())),
			doc.El("p", "class=wrong id="+id+"-wrong")))
	}
	saves := doc.El("ul", "class=saves")
	for _, k := range savesOrder {
		saves = saves.WithNodes(doc.El("li", "", doc.El("a", "hidden= id="+saveID(k)).Say(say.Word("save."+string(k)))))
	}
	return []doc.Node{
		doc.El("p", "class=aside").Say(say.Word("sheets.hold")),
		doc.El("div", "class=field", doc.El("label", "for=f-sheets-paper").Say(say.Word("sheets.paper")), doc.El("span", "class=entry", paper)),
		doc.El("details", "", doc.El("summary", "").Say(say.Word("square.off")), square),
		doc.El("p", "class=hundred").Say(say.Word("sheets.hundred")),
		doc.El("div", "class=solver id=press data-state=", doc.El("p", "id=pressing").Say(t.words()),
			doc.El("span", "class=acts",
				doc.El("button", "type=button id=make-sheets class=apply data-do=sheets data-with=make aria-disabled=false").Say(say.Word("sheets.make")),
				doc.El("button", "type=button id=stop-sheets class=quiet data-do=sheets data-with=stop aria-disabled=true").Say(say.Word("sheets.stop")))),
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
