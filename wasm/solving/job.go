package solving

import (
	"context"
	"errors"
	"time"

	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/wasm/wire"
)

// job is one request being worked on.
type job struct {
	b     *Bench
	ctx   context.Context
	r     *wire.Request
	began time.Time
	told  time.Duration // when progress was last told, since began
	rest  time.Duration // when it last yielded
	ended bool          // the last reply is out
}

func (j *job) since() time.Duration { return time.Since(j.began) }

// took is since in ms.
func (j *job) took() float64 { return float64(j.since().Microseconds()) / 1000 }

// say sends a reply of this request. After the last one nothing more goes out.
func (j *job) say(r wire.Reply) {
	if j.ended {
		return
	}
	r.ID = j.r.ID
	j.ended = r.Last
	j.b.say(r)
}

// tell sends progress.
func (j *job) tell(p wire.Progress) {
	j.told = j.since()
	j.say(wire.Reply{Progress: &p})
}

// fail ends the request with an error.
func (j *job) fail(cause wire.Cause, why word.Text) {
	j.say(wire.Reply{Last: true, Error: &wire.Error{Cause: cause, Why: word.Packed{Text: why}}})
}

// refuse ends the request with what the pipeline said against it, unless it was
// cancelled.
func (j *job) refuse(err error) {
	switch {
	case j.ctx.Err() != nil:
	case errors.Is(err, sim.ErrDesign):
		j.fail(wire.NoDesign, word.Of(err))
	default:
		j.fail(wire.BadScheme, word.Of(err))
	}
}

// at is called from within the work: it tells how far that is, now and then, and
// lets requests come in.
func (j *job) at(p wire.Progress) {
	now := j.since()
	if now-j.told >= j.b.pulse {
		j.tell(p)
	}
	if now-j.rest >= j.b.breath {
		j.b.yield()
		j.rest = j.since()
	}
}
