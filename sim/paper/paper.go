// Package paper makes the printed sheets of a ruff: what a maker takes from the
// screen to the table. They come as one PDF in true mm that fits A4 and US Letter,
// and as SVG pieces for a plotter.
//
// Everything on them comes from the scheme, the ruff, its findings and its
// pattern; only Prepare solves anything. The output depends on the input alone: the date
// is an argument, and the same input gives the same bytes.
//
// Every sheet is laid out in a live area of 190 × 259 mm, which lies in the middle
// of either paper with at least 10 mm round it.
package paper

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"time"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// The live area in mm: no sheet prints outside it.
const (
	Live_mm     = 190 // width
	LiveHigh_mm = 259 // height
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
	return A4, scheme.Error{Field: "paper", Value: word.Name(text), Allowed: word.Say("A4 or Letter"), Why: word.Say("is no paper that the sheets are laid out for")}
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

// Need is the starch target, as the mechanics found it: plain numbers, or why there
// is none.
type Need struct {
	Reason      string  // why no starch answers it, printed on the card; empty where one was found. The numbers then say nothing
	Bend_mm     float64 // least bending length of the starched swatch along the strip, at the unstarched mass, 5 to 250; 0 = no starch is needed
	Overhang_mm float64 // overhang at 41.5° that shows it; 0 = computed from Bend_mm
	Droop_mm    float64 // droop of the ruff with it; NaN or 0 = not told
	Bow_mm      float64 // movement when the wearer bows with it; NaN or 0 = not told
}

// Input is all that the sheets are made from.
type Input struct {
	Ruff     sim.Ruff
	Findings []check.Finding // of the same ruff, in the same units
	Pattern  pattern.Pattern // of the same plan
	Units    scheme.Units
	Paper    Paper
	Date     time.Time // printed, and the PDF's date; its day in its own zone
	Need     *Need     // nil: not solved yet
	Unsolved string    // why Ruff cannot be solved, a sentence for the record sheet; empty: it is, or nobody tried
	Printer  Printer
	// Progress is called before each sheet is written, from 1; what it gives back,
	// unless nil, ends the work. nil: nobody asks.
	Progress func(sheet, of int) error
	Address  string // of the page, put before the share code in the QR square: "https://…/#"; empty: the code alone
}

// check refuses an input that does not hold together.
func (in Input) check() error {
	bad := func(field, value, allowed, why string) error {
		return scheme.Error{Field: field, Value: word.Name(value), Allowed: word.Say(allowed), Why: word.Say(why)}
	}
	if len(in.Ruff.Plan.Row) < 2 || len(in.Ruff.Folded.Half) != in.Ruff.Plan.Panels {
		return bad("ruff", fmt.Sprintf("%d marks", len(in.Ruff.Plan.Row)), "a ruff drawn by sim.Draw or solved", "has no strip to print")
	}
	if len(in.Pattern.Plan.Row) != len(in.Ruff.Plan.Row) || in.Pattern.Plan.Marked_mm != in.Ruff.Plan.Marked_mm {
		return bad("pattern", fmt.Sprintf("%d marks", len(in.Pattern.Plan.Row)), fmt.Sprintf("%d marks", len(in.Ruff.Plan.Row)), "is the pattern of another plan than the ruff's")
	}
	if in.Units != scheme.Millimetres && in.Units != scheme.Centimetres && in.Units != scheme.Inches {
		return bad("units", fmt.Sprint(int(in.Units)), "mm, cm or in", "is no unit of the sheets")
	}
	if in.Paper != A4 && in.Paper != Letter {
		return bad("paper", fmt.Sprint(int(in.Paper)), "A4 or Letter", "is no paper that the sheets are laid out for")
	}
	if in.Date.IsZero() || in.Date.Year() < 1 || in.Date.Year() > 9999 {
		return bad("date", in.Date.String(), "a day of the years 1 to 9999", "is no date to print")
	}
	if n := in.Need; n != nil && n.Reason == "" {
		if n.Bend_mm != 0 && !(n.Bend_mm >= 5 && n.Bend_mm <= 250) {
			return bad("need.bend", fmt.Sprintf("%g mm", n.Bend_mm), "5 to 250 mm, or 0 (no starch needed)", "is no bending length of a starched cloth")
		}
		if n.Overhang_mm != 0 && !(n.Overhang_mm >= 10 && n.Overhang_mm <= 500) {
			return bad("need.overhang", fmt.Sprintf("%g mm", n.Overhang_mm), "10 to 500 mm, or 0 (computed)", "is no overhang of a swatch")
		}
	}
	_, _, err := in.Printer.factors()
	return err
}

// job is an input on its way to paper.
type job struct {
	Input
	s     scheme.Scheme // filled
	table pattern.Table // of marks, in the units
	work  pattern.Work
	code  string // share code; empty when the scheme is too long for one
	// before is how many sheets lie before the kind that is being laid out.
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

// Pages lays out every sheet, in the order in which a maker needs them: 16 to 32 of
// them for most schemes, most of those the marking tape. The error
// is a scheme.Error that names the field of the input.
func Pages(in Input) ([]Page, error) {
	j, err := newJob(in)
	if err != nil {
		return nil, err
	}
	var pages []*Page
	for _, sheet := range []func(*job) ([]*Page, error){
		(*job).record, (*job).cutting, (*job).order, (*job).marks, (*job).band, (*job).tape,
		(*job).swatch, (*job).starch, (*job).wear,
	} {
		j.before = 1 + len(pages)
		more, err := sheet(j)
		if err != nil {
			return nil, err
		}
		pages = append(pages, more...)
	}
	first := j.start(pages)
	pages = append(first, pages...)
	if err := j.frame(pages); err != nil {
		return nil, err
	}
	out := make([]Page, len(pages))
	for i, p := range pages {
		out[i] = *p
	}
	return out, nil
}

// Sheets writes all sheets as one PDF: vectors and embedded fonts in true mm
// (within 0.02 %: TestScale), pictures of cloth at 203 dots an inch, with the hint
// to print without scaling.
func Sheets(in Input, w io.Writer) error {
	pages, err := Pages(in)
	if err != nil {
		return err
	}
	return writePDF(in, pages, w)
}

// len writes a length as a maker measures it, with its unit: to 0.5 mm; in inches to
// 1/16, as a tape measure shows it, below 1/2 in to 1/32. What must be exact is drawn,
// not written.
func (j *job) len(mm float64) string { return j.bare(mm) + " " + j.Units.Symbol() }

// bare is len without the unit.
func (j *job) bare(mm float64) string {
	if !finite(mm) {
		return "–"
	}
	const halves = 2 // of a mm
	switch j.Units {
	case scheme.Inches:
		n := int(math.Round(math.Abs(mm) / 25.4 * 32))
		if n >= 16 {
			n = 2 * int(math.Round(math.Abs(mm)/25.4*16))
		}
		sign := ""
		if mm < 0 && n > 0 {
			sign = scheme.Minus("-")
		}
		return sign + thirtySeconds(n)
	case scheme.Centimetres:
		return trim(math.Round(mm*halves)/halves/10, 2)
	}
	r := math.Round(mm*halves) / halves
	whole, part := math.Trunc(r), math.Abs(r-math.Trunc(r))
	s := scheme.Minus(strconv.Itoa(int(whole))) // without a mark for thousands, as it may be typed in
	if part > 0 {
		s += ".5"
		if whole == 0 && r < 0 {
			s = scheme.Minus("-" + s)
		}
	}
	return s
}

// thirtySeconds writes n/32 as a mixed fraction in lowest terms: "15 1/2".
func thirtySeconds(n int) string {
	whole, part, of := n/32, n%32, 32
	for part > 0 && part%2 == 0 {
		part, of = part/2, of/2
	}
	switch {
	case part == 0:
		return strconv.Itoa(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", part, of)
	}
	return fmt.Sprintf("%d %d/%d", whole, part, of)
}

// name is what the ruff is called on the sheets.
func (j *job) name() string {
	if j.s.Name != "" {
		return j.s.Name
	}
	if j.s.Wearer.Part == scheme.Wrist {
		return "cuffs without a name"
	}
	return "a ruff without a name"
}

// thing is what is made: "ruff" or "cuff".
func (j *job) thing() string {
	if j.s.Wearer.Part == scheme.Wrist {
		return "cuff"
	}
	return "ruff"
}

func (j *job) date() string { return j.Date.Format("2 January 2006") }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
