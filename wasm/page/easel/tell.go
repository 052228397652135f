package easel

import (
	"math"

	"ruffwright/geom/portrait"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// length is a measured length, to half a millimetre.
func (e *Easel) length(mm float64) string { return say.Length(math.Round(2*mm)/2, e.Now.Units) }

// figures are the numbers of an answer, in words.
func (e *Easel) figures() (lines []string) {
	a := e.got
	whole := func(n float64) string { return say.In(word.Say("%s", word.Number{Value: n})) }
	angle := func(x float64) string { return say.Text("%s°", word.Number{Value: x}) }
	for _, q := range []struct {
		template string
		b        portrait.Bounds
		in       func(float64) string
	}{
		{"Depth: %s, likely %s to %s", a.Depth_mm.Told_mm(), e.length},
		{"Height: %s, likely %s to %s", a.Height_mm.Told_mm(), e.length},
		{"Sets all the way round: %s, likely %s to %s", a.Sets, whole},
		{"Across, from edge to edge: %s, likely %s to %s", a.Across_mm.Told_mm(), e.length},
		{"Tilt: %s, likely %s to %s; 0° is seen end on, 90° from above", a.Tilt_deg, angle},
	} {
		if q.b.Given() {
			lines = append(lines, say.Text(q.template, q.in(q.b.Value), q.in(q.b.Low), q.in(q.b.High)))
		}
	}
	return lines
}

// froms say where the wearer's measure is from.
var froms = map[string]string{
	"measured": "A pixel is %s mm by the %s of %s, as measured; its weight is %.0f %%",
	"picture":  "A pixel is %s mm by the %s of %s, from the wearer’s picture; its weight is %.0f %%",
	"people":   "A pixel is %s mm by the %s of %s, as people’s are; its weight is %.0f %%",
}

// scales say what each reference makes of a pixel.
func (e *Easel) scales() (lines []string) {
	for _, s := range e.got.Scales {
		lines = append(lines, say.Text(froms[s.From], word.Number{Value: s.PerPx.Value, Decimals: 3}, s.Label, e.length(s.Face.Value), 100*s.Weight))
	}
	return lines
}

// parts are what an interval comes from, and what would narrow it.
var parts = map[portrait.Part][2]string{
	portrait.Placing:  {"where the points lie", "Come nearer and place the points again, or place more lines of one kind."},
	portrait.Face:     {"how faces differ", "Measure the wearer’s own face, and type it below."},
	portrait.Turn:     {"how the head is held", "Say below how far the portrait’s head is turned."},
	portrait.Painter:  {"the painter’s freedom", "Another portrait of the same ruff would help; no more points on this one."},
	portrait.Distance: {"how far off the painter stood", "Say below how far off the painter stood, where that is known."},
	portrait.Count:    {"the count of the sets", "Count a longer run of sets, or several."},
	portrait.Disagree: {"references that disagree", "Look at the lines over the face again: one of them may end at a hidden chin."},
}

// leastPart is the smallest part of an interval that is told.
const leastPart = 0.05

// doubts say what the interval comes from, and what would narrow it most.
func (e *Easel) doubts() (lines []string) {
	a := e.got
	var list []word.Text
	var most portrait.Part
	for _, p := range portrait.Parts {
		of := a.Parts[p]
		if of >= leastPart {
			list = append(list, word.Say("%s %.0f %%", word.Say(parts[p][0]), 100*of))
		}
		if of > a.Parts[most] {
			most = p
		}
	}
	if len(list) > 0 {
		lines = append(lines, say.Text("The interval comes from: %s", word.Join(", ", list...)))
	}
	if most != "" {
		lines = append(lines, say.Text("What would narrow it most: %s", say.Text(parts[most][1])))
	}
	if a.Disagree {
		lines = append(lines, say.Text("The lines over the face disagree, by %s standard deviations. The intervals are widened by that.", word.Number{Value: a.Apart, Decimals: 1}))
	}
	for _, k := range a.Left {
		lines = append(lines, say.Text("“%s” does not count: the wearer’s own is not known, and others are.", say.Text(tools[toolOf(kind(k))].label)))
	}
	for _, key := range Fields {
		f, _ := scheme.Lookup(key)
		b := bounds(a, key)
		if x, _ := number(written(f, b.Value)); b.Given() && !f.InRange(x) {
			lines = append(lines, say.Text("%s %s is left out; allowed: %s.", say.Text(f.Label), e.amount(f, written(f, b.Value)), f.Allowed(e.Now.Units)))
		}
	}
	return lines
}

// granted is what was taken for granted, in words.
func (e *Easel) granted() string {
	return say.Text("Taken for granted: the head turns and nods by up to 10° more or less; the face lies 40 to 120 mm before the ruff’s middle. Likely is 19 times in 20.")
}

// told is what the points tell, or what they lack.
func (e *Easel) told() []doc.Node {
	switch {
	case e.boards[source].wide == 0:
		return nil
	case e.why != "":
		return []doc.Node{doc.El("p", "class=wrong").Say(e.why)}
	case len(e.wrong) > 0:
		return []doc.Node{doc.El("p", "class=wrong").Say(say.Text("An entry cannot be used: it says why where it stands."))}
	case len(e.lacks) > 0:
		return []doc.Node{doc.El("p", "").Say(say.Text("Still to place:")), list(e.lacks)}
	case e.got == nil:
		return nil
	}
	out := []doc.Node{list(e.figures()).With("class", "measured")}
	if changes := e.Changes(Middle); len(changes) > 0 {
		out = append(out, doc.El("p", "class=acts", doc.El("button", "type=button class=apply data-do=easel data-with=take id=easel-take").Say(say.Text("Carry it into the scheme")),
			doc.El("button", "type=button data-do=easel data-with=low id=easel-low").Say(say.Text("What if the low ends?")),
			doc.El("button", "type=button data-do=easel data-with=high id=easel-high").Say(say.Text("What if the high ends?"))))
	}
	return append(out, list(e.doubts()), list(e.scales()), doc.El("p", "class=aside").Say(e.granted()))
}

// list is some lines.
func list(lines []string) doc.Node {
	ul := doc.El("ul", "")
	for _, line := range lines {
		ul.Nodes = append(ul.Nodes, doc.El("li", "").Say(line))
	}
	return ul
}
