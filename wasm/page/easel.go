package page

import (
	"strings"

	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/easel"
	"ruffwright/wasm/page/say"
)

// hearsEasel takes what happens on the easel: a picture that is chosen or opened, a hand or a
// key on it.
func (p *Page) hearsEasel(e doc.Event) ([]doc.Patch, extent) {
	settled, leave := false, false
	switch e.Name {
	case "chosen":
		return p.easel.Chosen(e.Value, e.At_ms), all
	case "said":
		return p.easel.Hear(e.Value), all
	case "died":
		return p.easel.Fail(e.Value), all
	case "size":
		p.easel.Size(e.Value)
	case "wheel":
		p.easel.Wheel(e.Value)
	case "key":
		name, shift := strings.CutSuffix(e.Value, " shift")
		settled, leave = p.easel.Key(name, shift)
	default:
		settled = p.easel.Point(e.Name, e.Value)
	}
	out := p.easel.Moved()
	if settled {
		out = p.easel.Patches()
	}
	out = p.shown.lacks(out)
	if leave {
		out = append(out, focus("easel-close")...)
	}
	return append(out, p.speak(e.At_ms)...), nothing
}

// atEasel carries out a command of the easel.
func (p *Page) atEasel(e doc.Event) []doc.Patch {
	what, key, _ := strings.Cut(e.Value, " ")
	switch what {
	case "take":
		changes := p.easel.Changes(easel.Middle)
		before := p.work.Scheme
		if len(changes) == 0 {
			return nil
		}
		if err := p.work.Decide(changes, say.Text("what the picture tells")); err != nil {
			p.misfits(err)
			return nil
		}
		p.easel.Took(changes, before)
		p.voice.Soon(say.Text("Carried into the scheme. %s", p.news()))
		return nil
	case "low", "high":
		return p.comparesEnd(what)
	case "again":
		c, ok := p.easel.Other(key)
		if !ok {
			return nil
		}
		if err := p.work.Decide([]check.Change{c}, say.Text("what stood there before")); err != nil {
			p.misfits(err)
			return nil
		}
		p.easel.Again(c)
		p.voice.Soon(say.Text("Applied. %s", p.news()))
		return nil
	}
	return p.easel.Do(e.Value)
}

// comparesEnd puts the ruff with one end of what was measured beside the ruff at hand.
func (p *Page) comparesEnd(what string) []doc.Patch {
	at, words := easel.Low, say.Text("the low ends of what was measured")
	if what == "high" {
		at, words = easel.High, say.Text("the high ends of what was measured")
	}
	changes := p.easel.Changes(at)
	if len(changes) == 0 {
		return nil
	}
	if err := p.work.Beside(changes, words); err != nil {
		p.misfits(err)
		return nil
	}
	p.voice.Soon(say.In(p.work.Comparison().Sentence))
	return focus("to-compare")
}
