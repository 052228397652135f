package page

import "ruffwright/wasm/doc"

// voice is the polite live region: at most one message in quiet_ms. A notice
// is always said; of other messages the newest wins.
type voice struct {
	first  string // a notice not said yet
	next   string
	spoke  bool
	at_ms  float64
	waits  bool // a timer is set
	notice string
}

// quiet_ms is the least time between two messages.
const quiet_ms = 1000

// saySoon puts a message next; an empty one says nothing.
func (p *Page) saySoon(words string) {
	if words != "" {
		p.voice.next = words
	}
}

// speak says what is next if the last message is old enough, and sets a timer
// for what must wait.
func (p *Page) speak(now_ms float64) []doc.Patch {
	v := &p.voice
	var out []doc.Patch
	if !v.spoke || now_ms-v.at_ms >= quiet_ms {
		words := v.first
		if words == "" {
			words, v.next = v.next, ""
		}
		if words != "" {
			v.first, v.spoke, v.at_ms = "", true, now_ms
			out = p.changes([]doc.Patch{{Op: doc.OpText, ID: "said", Value: words}})
		}
	}
	if v.first+v.next != "" && !v.waits {
		v.waits = true
		out = append(out, doc.Patch{Op: doc.OpTimer, Name: "voice", MS: quiet_ms - (now_ms - v.at_ms) + 5})
	}
	return out
}

// notice sets the line at the top of the page; "" takes it away.
func (p *Page) notice(words string) { p.voice.notice, p.voice.first = words, words }
