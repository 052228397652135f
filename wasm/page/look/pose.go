package look

import (
	"math"

	"ruffwright/geom/pleat"
	"ruffwright/sim"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// poses in the order of their buttons.
var poses = []Pose{AtRest, Bowed, Turned}

// poseWords are a pose's button and its name; the name begins with the button's words.
var poseWords = map[Pose]struct{ short, long string }{
	AtRest: {"At rest", "At rest, the wearer upright"},
	Bowed:  {"Bowing", "Bowing: the wearer bows by 60°"},
	Turned: {"Other way", "Other way: how else the cloth may lie"},
}

const (
	settle_ms = 260
	bow_ms    = 500
	frame_ms  = 16
)

// aside is where a bow is seen from: beside the wearer, whose left or right the reader
// is nearer to, a little from above.
const (
	asideTurn_deg = 72
	asideTilt_deg = 12
)

// posed is the shape that the drawing shows when nothing moves.
func (l *Look) posed() pleat.Shape { return l.posedOf(l.A) }

func (l *Look) posedOf(r *sim.Ruff) pleat.Shape {
	switch s := r.Solved; {
	case s == nil:
		shape, _ := l.guessed(r)
		return shape
	case l.Pose == Bowed && s.Bowed != nil:
		return *s.Bowed
	case l.Pose == Turned && s.Other != nil:
		return *s.Other
	default:
		return s.Shape
	}
}

// shape is A's (0) or B's (1) to draw now.
func (l *Look) shape(side int, r *sim.Ruff) pleat.Shape {
	to := l.posedOf(r)
	s := &l.settling
	if !s.going || !sameGrid(s.from[side], to) {
		return to
	}
	s.now[side] = between(s.now[side], s.from[side], to, l.settled())
	return s.now[side]
}

// settled is the part of the movement that is done.
func (l *Look) settled() float64 { return ease((l.At_ms - l.settling.began_ms) / l.settling.takes_ms) }

// bow is by how many degrees a ruff's wearer bows now: in its pose, where that was solved.
func (l *Look) bow(r *sim.Ruff) float64 {
	if r.Solved == nil || r.Solved.Bowed == nil {
		return 0
	}
	to := 0.0
	if l.Pose == Bowed {
		to = sim.Bow_deg
	}
	if !l.settling.going {
		return to
	}
	from := l.settling.bow_deg
	return from + (to-from)*l.settled()
}

// led is the camera that shows what is shown now.
func (l *Look) led() Camera {
	s := &l.settling
	if !s.going || s.camera[0] == s.camera[1] {
		return l.camera
	}
	a, b, t := s.camera[0], s.camera[1], l.settled()
	a.Turn_deg += (b.Turn_deg - a.Turn_deg) * t
	a.Tilt_deg += (b.Tilt_deg - a.Tilt_deg) * t
	return a
}

// beside is the camera from beside the wearer, on the nearer side.
func (c Camera) beside() Camera {
	turn := float64(asideTurn_deg)
	if math.Mod(c.Turn_deg+720, 360) > 180 {
		turn = -asideTurn_deg
	}
	c.Turn_deg += math.Remainder(turn-c.Turn_deg, 360)
	c.Tilt_deg = asideTilt_deg
	return c
}

// first is how the ruff is held at first in its pose.
func (l *Look) first() Camera {
	if l.Pose != Bowed {
		return home
	}
	l.upright, l.aside = home, home.beside()
	return l.aside
}

// leads turns the reader to where the pose is seen best: beside a wearer who bows; and
// back to where the reader was before, who has not turned the ruff since.
func (l *Look) leads(from Pose) {
	was := l.camera
	switch {
	case l.Pose == Bowed:
		l.upright = was
		l.camera = was.beside()
		l.aside = l.camera
	case from == Bowed && l.camera == l.aside:
		l.camera = l.upright
	}
	l.settling.camera = [2]Camera{was, l.camera}
}

// Settle shows that the ruff is solved further. To the first solved shape the cloth
// settles, from the drawn one or from how the ruff before it hung; finer ones simply
// replace it.
func (l *Look) Settle(first bool, now_ms float64) []doc.Patch {
	l.dirty = true
	closed, solved := l.A.Folded.Shape, l.A.Solved.Shape
	if !sameGrid(closed, solved) {
		folded, err := l.A.Plan.Fold(solved.NU, solved.NV)
		if err != nil {
			return nil // it just changes
		}
		closed = folded.Shape
	}
	moves := first && !l.stays[0].Fixed // under the hand nothing moves by itself
	var from pleat.Shape
	if moves {
		from, _ = l.hung.bends(&l.A.Plan, closed)
	}
	l.hung.keep(&l.A.Plan, closed, solved)
	if !moves {
		return nil
	}
	l.settling.camera = [2]Camera{}
	return l.moveFrom([2]pleat.Shape{from}, 0, settle_ms, now_ms)
}

// moveFrom lets what is shown move from other shapes and from a wearer's bow.
func (l *Look) moveFrom(from [2]pleat.Shape, bow_deg, takes_ms, now_ms float64) []doc.Patch {
	if l.Calm || !sameGrid(from[0], l.posed()) {
		return nil
	}
	s := &l.settling
	on := s.going
	s.going, s.from, s.bow_deg, s.began_ms, s.takes_ms = true, from, bow_deg, now_ms, takes_ms
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
	if now_ms-l.settling.began_ms >= l.settling.takes_ms {
		l.settling.going, l.settling.from = false, [2]pleat.Shape{}
		return nil
	}
	return []doc.Patch{{Op: doc.OpTimer, Name: "settle", MS: frame_ms}}
}

// poses shows another pose.
func (l *Look) poses(to Pose, now_ms float64) []doc.Patch {
	if to == l.Pose || !l.has(to) {
		return nil
	}
	from, before, bow := [2]pleat.Shape{l.posed()}, l.Pose, l.bow(l.A)
	if l.B != nil {
		from[1] = l.posedOf(l.B)
	}
	l.Pose, l.dirty = to, true
	l.leads(before)
	l.voice.Soon(say.Text("Shown: %s.", say.Text(poseWords[to].long)))
	takes := float64(settle_ms)
	if to == Bowed || before == Bowed {
		takes = bow_ms
	}
	return l.moveFrom(from, bow, takes, now_ms)
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
		before := l.Pose
		l.Pose = AtRest
		l.leads(before)
	}
}

// guessed is the shape that a ruff which is being solved is shown in.
func (l *Look) guessed(r *sim.Ruff) (pleat.Shape, bool) {
	if r != l.A || !l.Guessing() {
		return r.Folded.Shape, false
	}
	return l.hung.bends(&r.Plan, r.Folded.Shape)
}

// Guessing reports whether what is shown of the ruff at hand is taken from the last one
// that was solved.
func (l *Look) Guessing() bool {
	return l.Solving && l.A.Solved == nil && l.hung.holds(&l.A.Plan, l.A.Folded.Shape) > 0
}

// moves notes a move of the camera.
func (l *Look) moves() {
	l.settling.camera = [2]Camera{} // the reader leads
	l.dirty = true
}
