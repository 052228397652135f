package work

import (
	"errors"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/page/say"
)

// Enter takes an entry of the form: live while it is typed (then what cannot
// be used is not yet complained of), for good when the field is left. It
// reports whether the scheme or a message changed. Entries that could not be
// used before are tried again with it: two fields that only fit together may be
// entered one after the other.
func (w *Work) Enter(key, text string, live bool) bool {
	f, ok := scheme.Lookup(key)
	if !ok {
		return false
	}
	w.draft = nil
	tried, ruled, err := w.with(f, text, true)
	together := err == nil // of what waits, too
	if err != nil {
		tried, ruled, err = w.with(f, text, false)
	}
	if err == nil {
		before := w.Scheme
		changed := f.Get(before) != f.Get(tried) || !Same(tried, before)
		if changed {
			err = w.Take(tried)
		}
		if err == nil {
			if together {
				w.Wrong = map[string]Wrong{}
			}
			delete(w.Wrong, key)
			if len(ruled) > 0 || w.ruledBy != key {
				w.ruled, w.ruledBy = ruled, key
			}
			if changed && w.editing != key {
				w.remember(step{before: before, what: say.Theirs(f.Label)})
			}
			if live && changed {
				w.editing = key
			} else if !live {
				w.editing = ""
			}
			return true
		}
	}
	if live {
		w.draft = &Wrong{text, w.why(f, err)}
		return false
	}
	w.editing = ""
	w.Wrong[key] = Wrong{text, w.why(f, err)}
	return true
}

// with is the scheme with text in field f, and, if all, with every entry that
// could not be used before; and which decisions count no longer because of it.
func (w *Work) with(f scheme.Field, text string, all bool) (s scheme.Scheme, ruled []scheme.Overruled, err error) {
	s = w.Scheme
	if all {
		for _, other := range scheme.Fields() {
			if entry, waits := w.Wrong[other.Key]; waits && other.Key != f.Key {
				if _, err := other.For(s).Decide(&s, entry.Text, w.Units); err != nil {
					return s, nil, err
				}
			}
		}
	}
	if ruled, err = f.For(s).Decide(&s, text, w.Units); err != nil {
		return s, nil, err
	}
	return s, ruled, s.Validate()
}

// Decided says at a field who decides it, where it does not itself, or what its
// own last entry put aside; else "".
func (w *Work) Decided(f scheme.Field) string {
	label := func(key string) string {
		of, _ := scheme.Lookup(key)
		return say.Theirs(of.Label)
	}
	if by := w.Scheme.DecidedBy(f.Key); len(by) > 0 {
		return say.Word("decide."+by[0], "field", label(by[0]))
	}
	if v, fitted := w.fittedTuck(f); fitted {
		return say.Word("decide.fitted", "value", v)
	}
	for _, o := range w.ruled {
		if o.By == f.Key {
			return say.Word("decide.aside", "field", label(o.Key), "was", o.Was)
		}
	}
	return ""
}

// fittedTuck is how deep a tuck became that finds no room as deep as it is typed.
func (w *Work) fittedTuck(f scheme.Field) (string, bool) {
	plan := w.Ruff.Plan
	if f.Key != "pleat.tuck_top" && f.Key != "pleat.tuck_bottom" || !plan.TucksFitted {
		return "", false
	}
	v := f.Number(plan.Scheme)
	return say.Length(v, w.Units), v != f.Number(w.Scheme)
}

// Ruled tells what counts no longer because of the last entry.
func (w *Work) Ruled() string {
	var out []string
	for _, o := range w.ruled {
		of, _ := scheme.Lookup(o.Key)
		by, _ := scheme.Lookup(o.By)
		out = append(out, say.Word("decide.said", "field", say.Theirs(of.Label), "was", o.Was, "by", say.Theirs(by.Label), "now", o.Now))
	}
	return strings.Join(out, " ")
}

// why words an error for the field that caused it. A field at fault with
// others is told of them by their labels.
func (w *Work) why(f scheme.Field, err error) string {
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
