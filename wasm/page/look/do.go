package look

import (
	"slices"

	"ruffwright/geom/figure"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// New looks at the ruff in the hand; voice says what changes.
func New(voice *say.Voice) *Look {
	return &Look{
		View: inHand, camera: home, size: size{800, 560, 1}, dirty: true, Pose: AtRest,
		dye: dyeing{by: AsCloth}, fold: fold{at: wholeFold, said: len(foldSteps) - 1}, voice: voice,
	}
}

// Do carries out a command of the stage's buttons, with what it goes with, and tells
// whether it is one.
func (l *Look) Do(name, with string, now_ms float64) (out []doc.Patch, ok bool) {
	switch name {
	case "view":
		l.shows(figure.Named(with))
	case "camera":
		l.Key(with, false)
	case "hand":
		out = l.takes(with)
	case "colour":
		l.dyes(Colour(with))
	case "light":
		l.lights(Lit(with))
	case "fold":
		out = l.foldPlays(now_ms)
	case "pose":
		l.unfolds()
		out = l.poses(Pose(with), now_ms)
	default:
		return nil, false
	}
	return out, true
}

// Key takes a key pressed on the stage, with Shift or without.
func (l *Look) Key(name string, shift bool) {
	if l.key(name, shift) {
		l.dirty = true
		l.settling.camera = [2]Camera{} // the reader leads
		l.voice.Soon(l.held())
	}
}

// Move takes a pointer's or a wheel's event on the stage.
func (l *Look) Move(kind doc.Kind, phase, value string) {
	if kind == doc.Pointer && l.pointer(phase, value) || kind == doc.Wheel && l.wheel(value) {
		l.moves()
	}
}

// Held reports whether a pointer is down on the stage or on a handle.
func (l *Look) Held() bool { return len(l.gesture.down) > 0 || l.stays[0].Fixed }

// Hold has the parts of the drawing stay where they lie while a measure is pulled.
func (l *Look) Hold(holds bool) {
	for i := range l.stays {
		l.stays[i].Fixed = holds
	}
	l.dirty = true
}

// Ratio is how many device pixels a CSS pixel of the stage has.
func (l *Look) Ratio() float64 { return l.size.ratio }

// Reset holds the ruff as at first.
func (l *Look) Reset() { l.camera = l.first() }

// Redraw tells that the picture is another.
func (l *Look) Redraw() { l.dirty = true }

// Changed reports whether the picture must be drawn anew, once for each change.
func (l *Look) Changed() bool {
	was := l.dirty
	l.dirty = false
	return was
}

// shows chooses a view.
func (l *Look) shows(v *figure.View) {
	if v == nil || v == l.View {
		return
	}
	l.View, l.dirty = v, true
	l.unfolds()
	l.camera.Lens = home.Lens
	l.voice.Soon(say.Text("View: %s.", l.Label()))
}

// takes the finding of that id in hand; the one that is in hand already is let go.
func (l *Look) takes(id string) []doc.Patch {
	if l.Hand == id {
		id = ""
	}
	l.Hand, l.dirty = id, true
	if id == "" {
		return nil
	}
	l.turnsTo(id)
	return []doc.Patch{{Op: doc.OpShow, ID: "stage"}}
}

// Take notes that the ruff was taken anew; turned: it is another, and the cloth does
// not move from the one before. A finding in hand that it has not is let go.
func (l *Look) Take(turned bool) {
	l.settling.going = l.settling.going && !turned
	if !slices.ContainsFunc(l.Findings[0], func(f check.Finding) bool { return f.ID == l.Hand }) {
		l.Hand = ""
	}
}

// Shine draws in the colours of a light.
func (l *Look) Shine(light string) {
	l.dirty = l.dirty || l.Light != light
	l.Light = light
}

// KeepCalm notes whether the reader wants no motion.
func (l *Look) KeepCalm(calm bool) {
	l.Calm = calm
	l.fold.playing = l.fold.playing && !calm
}

// Patches are what the stage and its buttons show.
func (l *Look) Patches() []doc.Patch {
	var out doc.List
	out.Text("description", l.Description())
	out.Flag("stage", "data-two", l.B != nil)
	out.Flag("stage", "data-guess", l.Guessing())
	for _, pose := range poses {
		out.Bool("pose-"+string(pose), "aria-pressed", pose == l.Pose && l.has(pose))
		out.Bool("pose-"+string(pose), "aria-disabled", !l.has(pose))
	}
	for _, v := range figure.Views {
		out.Bool("view-"+v.Name, "aria-pressed", v == l.View)
	}
	for _, c := range colours {
		out.Bool("colour-"+string(c), "aria-pressed", c == l.dye.by)
		out.Bool("colour-"+string(c), "aria-disabled", !l.canDye(c))
	}
	out.Text("view-help", l.ViewHelp())
	return slices.Concat(out, l.lightPatches(), l.FoldPatches())
}
