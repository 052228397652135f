package page

// voice is the polite live region: at most one message in quiet_ms, the newest
// wins.
type voice struct {
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

// speak says what is next if the last message is old enough, else sets a timer.
func (p *Page) speak(now_ms float64) []Patch {
	v := &p.voice
	switch {
	case v.next == "":
		return nil
	case !v.spoke || now_ms-v.at_ms >= quiet_ms:
		words := v.next
		v.next, v.spoke, v.at_ms = "", true, now_ms
		return p.changes([]Patch{{Op: OpText, ID: "said", Value: words}})
	case !v.waits:
		v.waits = true
		return []Patch{{Op: OpTimer, Name: "voice", MS: quiet_ms - (now_ms - v.at_ms) + 5}}
	}
	return nil
}

// notice sets the line at the top of the page; "" takes it away.
func (p *Page) notice(words string) { p.voice.notice = words; p.saySoon(words) }
