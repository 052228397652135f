package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"strconv"
	"strings"

	"ruffwright/geom/pattern"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

func marksVerb() verb {
	var from source
	var units unitsFlag
	as := formFlag{"table"}
	return verb{
		name: "marks", args: "[SCHEME]", most: 1,
		does: "lists the place of every mark along the strip, from one end",
		help: `
Lists every mark of the strip: which fold, which edge of the band it is sewn to,
its place from the hemmed end and from the raw end before hemming, where its tuck
begins and ends, the quarters to pin at, and the joins. Every place is rounded by
itself, to 0.5 mm or 1/32 in, so that rounding does not add up. Measure all from
the one end, never from mark to mark.

--as csv writes the same for a spreadsheet (comma separated, decimal points, as
RFC 4180 has it).`,
		flags: func(f *flag.FlagSet) {
			from.flags(f)
			f.Var(&as, "as", "`form`: table or csv")
			f.Var(&units, "units", "`unit` of the places: mm, cm or in")
		},
		run: func(j job, args []string) error {
			s, err := from.scheme(j, args)
			if err != nil {
				return err
			}
			plan, err := pleat.NewPlan(s)
			if err != nil {
				return err
			}
			cut, err := pattern.New(plan)
			if err != nil {
				return err
			}
			if as.name == "csv" {
				return cut.AsCSV(j.out, units.Units)
			}
			_, err = j.out.Write(marksTable(cut, units.Units))
			return err
		},
	}
}

// formFlag is how a list is written.
type formFlag struct{ name string }

func (f *formFlag) String() string { return f.name }

func (f *formFlag) Set(text string) error {
	if text != "table" && text != "csv" {
		return errors.New("allowed: table, csv")
	}
	f.name = text
	return nil
}

// marksTable writes the marks for people.
func marksTable(cut pattern.Pattern, u scheme.Units) []byte {
	var b bytes.Buffer
	t := cut.Marks(u)
	if name := cut.Plan.Scheme.Name; name != "" {
		fmt.Fprintln(&b, name)
	}
	step := "0.5 mm"
	if u == scheme.Inches {
		step = "1/32 in"
	}
	unit := u.Symbol()
	if u == scheme.Inches {
		unit = "inches"
	}
	fmt.Fprintf(&b, "Places in %s, each rounded by itself to %s.\n\n", unit, step)
	rows := [][]string{{"mark", "set", "fold", "sewn to", "from hem", "from raw end", "tuck from", "tuck to", ""}}
	for _, r := range t.Rows {
		rows = append(rows, markRow(t, r))
	}
	wide := 0 // the last column stands to the left
	for _, r := range rows {
		wide = max(wide, len(r[8]))
	}
	for _, r := range rows {
		r[8] += strings.Repeat(" ", wide-len(r[8]))
	}
	table(&b, rows)
	fmt.Fprintln(&b)
	for _, line := range []string{
		"Measure every mark from the same end, never from mark to mark.",
		"Mark with a pen or chalk that washes out, tried on a swatch first, washed and ironed: heat sets some of them for ever.",
	} {
		io.WriteString(&b, wrapped(line, 80, ""))
	}
	return b.Bytes()
}

// markRow is one line of the table.
func markRow(t pattern.Table, r pattern.Row) []string {
	var also []string
	if r.Quarter {
		also = append(also, "quarter: pin here")
	}
	if r.Join {
		also = append(also, "join")
	}
	row := []string{"", "", "", "", t.Text(r.Place), t.Text(r.Raw), "", "", strings.Join(also, ", ")}
	if r.Mark < 0 {
		return row
	}
	row[0], row[1] = strconv.Itoa(r.Mark+1), strconv.Itoa(r.Set)
	row[2] = map[scheme.Fold]string{scheme.Crest: "top", scheme.Trough: "bottom"}[r.Fold]
	row[3] = string(r.Edge)
	if r.Edge == scheme.EdgeNone {
		row[3] = "-"
	}
	if r.Tucked {
		row[6], row[7] = t.Text(r.TuckA), t.Text(r.TuckB)
	}
	return row
}
