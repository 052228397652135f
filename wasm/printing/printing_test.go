//go:build !js

package printing

import (
	"bytes"
	"context"
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"ruffwright/geom/scheme"
	"ruffwright/sim/paper"
	"ruffwright/testdata/demos"
	"ruffwright/wasm/wire"
)

var day = time.Date(2026, 5, 4, 23, 59, 0, 0, time.FixedZone("far west", -11*3600))

var demo = demos.Scheme

// TestPrint: the files of a cuff are those that the package paper makes of it, with
// the reader's own day on them.
func TestPrint(t *testing.T) {
	s := demo(t, "cuff")
	got, err := Maker{func() time.Time { return day }}.Print(t.Context(), s, wire.Printing{Paper: "Letter", Units: "in", Wide_mm: 99}, func(wire.Progress) {})
	if err != nil {
		t.Fatal(err)
	}
	in, err := paper.Prepare(t.Context(), s, paper.Preparing{Units: scheme.Inches})
	if err != nil {
		t.Fatal(err)
	}
	in.Paper, in.Printer, in.Date = paper.Letter, paper.Printer{Wide_mm: 99}, time.Date(2026, 5, 4, 0, 0, 0, 0, time.UTC)
	var want bytes.Buffer
	if err := paper.Sheets(in, &want); err != nil {
		t.Fatal(err)
	}
	pages, err := paper.Pages(in)
	if err != nil {
		t.Fatal(err)
	}
	if got.Sheets != len(pages) || got.Stops != in.Stops() || got.Unsolved {
		t.Errorf("%d sheets, %d stops, unsolved %t; want %d, %d, false", got.Sheets, got.Stops, got.Unsolved, len(pages), in.Stops())
	}
	var kinds []string
	got.Each(func(f wire.File, from int) {
		kinds = append(kinds, string(f.Kind)+" "+f.Name)
		if f.Kind == wire.SheetsFile && !bytes.Equal(got.Body[from:from+f.Bytes], want.Bytes()) {
			t.Errorf("the PDF has %d bytes, paper's own %d, or they differ", f.Bytes, want.Len())
		}
	})
	if stem := scheme.FileName(s.Name, "cuff"); strings.Join(kinds, ", ") != "sheets "+stem+".pdf, marks "+stem+"-marks.csv, pieces "+stem+"-pieces.zip" {
		t.Errorf("files %v", kinds)
	}
	if _, _, err := (wire.Reply{ID: 1, Last: true, Printed: got}).Encode(); err != nil {
		t.Error(err)
	}
}

// TestUnsolved: sets without mechanics are printed in closed form, and say so.
func TestUnsolved(t *testing.T) {
	s := scheme.Default()
	s.Pleat.Panel = 30 // the tucks leave too little
	got, err := Maker{func() time.Time { return day }}.Print(t.Context(), s, wire.Printing{Paper: "A4", Units: "cm"}, func(wire.Progress) {})
	if err != nil || !got.Unsolved || got.Stops == 0 || got.Files[0].Name != "ruff.pdf" {
		t.Errorf("%v, %+v", err, got)
	}
}

// TestRefused: what cannot be printed is refused before anything is solved.
func TestRefused(t *testing.T) {
	bad := scheme.Default()
	bad.Ruff.Sets = 3
	for name, c := range map[string]struct {
		s   scheme.Scheme
		how wire.Printing
	}{
		"ruff.sets":     {bad, wire.Printing{Paper: "A4", Units: "mm"}},
		"units":         {scheme.Default(), wire.Printing{Paper: "A4", Units: "ell"}},
		"paper":         {scheme.Default(), wire.Printing{Paper: "A0", Units: "mm"}},
		"printer.wide":  {scheme.Default(), wire.Printing{Paper: "A4", Units: "mm", Wide_mm: 94.9}},
		"printer.high":  {scheme.Default(), wire.Printing{Paper: "A4", Units: "mm", High_mm: 106}},
		"printer.wide ": {scheme.Default(), wire.Printing{Paper: "A4", Units: "mm", Wide_mm: math.NaN()}},
	} {
		_, err := Maker{func() time.Time { return day }}.Print(t.Context(), c.s, c.how, func(wire.Progress) { t.Error("it begins to work") })
		if err == nil || !strings.Contains(err.Error(), strings.TrimSpace(name)) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestCancel: it ends with its context, while it solves and while it draws.
func TestCancel(t *testing.T) {
	for _, phase := range []string{Starch, Sheets} {
		ctx, cancel := context.WithCancel(t.Context())
		_, err := Maker{func() time.Time { return day }}.Print(ctx, demo(t, "cuff"), wire.Printing{Paper: "A4", Units: "mm"}, func(p wire.Progress) {
			if p.Phase == phase {
				cancel()
			}
		})
		cancel()
		if !errors.Is(err, context.Canceled) {
			t.Errorf("cancelled at %s: %v", phase, err)
		}
	}
}
