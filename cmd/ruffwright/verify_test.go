package main

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"ruffwright/sim/shell/known"
)

// TestVerifyCanFail: a value outside what is allowed, a solve that failed and a
// value that is no number are each told, and none passes for held.
func TestVerifyCanFail(t *testing.T) {
	for _, c := range []struct {
		name string
		got  known.Outcome
		says string
	}{
		{"off", known.Outcome{Problem: known.Problem{Name: "off", Source: "a book", Unit: "mm", Reference: 2, Allowed: 0.1}, Value: 3, Deviation: 1}, "3 mm, known 2 mm; off 1 mm of ±0.1 mm"},
		{"relative", known.Outcome{Problem: known.Problem{Name: "off", Source: "a book", Unit: "L", Reference: 2, Allowed: 0.01, Relative: true}, Value: 3, Deviation: 0.5}, "off 50 % of ±1 %"},
		{"failed", known.Outcome{Problem: known.Problem{Name: "failed", Reference: 2}, Err: errors.New("did not come to rest")}, "failed: did not come to rest; known 2"},
		{"NaN", known.Outcome{Problem: known.Problem{Name: "NaN", Reference: 2}, Value: math.NaN(), Deviation: math.NaN(), Held: true}, "failed: the value is not a number"},
	} {
		v := verification{Held: true}
		v.add(c.got)
		text := v.text()
		var document bytes.Buffer
		if err := printJSON(&document, v); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		if v.Held || !strings.Contains(text, "OUTSIDE") || !strings.Contains(text, c.says) || !strings.Contains(text, "0 held, 1 outside") {
			t.Errorf("%s: held %v:\n%s", c.name, v.Held, text)
		}
	}
}

// TestRobustCanFail: a fault, too few at rest and a hang are each not sound.
func TestRobustCanFail(t *testing.T) {
	well := tried{Tried: 1000, Solved: 1000, Converged: 995, Slowest_s: 1}
	if !well.sound(cellMost) {
		t.Error("995 of 1000 at rest is not sound")
	}
	for name, spoil := range map[string]func(*tried){
		"a fault":  func(t *tried) { t.Faults = 1 },
		"too few":  func(t *tried) { t.Converged = 994 },
		"too slow": func(t *tried) { t.Slowest_s = 61 },
	} {
		bad := well
		spoil(&bad)
		if bad.sound(cellMost) {
			t.Errorf("%s is sound", name)
		}
	}
}
