package page

import (
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/grip"
	"ruffwright/wasm/page/say"
)

// pulls takes what happens to the handle of a measure on the stage. Value is "down x y",
// "move x y", "up", or "back" where it is given up; "key" and a key's name; "leave" where
// the focus goes; "type", "set" and a text, "left" and a text, or "shut" of the box in
// which its number is typed.
func (p *Page) pulls(e doc.Event) ([]doc.Patch, extent) {
	what, with, _ := strings.Cut(e.Value, " ")
	plan, units := &p.work.Ruff.Plan, p.work.Units
	switch what {
	case "down":
		if p.grips.Take(e.Name, with) {
			p.work.Hold()
			p.Look.Hold(true)
		}
	case "move":
		if p.grips.Held() == e.Name {
			w, ok := p.grips.Move(with, plan, units)
			return p.pulled(w, ok, e.At_ms)
		}
	case "up", "back":
		if p.grips.Held() == "" {
			return nil, nothing
		}
		p.grips.Release()
		p.Look.Hold(false)
		if what == "back" {
			p.work.Back()
			p.grips.Meet("", "")
		}
		p.work.Settle()
		p.voice.Soon(p.news())
	case "key":
		w, ok := p.grips.Key(e.Name, with, plan, units)
		return p.pulled(w, ok, e.At_ms)
	case "leave":
		p.grips.Meet("", "")
		p.work.Settle()
	case "type":
		p.work.Settle()
		return p.grips.Type(e.Name, p.work.Scheme, plan, units), all
	case "set", "left":
		return p.types(with, what == "set", e.At_ms), all
	case "shut":
		return p.grips.Shut(true), all
	}
	return nil, all
}

// pulled does what is wanted of a field that is pulled.
func (p *Page) pulled(w grip.Wish, ok bool, now_ms float64) ([]doc.Patch, extent) {
	if !ok {
		return nil, nothing
	}
	was := p.work.Asked
	p.grips.Meet(w.Key, p.work.Pull(w.Key, w.From, w.To, w.Step))
	if p.work.Asked == was {
		return nil, pulling
	}
	p.follow()
	return p.ask.Pull(now_ms), pulling
}

// steps brings a field up or down by a step.
func (p *Page) steps(e doc.Event) []doc.Patch {
	key, way, _ := strings.Cut(e.Value, " ")
	f, ok := scheme.Lookup(key)
	if !ok || f.Kind != scheme.KindLength && f.Kind != scheme.KindCount && f.Kind != scheme.KindNumber {
		return nil
	}
	step := grip.Step(f, p.work.Units)
	from := f.Number(p.work.Scheme)
	to := from + step
	if way == "-1" {
		to = from - step
	}
	if why := p.work.Pull(key, from, to, step); why != "" {
		p.voice.Soon(why)
		return nil
	}
	p.work.Settle()
	p.voice.Soon(say.Text("%s %s. %s", say.Text(f.Label), f.Show(p.work.Scheme, p.work.Units), p.news()))
	return nil
}

// tries takes the slider of a field that matters. All that it is moved until it rests is
// one step that can be taken back.
func (p *Page) tries(which string, e doc.Event, live bool) ([]doc.Patch, extent) {
	n, err := strconv.Atoi(which)
	to, wrong := strconv.ParseFloat(e.Value, 64)
	key, from, ok := p.tell().WhatIf(n)
	if err != nil || wrong != nil || !ok {
		return nil, nothing
	}
	const step = 0.1
	was := p.work.Asked
	why := p.work.Pull(key, from, to, step)
	var out []doc.Patch
	if p.work.Asked != was {
		p.follow()
		if live {
			out = p.ask.Move(true, e.At_ms)
		}
	}
	if !live {
		out = append(out, p.ask.Move(false, e.At_ms)...)
		p.work.Settle()
		if why == "" {
			why = p.news()
		}
		p.voice.Soon(why)
	}
	return out, all
}

// types takes the text of the box; where it was left and cannot be used, it is let go.
func (p *Page) types(text string, stays bool, now_ms float64) []doc.Patch {
	key := p.grips.Typing()
	if key == "" {
		return nil
	}
	if why := p.work.Refuses(key, text); why != "" {
		if stays {
			p.grips.Wrong(why)
			return nil
		}
		return p.grips.Shut(false)
	}
	p.ask.Move(false, now_ms)
	p.work.Enter(key, text, false)
	p.voice.Soon(p.news())
	return p.grips.Shut(stays)
}
