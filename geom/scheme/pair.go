package scheme

import (
	"strings"

	"ruffwright/geom/word"
)

// A pair code is two share codes, each with its version first, and a tilde
// between them: neither holds one, and an address may. Both together keep to
// MaxCode.

const between = "~"

// PairCode gives two schemes as one code. It is "" where they need more than
// MaxCode characters: then they can only be saved as documents.
func PairCode(a, b Scheme) string {
	x, y := a.Code(), b.Code()
	if x == "" || y == "" || len(x)+len(between)+len(y) > MaxCode {
		return ""
	}
	return x + between + y
}

// FromPair reads a pair code, or a share code of one scheme: then b is nil. Both
// are validated; an error says which of the two, A or B, is at fault, and nothing
// is given.
func FromPair(code string) (a Scheme, b *Scheme, err error) {
	first, second, both := strings.Cut(code, between)
	if !both || len(code) > MaxCode+64 {
		a, err = FromCode(code)
		return a, nil, err
	}
	code = strings.TrimSpace(code)
	if len(code) > MaxCode || strings.Contains(second, between) {
		why := word.Say("the code is too long for two ruffs")
		if strings.Contains(second, between) {
			why = word.Say("the code holds more than two ruffs")
		}
		return Scheme{}, nil, badCode(why)
	}
	if a, err = FromCode(first); err != nil {
		return Scheme{}, nil, ofOne("A", err)
	}
	other, err := FromCode(second)
	if err != nil {
		return Scheme{}, nil, ofOne("B", err)
	}
	return a, &other, nil
}

// ofOne says that one of the two, and which, is at fault.
func ofOne(which string, err error) error {
	list, ok := err.(Errors)
	if !ok || len(list) == 0 {
		return badCode(word.Say("ruff %s: %s", which, word.Of(err)))
	}
	list = append(Errors(nil), list...)
	list[0].Why = word.Say("of the two ruffs, %s cannot be read: %s", which, list[0].Why)
	return list
}
