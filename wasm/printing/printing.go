// Package printing is the logic of the page's printing program: it makes the same
// sheets as the command, the marks as a table, and the pieces to cut. It knows no
// browser and no clock, so that all of it runs under plain go test.
package printing

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"context"
	"io"
	"time"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/paper"
	"ruffwright/wasm/wire"
)

// The phases that are told, beside those of a solve.
const (
	Starch = "starch" // which stiffness is needed
	Sheets = "sheets" // Cell of Cells is the sheet being written
	Pieces = "pieces"
)

// Maker makes the files of a scheme.
type Maker struct {
	Today func() time.Time // the day to print on the sheets
}

// Print makes the PDF of all sheets, the marks as CSV and the pieces as SVG in a
// ZIP; it is a solving.Printer. The cloth is solved on the fine grid, as by the
// command. Its errors are of the scheme, of how it is to be printed, or ctx's.
func (m Maker) Print(ctx context.Context, s scheme.Scheme, how wire.Printing, tell func(wire.Progress)) (*wire.Printed, error) {
	units, err := scheme.ParseUnits(how.Units)
	if err != nil {
		return nil, err
	}
	sheet, err := paper.ParsePaper(how.Paper)
	if err != nil {
		return nil, err
	}
	printer := paper.Printer{Wide_mm: how.Wide_mm, High_mm: how.High_mm}
	if err := printer.Validate(); err != nil {
		return nil, err // before all the work
	}
	tried := 0
	in, err := paper.Prepare(ctx, s, paper.Preparing{
		Units: units,
		Solve: sim.Options{Progress: func(p sim.Progress) {
			tell(wire.Progress{Phase: p.Phase, Cell: p.Cell, Cells: p.Cells, Factorisation: p.Iterations})
		}},
		Starch: func(float64) {
			tried++
			tell(wire.Progress{Phase: Starch, Factorisation: tried})
		},
	})
	if err != nil {
		return nil, err
	}
	now := m.Today()
	in.Date = time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
	in.Paper, in.Printer, in.Address, in.Language = sheet, printer, how.Address, word.Tagged(how.Language)
	out := &wire.Printed{Unsolved: !in.Unsolved.Empty(), Stops: in.Stops()}
	in.Progress = func(n, of int) error {
		out.Sheets = of
		tell(wire.Progress{Phase: Sheets, Cell: n - 1, Cells: of})
		return ctx.Err()
	}
	stem := scheme.FileName(s.Name, thing(s))
	var body bytes.Buffer
	for _, f := range []struct {
		kind        wire.Kind
		ending, typ string
		write       func(io.Writer) error
	}{
		{wire.SheetsFile, ".pdf", "application/pdf", func(w io.Writer) error { return paper.Sheets(in, w) }},
		{wire.MarksFile, "-marks.csv", "text/csv", func(w io.Writer) error { return in.Pattern.AsCSV(w, units) }},
		{wire.PiecesFile, "-pieces.zip", "application/zip", func(w io.Writer) error {
			tell(wire.Progress{Phase: Pieces})
			return pieces(in, w)
		}},
	} {
		before := body.Len()
		if err := f.write(&body); err != nil {
			return nil, err
		}
		out.Files = append(out.Files, wire.File{Kind: f.kind, Name: stem + f.ending, Type: f.typ, Bytes: body.Len() - before})
	}
	out.Body = body.Bytes()
	return out, nil
}

func thing(s scheme.Scheme) string {
	if s.Wearer.Part == scheme.Wrist {
		return "cuff"
	}
	return "ruff"
}

// pieces writes every piece's SVG into a ZIP. The same input gives the same bytes.
func pieces(in paper.Input, w io.Writer) error {
	all, err := paper.Pieces(in)
	if err != nil {
		return err
	}
	z := zip.NewWriter(w)
	z.RegisterCompressor(zip.Deflate, func(to io.Writer) (io.WriteCloser, error) {
		return flate.NewWriter(to, flate.BestCompression)
	})
	for _, p := range all {
		file, err := z.CreateHeader(&zip.FileHeader{Name: scheme.FileName(p.Name, "piece") + ".svg", Method: zip.Deflate, Modified: in.Date})
		if err != nil {
			return err
		}
		if _, err := file.Write(p.SVG); err != nil {
			return err
		}
	}
	return z.Close()
}
