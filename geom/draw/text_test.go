package draw

import (
	"math"
	"strings"
	"testing"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
)

// TextWidth against the face that draws, whose advances are rounded to 1/64 px.
func TestTextWidth(t *testing.T) {
	for _, f := range []Face{Upright, Italic, Bold} {
		face := truetype.NewFace(fontOf(f), &truetype.Options{Size: 100, DPI: 72})
		for _, s := range []string{"", "38.5 cm", `15 1/2 in`, "AVATAR To", "pinned quarters", "Größe ½ – “x”"} {
			want := float64(font.MeasureString(face, s)) / 64
			if got := TextWidth(s, 100, f); math.Abs(got-want) > 0.02*float64(len(s)+1) {
				t.Errorf("TextWidth(%q, 100, %v) = %.3f, the face draws %.3f", s, f, got, want)
			}
		}
	}
}

func TestWrap(t *testing.T) {
	text := "The end flap stands where you wish it to fall"
	for _, n := range []int{1, 2, 5} {
		for width := 1.0; width < 90; width += 7 {
			lines := Wrap(text, 3, Upright, width, n)
			if len(lines) > n {
				t.Errorf("wrap to %g mm gives %d lines, want at most %d", width, len(lines), n)
			}
			for _, l := range lines {
				if TextWidth(l, 3, Upright) > width {
					t.Errorf("line %q is wider than %g mm", l, width)
				}
			}
			if full := strings.Join(lines, " "); !strings.Contains(full, "…") && full != text && width > 10 {
				t.Errorf("wrap to %g mm in %d lines lost words without saying so: %q", width, n, lines)
			}
		}
	}
	if got := Wrap(" a\x00b\t\n c ", 3, Upright, 50, 3); len(got) != 1 || got[0] != "a b c" {
		t.Errorf("control characters: %q", got)
	}
}

// A face has plain and accented letters; it has no ideogram, and no letter beyond them.
func TestHas(t *testing.T) {
	for letter, want := range map[rune]bool{'a': true, 'ß': true, '…': true, '漢': false, 0xffff: false, '𝄞': false} {
		for _, f := range []Face{Upright, Italic, Bold} {
			if Has(f, letter) != want {
				t.Errorf("face %d has %c: %v", f, letter, !want)
			}
		}
	}
}
