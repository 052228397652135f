package pattern

import (
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"ruffwright/geom/scheme"
)

// AsCSV writes the table of marks as CSV does: the unit in every header that has one,
// numbers with a point and an exact number of decimals. A join that lies on no mark
// has an empty mark, fold and edge. The error is the writer's.
func (p Pattern) AsCSV(w io.Writer, u scheme.Units) error {
	t := p.Marks(u)
	unit := " (" + u.Symbol() + ")"
	lines := make([][]string, 0, len(t.Rows)+1)
	lines = append(lines, []string{
		"mark", "set", "fold", "sewn to",
		"from hemmed end" + unit, "from raw end" + unit, "tuck from" + unit, "tuck to" + unit,
		"quarter", "join", "piece",
	})
	for _, r := range t.Rows {
		mark, a, b := "", "", ""
		if r.Mark >= 0 {
			mark = strconv.Itoa(r.Mark + 1)
		}
		if r.Tucked {
			a, b = t.decimal(r.TuckA), t.decimal(r.TuckB)
		}
		lines = append(lines, []string{
			mark, strconv.Itoa(r.Set), string(r.Fold), string(r.Edge),
			t.decimal(r.Place), t.decimal(r.Raw), a, b,
			yes[r.Quarter], yes[r.Join], strconv.Itoa(r.Piece),
		})
	}
	_, err := io.WriteString(w, CSV(lines))
	return err
}

var yes = map[bool]string{true: "yes", false: "no"}

// CSV writes rows for a spreadsheet, as RFC 4180 has it: commas, CRLF lines, each
// cell by Cell. A cell with a semicolon or a tab in it stands in quotes too, for
// spreadsheets of some countries part the cells there.
func CSV(rows [][]string) string {
	var b strings.Builder
	for _, row := range rows {
		for i, text := range row {
			if i > 0 {
				b.WriteByte(',')
			}
			text = Cell(text)
			if strings.ContainsAny(text, "\",;\t\r\n") || strings.HasPrefix(text, " ") {
				text = `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
			}
			b.WriteString(text)
		}
		b.WriteString("\r\n")
	}
	return b.String()
}

// TabSeparated writes rows for the clipboard, from where they fall into the cells of a
// spreadsheet: tabs, LF lines, each cell by Cell. A tab or the end of a line within a
// cell becomes a space.
func TabSeparated(rows [][]string) string {
	var b strings.Builder
	parts := strings.NewReplacer("\t", " ", "\r\n", " ", "\n", " ", "\r", " ")
	for _, row := range rows {
		for i, text := range row {
			if i > 0 {
				b.WriteByte('\t')
			}
			b.WriteString(parts.Replace(Cell(text)))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// Cell is text as a cell of a spreadsheet that takes it for text. A program that
// opens a table may run a cell that begins with = + - or @ as a formula, and drops a
// tab or a carriage return before one (OWASP, 'CSV Injection'; the wide forms of the
// four are read like them where Chinese or Japanese is written). Such a cell gets an
// apostrophe before it. A number stays as it is, a negative one too.
func Cell(text string) string {
	start := strings.TrimLeft(text, " \t\r\n\u00a0")
	first, _ := utf8.DecodeRuneInString(start)
	if start != "" && (strings.ContainsRune("=+-@＝＋－＠", first) || strings.ContainsAny(text[:1], "\t\r\n")) && !isNumber(text) {
		return "'" + text
	}
	return text
}

// isNumber reports whether text is a number with a point and nothing else: a sign,
// digits, a point with digits.
func isNumber(text string) bool {
	digits := strings.TrimLeft(text, "+-")
	if len(text)-len(digits) > 1 || digits == "" || strings.Trim(digits, "0123456789.") != "" {
		return false
	}
	_, err := strconv.ParseFloat(digits, 64)
	return err == nil
}
