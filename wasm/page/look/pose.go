package look

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

// poseWords are a pose's button and its name; the name begins with the button's words.
var poseWords = map[Pose]struct{ short, long string }{
	AtRest: {"At rest", "At rest, the wearer upright"},
	Bowed:  {"Bowing", "Bowing: the wearer bows by 60°"},
	Turned: {"Other way", "Other way: how else the cloth may lie"},
}

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
func (l *Look) posed() pleat.Shape { return l.posedOf(l.A) }

func (l *Look) posedOf(r *sim.Ruff) pleat.Shape {
	switch s := r.Solved; {
	case s == nil:
		return r.Folded.Shape
	case l.Pose == Bowed && s.Bowed != nil:
		return *s.Bowed
	case l.Pose == Turned && s.Other != nil:
		return *s.Other
	default:
		return s.Shape
	}
}

// shape is the shape to draw now.
func (l *Look) shape() pleat.Shape {
	to := l.posed()
	s := &l.settling
	if !s.going || !sameGrid(s.from, to) {
		return to
	}
	t := ease((l.At_ms - s.began_ms) / settle_ms)
	s.now = between(s.now, s.from, to, t)
	return s.now
}

// Settle shows that the ruff is solved further. From the drawn shape to the first
// solved one the cloth settles; finer ones simply replace it.
func (l *Look) Settle(first bool, now_ms float64) []doc.Patch {
	l.dirty = true
	if !first {
		return nil
	}
	from, solved := l.A.Folded.Shape, l.A.Solved
	if !sameGrid(from, solved.Shape) {
		folded, err := l.A.Plan.Fold(solved.Shape.NU, solved.Shape.NV)
		if err != nil {
			return nil // it just changes
		}
		from = folded.Shape
	}
	return l.moveFrom(from, now_ms)
}

// moveFrom lets the shown shape move from another one.
func (l *Look) moveFrom(from pleat.Shape, now_ms float64) []doc.Patch {
	if l.Calm || l.Flat || !sameGrid(from, l.posed()) {
		return nil
	}
	on := l.settling.going
	l.settling.going, l.settling.from, l.settling.began_ms = true, from, now_ms
	if on {
		return nil // its timer is set
	}
	return []doc.Patch{{Op: doc.OpTimer, Name: "settle", MS: frame_ms}}
}

// Frame is due while the shape moves.
func (l *Look) Frame(now_ms float64) []doc.Patch {
	if !l.settling.going {
		return nil
	}
	l.dirty = true
	if now_ms-l.settling.began_ms >= settle_ms {
		l.settling.going, l.settling.from = false, pleat.Shape{}
		return nil
	}
	return []doc.Patch{{Op: doc.OpTimer, Name: "settle", MS: frame_ms}}
}

// poses shows another pose.
func (l *Look) poses(to Pose, now_ms float64) []doc.Patch {
	if to == l.Pose || !l.has(to) {
		return nil
	}
	from := l.posed()
	l.Pose, l.dirty = to, true
	l.voice.Soon(say.Text("Shown: %s.", say.Text(poseWords[to].long)))
	return l.moveFrom(from, now_ms)
}

// has reports whether the ruff at hand has the pose.
func (l *Look) has(pose Pose) bool {
	s := l.A.Solved
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

// LetGo goes back to rest where the ruff has not the pose.
func (l *Look) LetGo() {
	if l.A.Solved != nil && !l.has(l.Pose) {
		l.Pose = AtRest
	}
}
