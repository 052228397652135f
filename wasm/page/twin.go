package page

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// twin is the same ruff sewn the other way: at the top edge only where both are
// sewn, at both where only one is. The first comparison everybody needs.
type twin struct {
	open   bool // the reader wants it
	shown  bool // on the drawing, in place of the ruff at hand
	scheme scheme.Scheme
	ruff   sim.Ruff
	asked  bool
	done   bool
	why    string // it has no answer
}

// reset forgets the twin of an earlier scheme; what the reader wants stays.
func (t *twin) reset() { *t = twin{open: t.open, shown: t.shown} }

// otherway is s sewn the other way.
func otherway(s scheme.Scheme) scheme.Scheme {
	sewn := s.Pleat
	single := sewn.Anchor != scheme.AnchorBoth
	if len(sewn.Marks) > 0 { // they say it
		crests, troughs := sewnFolds(sewn.Marks, func(m scheme.Mark) (scheme.Fold, scheme.Edge) { return m.Fold, m.Sewn })
		single = crests == scheme.EdgeNone || troughs == scheme.EdgeNone
	}
	s.Pleat.Anchor = scheme.AnchorBoth
	crest, trough := scheme.EdgeTop, scheme.EdgeBottom
	if !single {
		s.Pleat.Anchor, s.Pleat.Sewn = scheme.AnchorTop, scheme.Crests
		trough = scheme.EdgeNone
		if s.Ruff.Flaps == scheme.Stand {
			s.Pleat.Sewn = scheme.Troughs
			crest, trough = scheme.EdgeNone, scheme.EdgeTop
		}
	}
	s.Pleat.Marks = slices.Clone(s.Pleat.Marks)
	for i := range s.Pleat.Marks {
		m := &s.Pleat.Marks[i]
		m.Sewn = trough
		if m.Fold == scheme.Crest {
			m.Sewn = crest
		}
	}
	return s
}

// sewnFolds gives the edge that most of the top folds, and of the bottom folds,
// are sewn to.
func sewnFolds[M any](marks []M, of func(M) (scheme.Fold, scheme.Edge)) (crests, troughs scheme.Edge) {
	count := map[scheme.Fold]map[scheme.Edge]int{scheme.Crest: {}, scheme.Trough: {}}
	for _, m := range marks {
		fold, edge := of(m)
		count[fold][edge]++
	}
	most := func(f scheme.Fold) scheme.Edge {
		best := scheme.EdgeNone
		for _, e := range []scheme.Edge{scheme.EdgeTop, scheme.EdgeBottom} {
			if count[f][e] > count[f][best] {
				best = e
			}
		}
		return best
	}
	return most(scheme.Crest), most(scheme.Trough)
}

// sewnWords say which edges a plan's folds are sewn to.
func sewnWords(p pleat.Plan) string { return word("sewn." + sewnTo(p)) }

// sewnTo is both, top or bottom: the edges that a plan's folds are sewn to.
func sewnTo(p pleat.Plan) string {
	crests, troughs := sewnFolds(p.Marks, func(m pleat.Mark) (scheme.Fold, scheme.Edge) { return m.Fold, m.Edge })
	switch {
	case crests != scheme.EdgeNone && troughs != scheme.EdgeNone:
		return "both"
	case crests == scheme.EdgeBottom || troughs == scheme.EdgeBottom:
		return "bottom"
	}
	return "top"
}

// isSingle reports whether one edge only is sewn.
func isSingle(p pleat.Plan) bool { return sewnTo(p) != "both" }

// twinLabel is what the button of the comparison says.
func (p *Page) twinLabel() string {
	return word("twin", "this", sewnWords(p.ruff.Plan), "other", p.otherWords())
}

// otherWords say what the twin is sewn to.
func (p *Page) otherWords() string {
	if isSingle(p.ruff.Plan) {
		return word("sewn.both")
	}
	return word("sewn.top")
}

