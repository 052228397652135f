package wire

import (
	"errors"
	"fmt"

	"ruffwright/geom/figure"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/matter"
)

// Reply is one thing that the solver says. Exactly one of its parts is set
// beside ID and Last, or none where the request was cancelled or done.
type Reply struct {
	ID   int  // of the request; 0: of none
	Last bool // nothing more comes for this request

	Alive     bool // the program runs
	Cancelled bool // the request was given up for a newer one, or because it was asked
	Progress  *Progress
	Result    *Result
	Tried     *Tried
	Mended    *Mended
	Checked   *Checked
	Held      *Held
	Told      *Told
	Matter    *matter.Field
	Printed   *Printed
	Error     *Error
}

// Progress is how far a request is. One comes when the request is taken up, then
// at most four a second: they are the solver's heartbeat, too.
type Progress struct {
	Phase         string `json:"phase"` // "" when the request is taken up
	Cell          int    `json:"cell"`  // the half set at hand, from 0,
	Cells         int    `json:"cells"` // of how many; of tries and problems likewise
	Factorisation int    `json:"factorisation"`
}

// Result is the ruff as far as it is solved.
type Result struct {
	Solved *sim.Solved // without Halves
	// Awaits names what later results of this request will add: "fine" (the same
	// on the fine grid, and more), or "bow" (with bob and lean), "other".
	Awaits []string
	Took   float64 // ms since the request was taken up
}

// Tried is what became of one change.
type Tried struct {
	Changes []check.Change `json:"changes"`
	Now     Price          `json:"now"`             // of the ruff as it is
	Effect  *Effect        `json:"effect,omitzero"` // nil: it cannot be told, because of Why
	Why     word.Packed    `json:"why,omitzero"`
}

// Effect is what changes do: propose.Effect, and the ruff that they make.
type Effect struct {
	Gone  []string       `json:"gone,omitempty"`
	Left  []string       `json:"left,omitempty"`
	Eased []string       `json:"eased,omitempty"`
	New   []string       `json:"new,omitempty"`
	Quiet []string       `json:"quiet,omitempty"`
	Then  Price          `json:"then"`
	Drawn figure.Outline `json:"drawn"`
}

// Mended is what to do, best first; no ways: nothing was found that is better.
type Mended struct {
	Now  Price        `json:"now"`
	Ways []MendingWay `json:"ways"`
}

// MendingWay is propose.Way.
type MendingWay struct {
	Sentences []word.Packed  `json:"sentences"`
	Changes   []check.Change `json:"changes"`
	Effect    Effect         `json:"effect"`
}

// Price is what a ruff takes and how it hangs: propose.Price.
type Price struct {
	Cloth_mm  float64 `json:"cloth_mm"`
	Starch_mm float64 `json:"starch_mm"`
	Height_mm float64 `json:"height_mm"`
	Droop_mm  float64 `json:"droop_mm"`
	Bow_mm    float64 `json:"bow_mm"`
	Least_h   float64 `json:"least_h"`
	Most_h    float64 `json:"most_h"`
}

// Held is what would hold the look that is wanted.
type Held struct {
	Ways    []HoldingWay `json:"ways"`
	Refused []RefusedWay `json:"refused"`
	// Assumed are the fields that the answer hangs on and that are as a new scheme has them.
	Assumed []check.Change `json:"assumed"`
}

// HoldingWay is a way to sew that holds: propose.Alternative, without its ruff.
type HoldingWay struct {
	Kind    word.Packed    `json:"kind"`
	Changes []check.Change `json:"changes"`
	Notes   []word.Packed  `json:"notes"`
	Price
}

// RefusedWay is one that does not, and why.
type RefusedWay struct {
	Kind word.Packed    `json:"kind"`
	Why  [3]word.Packed `json:"why"` // by scheme.Units
}

// Checked is one problem with a known answer as this program computed it.
type Checked struct {
	Name      string      `json:"name"`
	Source    string      `json:"source"`
	Unit      string      `json:"unit"`
	Reference float64     `json:"reference"`
	Value     float64     `json:"value"`
	Deviation float64     `json:"deviation"`
	Allowed   float64     `json:"allowed"`
	Relative  bool        `json:"relative"`
	Held      bool        `json:"held"`
	Why       word.Packed `json:"why,omitzero"` // why there is no value
	Took      float64     `json:"took_ms"`
}

// Error says why a request has no answer.
type Error struct {
	Cause Cause       `json:"cause"`
	Why   word.Packed `json:"why"`
}

// Cause of an error.
type Cause string

// The causes.
const (
	BadRequest Cause = "request" // it could not be read
	BadScheme  Cause = "scheme"  // a field is at fault: Why names it
	NoDesign   Cause = "design"  // these sets have no mechanics; the geometry's findings say why
	Fault      Cause = "fault"   // a fault in the program, which goes on
)

