// Package paper makes the printed sheets of a ruff: what a maker takes from the
// screen to the table. They come as one PDF in true mm that fits A4 and US Letter,
// and as SVG pieces for a plotter.
//
// Everything on them comes from the scheme, the ruff, its findings and its
// pattern; only Prepare solves anything. The output depends on the input alone: the date
// is an argument, and the same input gives the same bytes.
package paper

import (
	"io"
	"time"

	"ruffwright/geom/draw"
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/paper/sheet"
)

// Paper is what the printer is fed with.
type Paper int

// The papers. The live area fits both.
const (
	A4     Paper = iota // 210 × 297 mm (ISO 216)
	Letter              // 8 1/2 × 11 in = 215.9 × 279.4 mm
)

// Size is the paper's width and height in mm.
func (p Paper) Size() (wide_mm, high_mm float64) {
	if p == Letter {
		return 8.5 * 25.4, 11 * 25.4
	}
	return 210, 297
}

// String is the paper's name: "A4" or "Letter".
func (p Paper) String() string {
	if p == Letter {
		return "Letter"
	}
	return "A4"
}

// ParsePaper reads a paper's name, upper or lower case.
func ParsePaper(text string) (Paper, error) {
	switch text {
	case "A4", "a4":
		return A4, nil
	case "Letter", "letter", "LETTER":
		return Letter, nil
	}
	return A4, bad("paper", word.Name(text), word.Say("A4 or Letter"), word.Say("is no paper that the sheets are laid out for"))
}

// Printer is what a printer makes of the 100 mm square of the first sheet, in mm:
// how wide and how high it comes out. The sheets are drawn larger or smaller by as
// much, each way by itself, so that they come out true. 0 means 100. What reads
// 95 to 105 mm can be mended so; beyond that something else is wrong.
type Printer struct {
	Wide_mm, High_mm float64
}

// The readings of the 100 mm square that can be mended.
const (
	readingLeast_mm = 95
	readingMost_mm  = 105
)

// Validate refuses a reading that cannot be mended, by a scheme.Error.
func (p Printer) Validate() error {
	_, _, err := p.factors()
	return err
}

// factors is what x and y are multiplied by.
func (p Printer) factors() (fx, fy float64, err error) {
	one := func(field string, reading float64) (float64, error) {
		if reading == 0 {
			return 1, nil
		}
		if !(reading >= readingLeast_mm && reading <= readingMost_mm) { // NaN fails too
			return 0, scheme.Error{
				Field: field, Value: word.Say("%g mm", reading),
				Allowed: word.Say("%d to %d mm, or 0 for a printer that is right", readingLeast_mm, readingMost_mm),
				Why:     word.Say("is too far off for a printer's stretch: most likely 'fit to page' or another scaling is set in the print dialogue, or the paper is another size. Print at 100 % (actual size) and measure the square again"),
			}
		}
		return 100 / reading, nil
	}
	if fx, err = one("printer.wide", p.Wide_mm); err != nil {
		return 0, 0, err
	}
	fy, err = one("printer.high", p.High_mm)
	return fx, fy, err
}

// checkNeed refuses lengths that no swatch has.
func checkNeed(n *sim.Needed) error {
	if n == nil || !n.Reason.Empty() {
		return nil
	}
	if n.Bend_mm != 0 && !(n.Bend_mm >= 5 && n.Bend_mm <= 250) { // NaN fails too
		return bad("need.bend", word.Say("%g mm", n.Bend_mm), word.Say("5 to 250 mm, or 0 (no starch needed)"), word.Say("is no bending length of a starched cloth"))
	}
	if n.Overhang_mm != 0 && !(n.Overhang_mm >= 10 && n.Overhang_mm <= 500) {
		return bad("need.overhang", word.Say("%g mm", n.Overhang_mm), word.Say("10 to 500 mm, or 0 (computed)"), word.Say("is no overhang of a swatch"))
	}
	return nil
}

