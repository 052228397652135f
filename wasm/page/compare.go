package page

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

// rival is B.
type rival struct {
	scheme   *scheme.Scheme // nil: nothing is compared. Steps share it: it is never changed
	written  string         // as the solver is asked for it
	side     compare.Side
	findings []check.Finding
	asked    bool // of the solver
	done     bool // and the whole answer is here
	none     bool // or there is none
}

// compared is a comparison already made, and of what.
type compared struct {
	of struct {
		a, b             string
		solvedA, solvedB *sim.Solved
		units            scheme.Units
	}
	comparison compare.Comparison
	costly     string       // the scheme whose cost is known
	cost       compare.Cost // of A
}

// compares reports whether there are two ruffs.
func (p *Page) compares() bool { return p.rival.scheme != nil }

// rivals makes s B, nil: none. What is solved of A already, if that is the very
// same, B takes over.
func (p *Page) rivals(s *scheme.Scheme) error {
	if s == nil {
		p.rival = rival{}
		p.dirty = true
		return nil
	}
	r := rival{scheme: s, written: wire.Written(*s)}
	if r.written == p.rival.written && p.rival.scheme != nil {
		p.rival.scheme = s
		return nil
	}
	drawn, err := sim.Draw(*s)
	if err != nil {
		return err
	}
	switch r.written {
	case p.written:
		r.side = p.sideA()
		r.done = p.wholly()
		r.asked = r.done
		if !r.done {
			r.side.Ruff.Solved = nil
		}
	case p.former.written:
		r.side, r.asked, r.done = p.former.side, true, true
	default:
		r.side = compare.SideOf(drawn)
	}
	p.rival, p.dirty = r, true
	return nil
}

// parts keeps what is solved of A, which is about to be changed: as B it may come
// back.
func (p *Page) parts() {
	if p.compares() && p.wholly() {
		p.former = rival{written: p.written, side: p.sideA()}
	}
}

// wholly reports whether everything of A is solved, finely.
func (p *Page) wholly() bool {
	s := &p.solver
	return p.ruff.Solved != nil && s.done && !s.moving && s.asked == p.written
}

// adopts takes over what is solved of B where A is the very same.
func (p *Page) adopts(b *rival) {
	if b.scheme == nil || !b.done || b.none || b.written != p.written || b.side.Ruff.Solved == nil {
		return
	}
	s := &p.solver
	p.ruff.Solved = b.side.Ruff.Solved
	s.asked, s.done, s.out, s.moving, s.deaths = p.written, true, nil, false, 0
	p.findings = say.Finds(p.ruff, p.units)
}

// sideA is A as package check compares it.
func (p *Page) sideA() compare.Side {
	c := &p.compared
	if c.costly != p.written {
		c.costly, c.cost = p.written, compare.SideOf(p.ruff).Cost
	}
	return compare.Side{Ruff: p.ruff, Cost: c.cost}
}

// comparison holds B against A; what was said already is not worked out again.
func (p *Page) comparison() compare.Comparison {
	c := &p.compared
	of := c.of
	of.a, of.b, of.solvedA, of.solvedB, of.units = p.written, p.rival.written, p.ruff.Solved, p.rival.side.Ruff.Solved, p.units
	if of != c.of {
		c.of, c.comparison = of, compare.Of(p.sideA(), p.rival.side, p.units)
		p.rival.findings = say.Finds(p.rival.side.Ruff, p.units)
	}
	return c.comparison
}

// pairs carries out a command of the comparison, each of them one step.
func (p *Page) pairs(name string) {
	a, b := p.scheme, p.rival.scheme
	switch name {
	case "compare-keep": // A becomes B
		if b != nil && p.rival.written == p.written {
			return
		}
		what, said := say.Word("step.keep"), say.Word("said.keep")
		if b != nil {
			what, said = say.Word("step.atob"), say.Word("said.atob")
		}
		p.remember(step{before: a, what: what})
		if p.rivals(&a) == nil {
			p.saySoon(said)
		}
	case "compare-back": // B becomes A
		if b == nil || p.swap(*b, say.Word("step.btoa")) != nil {
			return
		}
		p.saySoon(say.Word("said.btoa", "news", p.news()))
	case "compare-swap":
		if b == nil {
			return
		}
		if p.swap(*b, say.Word("step.swap")) != nil || p.rivals(&a) != nil {
			return
		}
		p.saySoon(say.Word("said.swap", "news", p.news()))
	case "compare-stop":
		if b == nil {
			return
		}
		p.remember(step{before: a, what: say.Word("step.stop")})
		p.rival, p.dirty = rival{}, true
		p.saySoon(say.Word("said.stop"))
	case "twin": // the first comparison that everybody needs
		other, err := check.SewnOtherwise(a)
		if err == nil {
			was := p.rival
			if err = p.rivals(&other); err == nil {
				now := p.rival
				p.rival = was
				p.remember(step{before: a, what: p.twinLabel()})
				p.rival = now
				p.saySoon(say.Theirs(p.comparison().Sentence))
				return
			}
		}
		p.saySoon(say.Word("misfit", "why", say.Told(err.Error())))
	}
}

// solvedRival takes B as far as it is solved.
func (p *Page) solvedRival(r *wire.Result, last bool) {
	b := &p.rival
	b.side.Ruff.Solved, b.done = r.Solved, last
	p.dirty = true
	if last {
		p.saySoon(say.Theirs(p.comparison().Sentence))
	}
}

// code is what a link holds: the ruff at hand, or both; "" if that is too much.
func (p *Page) code() string {
	if b := p.rival.scheme; b != nil {
		return scheme.PairCode(p.scheme, *b)
	}
	return p.scheme.Code()
}

// arrives takes what a link holds as one step: b nil leaves B as it is.
func (p *Page) arrives(a scheme.Scheme, b *scheme.Scheme, what string) error {
	if b == nil {
		return p.replace(a, what)
	}
	was := p.rival
	if err := p.rivals(b); err != nil {
		return err
	}
	now := p.rival
	p.rival = was
	if err := p.replace(a, what); err != nil {
		return err
	}
	p.rival, p.dirty = now, true
	return nil
}

// atHandAlready reports whether a link holds what is at hand.
func (p *Page) atHandAlready(a scheme.Scheme, b *scheme.Scheme) bool {
	return same(a, p.scheme) && (b == nil || p.compares() && same(*b, *p.rival.scheme))
}
