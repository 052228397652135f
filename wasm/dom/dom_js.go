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

// Listen starts the stream of events; it returns at once.
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
		return encode(patches)
	}))
}

// Drew says that the stage has drawn its first frame.
func (d *Document) Drew() { d.loader.Call("drew") }

// Flat shows a picture in place of the stage.
func (d *Document) Flat(source string) { d.loader.Call("flat", source) }

// Fail says that the program cannot go on.
func (d *Document) Fail(why string) { d.loader.Call("fail", why) }

// Paint returns when the browser has had the time to paint what was changed.
func (d *Document) Paint() {
	painted := make(chan struct{})
	var then, again js.Func
	again = js.FuncOf(func(js.Value, []js.Value) any { close(painted); return nil })
	then = js.FuncOf(func(js.Value, []js.Value) any { js.Global().Call("setTimeout", again, 0); return nil })
	defer then.Release()
	defer again.Release()
	if js.Global().Get("document").Get("hidden").Bool() { // no frames come to a hidden tab
		js.Global().Call("setTimeout", again, 0)
	} else {
		js.Global().Call("requestAnimationFrame", then)
	}
	<-painted
}
