package page

import (
	"ruffwright/geom/pleat"
	"ruffwright/sim"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// Pose is which of a solved ruff's shapes is shown.
type Pose string

// The poses.
const (
	AtRest Pose = "rest"
	Bowed  Pose = "bow"   // the wearer bows 60°
	Turned Pose = "other" // the other way in which it may lie
)

// poses in the order of their buttons.
var poses = []Pose{AtRest, Bowed, Turned}

// settling is a shape on its way to the next: a short, even movement, never
// under reduced motion.
type settling struct {
	going     bool
	from, now pleat.Shape
	began_ms  float64
}

const (
	settle_ms = 260
	frame_ms  = 16
)

// posed is the shape that the drawing shows when nothing moves.
func (p *Page) posed() pleat.Shape { return p.posedOf(&p.ruff) }

func (p *Page) posedOf(r *sim.Ruff) pleat.Shape {
	switch s := r.Solved; {
	case s == nil:
		return r.Folded.Shape
	case p.pose == Bowed && s.Bowed != nil:
		return *s.Bowed
	case p.pose == Turned && s.Other != nil:
		return *s.Other
	default:
		return s.Shape
	}
}

// shape is the shape to draw now.
func (p *Page) shape() pleat.Shape {
	to := p.posed()
	s := &p.settling
	if !s.going || !sameGrid(s.from, to) {
		return to
	}
	t := ease((p.now_ms - s.began_ms) / settle_ms)
	s.now = between(s.now, s.from, to, t)
	return s.now
}

func sameGrid(a, b pleat.Shape) bool {
	return a.NU == b.NU && a.NV == b.NV && len(a.Panels) == len(b.Panels)
}

// settles puts the solved ruff in the place of what is shown. From the drawn
// shape to the first solved one the cloth settles; finer ones simply replace it.
func (p *Page) settles(solved *sim.Solved, now_ms float64) []doc.Patch {
	first := p.ruff.Solved == nil
	from := p.ruff.Folded.Shape
	p.ruff.Solved = solved
	p.dirty = true
	if !first {
		return nil
	}
	if !sameGrid(from, solved.Shape) {
		folded, err := p.ruff.Plan.Fold(solved.Shape.NU, solved.Shape.NV)
		if err != nil {
			return nil // it just changes
		}
		from = folded.Shape
	}
	return p.moveFrom(from, now_ms)
}

// moveFrom lets the shown shape move from another one.
func (p *Page) moveFrom(from pleat.Shape, now_ms float64) []doc.Patch {
	if p.calm || p.flat || !sameGrid(from, p.posed()) {
		return nil
	}
	on := p.settling.going
	p.settling.going, p.settling.from, p.settling.began_ms = true, from, now_ms
	if on {
		return nil // its timer is set
	}
	return []doc.Patch{{Op: doc.OpTimer, Name: "settle", MS: frame_ms}}
}

// frame is due while the shape moves.
func (p *Page) frame(now_ms float64) []doc.Patch {
	if !p.settling.going {
		return nil
	}
	p.dirty = true
	if now_ms-p.settling.began_ms >= settle_ms {
		p.settling.going, p.settling.from = false, pleat.Shape{}
		return nil
	}
	return []doc.Patch{{Op: doc.OpTimer, Name: "settle", MS: frame_ms}}
}

// poses shows another pose.
func (p *Page) poses(to Pose, now_ms float64) []doc.Patch {
	if to == p.pose || !p.has(to) {
		return nil
	}
	from := p.posed()
	p.pose, p.dirty = to, true
	p.saySoon(say.Word("pose.said", "pose", say.Word("poselong."+string(to))))
	return p.moveFrom(from, now_ms)
}

// has reports whether the ruff at hand has the pose.
func (p *Page) has(pose Pose) bool {
	s := p.ruff.Solved
	switch pose {
	case AtRest:
		return true
	case Bowed:
		return s != nil && s.Bowed != nil
	case Turned:
		return s != nil && s.Other != nil
	}
	return false
}

// lets goes back to rest where the pose is gone for good; while it is on its
// way, it waits.
func (p *Page) lets() {
	if s := p.ruff.Solved; s != nil && !p.has(p.pose) && p.solver.out == nil {
		p.pose = AtRest
	}
}
