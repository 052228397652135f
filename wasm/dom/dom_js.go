package dom

import (
	"syscall/js"

	"ruffwright/wasm/doc"
)

// Document is the browser's, reached through the loader.
type Document struct{ loader js.Value }

// Open gives the page's document.
func Open() *Document { return &Document{js.Global().Get("ruffwright")} }

// Language is the language that the page was built in.
func (d *Document) Language() string {
	return js.Global().Get("document").Get("documentElement").Get("lang").String()
}

// Listen starts the stream of events; it returns at once. An answer is the text of the
// patches or, where some have bodies, a list: the text, then the bodies.
func (d *Document) Listen(handle func(doc.Event) []doc.Patch) {
	d.loader.Call("start", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) < 4 {
			return "[]"
		}
		e := doc.Event{Kind: doc.Kind(args[0].String()), Name: args[1].String(), Value: args[2].String(), At_ms: args[3].Float()}
		if len(args) > 4 && args[4].InstanceOf(js.Global().Get("ArrayBuffer")) {
			bytes := js.Global().Get("Uint8Array").New(args[4])
			e.Body = make([]byte, bytes.Length())
			js.CopyBytesToGo(e.Body, bytes)
		}
		patches, err := guarded(handle, e)
		if err != nil {
			d.Fail(err.Error())
			return "[]"
		}
		text, bodies := encode(patches)
		if len(bodies) == 0 {
			return text
		}
		answer := []any{text}
		for _, body := range bodies {
			bytes := js.Global().Get("Uint8Array").New(len(body))
			js.CopyBytesToJS(bytes, body)
			answer = append(answer, bytes.Get("buffer"))
		}
		return answer
	}))
}

// Fail says that the program cannot go on.
func (d *Document) Fail(why string) { d.loader.Call("fail", why) }
