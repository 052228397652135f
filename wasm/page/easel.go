package page

import (
	"strconv"
	"strings"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/easel"
	"ruffwright/wasm/page/over"
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
	case "painted":
		return p.over.Hear(e.Value, e.Body), nothing
	case "paint-died":
		return append(p.over.Die(), p.shown.lacks(p.lays())...), nothing
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
	out = append(p.shown.lacks(out, p.lays()), p.laid()...)
	if leave {
		out = append(out, focus("easel-close")...)
	}
	return append(out, p.speak(e.At_ms)...), nothing
}

// atEasel carries out a command of the easel.
func (p *Page) atEasel(e doc.Event) []doc.Patch {
	what, key, _ := strings.Cut(e.Value, " ")
	switch what {
	case "lay":
		return p.over.Turn(!p.over.On())
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
	out := p.easel.Do(e.Value)
	if _, _, _, _, is := p.easel.Lies(); !is && p.over.On() {
		out = append(out, p.over.Turn(false)...)
	}
	return out
}

// lays shows whether the ruff at hand lies over the portrait.
func (p *Page) lays() []doc.Patch {
	var out doc.List
	_, _, _, _, is := p.easel.Lies()
	out.Flag("easel-lay", "hidden", !is)
	out.Flag("easel-over", "hidden", !is || !p.over.On())
	out.Bool("easel-lay-go", "aria-pressed", p.over.On())
	out.Flag("f-easel-faint", "hidden", !p.over.On())
	said := ""
	switch {
	case p.over.Dead():
		said = say.Text("It cannot be painted here.")
	case p.over.On() && p.work.Ruff.Solved == nil:
		said = say.Text("As it is drawn: it is not solved.")
	case p.over.On():
		said = say.Text("As its cloth hangs.")
	}
	out.Text("easel-lay-said", said)
	return out
}

// laid asks for the picture of the ruff that lies over the portrait, where it is another.
func (p *Page) laid() []doc.Patch {
	l, width, height, ratio, is := p.easel.Lies()
	if !is || !p.over.On() {
		return nil
	}
	shape := p.work.Ruff.Folded.Shape
	if s := p.work.Ruff.Solved; s != nil {
		shape = s.Shape
	}
	at := figure.Lying{Middle: draw.Pt(l.Middle[0], l.Middle[1]), Radius_mm: l.Radius_px, Far_mm: l.Distance_px, Tilt_deg: l.Tilt_deg, Roll_deg: l.Roll_deg}
	return p.over.See(p.work.Ruff.Plan, shape, over.Want{Lies: at, Width: width, Height: height, Ratio: ratio})
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

// fades takes how solid the ruff lies over the portrait, per cent.
func (p *Page) fades(value string) []doc.Patch {
	x, err := strconv.ParseFloat(value, 64)
	if err != nil || !(x >= 0 && x <= 100) {
		return nil
	}
	return []doc.Patch{{Op: doc.OpEasel, ID: "easel-over", Name: "fade", Value: strconv.FormatFloat(x/100, 'f', 2, 64)}}
}
