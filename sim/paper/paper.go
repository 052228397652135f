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
	"strings"
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
	A4     Paper = iota // ISO 216
	Letter              // 8 1/2 × 11 in
)

var papers = [...]struct {
	name       string
	wide, high float64
}{{"A4", 210, 297}, {"Letter", 8.5 * 25.4, 11 * 25.4}}

// String is the paper's name: "A4" or "Letter".
func (p Paper) String() string { return papers[p].name }

// ParsePaper reads a paper's name, upper or lower case.
func ParsePaper(text string) (Paper, error) {
	for p, of := range papers {
		if strings.EqualFold(text, of.name) {
			return Paper(p), nil
		}
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

func bad(field string, value, allowed, why word.Text) error {
	return scheme.Error{Field: field, Value: value, Allowed: allowed, Why: why}
}

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

type job struct {
	Input
	s     scheme.Scheme // filled
	table pattern.Table // of marks, in the units
	work  pattern.Work
	code  string // share code; empty when the scheme is too long for one
	// before is how many sheets lie before the one that is being laid out.
	before int
	goal   target // of the starch
	sure   []sim.Sure
}

func newJob(in Input) (*job, error) {
	if err := in.check(); err != nil {
		return nil, err
	}
	j := &job{
		Input: in, s: in.Ruff.Plan.Scheme, table: in.Pattern.Marks(in.Units), work: in.Pattern.Work(),
		code: in.Ruff.Plan.Scheme.Code(), sure: in.Ruff.Sure(),
	}
	var err error
	j.goal, err = j.target()
	return j, err
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
	{"trial", word.Say("trial card, full size"), (*job).trial},
	{"wear", word.Say("wear and keep"), (*job).wear},
}

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
		if len(more) == 0 {
			continue
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

// flow begins a sheet of text with its title and what lies on it.
func (j *job) flow(title, holds word.Text) *sheet.Flow {
	f := sheet.NewFlow(j.Language, title)
	f.Page.Holds = holds
	return f
}

func (j *job) square() (*sheet.Square, error) {
	if j.code == "" {
		return nil, nil
	}
	square, err := sheet.NewSquare(j.Address + j.code)
	if err != nil {
		return nil, scheme.Error{Field: "address", Value: word.Name(draw.Clip(j.Address, 1, draw.Upright, 40)), Allowed: word.Say("an address short enough for a QR code"), Why: word.Name(err.Error())}
	}
	return square, nil
}

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
		About:  word.Say("%d %s %d  ·  lengths in %s  ·  %s", j.Date.Day(), months[j.Date.Month()-1], j.Date.Year(), unitWord[j.Units], j.Paper),
	}
	if fx, fy, _ := j.Printer.factors(); fx != 1 || fy != 1 { // the error was checked before
		f.About = word.Say("%s  ·  for a printer that makes 100 mm %s × %s", f.About, trim(100/fx, 2), trim(100/fy, 2))
	}
	if j.Stops() > 0 {
		words := when(j.Pattern.Made > 1, word.Say("Do not sew these cuffs"), word.Say("Do not sew this %s", j.thing()))
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
	how := sheet.Print{Title: word.Say("%s · sheets", in.Ruff.Plan.Scheme.Name).In(in.Language), Date: in.Date, Progress: in.Progress,
		Wide_mm: papers[in.Paper].wide, High_mm: papers[in.Paper].high}
	if how.StretchX, how.StretchY, err = in.Printer.factors(); err != nil {
		return err
	}
	return sheet.WritePDF(w, pages, how)
}

func (j *job) name() word.Text {
	if j.s.Name != "" {
		return word.Name(j.s.Name)
	}
	return when(j.s.Wearer.Part == scheme.Wrist, word.Say("cuffs without a name"), word.Say("a ruff without a name"))
}

func (j *job) thing() word.Text {
	return when(j.s.Wearer.Part == scheme.Wrist, word.Say("cuff"), word.Say("ruff"))
}
