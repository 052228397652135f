package wire

import (
	"fmt"
	"math"
	"slices"
)

// Printing is how the sheets are to be made.
type Printing struct {
	Paper    string  `json:"paper"`              // as paper.ParsePaper reads it
	Units    string  `json:"units"`              // as scheme.ParseUnits reads it
	Language string  `json:"language,omitempty"` // its tag; "" is English
	Wide_mm  float64 `json:"wide_mm,omitempty"`  // the first sheet's square as it was printed; 0 = 100
	High_mm  float64 `json:"high_mm,omitempty"`
	Address  string  `json:"address,omitempty"` // of the page with a # at its end, for the square to scan; "" = the code alone
}

// mostAddress bytes of an address still leave room for a code in a square.
const mostAddress = 1000

func (p *Printing) validate() error {
	if p.Paper == "" || p.Units == "" {
		return fmt.Errorf("wire: print on paper %q in %q", p.Paper, p.Units)
	}
	if math.IsNaN(p.Wide_mm+p.High_mm) || math.IsInf(p.Wide_mm+p.High_mm, 0) {
		return fmt.Errorf("wire: a square of %g by %g mm", p.Wide_mm, p.High_mm)
	}
	if len(p.Address) > mostAddress {
		return fmt.Errorf("wire: an address of %d bytes; allowed are %d", len(p.Address), mostAddress)
	}
	return nil
}

// Printed is what was made. The files lie one behind the other in the body.
type Printed struct {
	Files    []File `json:"files"`
	Sheets   int    `json:"sheets"`             // of the PDF
	Unsolved bool   `json:"unsolved,omitempty"` // drawn in closed form: these sets have no mechanics
	Stops    int    `json:"stops,omitempty"`    // findings that say: do not sew this
	Body     []byte `json:"-"`
}

// File is one of the files made.
type File struct {
	Kind  Kind   `json:"kind"`
	Name  string `json:"name"` // to save it under: no path, safe on any disk
	Type  string `json:"type"` // as browsers name it
	Bytes int    `json:"bytes"`
}

// Kind of a file.
type Kind string

// The kinds.
const (
	SheetsFile Kind = "sheets" // PDF
	MarksFile  Kind = "marks"  // CSV
	PiecesFile Kind = "pieces" // SVG, in a ZIP
)

func (p *Printed) validate(body []byte) error {
	if len(p.Files) == 0 || p.Sheets < 1 || p.Stops < 0 {
		return fmt.Errorf("wire: %d files, %d sheets, %d stops", len(p.Files), p.Sheets, p.Stops)
	}
	left := len(body)
	var seen []Kind
	for _, f := range p.Files {
		if f.Name == "" || f.Type == "" || f.Bytes < 1 || f.Bytes > left || slices.Contains(seen, f.Kind) {
			return fmt.Errorf("wire: file %q (%s, %s) of %d bytes, %d are left", f.Name, f.Kind, f.Type, f.Bytes, left)
		}
		switch f.Kind {
		case SheetsFile, MarksFile, PiecesFile:
		default:
			return fmt.Errorf("wire: a file of kind %q", f.Kind)
		}
		seen = append(seen, f.Kind)
		left -= f.Bytes
	}
	if left != 0 {
		return fmt.Errorf("wire: %d bytes belong to no file", left)
	}
	return nil
}

// Each calls do with every file and where its bytes lie in the body.
func (p *Printed) Each(do func(f File, from int)) {
	from := 0
	for _, f := range p.Files {
		do(f, from)
		from += f.Bytes
	}
}
