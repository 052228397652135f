package matter

import (
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Says is what a field moves, in a sentence.
func (q Field) Says(u scheme.Units) word.Text {
	field, _ := scheme.Lookup(q.Key)
	return word.Say("%s from %s to %s. That changes the height by %s, the droop by %s and the swing when the wearer bows by %s.",
		word.Say(field.Label), amount(field, q.Now, u), amount(field, q.Now+q.Step, u), signed(q.Moves[0], u), signed(q.Moves[1], u), signed(q.Moves[2], u))
}

// amount is a value of the field as it is said.
func amount(f scheme.Field, v float64, u scheme.Units) word.Text {
	if f.Kind == scheme.KindLength {
		return scheme.Length(scheme.Rounded(v, u), u)
	}
	n := word.Number{Value: v, Decimals: 2, Short: true}
	if f.Unit == "" {
		return word.Say("%s", n)
	}
	return word.Say("%s %s", n, scheme.UnitWord(f.Unit))
}

// signed is a move with its sign.
func signed(mm float64, u scheme.Units) word.Text {
	if r := scheme.Rounded(mm, u); r > 0 {
		return word.Say("+%s", scheme.Length(r, u))
	} else if r < 0 {
		return word.Say("−%s", scheme.Length(-r, u))
	}
	return scheme.Length(0, u)
}
