package say

// Voice is what a polite live region says: at most one message in quiet_ms. A
// notice is always said; of other messages the newest wins. The zero Voice is
// silent.
type Voice struct {
	first  string // a notice not said yet
	next   string
	spoke  bool
	at_ms  float64
	waits  bool // a timer is set
	notice string
}

// quiet_ms is the least time between two messages.
const quiet_ms = 1000

// Soon puts a message next; an empty one says nothing.
func (v *Voice) Soon(words string) {
	if words != "" {
		v.next = words
	}
}

// First puts a message before all others.
func (v *Voice) First(words string) { v.first = words }

// Notice sets the line at the top of the page, and says it; "" takes it away.
func (v *Voice) Notice(words string) { v.notice, v.first = words, words }

// Line is the line at the top of the page.
func (v *Voice) Line() string { return v.notice }

// Speak gives what is said now, if the last message is old enough, and after how
// many ms to ask again; 0: nothing waits, or it was told already.
func (v *Voice) Speak(now_ms float64) (words string, again_ms float64) {
	if !v.spoke || now_ms-v.at_ms >= quiet_ms {
		words = v.first
		if words == "" {
			words, v.next = v.next, ""
		}
		if words != "" {
			v.first, v.spoke, v.at_ms = "", true, now_ms
		}
	}
	if v.first+v.next != "" && !v.waits {
		v.waits = true
		again_ms = quiet_ms - (now_ms - v.at_ms) + 5
	}
	return words, again_ms
}

// Rings takes note that the time to ask again is there.
func (v *Voice) Rings() { v.waits = false }