// Input is all that the sheets are made from.
type Input struct {
	Ruff     sim.Ruff
	Findings []check.Finding // of the same ruff, in the same units
	Pattern  pattern.Pattern // of the same plan
	Units    scheme.Units
	Language word.Language // of the sheets; zero: English
	Paper    Paper
	Date     time.Time   // printed, and the PDF's date; its day in its own zone
	Need     *sim.Needed // the starch target; nil: not solved yet
	Unsolved word.Text   // why Ruff cannot be solved, a sentence for the record sheet; empty: it is, or nobody tried
	Printer  Printer
	// Progress is called before each sheet is written, from 1; what it gives back,
	// unless nil, ends the work. nil: nobody asks.
	Progress func(sheet, of int) error
	Address  string // of the page, put before the share code in the QR square: "https://…/#"; empty: the code alone
}

// bad is the error of a field of the input.
func bad(field string, value, allowed, why word.Text) error {
	return scheme.Error{Field: field, Value: value, Allowed: allowed, Why: why}
}

// check refuses an input that does not hold together.
func (in Input) check() error {
	marks := len(in.Ruff.Plan.Row)
	if marks < 2 || len(in.Ruff.Folded.Half) != in.Ruff.Plan.Panels {
		return bad("ruff", word.Count(marks, "%d mark", "%d marks", marks), word.Say("a ruff drawn by sim.Draw or solved"), word.Say("has no strip to print"))
	}
	if n := len(in.Pattern.Plan.Row); n != marks || in.Pattern.Plan.Marked_mm != in.Ruff.Plan.Marked_mm {
		return bad("pattern", word.Count(n, "%d mark", "%d marks", n), word.Count(marks, "%d mark", "%d marks", marks), word.Say("is the pattern of another plan than the ruff's"))
	}
	if in.Units != scheme.Millimetres && in.Units != scheme.Centimetres && in.Units != scheme.Inches {
		return bad("units", word.Say("%d", int(in.Units)), word.Say("mm, cm or in"), word.Say("is no unit of the sheets"))
	}
	if in.Paper != A4 && in.Paper != Letter {
		return bad("paper", word.Say("%d", int(in.Paper)), word.Say("A4 or Letter"), word.Say("is no paper that the sheets are laid out for"))
	}
	if in.Date.IsZero() || in.Date.Year() < 1 || in.Date.Year() > 9999 {
		return bad("date", word.Name(in.Date.String()), word.Say("a day of the years 1 to 9999"), word.Say("is no date to print"))
	}
	if err := checkNeed(in.Need); err != nil {
		return err
	}
	return in.Printer.Validate()
}

// job is an input on its way to paper.
type job struct {
	Input
	s     scheme.Scheme // filled
	table pattern.Table // of marks, in the units
	work  pattern.Work
	code  string // share code; empty when the scheme is too long for one
	// before is how many sheets lie before the one that is being laid out.
	before int
}

func newJob(in Input) (*job, error) {
	if err := in.check(); err != nil {
		return nil, err
	}
	return &job{
		Input: in, s: in.Ruff.Plan.Scheme, table: in.Pattern.Marks(in.Units), work: in.Pattern.Work(),
		code: in.Ruff.Plan.Scheme.Code(),
	}, nil
}

// kinds are the sheets and cards after the first, in the order in which a maker
// needs them.
var kinds = []struct {
	key   string    // Page.Sheet
	words word.Text // what it is, for the map of the sheets
	lay   func(*job) ([]*sheet.Page, error)
}{
	{"record", word.Say("record: pictures, figures, findings"), (*job).record},
	{"cutting", word.Say("cloth: what to buy, how to cut it"), (*job).cutting},
	{"order", word.Say("order of work, with boxes to tick"), (*job).order},
	{"marks", word.Say("table of marks"), (*job).marks},
	{"band", word.Say("band, full size"), (*job).band},
	{"tape", word.Say("marking tape, full size"), (*job).tape},
	{"swatch", word.Say("swatch card, full size"), (*job).swatch},
	{"starch", word.Say("starch and set"), (*job).starch},
	{"wear", word.Say("wear and keep"), (*job).wear},
}

// content is a line of the map of the sheets: what lies on which of them.
type content struct {
	first, last int
	words       word.Text
}