// compares makes the twin of the ruff at hand, if it is wanted and not there.
func (p *Page) compares() {
	t := &p.twin
	if !t.open || t.ruff.Plan.Panels > 0 || t.why != "" {
		return
	}
	s := otherway(p.scheme)
	r, err := sim.Draw(s)
	if err == nil && !isSingle(r.Plan) {
		s, r, err = suited(s, r)
	}
	if err != nil {
		t.why, t.done, t.asked = err.Error(), true, true
		return
	}
	t.scheme, t.ruff = s, r
}

// suited gives a scheme that is now sewn at both edges the tucks that the findings
// offer where the inner edge is too short or too long between the sewn folds; s
// itself where they offer none. The command compares the same two.
func suited(s scheme.Scheme, r sim.Ruff) (scheme.Scheme, sim.Ruff, error) {
	for _, f := range check.Find(r, scheme.Millimetres) {
		if f.ID != "slack-short" && f.ID != "slack-long" {
			continue
		}
		for _, remedy := range f.Remedies {
			if slices.ContainsFunc(remedy.Changes, func(c check.Change) bool { return !strings.HasPrefix(c.Key, "pleat.tuck_") }) {
				continue
			}
			s, err := check.Apply(s, remedy)
			if err != nil {
				return s, r, err
			}
			r, err := sim.Draw(s)
			return s, r, err
		}
	}
	return s, r, nil
}

// twinRow is one measure of both ruffs.
type twinRow struct{ label, here, there, differ string }

// twinRows compares what both ruffs measure.
func (p *Page) twinRows() []twinRow {
	a, b := p.ruff.Solved, p.twin.ruff.Solved
	if a == nil || b == nil {
		return nil
	}
	var rows []twinRow
	add := func(label string, has bool, x, y float64, form func(float64) string) {
		if !has {
			return
		}
		d := "+" + form(y-x)
		switch {
		case form(x) == form(y):
			d = word("twin.same")
		case y < x:
			d = "−" + form(x-y)
		}
		rows = append(rows, twinRow{label, form(x), form(y), d})
	}
	m, n := a.Ruff, b.Ruff
	degrees := func(x float64) string { return fmt.Sprintf("%.1f°", x+0) }
	here, there := p.scheme.Pleat, p.twin.scheme.Pleat
	add(word("twin.tucktop"), here.TuckTop != there.TuckTop, here.TuckTop, there.TuckTop, p.about)
	add(word("twin.tuckbottom"), here.TuckBottom != there.TuckBottom, here.TuckBottom, there.TuckBottom, p.about)
	tangents := m.TangentsDone && n.TangentsDone
	add(word("twin.height"), true, m.HeightOuter_mm, n.HeightOuter_mm, p.about)
	add(word("twin.bows"), m.BowDone && n.BowDone, m.Bow_mm, n.Bow_mm, p.about)
	add(word("twin.droop"), true, m.Droop_mm, n.Droop_mm, p.about)
	add(word("twin.slope"), true, m.Tilt_deg, n.Tilt_deg, degrees)
	add(word("twin.vertical"), tangents && m.VerticalStable && n.VerticalStable, m.Vertical_mm_per_g, n.Vertical_mm_per_g, p.about)
	add(word("twin.lateral"), tangents && m.LateralStable && n.LateralStable && !tucked(p.ruff.Plan) && !tucked(p.twin.ruff.Plan), m.Lateral_mm_per_g, n.Lateral_mm_per_g, p.about)
	add(word("twin.loop"), true, m.Loop_mm, n.Loop_mm, p.about)
	add(word("twin.reach"), true, m.Reach_mm, n.Reach_mm, p.about)
	add(word("twin.strip"), true, p.ruff.Plan.Strip_mm, p.twin.ruff.Plan.Strip_mm, p.about)
	return rows
}

