package work

import (
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
				w.remember(step{before: before, what: say.Text(f.Label)})
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
		w.draft = &Wrong{text, say.Faults(err, key)}
		return false
	}
	w.editing = ""
	w.Wrong[key] = Wrong{text, say.Faults(err, key)}
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

// decided says that a field follows from another, by the other's key.
var decided = map[string]string{
	"look.depth_ratio":  "Follows from the picture: “%s” times the wearer’s face height. What you type here counts in its place.",
	"look.height_ratio": "Follows from the picture: “%s” times the wearer’s face height. What you type here counts in its place.",
	"look.quarter":      "Follows from the picture: four times “%s”. What you type here counts in its place.",
	"pleat.marks":       "Follows from “%s”. Clear them, and what you type here counts.",
}

// Decided says at a field who decides it, where it does not itself, or what its
// own last entry put aside; else "".
func (w *Work) Decided(f scheme.Field) string {
	label := func(key string) string {
		of, _ := scheme.Lookup(key)
		return say.Text(of.Label)
	}
	if by := w.Scheme.DecidedBy(f.Key); len(by) > 0 {
		return say.Text(decided[by[0]], label(by[0]))
	}
	if v, fitted := w.fittedTuck(f); fitted {
		return say.Text("In this ruff %s: fitted, since there is no room for more.", v)
	}
	for _, o := range w.ruled {
		if o.By == f.Key {
			return say.Text("Yours counts now: %s %s is put aside.", label(o.Key), o.Was)
		}
	}
	return ""
}

// fittedTuck is how deep a tuck became that finds no room as deep as it is typed.
func (w *Work) fittedTuck(f scheme.Field) (string, bool) {
	plan := w.Ruff.Plan
	if !isTuck(f) || !plan.TucksFitted {
		return "", false
	}
	v := f.Number(plan.Scheme)
	return say.Length(v, w.Units), v != f.Number(w.Scheme)
}

func isTuck(f scheme.Field) bool { return f.Key == "pleat.tuck_top" || f.Key == "pleat.tuck_bottom" }

// Ruled tells what counts no longer because of the last entry.
func (w *Work) Ruled() string {
	var out []string
	for _, o := range w.ruled {
		of, _ := scheme.Lookup(o.Key)
		by, _ := scheme.Lookup(o.By)
		out = append(out, say.Text("%s %s counts no longer: %s decides now, %s.", say.Text(of.Label), o.Was, say.Text(by.Label), o.Now))
	}
	return strings.Join(out, " ")
}