// Pages lays out every sheet: 16 to 32 of them for most schemes, most of those the
// marking tape. The error is a scheme.Error that names the field of the input.
func Pages(in Input) ([]sheet.Page, error) {
	j, err := newJob(in)
	if err != nil {
		return nil, err
	}
	square, err := j.square()
	if err != nil {
		return nil, err
	}
	pages := []*sheet.Page{{Language: j.Language, Sheet: "start", Title: word.Say("Start here"), Holds: word.Say("check the printer, map of the sheets")}}
	contents := []content{{1, 1, word.Say("start here")}}
	for _, k := range kinds {
		j.before = len(pages)
		more, err := k.lay(j)
		if err != nil {
			return nil, err
		}
		for _, p := range more {
			p.Sheet = k.key
		}
		pages = append(pages, more...)
		contents = append(contents, content{j.before + 1, len(pages), k.words})
	}
	j.start(pages[0], contents, square)
	j.frame(square).Set(pages)
	out := make([]sheet.Page, len(pages))
	for i, p := range pages {
		out[i] = *p
	}
	return out, nil
}

// square is the share code as a QR code; nil where there is none.
func (j *job) square() (*sheet.Square, error) {
	if j.code == "" {
		return nil, nil
	}
	square, err := sheet.NewSquare(j.Address + j.code)
	if err != nil {
		return nil, scheme.Error{Field: "address", Value: word.Name(sheet.Fit(j.Address, 1, draw.Upright, 40)), Allowed: word.Say("an address short enough for a QR code"), Why: word.Name(err.Error())}
	}
	return square, nil
}

// months are the names of the months, as a date has them.
var months = [...]word.Text{
	word.Say("January"), word.Say("February"), word.Say("March"), word.Say("April"), word.Say("May"), word.Say("June"),
	word.Say("July"), word.Say("August"), word.Say("September"), word.Say("October"), word.Say("November"), word.Say("December"),
}

// frame is the head and the foot of every sheet. What must not be sewn says so in
// the head in place of its name, which the foot has too: each sheet may be followed
// without the others.
func (j *job) frame(square *sheet.Square) sheet.Frame {
	f := sheet.Frame{
		Name: j.name(), Units: j.Units, Code: j.code, Square: square,
		NoCode: word.Say("too many marks of its own for a share code: keep the scheme's file"),
		About:  word.Say("%d %s %d  ·  lengths in %s  ·  %s", j.Date.Day(), months[j.Date.Month()-1], j.Date.Year(), unitWord(j.Units), j.Paper),
	}
	if fx, fy, _ := j.Printer.factors(); fx != 1 || fy != 1 { // the error was checked before
		f.About = word.Say("%s  ·  for a printer that makes 100 mm %s × %s", f.About, trim(100/fx, 2), trim(100/fy, 2))
	}
	if j.Stops() > 0 {
		words := word.Say("Do not sew this %s", j.thing())
		if j.Pattern.Made > 1 {
			words = word.Say("Do not sew these cuffs")
		}
		f.Stop = []word.Text{word.Say("%s: the record sheet says why", words), words}
	}
	return f
}

// Sheets writes all sheets as one PDF: vectors and embedded fonts in true mm
// (within 0.02 %: TestScale), pictures of cloth at 203 dots an inch, with the hint
// to print without scaling.
func Sheets(in Input, w io.Writer) error {
	pages, err := Pages(in)
	if err != nil {
		return err
	}
	how := sheet.Print{Title: word.Say("%s · sheets", in.Ruff.Plan.Scheme.Name).In(in.Language), Date: in.Date, Progress: in.Progress}
	how.Wide_mm, how.High_mm = in.Paper.Size()
	if how.StretchX, how.StretchY, err = in.Printer.factors(); err != nil {
		return err
	}
	return sheet.WritePDF(w, pages, how)
}

// name is what the ruff is called on the sheets.
func (j *job) name() word.Text {
	if j.s.Name != "" {
		return word.Name(j.s.Name)
	}
	if j.s.Wearer.Part == scheme.Wrist {
		return word.Say("cuffs without a name")
	}
	return word.Say("a ruff without a name")
}

// thing is what is made: "ruff" or "cuff".
func (j *job) thing() word.Text {
	if j.s.Wearer.Part == scheme.Wrist {
		return word.Say("cuff")
	}
	return word.Say("ruff")
}
