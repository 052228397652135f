// Package solving is the logic of the solver's worker: requests of package wire
// come in, the pipeline's functions answer them, part by part. It knows no
// browser, so that all of it runs under plain go test.
package solving

import (
	"context"
	"fmt"
	"sync"
	"time"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/wasm/wire"
)

// Bench works on one request at a time: the newest. Take may be called at any
// time, Serve once.
type Bench struct {
	post  func(head string, body []byte)
	yield func()

	mu      sync.Mutex
	next    *wire.Request // waits
	now     int           // id being worked on, 0 none
	stop    context.CancelFunc
	wake    chan struct{}
	warm    store
	base    base          // the ruff to which changes are tried,
	changed changed       // and what they made of it
	print   Printer       // nil: this program does not print
	gauged  gauged        // the newest trial set's model
	hold    func(*job)    // nil: this program does not look for what would hold,
	mend    func(*job)    // nor for what to do,
	matter  func(*job)    // nor for what matters
	pulse   time.Duration // between two progress messages
	breath  time.Duration // between two yields
}

const (
	pulse  = 250 * time.Millisecond
	breath = 8 * time.Millisecond
)

// New makes a bench. It speaks through post; yield is called while it works, so
// that requests can come in: it must let them, and return.
func New(post func(head string, body []byte), yield func()) *Bench {
	return &Bench{post: post, yield: yield, wake: make(chan struct{}, 1), pulse: pulse, breath: breath}
}

// Printer makes the sheets of a scheme. It ends with ctx, and tells now and then
// how far it is. Its errors are of the scheme or of how it is to be printed.
type Printer func(ctx context.Context, s scheme.Scheme, how wire.Printing, tell func(wire.Progress)) (*wire.Printed, error)

// Prints has the bench print with p. The solver's program has no printer: that
// would make it half as large again.
func (b *Bench) Prints(p Printer) { b.print = p }

// Holds has the bench look for what would hold, for what to do and for what matters. The
// press is not asked that, and is smaller without.
func (b *Bench) Holds() { b.hold, b.mend, b.matter = (*job).hold, (*job).mend, (*job).matter }

// Take takes a request; it returns at once. The newest request puts an end to
// all before it.
func (b *Bench) Take(head string, body []byte) {
	r, err := wire.ReadRequest(head, body)
	if err != nil {
		b.say(wire.Reply{Last: true, Error: &wire.Error{Cause: wire.BadRequest, Why: word.Packed{Text: word.Of(err)}}})
		return
	}
	b.mu.Lock()
	dropped := 0
	if b.next != nil && (r.Task != wire.Cancel || r.ID == 0 || r.ID == b.next.ID) {
		dropped, b.next = b.next.ID, nil
	}
	if b.stop != nil && (r.Task != wire.Cancel || r.ID == 0 || r.ID == b.now) {
		b.stop()
	}
	if r.Task != wire.Cancel {
		b.next = &r
	}
	b.mu.Unlock()
	if dropped > 0 {
		b.say(wire.Reply{ID: dropped, Last: true, Cancelled: true})
	}
	select {
	case b.wake <- struct{}{}:
	default:
	}
}

// Serve works until ctx ends. It says that it is alive first.
func (b *Bench) Serve(ctx context.Context) {
	b.say(wire.Reply{Alive: true})
	for {
		select {
		case <-ctx.Done():
			return
		case <-b.wake:
		}
		for {
			b.mu.Lock()
			r := b.next
			b.next = nil
			var own context.Context
			if r != nil {
				own, b.stop = context.WithCancel(ctx)
				b.now = r.ID
			}
			b.mu.Unlock()
			if r == nil {
				break
			}
			b.work(own, r)
			b.mu.Lock()
			b.stop()
			b.stop, b.now = nil, 0
			b.mu.Unlock()
		}
	}
}

// work answers one request; it ends with exactly one reply that is the last.
func (b *Bench) work(ctx context.Context, r *wire.Request) {
	j := &job{b: b, ctx: ctx, r: r, began: time.Now()}
	defer func() {
		if why := recover(); why != nil {
			b.warm, b.base, b.changed = store{}, base{}, changed{} // what it left behind is not to be trusted
			j.fail(wire.Fault, word.Name(fmt.Sprint(why)))
		}
	}()
	j.tell(wire.Progress{}) // taken up
	switch r.Task {
	case wire.Solve:
		j.solve()
	case wire.Try:
		j.try()
	case wire.Gauge:
		j.gauge()
	case wire.Hold, wire.Mend:
		look := b.hold
		if r.Task == wire.Mend {
			look = b.mend
		}
		if look == nil {
			j.fail(wire.BadRequest, word.Say("this program does not look for what would hold"))
		} else {
			look(j)
		}
	case wire.Matter:
		if b.matter == nil {
			j.fail(wire.BadRequest, word.Say("this program does not look for what matters"))
		} else {
			b.matter(j)
		}
	case wire.Verify:
		j.verify()
	case wire.Print:
		j.print()
	}
	if !j.ended {
		if ctx.Err() != nil {
			j.say(wire.Reply{Last: true, Cancelled: true})
		} else {
			j.say(wire.Reply{Last: true})
		}
	}
}

// say speaks; what cannot be encoded becomes an error that can.
func (b *Bench) say(r wire.Reply) {
	head, body, err := r.Encode()
	if err != nil {
		head, body, err = wire.Reply{ID: r.ID, Last: true, Error: &wire.Error{Cause: wire.Fault, Why: word.Packed{Text: word.Of(err)}}}.Encode()
		if err != nil { // words and a number alone: it cannot
			return
		}
	}
	b.post(head, body)
}
