package propose

import (
	"slices"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/sim/cloth"
)

// hangsOn are the fields that an answer hangs on and does not change: the neck, the look,
// the cloth, the bolt and the hand.
var hangsOn = []string{"wearer.girth", "ruff.sets", "ruff.depth", "ruff.height", "cloth.name", "strip.bolt", "hand.error"}

// assumptions are those fields that an answer for s hangs on and that are as a new scheme has
// them (scheme.First), with their values: nobody may have decided them. The cloth is one
// while its name alone says how stiff it is. How s is sewn is no assumption, for that is
// what Propose looks for.
func assumptions(s scheme.Scheme) []check.Change {
	assumed := []check.Change{}
	is, first := s.Looked(), scheme.First()
	for _, f := range scheme.Fields() {
		if !slices.Contains(hangsOn, f.Key) || f.Get(is) != f.Get(first) {
			continue
		}
		if f.Key == "cloth.name" && cloth.HowSure(s).From != cloth.ByName {
			continue
		}
		assumed = append(assumed, check.Change{Key: f.Key, Value: f.Get(is)})
	}
	return assumed
}
