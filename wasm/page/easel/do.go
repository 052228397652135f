package easel

import (
	"math"
	"strconv"
	"strings"

	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

func hypot(x, y float64) float64 { return math.Hypot(x, y) }

// Do carries out a command of the easel that is about the pictures and the points.
func (e *Easel) Do(what string) []doc.Patch {
	what, of, _ := strings.Cut(what, " ")
	switch what {
	case "open":
		e.open = true
		return []doc.Patch{{Op: doc.OpAttr, ID: "to-easel", Name: "hidden", Gone: true}, {Op: doc.OpFocus, ID: "to-easel"}}
	case "close":
		e.clear()
		return append(ends(source, wearer), doc.Patch{Op: doc.OpFocus, ID: "easel-open"})
	case "source", "wearer":
		e.on = map[string]side{"source": source, "wearer": wearer}[what]
		e.hand.let()
		e.tool = map[side]kind{source: faceHeight, wearer: ruler}[e.on]
		e.bring.why = ""
	case "tool":
		if toolOf(kind(of)) >= 0 {
			e.tool = kind(of)
			e.hand.mark = 0
		}
		if e.tool == share {
			e.counts()
			e.measure()
		}
	case "near":
		e.enlarge(perKey)
	case "far":
		e.enlarge(1 / perKey)
	case "fit":
		e.boards[e.on].fit(e.pad)
	case "undo":
		e.travel(&e.past, &e.future)
	case "redo":
		e.travel(&e.future, &e.past)
	case "away":
		if n, err := strconv.Atoi(of); err == nil {
			e.away(n)
		}
	case "clear":
		e.takeAway(e.on)
		return ends(e.on)
	case "pick":
		return []doc.Patch{{Op: doc.OpEasel, ID: "easel-file", Name: "pick"}}
	}
	return nil
}

// ends has the document forget pictures, and ends the opener.
func ends(of ...side) (out []doc.Patch) {
	for _, s := range of {
		out = append(out, doc.Patch{Op: doc.OpEasel, ID: "easel-canvas", Name: "forget", Value: sideIDs[s]})
	}
	return append(out, doc.Patch{Op: doc.OpEasel, ID: "easel-canvas", Name: "end"})
}

// takeAway forgets a picture and what is placed on it.
func (e *Easel) takeAway(s side) {
	e.boards[s] = board{}
	e.past, e.future = nil, nil
	var left []mark
	for _, m := range e.marks {
		if m.on != s {
			left = append(left, m)
		}
	}
	e.marks = left
	e.hand.let()
	e.bring = bringing{}
	e.measure()
}

// How long the opener may be silent, ms: a large photograph takes ten seconds.
const (
	look_ms   = 5000
	silent_ms = 120000
)

// Timer is the name of the timer that looks at the opener.
const Timer = "easel"

// Chosen begins to open a file that the reader chose: "bytes name".
func (e *Easel) Chosen(value string, now_ms float64) []doc.Patch {
	_, name, _ := strings.Cut(value, " ")
	e.open = true
	e.bring = bringing{busy: true, name: name, heard_ms: now_ms}
	e.voice.Soon(e.stand())
	return []doc.Patch{
		{Op: doc.OpAttr, ID: "to-easel", Name: "hidden", Gone: true},
		{Op: doc.OpEasel, ID: "easel-canvas", Name: "open", Value: sideIDs[e.on]},
		{Op: doc.OpTimer, Name: Timer, MS: look_ms},
	}
}

// Check ends an opener that has been silent too long.
func (e *Easel) Check(now_ms float64) []doc.Patch {
	if !e.bring.busy {
		return nil
	}
	if now_ms-e.bring.heard_ms > silent_ms {
		return e.Fail(say.Text("it took too long"))
	}
	return []doc.Patch{{Op: doc.OpTimer, Name: Timer, MS: look_ms}}
}

// Fail takes note that the picture was not opened. What was there before stays.
func (e *Easel) Fail(why string) []doc.Patch {
	if !e.bring.busy {
		return nil
	}
	e.bring.busy = false
	e.bring.why = say.Text("%s was not opened. %s", e.bring.name, say.Sentence(why))
	e.voice.Soon(e.bring.why)
	return []doc.Patch{{Op: doc.OpEasel, ID: "easel-canvas", Name: "end"}}
}

// Hear takes what the opener says of the picture.
func (e *Easel) Hear(head string) []doc.Patch {
	if !e.bring.busy {
		return nil
	}
	o, err := wire.ReadOpened(head)
	switch {
	case err != nil:
		return e.Fail(err.Error())
	case o.Alive:
		return nil
	case !o.Why.Empty():
		return e.Fail(say.In(o.Why.Text))
	}
	name := e.bring.name
	e.takeAway(e.on)
	e.boards[e.on] = board{name: name, wide: float64(o.Wide), high: float64(o.High), times: float64(o.Wide) / float64(o.Width)}
	e.boards[e.on].fit(e.pad)
	e.measure()
	e.voice.Soon(e.stand())
	return []doc.Patch{{Op: doc.OpEasel, ID: "easel-canvas", Name: "end"}, {Op: doc.OpFocus, ID: "easel-canvas"}}
}
