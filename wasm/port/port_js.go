package port

import "syscall/js"

// Port is one end of a line.
type Port struct {
	end   js.Value // what has postMessage and onmessage: the worker's scope, or what the loader laid ready
	hear  js.Func
	turn  js.Value // a MessageChannel to itself, for Yield
	turns chan struct{}
}

// Open gives the worker's own end.
func Open() *Port { return open(js.Global()) }

// At gives the end that the loader has laid ready under a name: a program on the
// page's own thread has no end of its own.
func At(name string) *Port { return open(js.Global().Get(name)) }

func open(end js.Value) *Port {
	p := &Port{end: end, turn: js.Global().Get("MessageChannel").New(), turns: make(chan struct{}, 1)}
	p.turn.Get("port1").Set("onmessage", js.FuncOf(func(js.Value, []js.Value) any {
		select {
		case p.turns <- struct{}{}:
		default:
		}
		return nil
	}))
	return p
}

// Listen calls take with every message from the other end; it returns at once.
// take must not block. What is no message of this project reaches it as an empty
// head.
func (p *Port) Listen(take func(head string, body []byte)) {
	p.hear = js.FuncOf(func(_ js.Value, args []js.Value) any {
		head, body := "", []byte(nil)
		if len(args) == 1 {
			message := args[0].Get("data")
			if message.Type() == js.TypeObject {
				if h := message.Get("head"); h.Type() == js.TypeString {
					head = h.String()
				}
				if b := message.Get("body"); b.InstanceOf(js.Global().Get("ArrayBuffer")) {
					bytes := js.Global().Get("Uint8Array").New(b)
					body = make([]byte, bytes.Length())
					js.CopyBytesToGo(body, bytes)
				}
			}
		}
		take(head, body)
		return nil
	})
	p.end.Set("onmessage", p.hear)
}

// Post sends a message. The body goes over as one transferred buffer.
func (p *Port) Post(head string, body []byte) {
	message := js.Global().Get("Object").New()
	message.Set("head", head)
	if len(body) == 0 {
		p.end.Call("postMessage", message)
		return
	}
	bytes := js.Global().Get("Uint8Array").New(len(body))
	js.CopyBytesToJS(bytes, body)
	buffer := bytes.Get("buffer")
	message.Set("body", buffer)
	p.end.Call("postMessage", message, js.Global().Get("Array").New(buffer))
}

// Yield lets the browser deliver what waits and returns. (A timer would be held
// back by 4 ms once it is one of a row; a message to oneself takes a tenth of a
// millisecond.)
func (p *Port) Yield() {
	p.turn.Get("port2").Call("postMessage", js.Null())
	<-p.turns
}
