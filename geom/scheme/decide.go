package scheme

import (
	"slices"
	"strings"
)

// Some values can be decided in two ways: a depth by itself, or by a picture's
// ratio times the wearer's face. In a document the picture's decides. While
// somebody decides, the later word holds: a depth typed after the ratio puts the
// ratio aside.

type second struct {
	key   string   // the field
	by    string   // what decides it instead, where that is not 0 or empty
	with  []string // and what else goes into it
	stays bool     // a value typed into key does not put it aside: it is work that nobody throws away by the way
}

var seconds = []second{
	{key: "ruff.depth", by: "look.depth_ratio", with: []string{"wearer.face"}},
	{key: "ruff.height", by: "look.height_ratio", with: []string{"wearer.face"}},
	{key: "ruff.sets", by: "pleat.marks", stays: true},
	{key: "ruff.sets", by: "look.quarter"},
	{key: "pleat.first", by: "pleat.marks", stays: true},
	{key: "pleat.last", by: "pleat.marks", stays: true},
}

// DecidedBy gives the key of the field that decides the value of key in s
// instead, and of the others that go into it; none where key decides by itself.
func (s Scheme) DecidedBy(key string) []string {
	for _, w := range seconds {
		if f, _ := Lookup(w.by); w.key == key && f.decides(s) {
			return append([]string{w.by}, w.with...)
		}
	}
	return nil
}

// decides says whether a picture's count or ratio, or own marks, are given.
func (f Field) decides(s Scheme) bool {
	return f.Number(s) != 0 || f.Kind == KindMarks && f.Get(s) != ""
}

// Overruled is a decision that counts no longer, since a later one took its
// place.
type Overruled struct {
	Key string // of the field that counts no longer,
	Was string // its value, as Show gives it
	By  string // the field that decides now,
	Now string // and what comes of it: its own value, or what Key comes to
}

// Unheard gives what a document says and what does not count in it: a length or a number
// of sets, other than its default, that a picture's ratio or count decides instead.
func (s Scheme) Unheard() []Overruled {
	var told []Overruled
	looked, usual := s.Looked(), Default()
	for _, w := range seconds {
		f, _ := Lookup(w.key)
		by := s.DecidedBy(w.key)
		if w.stays || len(by) == 0 || by[0] != w.by || f.Number(s) == f.Number(usual) {
			continue
		}
		if was, now := f.Show(s, Millimetres), f.Show(looked, Millimetres); was != now {
			told = append(told, Overruled{Key: w.key, Was: was, By: w.by, Now: now})
		}
	}
	return told
}

// Decide is Set for a person's latest word: what decided the same value until now
// is put aside (a picture's ratio by a typed depth) or no longer counts (a typed
// depth, by a ratio or a face), and is told. Text that is the value in force, as
// Show gives it of Looked, changes nothing. On an error s is as it was.
func (f Field) Decide(s *Scheme, text string, edge Units) ([]Overruled, error) {
	before := s.Looked()
	if strings.TrimSpace(text) == f.Show(before, edge) && s.DecidedBy(f.Key) != nil {
		return nil, nil
	}
	changed := *s
	if err := f.Set(&changed, text, edge); err != nil {
		return nil, err
	}
	var told []Overruled
	for _, w := range seconds {
		by, _ := Lookup(w.by)
		switch {
		case w.key == f.Key && by.decides(changed) && !w.stays:
			told = append(told, Overruled{Key: w.by, Was: by.Show(changed, edge), By: f.Key, Now: f.Show(changed, edge)})
			if err := by.write(&changed, "0", edge); err != nil {
				return nil, err
			}
		case w.by == f.Key || slices.Contains(w.with, f.Key):
			of, _ := Lookup(w.key)
			was, now := of.Show(before, edge), of.Show(changed.Looked(), edge)
			if d := changed.DecidedBy(w.key); d != nil && d[0] == w.by && was != now {
				told = append(told, Overruled{Key: w.key, Was: was, By: w.by, Now: now})
			}
		}
	}
	*s = changed
	return told, nil
}
