package tell

import (
	"slices"
	"testing"

	"ruffwright/sim/check"
	"ruffwright/wasm/page/say"
)

// TestNamed: where the code picks words by a name, every name has its words.
func TestNamed(t *testing.T) {
	var keys []string
	for s := range signs {
		keys = append(keys, "severity."+string(s))
		if !slices.Contains([]check.Severity{check.Stop, check.Mend, check.Note, check.Caution}, s) {
			t.Errorf("a sign for %q", s)
		}
	}
	for _, await := range []string{"fine", "bow", "other"} { // wire.Result.Awaits
		keys = append(keys, "solve."+await)
	}
	for _, edge := range []string{"both", "top", "bottom", "no"} {
		keys = append(keys, "sewn."+edge)
	}
	for _, key := range keys {
		if say.Word(key) == "{"+key+"}" {
			t.Errorf("no words for %q", key)
		}
	}
}
