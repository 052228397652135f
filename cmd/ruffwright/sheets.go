package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"ruffwright/cmd/disk"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/paper"
	"ruffwright/sim/paper/sheet"
)

func sheetsVerb() verb {
	var p sheeting
	return verb{
		name: "sheets", args: "[SCHEME]", most: 1,
		does: "prints all that the work table needs, as one PDF in true size",
		help: `
Makes the sheets of a scheme as one PDF: a square to measure first, the record
with pictures, figures and findings, what to buy and how to cut, the order of
work, every mark as a table and as a tape in true size, the band's pattern, the
cards for swatches, for starching and setting, for a trial, and for wearing.

The ruff is solved first, and how stiff its starch must be; where it cannot be
solved the sheets are drawn in closed form and say so, as with --drawn.

Print at 100 % (actual size), measure the square of the first sheet, and if your
printer is off by 1 to 5 %, print again with what you read: --printer-wide 98.7
--printer-high 101.

A file is written whole or not at all. One that is there already is left as it is,
unless --over is given.`,
		flags: func(f *flag.FlagSet) {
			p.from.flags(f)
			p.flags(f)
			f.StringVar(&p.out, "out", "", "`file` to write, .pdf; - writes to standard output")
			f.BoolVar(&p.over, "over", false, overHelp)
			f.StringVar(&p.pieces, "pieces", "", "`folder` for every piece as an SVG in true size, for a plotter or a cutting machine")
			f.Float64Var(&p.printer.Wide_mm, "printer-wide", 0, "width of the first sheet's square as printed, in `mm`, 95 to 105")
			f.Float64Var(&p.printer.High_mm, "printer-high", 0, "its height as printed, in `mm`, 95 to 105")
		},
		run: p.run,
	}
}

// sheeting is what the flags of sheets ask for.
type sheeting struct {
	printing
	from        source
	out, pieces string
	over        bool
}

// run makes the sheets and the pieces, all of them before the first is written.
func (p *sheeting) run(j job, args []string) error {
	if err := p.mayRun(); err != nil { // before the work, not after it
		return err
	}
	s, err := p.from.scheme(j, args)
	if err != nil {
		return err
	}
	made, err := p.make(j, s)
	if err != nil {
		return err
	}
	var pdf []byte
	if p.out != "" {
		if pdf, err = p.pdf(j, made); err != nil {
			return err
		}
	}
	var cut []paper.Piece
	if p.pieces != "" {
		if cut, err = paper.Pieces(made); err != nil {
			return err
		}
	}
	if err := j.ctx.Err(); err != nil {
		return err
	}
	warn(j, made)
	if err := writePieces(p.pieces, cut, p.over); err != nil {
		return err
	}
	switch p.out {
	case "":
		return nil
	case "-":
		_, err = j.out.Write(pdf)
		return err
	}
	return disk.Write(p.out, pdf)
}

// mayRun gives an error where the flags name nothing to make, or a place where it
// cannot be written.
func (p *sheeting) mayRun() error {
	if p.out == "" && p.pieces == "" {
		return usageError{"sheets", "sheets needs --out FILE.pdf, --out - for standard output, or --pieces FOLDER"}
	}
	file := p.out != "" && p.out != "-"
	if file && !strings.EqualFold(filepath.Ext(p.out), ".pdf") {
		return fmt.Errorf("--out %q: expected a name that ends in .pdf", p.out)
	}
	if err := p.printer.Validate(); err != nil || !file {
		return err
	}
	if folder, err := os.Stat(filepath.Dir(p.out)); err != nil {
		return err
	} else if !folder.IsDir() {
		return fmt.Errorf("--out %q: %s is no folder", p.out, filepath.Dir(p.out))
	}
	return mayWrite("--out", p.out, p.over)
}

// warn says what whoever prints the sheets must know of them.
func warn(j job, made paper.Input) {
	if !made.Unsolved.Empty() {
		fmt.Fprintln(j.err, "ruffwright: the cloth cannot be solved; the sheets are drawn in closed form")
	}
	if why := unprinted(made.Ruff.Plan.Scheme.Name); why != "" {
		fmt.Fprintln(j.err, "ruffwright: "+why)
	}
	if n := made.Stops(); n > 0 {
		fmt.Fprintf(j.err, "ruffwright: %s: do not sew this; the record sheet says what to change\n", counted(n, "finding stops", "findings stop"))
	}
}

