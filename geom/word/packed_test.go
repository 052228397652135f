package word

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"testing"
)

// TestPacked: what travels arrives as it was, for every language.
func TestPacked(t *testing.T) {
	type unit string
	keyed := turned
	keyed.Key = func(key string) string { return "“" + key + "”" }
	for _, want := range []Text{
		{},
		Name("100 % %s"),
		Say("no places, 5 %"),
		Say("%s of the %s edge", Name("Cooper"), Say("top")),
		Say("%s, %s, %s, %d %s, %.2f", Number{Value: -1.25, Decimals: 1}, Written("-0.50"), Key("ruff.depth"), 7, unit("mm"), 0.125),
		Count(3, "%d set", "%d sets", 3),
		Join("; ", Count(1, "%d set", "%d sets", 1), Say("top")),
		Say("%s", ""), // an empty name stands in its place, too
	} {
		b, err := json.Marshal(struct{ Why Packed }{Packed{want}})
		if err != nil {
			t.Fatalf("%v: %v", want, err)
		}
		var got struct{ Why Packed }
		if err := json.Unmarshal(b, &got); err != nil {
			t.Fatalf("%s: %v", b, err)
		}
		for _, l := range []Language{English, Long, keyed} {
			if a, b := want.In(l), got.Why.In(l); a != b {
				t.Errorf("in %s %q arrives as %q", l.Tag, a, b)
			}
		}
	}
	for _, bad := range []Text{Say("%v", []int{1}), Say("%.1f", math.NaN()), Say("%v", nil)} {
		if b, err := json.Marshal(Packed{bad}); err == nil {
			t.Errorf("%v is packed as %s", bad, b)
		}
	}
	for _, bad := range []string{`{"say":"%s","with":[{}]}`, `{"kind":3,"say":" ","with":[{"int":1}]}`, `{"kind":4}`, `{"kind":-1}`, `[]`} {
		if err := json.Unmarshal([]byte(bad), new(Packed)); err == nil {
			t.Errorf("%s is read", bad)
		}
	}
}

// TestOf: an error says its text, wrapped or not, and keeps its chain.
func TestOf(t *testing.T) {
	cause := errors.New("cause")
	err := fmt.Errorf("while at it: %w", Fault{Text: Say("top"), Of: cause})
	if got := Of(err).In(turned); got != "górna" || !errors.Is(err, cause) {
		t.Errorf("%q of %v", got, err)
	}
	if got := Of(cause).In(Long); got != "cause" {
		t.Errorf("%q", got)
	}
}
