package main

import (
	"errors"
	"flag"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/window"
)

// solving is how a verb solves: on which mesh, telling how far it is.
type solving struct {
	grid gridFlag
	tell bool
}

func (s *solving) flags(f *flag.FlagSet) {
	f.Var(&s.grid, "grid", "`mesh` of a half set: coarse (16 × 8), fine (24 × 12) or finest (32 × 16)")
	f.BoolVar(&s.tell, "progress", false, "tell how far it is also where standard error is no terminal")
}

// solve gives the solved ruff of a scheme. what is said before how far it is.
func (s *solving) solve(j job, what string, made scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
	p := newProgress(j, s.tell)
	defer p.done()
	opt.Grid = s.grid.grid()
	if what != "" {
		what += ": "
	}
	opt.Progress = func(at sim.Progress) {
		p.tell("%shalf set %d of %d, %s, step %d", what, at.Cell+1, at.Cells, at.Phase, at.Iterations)
	}
	return sim.Solve(j.ctx, made, opt)
}

// gridFlag is the mesh that is asked for; fine if none is.
type gridFlag struct{ chosen *meshed }

type meshed struct {
	name string
	grid window.Grid
}

var meshes = []meshed{{"coarse", window.Coarse}, {"fine", window.Fine}, {"finest", window.Finest}}

func (g *gridFlag) mesh() meshed {
	if g == nil || g.chosen == nil {
		return meshes[1]
	}
	return *g.chosen
}

func (g *gridFlag) String() string    { return g.mesh().name }
func (g *gridFlag) grid() window.Grid { return g.mesh().grid }

func (g *gridFlag) Set(text string) error {
	for i, m := range meshes {
		if m.name == text {
			g.chosen = &meshes[i]
			return nil
		}
	}
	return errors.New("allowed: coarse, fine, finest")
}

// unsolvable turns the error of a scheme whose half set has no mechanics into
// what geometry says of it, where it says anything; other errors stay.
func unsolvable(made scheme.Scheme, err error) error {
	if !errors.Is(err, sim.ErrDesign) {
		return err
	}
	r, wrong := sim.Draw(made)
	if wrong != nil {
		return wrong
	}
	why := "the cloth cannot be solved as these sets are planned"
	said := false
	for _, f := range check.Find(r, scheme.Millimetres) {
		if f.Severity == check.Stop && !f.Pending {
			why += "\n" + f.Sentence.String()
			said = true
		}
	}
	if !said {
		return err
	}
	return errors.New(why + "\nruffwright check says what to change")
}

// modelLimits says in one line what the solved numbers leave out for this scheme.
func modelLimits(s scheme.Scheme, r sim.Ruff) string {
	words := "Every set is solved as if its neighbours were its mirror images; the opening, friction, damp and wear are left out."
	if c := s.Cloth; c.Mass == 0 || c.Thickness == 0 || c.BendWarp == 0 || c.BendWeft == 0 {
		words += " The cloth is a guess until you measure it (ruffwright swatch)."
	}
	if r.Solved != nil && r.Solved.Alike {
		words += " Your own marks are solved as regular sets."
	}
	switch {
	case !r.Plan.Row.Tucked():
	case r.Plan.Scheme.Starch.Bend == 0:
		words += " Tucked and not starched, cloth has several ways to lie; this is one of them. Its give sideways hangs on the mesh and decides nothing."
	default:
		words += " How tucked sets give sideways hangs on the mesh and decides nothing."
	}
	return words
}

// cautions are the sentences of the cautions with these ids, for verbs whose
// answer leads to a hot or sharp step.
func cautions(r sim.Ruff, u scheme.Units, ids ...string) []string {
	var said []string
	for _, f := range check.Find(r, u) {
		for _, id := range ids {
			if f.ID == id && f.Severity == check.Caution {
				said = append(said, f.Sentence.String())
			}
		}
	}
	return said
}