// head is the JSON of a reply.
type head struct {
	ID        int           `json:"id"`
	Last      bool          `json:"last,omitempty"`
	Alive     bool          `json:"alive,omitempty"`
	Cancelled bool          `json:"cancelled,omitempty"`
	Progress  *Progress     `json:"progress,omitempty"`
	Result    *result       `json:"result,omitempty"`
	Tried     *Tried        `json:"tried,omitempty"`
	Mended    *Mended       `json:"mended,omitempty"`
	Checked   *Checked      `json:"checked,omitempty"`
	Held      *Held         `json:"held,omitempty"`
	Told      *Told         `json:"told,omitempty"`
	Matter    *matter.Field `json:"matter,omitempty"`
	Printed   *Printed      `json:"printed,omitempty"`
	Error     *Error        `json:"error,omitempty"`
}

// Encode gives the head and the body of the reply; an error says what is wrong
// with it (a number that is not finite, a surface that does not fit its grid).
func (r Reply) Encode() (text string, body []byte, err error) {
	h := head{
		ID: r.ID, Last: r.Last, Alive: r.Alive, Cancelled: r.Cancelled, Progress: r.Progress,
		Tried: r.Tried, Mended: r.Mended, Checked: r.Checked, Held: r.Held, Told: r.Told, Matter: r.Matter, Printed: r.Printed, Error: r.Error,
	}
	if r.Printed != nil {
		body = r.Printed.Body
		if err := r.Printed.validate(body); err != nil {
			return "", nil, err
		}
	}
	if r.Result != nil {
		h.Result, body, err = r.Result.encode()
		if err != nil {
			return "", nil, err
		}
	}
	if err := h.validate(); err != nil {
		return "", nil, err
	}
	text, err = encode(h)
	return text, body, err
}

// ReadReply reads a reply.
func ReadReply(text string, body []byte) (Reply, error) {
	var h head
	if err := decode(text, &h); err != nil {
		return Reply{}, err
	}
	if err := h.validate(); err != nil {
		return Reply{}, err
	}
	r := Reply{
		ID: h.ID, Last: h.Last, Alive: h.Alive, Cancelled: h.Cancelled, Progress: h.Progress,
		Tried: h.Tried, Mended: h.Mended, Checked: h.Checked, Held: h.Held, Told: h.Told, Matter: h.Matter, Printed: h.Printed, Error: h.Error,
	}
	if h.Printed != nil {
		if err := h.Printed.validate(body); err != nil {
			return Reply{}, err
		}
		r.Printed.Body = body
		return r, nil
	}
	if h.Result == nil {
		if len(body) > 0 {
			return Reply{}, fmt.Errorf("wire: %d bytes of surfaces with no result", len(body))
		}
		return r, nil
	}
	var err error
	if r.Result, err = h.Result.decode(body); err != nil {
		return Reply{}, err
	}
	return r, nil
}

// effects are what the changes in a reply would do.
func (h *head) effects() (list []*Effect) {
	if h.Tried != nil && h.Tried.Effect != nil {
		list = append(list, h.Tried.Effect)
	}
	if h.Mended != nil {
		for i := range h.Mended.Ways {
			list = append(list, &h.Mended.Ways[i].Effect)
		}
	}
	return list
}

func (h *head) validate() error {
	parts := 0
	for _, has := range []bool{
		h.Alive, h.Cancelled, h.Progress != nil, h.Result != nil, h.Tried != nil, h.Mended != nil,
		h.Checked != nil, h.Held != nil, h.Told != nil, h.Matter != nil, h.Printed != nil, h.Error != nil,
	} {
		if has {
			parts++
		}
	}
	switch {
	case h.ID < 0:
		return fmt.Errorf("wire: reply to request %d", h.ID)
	case parts > 1:
		return fmt.Errorf("wire: a reply of %d parts", parts)
	case parts == 0 && !h.Last:
		return errors.New("wire: a reply that says nothing")
	case h.Cancelled && !h.Last:
		return errors.New("wire: cancelled, and yet not the last reply")
	case h.Error != nil && h.Error.Why.Empty():
		return errors.New("wire: an error without a reason")
	}
	if m := h.Matter; m != nil && len(m.Points) < 2 {
		return fmt.Errorf("wire: what %s moves, at %d places", m.Key, len(m.Points))
	}
	for _, e := range h.effects() {
		if err := e.Drawn.Check(); err != nil {
			return fmt.Errorf("wire: a change that cannot be drawn: %w", err)
		}
	}
	if p := h.Progress; p != nil && (p.Cell < 0 || p.Cells < 0 || p.Cell > p.Cells || p.Factorisation < 0) {
		return fmt.Errorf("wire: progress at %d of %d, %d factorisations", p.Cell, p.Cells, p.Factorisation)
	}
	return nil
}
