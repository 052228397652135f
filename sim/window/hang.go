package window

import (
	"context"
	"fmt"

	"ruffwright/sim/shell"
)

// Kept is a half set that was formed once, to be starched in several ways and held at
// several slopes. What forms it (the strip, the sewing, the sticks) is fixed with it.
type Kept struct {
	s *solver
	c *Window
}

// Starched is how firmly a formed half set keeps its shape, as in Design.
type Starched struct {
	FrozenU_uNm, FrozenV_uNm float64
	FrozenShear_Npm          float64
	Quality                  float64
}

// Pose is a half set at rest at one slope of its band.
type Pose struct {
	Shape []float64 // as of Window
	Done  bool      // it came to rest
	of    *Window
}

// Keep forms a half set, and lets go nothing yet. An error means bad input or a cancelled
// context; false, that it did not come to rest.
func Keep(ctx context.Context, d Design, set Settings) (*Kept, bool, error) {
	if err := d.Validate(); err != nil {
		return nil, false, err
	}
	if err := set.defaults(); err != nil {
		return nil, false, err
	}
	s, c := begin(ctx, d, d.Run(), &set)
	c.Formed = s.f.start()
	if err := s.form(c, nil); err != nil {
		return nil, false, err
	}
	return &Kept{s, c}, c.Form.Status == shell.Converged, nil
}

// Hang starches the half set and holds it with its band tipped outward by deg (0 upright,
// 180 upside down), from another pose's shape where that is not nil.
func (k *Kept) Hang(starch Starched, deg float64, from *Pose) (*Pose, error) {
	w := *k.c
	d := &w.Design
	d.FrozenU_uNm, d.FrozenV_uNm, d.FrozenShear_Npm, d.Quality = starch.FrozenU_uNm, starch.FrozenV_uNm, starch.FrozenShear_Npm, starch.Quality
	if err := d.Validate(); err != nil {
		return nil, err
	}
	own := k.s.f.d
	k.s.f.d = d
	defer func() { k.s.f.d = own }()
	if err := k.s.sh.Reset(k.s.f.damp(k.s.set)); err != nil { // freeze asks of its grid
		return nil, fmt.Errorf("window: hanging: %w", err)
	}
	k.s.freeze(&w)
	p := &Pose{Shape: append([]float64(nil), k.c.Formed...), of: k.c}
	if from != nil {
		copy(p.Shape, from.Shape)
	}
	if err := k.s.sh.Reset(k.s.released(&w)); err != nil {
		return nil, fmt.Errorf("window: hanging: %w", err)
	}
	k.s.sh.SetGravity(k.s.bowGravity(deg, 1))
	r, err := k.s.again("hanging", p.Shape, shell.Settings{Warm: from != nil})
	p.Done = r.Status == shell.Converged
	return p, err
}

// Onward is a pose to begin with that goes on from p as p goes on from before: p itself
// where before is nil.
func (p *Pose) Onward(before *Pose) *Pose {
	if p == nil || before == nil || !p.Done || !before.Done {
		return p
	}
	q := &Pose{Shape: append([]float64(nil), p.Shape...), Done: true, of: p.of}
	for k := range q.Shape {
		q.Shape[k] += p.Shape[k] - before.Shape[k]
	}
	return q
}

// Solves is how many factorisations were done so far.
func (k *Kept) Solves() int { return k.s.count }

// Outer gives the places of crest and trough at the outer edge, mm: out from the
// neckline, round it, up from the band's bottom edge.
func (p *Pose) Outer() (crest, trough [3]float64) {
	nu, nv := len(p.of.U)-1, len(p.of.V)-1
	crest, trough = p.of.Node(p.Shape, 0, nv), p.of.Node(p.Shape, nu, nv)
	crest[0], trough[0] = outward(crest, 1/max(p.of.Design.Kappa_1pmm, straight)), outward(trough, 1/max(p.of.Design.Kappa_1pmm, straight))
	return
}
