package propose

import (
	"context"
	"math"
	"slices"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/window"
)

// trial is the search for one kind.
type trial struct {
	ctx   context.Context
	given scheme.Scheme
	kind  Kind
	ask   Asked
	solve check.Solver
	count *counter
}

func newTrial(ctx context.Context, s scheme.Scheme, k Kind, ask Asked, count *counter) *trial {
	t := &trial{ctx: ctx, given: s, kind: k, ask: ask, solve: ask.Solve, count: count}
	if t.solve == nil {
		t.solve = sim.Solve
	}
	return t
}

// free says whether a proposal may change the field key: pleats, band, starch and
// supporter, but not what is made already, nor what is kept.
func (t *trial) free(key string) bool {
	group, _, _ := strings.Cut(key, ".")
	open := slices.Contains([]string{"pleat", "band", "starch", "support"}, group) && key != "band.length" && key != "pleat.pitch"
	return (open || slices.Contains(t.ask.Free, key)) && !slices.Contains(t.ask.Keep, key)
}

// allowed gives the field that s may not change and does, "" where there is none.
func (t *trial) allowed(s scheme.Scheme) string {
	for _, c := range check.Between(t.given, s) {
		if !t.free(c.Key) {
			return c.Key
		}
	}
	return ""
}

// sight is how exactly ruffs are solved: quick ones on the coarse grid, shape and bow
// alone, on a round neck of the same girth, for an oval one has a dozen half sets where a
// round one has one.
type sight struct {
	opt   sim.Options
	round bool
}

var (
	quick = sight{sim.Options{Grid: window.Coarse, SkipOther: true, SkipTangents: true}, true}
	real  = sight{sim.Options{SkipFiner: true}, false}
	whole = sight{}
)

func (t *trial) see(s scheme.Scheme, how sight) (state, error) {
	t.count.one()
	was := s
	if how.round && s.Wearer.Ratio != 1 {
		s.Wearer.Ratio = 1
	}
	a, err := t.solved(s, how.opt)
	a.s = was
	return a, err
}

// run gives the alternative of the kind, or why there is none.
func (t *trial) run() (*Alternative, Reason, error) {
	seed, not, ok := t.kind.seed(t.given)
	why := because(not)
	if !ok {
		return nil, why, nil
	}
	if key := t.allowed(seed); key != "" {
		f, _ := scheme.Lookup(key)
		return nil, because(word.Say("it would change what you keep: %s", word.Say(f.Label))), nil
	}
	for _, how := range []sight{quick, real} {
		a, err := t.mend(seed, how)
		if err != nil {
			return nil, Reason{}, err
		}
		if t.hopeless(a) {
			return nil, a.reason(), nil
		}
		if !a.weigh().holds() {
			why = a.reason()
			continue
		}
		least, err := t.lessen(a.s, how)
		if err != nil {
			return nil, Reason{}, err
		}
		b, err := t.sure(least, a)
		if err != nil {
			return nil, Reason{}, err
		}
		if b.weigh().holds() {
			return t.alternative(b), Reason{}, nil
		}
		why, seed = b.reason(), a.s
		if w := b.weigh(); w.stops+w.mends == 0 {
			break // seen more exactly it is no surer
		}
	}
	return nil, why, nil
}

// sure solves whole what was found: with the least starch that will do, then with as much
// as was begun with. Tucks, whose inside lies in several ways where the starch is least,
// begin midway between the two. It gives the first of which all is sure, else the better.
func (t *trial) sure(least scheme.Scheme, begun state) (best state, err error) {
	from := least.Starch.Bend
	if begun.r.Plan.Row.Tucked() {
		from = math.Ceil(math.Sqrt(max(from, own(begun.s)) * begun.s.Starch.Bend))
	}
	for i, bend := range []float64{from, begun.s.Starch.Bend} {
		if i > 0 && bend <= from {
			break
		}
		s := begun.s
		s.Starch.Bend = bend
		b, err := t.see(s, whole)
		if err != nil {
			return best, err
		}
		if i == 0 || b.weigh().compare(best.weigh()) < 0 {
			best = b
		}
		if best.weigh() == (weight{}) {
			break
		}
	}
	return best, nil
}

