package portrait

import "testing"

// TestTold: a length is said no more exactly than it is known, and its interval never
// narrower.
func TestTold(t *testing.T) {
	for _, c := range [][2]Bounds{
		{{Value: 62.3, Low: 60.1, High: 64.6}, {Value: 62.5, Low: 60, High: 65}},
		{{Value: 187.4, Low: 152.9, High: 230.1}, {Value: 187, Low: 152, High: 231}},
		{{}, {}},
	} {
		if got := c[0].Told_mm(); got != c[1] {
			t.Errorf("%v is told as %v, want %v", c[0], got, c[1])
		}
	}
}
