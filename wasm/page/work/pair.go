package work

import (
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/check/compare"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// A comparison holds two ruffs: A is the ruff at hand, in the form; B is kept
// beside it until the reader puts another in its place. Both stand on the stage
// and in the link, and a step back restores both. Which is better, and why, is
// package check's to say; the command says the same.

// Compares reports whether there are two ruffs.
func (w *Work) Compares() bool { return w.B.Scheme != nil }

// SetB makes s B, nil: none. What is solved of A already, if that is the very same,
// B takes over.
func (w *Work) SetB(s *scheme.Scheme) error {
	if s == nil {
		w.B, w.changes.Shown = Rival{}, true
		return nil
	}
	b := Rival{Scheme: s, Asked: wire.Written(*s)}
	if b.Asked == w.B.Asked && w.B.Scheme != nil {
		w.B.Scheme = s
		return nil
	}
	drawn, err := sim.Draw(*s)
	if err != nil {
		return err
	}
	switch b.Asked {
	case w.Asked:
		b.Side, b.Done = w.sideA(), w.Whole
		if !w.Whole {
			b.Side.Ruff.Solved = nil
		}
	case w.former.Asked:
		b.Side, b.Done = w.former.Side, true
	default:
		b.Side = compare.SideOf(drawn)
	}
	w.B, w.changes.Shown = b, true
	return nil
}

// SolveB takes B as far as it is solved; none: it cannot be.
func (w *Work) SolveB(solved *sim.Solved, last, none bool) {
	b := &w.B
	b.Done, b.None = last, none
	if !none {
		b.Side.Ruff.Solved = solved
	}
	w.changes.Shown = true
}

// sideA is A as package check compares it.
func (w *Work) sideA() compare.Side {
	c := &w.compared
	if c.costly != w.Asked {
		c.costly, c.cost = w.Asked, compare.SideOf(w.Ruff).Cost
	}
	return compare.Side{Ruff: w.Ruff, Cost: c.cost}
}

// Comparison holds B against A; what was said already is not worked out again.
func (w *Work) Comparison() compare.Comparison {
	c := &w.compared
	of := c.of
	of.a, of.b, of.solvedA, of.solvedB, of.units = w.Asked, w.B.Asked, w.Ruff.Solved, w.B.Side.Ruff.Solved, w.Units
	if of != c.of {
		c.of, c.comparison = of, compare.Of(w.sideA(), w.B.Side, w.Units)
		w.B.Findings = check.Find(w.B.Side.Ruff, w.Units)
	}
	return c.comparison
}

// Twinned is said of the comparison with the other way of sewing: its sentence.
const Twinned = "%s"

// Pair carries out a command of the comparison, each of them one step, and gives the
// template of what is said of it, with a place for the news; "" where nothing was done.
func (w *Work) Pair(name string) (said string, err error) {
	a, b := w.Scheme, w.B.Scheme
	if b == nil && name != "compare-keep" && name != "twin" {
		return "", nil
	}
	switch name {
	case "compare-keep": // A becomes B
		if b != nil && w.B.Asked == w.Asked {
			return "", nil
		}
		said, what := "Kept as B. Change A in the form: both are shown.", say.Text("keep a ruff to compare")
		if b != nil {
			said, what = "A is copied to B.", say.Text("copy A to B")
		}
		w.remember(step{before: a, what: what})
		return said, w.SetB(&a)
	case "compare-back": // B becomes A
		return "B is copied to A. %s", w.Swap(*b, say.Text("copy B to A"))
	case "compare-swap":
		if err := w.Swap(*b, say.Text("swap A and B")); err != nil {
			return "", err
		}
		return "A and B are swapped. %s", w.SetB(&a)
	case "compare-stop":
		w.remember(step{before: a, what: say.Text("stop comparing")})
		return "The comparison is put away; A stays.", w.SetB(nil)
	}
	other, err := check.SewnOtherwise(a) // the first comparison that everybody needs
	if err != nil {
		return "", err
	}
	was := w.B
	if err := w.SetB(&other); err != nil {
		return "", err
	}
	now := w.B
	w.B = was
	w.remember(step{before: a, what: w.TwinLabel()})
	w.B = now
	return Twinned, nil
}

// Code is what a link holds: the ruff at hand, or both; "" if that is too much.
func (w *Work) Code() string {
	if b := w.B.Scheme; b != nil {
		return scheme.PairCode(w.Scheme, *b)
	}
	return w.Scheme.Code()
}

// Holds reports whether what a link holds is at hand.
func (w *Work) Holds(a scheme.Scheme, b *scheme.Scheme) bool {
	return Same(a, w.Scheme) && (b == nil || w.Compares() && Same(*b, *w.B.Scheme))
}

// sewnTo are the edges that a ruff may be sewn to, "" both.
var sewnTo = map[scheme.Edge]string{
	"": "both edges", scheme.EdgeTop: "top edge only", scheme.EdgeBottom: "bottom edge only", scheme.EdgeNone: "to neither edge",
}

// edge is the edge that a ruff is sewn to alone, "" both.
func edge(of sim.Ruff) scheme.Edge {
	if row := of.Plan.Row; row.OneEdge() {
		return row.Edge()
	}
	return ""
}

// Sewn is how A and B are sewn, in words.
func (w *Work) Sewn() (a, b string) {
	return say.Text(sewnTo[edge(w.Ruff)]), say.Text(sewnTo[edge(w.B.Side.Ruff)])
}

// TwinLabel is what the button of the first comparison says: how A is sewn, and
// the other way.
func (w *Work) TwinLabel() string {
	this, other := edge(w.Ruff), scheme.EdgeTop
	if this != "" {
		other = ""
	}
	return say.Text("Compare: %s, or %s", say.Text(sewnTo[this]), say.Text(sewnTo[other]))
}
