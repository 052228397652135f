package pattern

import (
	"encoding/csv"
	"io"
	"strconv"

	"ruffwright/geom/scheme"
)

// AsCSV writes the table of marks as RFC 4180: CRLF lines, the unit in every
// header that has one, numbers with a point and an exact number of decimals. A
// join that lies on no mark has an empty mark, fold and edge. The error is the
// writer's.
func (p Pattern) AsCSV(w io.Writer, u scheme.Units) error {
	t := p.Marks(u)
	unit := " (" + u.Symbol() + ")"
	c := csv.NewWriter(w)
	c.UseCRLF = true
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
			yes(r.Quarter), yes(r.Join), strconv.Itoa(r.Piece),
		})
	}
	return c.WriteAll(lines)
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
