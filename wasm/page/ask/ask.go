// Package ask is what the page asks its solver, and what it hears. The solver works
// in Web Workers, the hands (hands.go): the first solves the ruff at hand, and nothing
// else ever keeps it from that. Then come the ruff that it is compared with, the
// remedies, what would hold, and the solver's own trial, by whichever hand is free. A
// change of the scheme puts an end to what was asked of the old one. The answers are
// given on to the page: here is kept only how far they are.
package ask

import (
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/matter"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// Want is what is to be known.
type Want struct {
	A        string          // the ruff at hand, as it is asked for
	Whole    bool            // of which everything is known
	Solved   *sim.Solved     // as far as it is solved
	B        string          // the ruff beside it; "" none
	BDone    bool            // of which there is nothing more to be known
	Scheme   scheme.Scheme   // of A
	Ruff     *sim.Ruff       // of A
	Findings []check.Finding // of A: the changes that they offer are to be tried
	Units    scheme.Units    // in which lengths are said
}

// purpose of an errand, the most urgent first.
type purpose uint8

const (
	forRuff purpose = iota
	forRival
	forTries
	forMend
	forHold
	forGauge
	forMatter
	forProof
)

// errand is one request that a hand has.
type errand struct {
	id      int
	purpose purpose
	of      string        // the ruff, as it was asked for
	tries   []wire.Trial  // the changes that it tries
	far     wire.Progress // how far it is
}

// Ask is what is known of the solver. Its zero value has not asked for anything.
type Ask struct {
	Want  Want
	Voice *say.Voice

	hands   [mostHands]hand
	helpers int    // hands that may be there beside the first
	died    string // why the first did
	deaths  int    // of the first, since all that was wanted was last done
	watched bool   // a timer to look at the hands is set,
	spared  bool   // and one to end those that have nothing to do

	id     int       // of the newest request
	asked  string    // what was last asked for the ruff; "" nothing
	done   bool      // and the whole answer is here
	none   bool      // or there is none,
	why    word.Text // because of this
	awaits []string  // parts of the ruff that are on their way

	halted   bool // the reader stopped it
	moving   bool // a control moves: coarse answers do
	moved_ms float64
	pulled   bool // what moves is a handle: it is asked for when that stops

	offers []Change              // what the findings offer
	tried  map[string]wire.Tried // what became of it, by key
	mend   mend
	drawn  drawn
	proof  proof
	hold   hold
	gauge  gauge
	matter matters
}

// stand is how it stands with a hand.
type stand uint8

const (
	asleep stand = iota // not started: the page's first numbers come before the first hand
	waking              // started, has not spoken
	ready
	gone // it died twice, or there is none
)

// mostHands is how many there may be: each takes some 30 MB.
const mostHands = 3

// hand is one worker that solves. The first is started once and stays; a helper is started
// when there is something to give it, and ended when it had nothing to do for long.
type hand struct {
	stand    stand
	out      *errand // being worked on; nil: nothing
	heard_ms float64 // when it was last heard
	free_ms  float64 // since when it has had nothing to do
	suspect  bool    // it was silent too long once; what waits in the browser's line is heard first
	knows    string  // the ruff that it was given whole, as asked for
}

// GaugeKeys are the controls in which the readings of a trial set are typed: its poses in
// their order, then the weight. They are no fields of the scheme.
var GaugeKeys = [...]string{"trial.height", "trial.tipped", "trial.hanging", "trial.over", "trial.weight"}

// weighed is the place of the weight.
const weighed = len(GaugeKeys) - 1

// hold is the question what would hold the look of the ruff at hand. It waits until the
// ruff and its remedies are done, and another ruff puts an end to it.
type hold struct {
	wanted bool
	got    *wire.Held
	why    word.Text // there is no answer
}

// proof is the solver's own trial: problems whose answers are known from
// elsewhere, solved by the very program that solves the ruff. It waits until the
// ruff is done and gives way to it.
type proof struct {
	wanted bool
	done   bool
	of     int // how many there are, 0 not told yet
	rows   []wire.Checked
}

// mend is the question what to do about the ruff at hand: the fewest changes that leave
// nothing to stop for or to mend. It is asked when the changes that are offered have been
// tried, and begins with those that help and spoil nothing.
type mend struct {
	done bool
	ways []wire.MendingWay
}

// drawn is the ruff at hand in lines, and of which it was drawn.
type drawn struct {
	asked string
	of    *sim.Solved
	lines figure.Outline
}

// gauge is the question what the readings of a trial set tell of the ruff at hand. What is
// typed stays; the answer is of one ruff.
type gauge struct {
	typed  [len(GaugeKeys)]string
	wrong  [len(GaugeKeys)]string // why an entry cannot be used
	wanted bool
	read   wire.Readings
	got    *wire.Told
	why    word.Text // there is no answer
}

// matters is the question which fields move the ruff at hand most. It waits until the
// ruff is done. What is known stays while the reader tries one of these fields.
type matters struct {
	wanted bool
	of     string // the ruff, as it was asked for
	got    []matter.Field
	none   word.Text // there is no answer, and why
}

// Change is one change that findings offer. Each is there once, whoever offers it.
type Change struct {
	Sentence word.Text
	Changes  []check.Change // fields that differ, in the order of the fields
	Of       []string       // ids of the findings that offer it,
	Number   int            // and which of the first one's remedies it is

	Effect *wire.Effect // nil: it was not tried, or it cannot be told,
	Why    word.Text    // because of this
}
