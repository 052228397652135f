package page

import (
	"bytes"
	"errors"
	"slices"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/page/say"
)

// enter takes an entry of the form: live while it is typed (then what cannot
// be used is not yet complained of), for good when the field is left. It
// reports whether the scheme or a message changed. Entries that could not be
// used before are tried again with it: two fields that only fit together may be
// entered one after the other.
func (p *Page) enter(key, text string, live bool) bool {
	f, ok := scheme.Lookup(key)
	if !ok {
		return false
	}
	p.draft = nil
	tried, ruled, err := p.with(f, text, true)
	together := err == nil // of what waits, too
	if err != nil {
		tried, ruled, err = p.with(f, text, false)
	}
	if err == nil {
		before := p.scheme
		changed := f.Get(before) != f.Get(tried) || !same(tried, before)
		if changed {
			err = p.take(tried)
		}
		if err == nil {
			if together {
				p.wrong = map[string]wrong{}
			}
			delete(p.wrong, key)
			if len(ruled) > 0 || p.ruledBy != key {
				p.ruled, p.ruledBy = ruled, key
			}
			if changed && p.editing != key {
				p.remember(step{before: before, what: say.Theirs(f.Label)})
			}
			if live && changed {
				p.editing = key
			} else if !live {
				p.editing = ""
			}
			return true
		}
	}
	if live {
		p.draft = &wrong{text, p.why(f, err)}
		return false
	}
	p.editing = ""
	p.wrong[key] = wrong{text, p.why(f, err)}
	return true
}

// with is the scheme with text in field f, and, if all, with every entry that
// could not be used before; and which decisions count no longer because of it.
func (p *Page) with(f scheme.Field, text string, all bool) (s scheme.Scheme, ruled []scheme.Overruled, err error) {
	s = p.scheme
	if all {
		for _, other := range scheme.Fields() {
			if w, waits := p.wrong[other.Key]; waits && other.Key != f.Key {
				if _, err := other.For(s).Decide(&s, w.text, p.units); err != nil {
					return s, nil, err
				}
			}
		}
	}
	if ruled, err = f.For(s).Decide(&s, text, p.units); err != nil {
		return s, nil, err
	}
	return s, ruled, s.Validate()
}

// decided says at a field who decides it, where it does not itself, or what its
// own last entry put aside; else "".
func (p *Page) decided(f scheme.Field) string {
	label := func(key string) string {
		of, _ := scheme.Lookup(key)
		return say.Theirs(of.Label)
	}
	if by := p.scheme.DecidedBy(f.Key); len(by) > 0 {
		return say.Word("decide."+by[0], "field", label(by[0]))
	}
	if v, fitted := p.fittedTuck(f); fitted {
		return say.Word("decide.fitted", "value", v)
	}
	for _, o := range p.ruled {
		if o.By == f.Key {
			return say.Word("decide.aside", "field", label(o.Key), "was", o.Was)
		}
	}
	return ""
}

// fittedTuck is how deep a tuck became that finds no room as deep as it is typed.
func (p *Page) fittedTuck(f scheme.Field) (string, bool) {
	plan := p.ruff.Plan
	if f.Key != "pleat.tuck_top" && f.Key != "pleat.tuck_bottom" || !plan.TucksFitted {
		return "", false
	}
	v := f.Number(plan.Scheme)
	return say.Length(v, p.units), v != f.Number(p.scheme)
}

// ruledWords tells what counts no longer because of the last entry.
func (p *Page) ruledWords() string {
	var out []string
	for _, o := range p.ruled {
		of, _ := scheme.Lookup(o.Key)
		by, _ := scheme.Lookup(o.By)
		out = append(out, say.Word("decide.said", "field", say.Theirs(of.Label), "was", o.Was, "by", say.Theirs(by.Label), "now", o.Now))
	}
	return strings.Join(out, " ")
}

// same reports whether two schemes are the same document.
func same(a, b scheme.Scheme) bool { return bytes.Equal(a.JSON(), b.JSON()) }

// why words an error for the field that caused it. A field at fault with
// others is told of them by their labels.
func (p *Page) why(f scheme.Field, err error) string {
	var list scheme.Errors
	var one scheme.Error
	switch {
	case errors.As(err, &list):
	case errors.As(err, &one):
		list = scheme.Errors{one}
	default:
		return say.Sentence(say.Told(err.Error()))
	}
	var lines []string
	for _, e := range list {
		line := strings.TrimSpace(e.Value.String() + " " + say.Told(e.Why.String()))
		if other, ok := scheme.Lookup(e.Field); ok && e.Field != f.Key {
			line = say.Word("entry.other", "field", say.Theirs(other.Label), "why", line)
		}
		if !e.Allowed.Empty() {
			line = say.Word("entry.beyond", "why", line, "allowed", say.Told(e.Allowed.String()))
		}
		lines = append(lines, say.Sentence(line))
	}
	return strings.Join(lines, " ")
}

// remember keeps a step to go back to. What the reader changes is theirs from
// then on.
func (p *Page) remember(s step) {
	s.lesson = p.learning
	s.rival, s.whose = p.rival.scheme, p.whose
	p.own, p.guest, p.keep.restored = true, false, false
	p.past = append(p.past, s)
	if len(p.past) > mostSteps {
		p.past = slices.Delete(p.past, 0, len(p.past)-mostSteps)
	}
	p.future = nil
}

// undo goes back a step.
func (p *Page) undo() { p.travel(&p.past, &p.future, "undo.done") }

// redo goes forward again.
func (p *Page) redo() { p.travel(&p.future, &p.past, "redo.done") }

func (p *Page) travel(from, to *[]step, key string) {
	if len(*from) == 0 {
		return
	}
	last := (*from)[len(*from)-1]
	here := step{before: p.scheme, what: last.what, lesson: p.learning, rival: p.rival.scheme, whose: p.whose}
	if p.take(last.before) != nil || p.rivals(last.rival) != nil {
		return // they were good before; without them the page stays as it is
	}
	*from = (*from)[:len(*from)-1]
	*to = append(*to, here)
	p.learning = last.lesson
	if last.whose.guest && here.whose.own && !here.whose.guest {
		p.keep.mine = &work{here.before, here.rival, p.units, here.whose, p.keep.me, p.keep.n, here.lesson}
	}
	p.whose, p.keep.restored = last.whose, false
	p.clears()
	p.editing = ""
	p.saySoon(say.Word(key, "what", last.what, "news", p.news()))
}
