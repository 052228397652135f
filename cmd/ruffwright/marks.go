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
	var asJSON bool
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
RFC 4180 has it). --json prints them for a program, in mm: each place exactly, and
as it is to be marked, rounded in the unit of --units.`,
		flags: func(f *flag.FlagSet) {
			from.flags(f)
			f.BoolVar(&asJSON, "json", false, "print the marks as JSON; ruffwright schema describes the keys")
			f.Var(&as, "as", "`form`: table or csv")
			f.Var(&units, "units", "`unit` of the places: mm, cm or in")
		},
		prints: marked{},
		run: func(j job, args []string) error {
			if asJSON && as.name != "table" {
				return usageError{"marks", "--json and --as csv are two forms: choose one"}
			}
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
			if asJSON {
				return printJSON(j.out, markedJSON(cut, units.Units))
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

// marked is what marks --json prints.
type marked struct {
	Name    string       `json:"name" means:"of the scheme; may be empty"`
	Code    string       `json:"code" means:"the scheme's share code; empty where its own marks are too many for one"`
	Step_mm float64      `json:"step_mm" unit:"mm" means:"what places are rounded to: 0.5 mm, or 1/32 in with --units in"`
	Hem_mm  float64      `json:"hem_mm" unit:"mm" means:"from the raw end to the hemmed end, which is the first mark"`
	Marks   []markedLine `json:"marks" means:"the marks along the strip, and the joins that lie on none"`
}

type markedLine struct {
	Mark        int     `json:"mark" means:"1 the first; 0 for a join that lies on no mark"`
	Set         int     `json:"set" means:"the set that the fold belongs to, 1 the first"`
	Fold        string  `json:"fold" means:"crest or trough; empty for a join that lies on no mark"`
	Sewn        string  `json:"sewn" means:"the edge of the band it is sewn to: top, bottom or no; empty for such a join"`
	Exact_mm    float64 `json:"exact_mm" unit:"mm" means:"place from the first mark, not rounded"`
	FromHem_mm  float64 `json:"from_hem_mm" unit:"mm" means:"place from the first mark, rounded by itself"`
	FromRaw_mm  float64 `json:"from_raw_mm" unit:"mm" means:"place from the raw end before hemming, rounded by itself"`
	TuckFrom_mm float64 `json:"tuck_from_mm" unit:"mm" means:"first fold line of its tuck, rounded, from the first mark; 0 like the next where it has no tuck"`
	TuckTo_mm   float64 `json:"tuck_to_mm" unit:"mm" means:"second fold line of its tuck"`
	Quarter     bool    `json:"quarter" means:"pin here"`
	Join        bool    `json:"join" means:"a join's seam line lies here"`
	Piece       int     `json:"piece" means:"the piece of cloth that it lies on, 1 the first"`
}

// markedJSON gathers the marks for a program.
func markedJSON(cut pattern.Pattern, u scheme.Units) marked {
	t := cut.Marks(u)
	m := marked{Name: cut.Plan.Scheme.Name, Code: cut.Plan.Scheme.Code(), Step_mm: t.Step_mm, Hem_mm: t.Hem_mm, Marks: []markedLine{}}
	for _, r := range t.Rows {
		line := markedLine{Mark: r.Mark + 1, Set: r.Set, Fold: string(r.Fold), Sewn: string(r.Edge), Exact_mm: r.Place.Exact_mm,
			FromHem_mm: t.Rounded_mm(r.Place), FromRaw_mm: t.Rounded_mm(r.Raw), Quarter: r.Quarter, Join: r.Join, Piece: r.Piece}
		if r.Tucked {
			line.TuckFrom_mm, line.TuckTo_mm = t.Rounded_mm(r.TuckA), t.Rounded_mm(r.TuckB)
		}
		m.Marks = append(m.Marks, line)
	}
	return m
}
