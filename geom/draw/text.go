package draw

import (
	"strings"
	"sync"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/math/fixed"
)

// Heights of a line and of the part of it above the baseline, in ems: the Go
// fonts' ascent is 0.94 and descent 0.21, and figures and words without accents
// stay within 0.75 and 0.21.
const (
	lineHeight = 1.0
	baseline   = 0.77 // from the top of the line to the baseline
)

// TTF gives the font file that labels of this face are measured and drawn
// with, so that another canvas can use the same.
func TTF(f Face) []byte { return [...][]byte{goregular.TTF, goitalic.TTF, gobold.TTF}[f] }

// parsed holds the three fonts; parsing constant bytes once is no state.
var parsed = [...]func() *truetype.Font{mustParse(Upright), mustParse(Italic), mustParse(Bold)}

func mustParse(face Face) func() *truetype.Font {
	return sync.OnceValue(func() *truetype.Font {
		f, err := truetype.Parse(TTF(face))
		if err != nil {
			panic("draw: embedded font: " + err.Error()) // bytes are compiled in: TestFonts
		}
		return f
	})
}

func fontOf(f Face) *truetype.Font { return parsed[f]() }

// Has tells whether a face has a letter.
func Has(f Face, letter rune) bool { return fontOf(f).Index(letter) != 0 }

// TextWidth is the width in mm of one line of text set at size mm, kerning
// included, as Image draws it (TestTextWidth).
func TextWidth(text string, size_mm float64, face Face) float64 {
	f := fontOf(face)
	const em = 2048 * 64
	var sum fixed.Int26_6
	var prev truetype.Index
	for i, r := range text {
		g := f.Index(r)
		if i > 0 {
			sum += f.Kern(em, prev, g)
		}
		sum += f.HMetric(em, g).AdvanceWidth
		prev = g
	}
	return size_mm * float64(sum) / em
}

// Wrap breaks text at spaces into lines no wider than width mm, at most n of
// them; what does not fit ends in an ellipsis.
func Wrap(text string, size_mm float64, face Face, width_mm float64, n int) []string {
	var lines []string
	line := ""
	words := strings.FieldsFunc(text, func(r rune) bool { return r <= ' ' }) // control characters are space too
	for i := 0; i < len(words); i++ {
		try := words[i]
		if line != "" {
			try = line + " " + words[i]
		}
		if TextWidth(try, size_mm, face) <= width_mm {
			line = try
			continue
		}
		if len(lines) == n-1 || line == "" {
			return append(lines, Clip(try, size_mm, face, width_mm))
		}
		lines, line = append(lines, line), ""
		i--
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// Clip shortens text with an ellipsis until it is no wider than width mm.
func Clip(text string, size_mm float64, face Face, width_mm float64) string {
	if TextWidth(text, size_mm, face) <= width_mm {
		return text
	}
	runes := []rune(text)
	for len(runes) > 0 {
		runes = runes[:len(runes)-1]
		if s := strings.TrimRight(string(runes), " ") + "…"; TextWidth(s, size_mm, face) <= width_mm {
			return s
		}
	}
	return ""
}
