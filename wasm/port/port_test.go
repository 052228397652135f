//go:build !js

package port

import "testing"

// TestPair: what one end posts the other takes, with a body of its own.
func TestPair(t *testing.T) {
	a, b := Pair()
	a.Post("lost", nil) // nobody listens yet
	var got []string
	var bodies [][]byte
	b.Listen(func(head string, body []byte) {
		got, bodies = append(got, head), append(bodies, body)
		if head == "ask" {
			b.Post("answer", []byte{9})
		}
	})
	answered := 0
	a.Listen(func(head string, body []byte) {
		if head == "answer" && len(body) == 1 && body[0] == 9 {
			answered++
		}
	})
	mine := []byte{1, 2, 3}
	a.Post("ask", mine)
	mine[0] = 7
	a.Yield()
	if len(got) != 1 || got[0] != "ask" || answered != 1 {
		t.Errorf("took %q, answered %d times", got, answered)
	}
	if string(bodies[0]) != "\x01\x02\x03" {
		t.Errorf("the body changed after it was posted: %v", bodies[0])
	}
}
