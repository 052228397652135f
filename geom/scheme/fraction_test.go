package scheme

import "testing"

// TestFractionDigits: a fraction has up to six figures above the line and four below.
func TestFractionDigits(t *testing.T) {
	for _, c := range []struct {
		above, below string
		ok           bool
	}{
		{"123456", "9999", true}, {"1234567", "9999", false}, {"123456", "10000", false}, {"1", "0000", false}, {"1", "", false},
	} {
		if _, _, why := fraction(c.above, c.below); why.Empty() != c.ok {
			t.Errorf("%s/%s: %q", c.above, c.below, why.String())
		}
	}
}