// rounds is how many changes are made one after another at most.
const rounds = 5

// mend changes s by what its findings offer, the best change each time, until nothing
// stops or is to mend or nothing makes it better.
func (t *trial) mend(s scheme.Scheme, how sight) (state, error) {
	a, err := t.see(s, how)
	for range rounds {
		if err != nil || a.weigh() == (weight{}) || t.hopeless(a) {
			return a, err
		}
		best := a
		for _, r := range a.remedies() {
			next, ok := t.apply(a.s, r)
			if !ok {
				continue
			}
			var b state
			if b, err = t.see(next, how); err != nil {
				return a, err
			}
			if b.weigh().compare(best.weigh()) < 0 {
				best = b
			}
			if best.weigh() == (weight{}) {
				break
			}
		}
		if best.weigh() == a.weigh() {
			return a, nil
		}
		a = best
	}
	return a, err
}

// apply gives s with a remedy, and whether the kind and what may change allow it.
func (t *trial) apply(s scheme.Scheme, r check.Remedy) (scheme.Scheme, bool) {
	next, err := check.Apply(s, r)
	if err != nil || t.allowed(next) != "" {
		return next, false
	}
	drawn, err := sim.Draw(next)
	return next, err == nil && t.kind.holds(drawn.Plan)
}

// hopeless reports that something stops by geometry and nothing that it offers may be
// done: no starch and no seam mends a strip too short.
func (t *trial) hopeless(a state) bool {
	for _, f := range a.found {
		if f.Severity != check.Stop || !fromGeometry[f.ID] {
			continue
		}
		if !slices.ContainsFunc(f.Remedies, func(r check.Remedy) bool { _, ok := t.apply(a.s, r); return ok }) {
			return true
		}
	}
	return false
}

// fromGeometry are the ids of the findings that geometry alone makes.
var fromGeometry = func() map[string]bool {
	ids := map[string]bool{}
	for _, l := range check.Table() {
		ids[l.ID] = l.From == check.FromGeometry
	}
	return ids
}()

// starchStep is how exactly the least starch is found, as a factor of the bending length:
// a swatch is read to about a twentieth.
const starchStep = 1.1

// lessen gives s with as little starch as leaves nothing to stop for, to mend or in doubt.
func (t *trial) lessen(s scheme.Scheme, how sight) (scheme.Scheme, error) {
	if !t.free("starch.bend") || s.Starch.Bend == 0 {
		return s, nil
	}
	holds := func(bend_mm float64) (bool, error) {
		less := s
		less.Starch.Bend = bend_mm
		a, err := t.see(less, how)
		return err == nil && a.weigh() == (weight{}), err
	}
	if ok, err := holds(0); ok || err != nil {
		s.Starch.Bend = 0
		return s, err
	}
	low, high := own(s), s.Starch.Bend
	for high > starchStep*low {
		m := math.Ceil(math.Sqrt(low * high))
		if m >= high {
			break
		}
		ok, err := holds(m)
		switch {
		case err != nil:
			return s, err
		case ok:
			high = m
		default:
			low = m
		}
	}
	s.Starch.Bend = high
	return s, nil
}

// own is the bending length of the cloth along the strip without starch, mm.
func own(s scheme.Scheme) float64 {
	c := s.Filled().Cloth
	if s.Strip.Along == scheme.Warp {
		return c.BendWarp
	}
	return c.BendWeft
}

// alternative is what a state that holds is told as.
func (t *trial) alternative(a state) *Alternative {
	return &Alternative{Kind: t.kind, Changes: check.Between(t.given, a.s), Scheme: a.s, Ruff: a.r, Findings: a.found,
		Strip_mm: a.r.Plan.Strip_mm, Price: PriceOf(a.r)}
}

func ceil(v, step float64) float64 { return math.Ceil(v/step) * step }