// unprinted says which letters of a name are not printed; "" where all are.
func unprinted(name string) string {
	letters := sheet.Unprinted(name)
	if letters == "" {
		return ""
	}
	return "name: the sheets' fonts lack " + letters + ", which are printed as ?; write the name on the sheets by hand, or give one in Latin, Greek or Cyrillic letters"
}

// counted is a number and its word.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// overHelp is what --over does in every verb that writes files of given names.
const overHelp = "write over a file that is there already"

// mayWrite gives an error where the file that the flag names is there already and
// was not given up.
func mayWrite(flag, name string, over bool) error {
	if over {
		return nil
	}
	return within(flag, disk.Taken(name))
}

// writePieces writes each piece into the folder, which is made if need be. Where one
// of the files is there already and may not be written over, none is written.
func writePieces(folder string, cut []paper.Piece, over bool) error {
	if folder == "" {
		return nil
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	names := folders{}
	files := make([]string, len(cut))
	for i, c := range cut {
		files[i] = filepath.Join(folder, names.name(c.Name, "piece")+".svg")
		if err := mayWrite("--pieces", files[i], over); err != nil {
			return err
		}
	}
	for i, c := range cut {
		if err := disk.Write(files[i], c.SVG); err != nil {
			return err
		}
	}
	return nil
}

// printing is how the sheets of a scheme are made.
type printing struct {
	how     solving
	drawn   bool
	paper   paperFlag
	units   unitsFlag
	date    dateFlag
	address string
	printer paper.Printer
}

func (p *printing) flags(f *flag.FlagSet) {
	p.how.flags(f)
	f.BoolVar(&p.drawn, "drawn", false, "leave the cloth unsolved: the sheets at once, in closed form")
	f.Var(&p.paper, "paper", "`paper`: a4 or letter")
	f.Var(&p.units, "units", "`unit` of the lengths: mm, cm or in")
	f.Var(&p.date, "date", "`day` to print on the sheets, as 2026-05-04; today if not given")
	f.StringVar(&p.address, "address", "", "`address` of your page with the # at its end, put before the scheme's code in the QR square")
}

// make solves the scheme, unless it is to be drawn alone, finds what will be seen
// and what starch it needs, and lays out its pattern.
func (p *printing) make(j job, s scheme.Scheme) (paper.Input, error) {
	line := newProgress(j, p.how.tell)
	defer line.done()
	in, err := paper.Prepare(j.ctx, s, paper.Preparing{
		Units: p.units.Units,
		Drawn: p.drawn,
		Solve: sim.Options{Grid: p.how.grid.grid(), Progress: func(at sim.Progress) {
			line.tell("half set %d of %d, %s, step %d", at.Cell+1, at.Cells, at.Phase, at.Iterations)
		}},
		Starch: func(bend_mm float64) { line.tell("starch: a bending length of %.0f mm", bend_mm) },
	})
	if err != nil {
		return paper.Input{}, err
	}
	in.Paper, in.Date, in.Printer, in.Address = p.paper.Paper, p.date.day(), p.printer, p.address
	return in, nil
}

// pdf writes the sheets, and ends with the job.
func (p *printing) pdf(j job, in paper.Input) ([]byte, error) {
	line := newProgress(j, p.how.tell)
	defer line.done()
	in.Progress = func(sheet, of int) error {
		line.tell("sheet %d of %d", sheet, of)
		return j.ctx.Err()
	}
	var b bytes.Buffer
	err := paper.Sheets(in, &b)
	return b.Bytes(), err
}

// paperFlag is what the printer is fed with.
type paperFlag struct{ paper.Paper }

func (p *paperFlag) Set(text string) error {
	chosen, err := paper.ParsePaper(text)
	if err != nil {
		return errors.New("allowed: a4, letter")
	}
	p.Paper = chosen
	return nil
}

// dateFlag is a day; today where none is given.
type dateFlag struct{ given time.Time }

const dayForm = "2006-01-02"

func (d *dateFlag) String() string {
	if d == nil || d.given.IsZero() {
		return ""
	}
	return d.given.Format(dayForm)
}

func (d *dateFlag) Set(text string) error {
	day, err := time.Parse(dayForm, text)
	if err != nil || day.Year() < 1900 {
		return errors.New("allowed: a day from 1900 on, as 2026-05-04")
	}
	d.given = day
	return nil
}

func (d *dateFlag) day() time.Time {
	if d.given.IsZero() {
		now := time.Now()
		return time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
	}
	return d.given
}
