package paper

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"testing"
	"unicode/utf16"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"ruffwright/geom/draw"
)

// The sheets are read back from the PDF by another library, pdfcpu, and what their
// contents paint is followed here operator by operator (ISO 32000-1, 8 and 9).

// stroke is one subpath that the page paints, in mm from the paper's top left
// corner, and the width of its line (0: filled only).
type stroke struct {
	pts    []draw.Point
	width  float64
	dashed bool
	closed bool
}

func (s stroke) box() (x0, y0, x1, y1 float64) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range s.pts {
		x0, y0, x1, y1 = math.Min(x0, p.X), math.Min(y0, p.Y), math.Max(x1, p.X), math.Max(y1, p.Y)
	}
	return
}

// written is one text that the page paints: the left end of its baseline in mm from
// the paper's top left corner, and its size.
type written struct {
	at   draw.Point
	size float64
	text string
}

// painted is what a page paints.
type painted struct {
	wide, high float64 // mm
	strokes    []stroke
	words      []written
	pictures   [][4]float64 // x0, y0, x1, y1 of each picture
}

const ptPerMM = 72 / 25.4

// readPDF reads and validates a PDF and follows each page's contents.
func readPDF(t testing.TB, pdf []byte) ([]painted, *model.Context) {
	t.Helper()
	api.DisableConfigDir()
	ctx, err := api.ReadValidateAndOptimize(bytes.NewReader(pdf), model.NewDefaultConfiguration())
	if err != nil {
		t.Fatalf("pdfcpu refuses the PDF: %v", err)
	}
	var out []painted
	for n := 1; n <= ctx.PageCount; n++ {
		r, err := pdfcpu.ExtractPageContent(ctx, n)
		if err != nil {
			t.Fatalf("page %d: %v", n, err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		_, _, attrs, err := ctx.PageDict(n, false)
		if err != nil {
			t.Fatal(err)
		}
		box := attrs.MediaBox
		s := painted{wide: box.Width() / ptPerMM, high: box.Height() / ptPerMM}
		if err := s.follow(content); err != nil {
			t.Fatalf("page %d: %v", n, err)
		}
		out = append(out, s)
	}
	return out, ctx
}

type matrix [6]float64

func (m matrix) apply(x, y float64) (float64, float64) {
	return m[0]*x + m[2]*y + m[4], m[1]*x + m[3]*y + m[5]
}

func (m matrix) after(n matrix) matrix { // n first, then m
	return matrix{
		m[0]*n[0] + m[2]*n[1], m[1]*n[0] + m[3]*n[1],
		m[0]*n[2] + m[2]*n[3], m[1]*n[2] + m[3]*n[3],
		m[0]*n[4] + m[2]*n[5] + m[4], m[1]*n[4] + m[3]*n[5] + m[5],
	}
}

type state struct {
	ctm    matrix
	width  float64
	dashed bool
	size   float64
}

// follow interprets the operators that the sheets may use and refuses others.
func (s *painted) follow(content []byte) error {
	now := state{ctm: matrix{1, 0, 0, 1, 0, 0}}
	var stack []state
	var path []stroke
	var operands []any
	num := func(i int) float64 {
		v, _ := operands[i].(float64)
		return v
	}
	place := func(x, y float64) draw.Point {
		x, y = now.ctm.apply(x, y)
		return draw.Point{X: x / ptPerMM, Y: s.high - y/ptPerMM}
	}
	paint := func(stroked bool) {
		for _, p := range path {
			if stroked {
				p.width = now.width * math.Abs(now.ctm[0]) / ptPerMM
				p.dashed = now.dashed
			}
			s.strokes = append(s.strokes, p)
		}
		path = nil
	}
	lex := lexer{data: content}
	for {
		tok, op, err := lex.next()
		if err == io.EOF {
			break
		}
		if err != nil {
			return err
		}
		if !op {
			operands = append(operands, tok)
			continue
		}
		switch name := tok.(string); name {
		case "q":
			stack = append(stack, now)
		case "Q":
			if len(stack) == 0 {
				return fmt.Errorf("Q without q")
			}
			now, stack = stack[len(stack)-1], stack[:len(stack)-1]
		case "cm":
			now.ctm = now.ctm.after(matrix{num(0), num(1), num(2), num(3), num(4), num(5)})
		case "w":
			now.width = num(0)
		case "d":
			list, _ := operands[0].([]any)
			now.dashed = len(list) > 0
		case "J", "j", "g", "G", "rg", "RG":
		case "m":
			path = append(path, stroke{pts: []draw.Point{place(num(0), num(1))}})
		case "l":
			if len(path) == 0 {
				return fmt.Errorf("l without m")
			}
			path[len(path)-1].pts = append(path[len(path)-1].pts, place(num(0), num(1)))
		case "h":
			path[len(path)-1].closed = true
		case "re":
			x, y, w, h := num(0), num(1), num(2), num(3)
			path = append(path, stroke{closed: true, pts: []draw.Point{place(x, y), place(x+w, y), place(x+w, y+h), place(x, y+h)}})
		case "S":
			paint(true)
		case "B":
			paint(true)
		case "f", "F":
			paint(false)
		case "W", "n":
			if name == "n" {
				path = nil
			}
		case "Do":
			a, b := place(0, 0), place(1, 1)
			s.pictures = append(s.pictures, [4]float64{math.Min(a.X, b.X), math.Min(a.Y, b.Y), math.Max(a.X, b.X), math.Max(a.Y, b.Y)})
		case "BT", "ET":
		case "Tf":
			now.size = num(1)
		case "Td":
			at := place(num(0), num(1))
			s.words = append(s.words, written{at: at})
		case "Tj":
			raw := []byte(operands[0].(text))
			units := make([]uint16, len(raw)/2)
			for i := range units {
				units[i] = uint16(raw[2*i])<<8 | uint16(raw[2*i+1])
			}
			w := &s.words[len(s.words)-1]
			w.text, w.size = string(utf16.Decode(units)), now.size*math.Abs(now.ctm[3])/ptPerMM
		default:
			return fmt.Errorf("unexpected operator %q", name)
		}
		operands = operands[:0]
	}
	if len(stack) != 0 {
		return fmt.Errorf("%d q without Q", len(stack))
	}
	return nil
}

type text string

type lexer struct {
	data []byte
	i    int
}

// next gives the next operand, or an operator (op true).
func (l *lexer) next() (tok any, op bool, err error) {
	for l.i < len(l.data) && (l.data[l.i] <= ' ') {
		l.i++
	}
	if l.i >= len(l.data) {
		return nil, false, io.EOF
	}
	switch c := l.data[l.i]; {
	case c == '(':
		return l.string()
	case c == '[':
		l.i++
		var list []any
		for {
			for l.i < len(l.data) && l.data[l.i] <= ' ' {
				l.i++
			}
			if l.i < len(l.data) && l.data[l.i] == ']' {
				l.i++
				return list, false, nil
			}
			t, _, err := l.next()
			if err != nil {
				return nil, false, fmt.Errorf("array without end: %w", err)
			}
			list = append(list, t)
		}
	case c == '/':
		start := l.i
		for l.i++; l.i < len(l.data) && l.data[l.i] > ' ' && l.data[l.i] != '['; l.i++ {
		}
		return string(l.data[start:l.i]), false, nil
	default:
		start := l.i
		for l.i < len(l.data) && l.data[l.i] > ' ' && !bytes.ContainsRune([]byte("[]()/"), rune(l.data[l.i])) {
			l.i++
		}
		if l.i == start {
			return nil, false, fmt.Errorf("unexpected %q", c)
		}
		s := string(l.data[start:l.i])
		if v, err := strconv.ParseFloat(s, 64); err == nil {
			return v, false, nil
		}
		return s, true, nil
	}
}

func (l *lexer) string() (any, bool, error) {
	var b []byte
	depth := 0
	for ; l.i < len(l.data); l.i++ {
		switch c := l.data[l.i]; c {
		case '\\':
			l.i++
			e := l.data[l.i]
			switch e {
			case 'r':
				e = '\r'
			case 'n':
				e = '\n'
			}
			b = append(b, e)
		case '(':
			if depth++; depth > 1 {
				b = append(b, c)
			}
		case ')':
			if depth--; depth == 0 {
				l.i++
				return text(b), false, nil
			}
			b = append(b, c)
		default:
			b = append(b, c)
		}
	}
	return nil, false, fmt.Errorf("string without end")
}
