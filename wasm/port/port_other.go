//go:build !js

package port

import (
	"runtime"
	"slices"
)

// Port is one end of a line.
type Port struct {
	other *Port
	take  func(head string, body []byte)
}

// Pair gives the two ends of a line in memory.
func Pair() (a, b *Port) {
	a, b = &Port{}, &Port{}
	a.other, b.other = b, a
	return a, b
}

// Listen calls take with every message from the other end.
func (p *Port) Listen(take func(head string, body []byte)) { p.take = take }

// Post sends a message: the other end's take is called before it returns, with a
// body of its own.
func (p *Port) Post(head string, body []byte) {
	if p.other.take != nil {
		p.other.take(head, slices.Clone(body))
	}
}

// Yield lets others go on.
func (p *Port) Yield() { runtime.Gosched() }
