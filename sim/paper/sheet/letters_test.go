package sheet

import (
	"testing"

	"ruffwright/geom/draw"
)

// TestPrintable: no letter reaches the PDF that its fonts do not have.
func TestPrintable(t *testing.T) {
	for in, want := range map[string]string{"plain": "plain", "Ægir’s ÷ ½ °": "Ægir’s ÷ ½ °", "襞🎭": "??", "a\x00b\n": "ab"} {
		if got := printable(in, draw.Italic); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
	if got := Unprinted("襞襟 🎭 (odd) ? Ægir"); got != "襞襟🎭" {
		t.Errorf("not printed: %q", got)
	}
	for _, face := range []draw.Face{draw.Upright, draw.Italic, draw.Bold} {
		for _, p := range []string{"·", "–", "−", "×", "÷", "°", "²", "½", "…", "’"} {
			if printable(p, face) != p {
				t.Errorf("face %d has no %q, which the sheets use", face, p)
			}
		}
	}
}

// TestFit: what fits stands whole, what does not ends in an ellipsis and is as long
// as it can be.
func TestFit(t *testing.T) {
	const s, size = "eleven of them", 3.0
	whole := draw.TextWidth(s, size, draw.Upright)
	if got := draw.Clip(s, size, draw.Upright, whole); got != s {
		t.Errorf("%q of %q", got, s)
	}
	if got := draw.Clip(s, size, draw.Upright, whole-0.1); got != "eleven of th…" {
		t.Errorf("a hair too wide: %q", got)
	}
	if got := draw.Clip(s, size, draw.Upright, draw.TextWidth("eleven …", size, draw.Upright)); got != "eleven…" {
		t.Errorf("cut at a space: %q", got)
	}
	if got := draw.Clip(s, size, draw.Upright, 0.5); got != "" {
		t.Errorf("no room: %q", got)
	}
}