// twinSentence says what the comparison comes to.
func (p *Page) twinSentence() string {
	t := &p.twin
	a, b := p.ruff.Solved, t.ruff.Solved
	switch {
	case t.why != "":
		return word("twin.never", "edge", p.otherWords(), "why", sentence(theirs(t.why)))
	case p.solver.none:
		return word("twin.none")
	case a == nil || b == nil || !t.done:
		return word("twin.soon", "edge", p.otherWords())
	case !a.Converged() || !b.Converged() || !a.Ruff.BowDone || !b.Ruff.BowDone:
		return word("twin.restless")
	}
	both, single, where := a.Ruff, b.Ruff, t.ruff.Plan
	if isSingle(p.ruff.Plan) {
		both, single, where = b.Ruff, a.Ruff, p.ruff.Plan
	}
	words := word("twin.bow", "edge", sewnWords(where), "single", p.about(single.Bow_mm), "both", p.about(both.Bow_mm))
	if d := single.HeightOuter_mm - both.HeightOuter_mm; math.Abs(d) >= 1 {
		way := "taller"
		if d < 0 {
			way = "lower"
		}
		words = word("twin."+way+"."+sewnTo(where), "bow", words, "by", p.about(math.Abs(d)))
	}
	return words
}

// twinNodes are the comparison: a sentence, the table, what can be done.
func (p *Page) twinNodes() []Node {
	if !p.twin.open {
		return nil
	}
	out := []Node{el("p", "class=verdict").say(p.twinSentence())}
	rows := p.twinRows()
	if p.twin.why != "" || rows == nil {
		return out
	}
	body := el("tbody", "")
	for _, r := range rows {
		body.Nodes = append(body.Nodes, el("tr", "", el("th", "scope=row").say(r.label),
			el("td", "class=figure").say(r.here), el("td", "class=figure").say(r.there), el("td", "class=remark").say(r.differ)))
	}
	head := el("thead", "", el("tr", "", el("td", "").say(""), el("th", "scope=col").say(word("twin.this", "edge", sentenceStart(sewnWords(p.ruff.Plan)))),
		el("th", "scope=col").say(sentenceStart(sewnWords(p.twin.ruff.Plan))), el("th", "scope=col").say(word("twin.differ"))))
	return append(out,
		el("table", "class=two", el("caption", "class=hidden").say(word("twin.caption")), head, body),
		el("p", "class=acts",
			el("button", "type=button data-do=twin-show id=twin-show").with("aria-pressed", fmt.Sprint(p.twin.shown)).say(word("twin.show")),
			el("button", "type=button class=apply data-do=twin-take id=twin-take").say(word("twin.take", "edge", sewnWords(p.twin.ruff.Plan)))))
}

// about writes a length that was solved: to 0.1 mm, in inches to 1/32.
func (p *Page) about(mm float64) string {
	step := 0.1
	if p.units == scheme.Inches {
		step = 25.4 / 32
	}
	return scheme.FormatLength(math.Round(mm/step)*step+0, p.units)
}

// tucked reports that a tuck is sewn. How tucked sets give sideways does not
// settle with the mesh and is not told.
func tucked(p pleat.Plan) bool {
	crests, troughs := sewnFolds(p.Marks, func(m pleat.Mark) (scheme.Fold, scheme.Edge) { return m.Fold, m.Edge })
	s := p.Scheme.Pleat
	return crests != scheme.EdgeNone && s.TuckTop > 0 || troughs != scheme.EdgeNone && s.TuckBottom > 0
}

// twins carries out a command of the comparison.
func (p *Page) twins(name string, now_ms float64) []Patch {
	t := &p.twin
	switch name {
	case "twin":
		t.open = !t.open
		if !t.open {
			t.shown, p.dirty = false, true
		}
		p.compares()
		p.saySoon(p.twinSentence())
	case "twin-show":
		if t.ruff.Solved == nil {
			return nil
		}
		t.shown, p.dirty = !t.shown, true
		p.settling.going = false
		which := sewnWords(p.ruff.Plan)
		if t.shown {
			which = sewnWords(t.ruff.Plan)
		}
		p.saySoon(word("twin.drawn", "edge", which))
	case "twin-take":
		if t.ruff.Plan.Panels == 0 {
			return nil
		}
		to := sewnWords(t.ruff.Plan)
		t.shown = false
		if err := p.swap(t.scheme, word("twin.step", "edge", to)); err != nil {
			p.saySoon(word("twin.misfit", "why", theirs(err.Error())))
			return nil
		}
		p.saySoon(word("twin.taken", "edge", to, "news", p.news()))
	}
	return nil
}
