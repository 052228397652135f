package ask

import (
	"math"
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// EnterTrial takes what is typed as a reading; ok is whether it is one.
func (s *Ask) EnterTrial(key, text string, live bool) (id string, ok bool) {
	for i, k := range GaugeKeys {
		if k != key {
			continue
		}
		s.gauge.typed[i] = text
		s.gauge.got, s.gauge.why = nil, word.Text{}
		if _, why := s.reading(i); !live || why == "" { // while it is typed nothing is complained of
			s.gauge.wrong[i] = why
		}
		return doc.Control(key), true
	}
	return "", false
}

// reading reads an entry, and says why it cannot be used; an empty one is 0.
func (s *Ask) reading(i int) (x float64, why string) {
	text := strings.TrimSpace(s.gauge.typed[i])
	if text == "" {
		return 0, ""
	}
	if i == weighed {
		x, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(strings.TrimSuffix(text, "g")), ",", ".", 1), 64)
		if err != nil || !(x >= 0.1 && x <= 1000) {
			return 0, say.Text("%s is no weight of a strip; allowed: 0.1 to 1000 g", text)
		}
		return x, ""
	}
	x, err := scheme.ParseLength(text, s.Want.Units)
	if err != nil {
		return 0, say.Why(err)
	}
	return x, ""
}

// Gauge asks what the readings tell.
func (s *Ask) Gauge(now_ms float64) []doc.Patch {
	g := &s.gauge
	g.read = wire.Readings{}
	for i := range GaugeKeys {
		x, why := s.reading(i)
		if g.wrong[i] = why; why != "" {
			s.Voice.Soon(why)
			return nil
		}
		if i == weighed {
			g.read.Weight_g = x
		} else {
			g.read.At_mm[i], g.read.Has[i] = x, strings.TrimSpace(g.typed[i]) != ""
		}
	}
	g.wanted, g.got, g.why = true, nil, word.Text{}
	if s.hands[0].stand == gone || s.halted {
		return s.Halt(now_ms) // the reader asks for it: that sets it to work again
	}
	return nil
}

// gauged takes the answer.
func (s *Ask) gauged(t wire.Told) {
	s.gauge.wanted, s.gauge.got = false, &t
	s.Voice.Soon(s.gaugeWords())
}

// Gauged are the changes that carry the answer into the scheme; false where there are none.
func (s *Ask) Gauged() ([]check.Change, bool) {
	if s.gauge.got == nil || len(s.gauge.got.Changes) == 0 {
		return nil, false
	}
	return s.gauge.got.Changes, true
}

// gaugeWords say how far it is, or the stiffness that it tells.
func (s *Ask) gaugeWords() string {
	switch g := &s.gauge; {
	case !g.why.Empty():
		return say.Sentence(say.In(g.why))
	case g.got != nil && len(g.got.Wrong) > 0:
		return say.Text("The readings contradict each other.")
	case g.got != nil:
		return say.Text("Starched, the cloth has a bending length of %s.", s.gaugeLength(g.got.Bend_mm))
	case g.wanted && s.with(forGauge) != nil:
		return say.Text("Reckoning what such sets would read: %d %% done.", s.with(forGauge).far.Cell)
	case g.wanted:
		return say.Text("It begins when the ruff is solved.")
	}
	return ""
}

// gaugeLength is a length with its interval, to half a millimetre.
func (s *Ask) gaugeLength(x [3]float64) string {
	mm := func(x float64) string { return say.Length(math.Round(2*x)/2, s.Want.Units) }
	return say.Text("%s, likely %s to %s", mm(x[0]), mm(x[1]), mm(x[2]))
}

// gaugeNodes list what the readings tell.
func (s *Ask) gaugeNodes() []doc.Node {
	t := s.gauge.got
	if t == nil {
		return nil
	}
	list := doc.El("ul", "")
	add := func(text string) { list.Nodes = append(list.Nodes, doc.El("li", "").Say(text)) }
	for _, w := range t.Wrong {
		add(say.In(w.Text))
	}
	if len(t.Wrong) == 0 {
		add(say.Text("Starched bending length: %s", s.gaugeLength(t.Bend_mm)))
		add(say.Text("Quality of the setting: %s, likely %s to %s", share(t.Quality[0]), share(t.Quality[1]), share(t.Quality[2])))
		add(say.Text("The stitch holds: %s", s.gaugeLength(t.Catch_mm)))
		if t.Formed_mm != [3]float64{} {
			add(say.Text("Formed taller than planned by: %s", s.gaugeLength(t.Formed_mm)))
		}
		if t.Mass_gm2[0] > 0 {
			add(say.Text("The cloth weighs %.0f g/m², likely %.0f to %.0f", t.Mass_gm2[0], t.Mass_gm2[1], t.Mass_gm2[2]))
		}
	}
	for _, n := range t.Notes {
		add(say.In(n.Text))
	}
	out := []doc.Node{list}
	if len(t.Changes) > 0 {
		out = append(out, doc.El("p", "class=aside").Say(say.Text("It changes: %s.", s.changed(t.Changes))),
			doc.El("p", "class=acts", doc.El("button", "type=button class=apply data-do=trial-take id=trial-take").Say(say.Text("Carry it into the scheme"))))
	}
	return append(out, doc.El("p", "class=aside").Say(say.Text("Likely: nine times in ten, by the model. No cloth was tried.")))
}

// share writes a quality.
func share(x float64) string { return say.Text("%.2f", x) }

// gaugePatches show it.
func (s *Ask) gaugePatches(out *doc.List) {
	out.Bool("trial-go", "aria-disabled", s.gauge.wanted)
	out.Text("trial-stands", s.gaugeWords())
	out.Nodes("trial-told", s.gaugeNodes())
	for i, key := range GaugeKeys {
		id := doc.Control(key)
		out.Text(id+"-wrong", s.gauge.wrong[i])
		out.Bool(id, "aria-invalid", s.gauge.wrong[i] != "")
		if i != weighed {
			out.Text(id+"-unit", say.Text(s.Want.Units.Symbol()))
		}
	}
}
