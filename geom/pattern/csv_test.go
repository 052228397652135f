package pattern

import (
	"encoding/csv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestCell: what a spreadsheet would run becomes text; numbers and words stay.
func TestCell(t *testing.T) {
	for _, same := range []string{"", "The Cooper", "40", "-10.6", "+3", "-0", "−10.6 mm", "38,5 cm", "'=1", "a=b", "e@f", " ", "½", "·"} {
		if got := Cell(same); got != same {
			t.Errorf("%q becomes %q", same, got)
		}
	}
	for _, run := range []string{`=HYPERLINK("http://harbour.example","here")`, "=1+1", "+1+1", "-1+1", "-10.6 mm", "--1", "-1e9", "-", "@SUM(A1)",
		" =1", "\u00a0=1", "\t=1", "\r=1", "\tx", "\rx", "\nx", "＝1+1", "＋1", "－1", "＠x", "-1.2.3", "-.", "+Inf", "-NaN", "-0x10", "-1_0"} {
		if got := Cell(run); got != "'"+run {
			t.Errorf("%q becomes %q", run, got)
		}
	}
}

// TestCSV: whatever stands in the cells, a reader of RFC 4180 finds as many, each as
// Cell writes it; none that a spreadsheet would run; and none more where the cells
// are parted at semicolons or tabs instead.
func TestCSV(t *testing.T) {
	cell := rapid.OneOf(rapid.String(), rapid.StringOf(rapid.SampledFrom([]rune("=+-@;,\t\r\n\"' a1＝."))))
	rapid.Check(t, func(t *rapid.T) {
		wide := rapid.IntRange(2, 4).Draw(t, "columns") // an empty line of one cell is none
		rows := rapid.SliceOfN(rapid.SliceOfN(cell, wide, wide), 1, 4).Draw(t, "rows")
		text := CSV(rows)
		read, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		if err != nil || len(read) != len(rows) {
			t.Fatalf("%d lines of %d, %v: %q", len(read), len(rows), err, text)
		}
		for i, row := range rows {
			for k, c := range row {
				if want := strings.ReplaceAll(Cell(c), "\r\n", "\n"); read[i][k] != want { // the reader's own
					t.Fatalf("%q is read as %q", want, read[i][k])
				}
			}
		}
		tabs := strings.Split(strings.TrimSuffix(TabSeparated(rows), "\n"), "\n")
		if len(tabs) != len(rows) {
			t.Fatalf("%d lines of %d", len(tabs), len(rows))
		}
		for _, line := range tabs {
			cells := strings.Split(line, "\t")
			if len(cells) != wide {
				t.Fatalf("%d cells of %d: %q", len(cells), wide, line)
			}
			for _, c := range cells {
				if c != "" && strings.ContainsAny(c[:1], "=+-@\t\r") && !isNumber(c) {
					t.Fatalf("%q would be run", c)
				}
			}
		}
	})
	for _, sep := range []rune{';', '\t'} {
		r := csv.NewReader(strings.NewReader(CSV([][]string{{"The Cooper;=1+1\t=2+2"}})))
		r.Comma = sep
		if read, err := r.ReadAll(); err != nil || len(read) != 1 || len(read[0]) != 1 {
			t.Errorf("parted at %q: %q, %v", sep, read, err)
		}
	}
}
