package paper

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/paper/sheet"
)

// day is the date of every sheet in these tests.
var day = time.Date(2026, time.May, 4, 0, 0, 0, 0, time.UTC)

// cases are the schemes that every test of whole sheets runs over: a cuff, a 40-set
// ruff and one of 200 sets, in the three units.
func cases() []struct {
	name string
	set  []string // key, value
	u    scheme.Units
} {
	return []struct {
		name string
		set  []string
		u    scheme.Units
	}{
		{"forty", []string{"name", "The Cooper's ruff"}, scheme.Centimetres},
		{"cuff", []string{"name", "The Harbour-master's cuff", "wearer.part", "wrist", "wearer.girth", "180", "ruff.sets", "36", "ruff.depth", "35", "ruff.height", "24",
			"pleat.tuck_top", "5.5", "pleat.tuck_bottom", "5.5", "band.height", "18", "band.overlap", "12", "band.seam", "8", "starch.bend", "45"}, scheme.Millimetres},
		{"two-hundred", []string{"name", "The Chandler's great ruff", "ruff.sets", "200", "ruff.depth", "110", "ruff.height", "38", "pleat.tuck_top", "2", "pleat.tuck_bottom", "2",
			"band.height", "34", "starch.bend", "70"}, scheme.Inches},
	}
}

func input(t testing.TB, set []string, u scheme.Units) Input {
	t.Helper()
	s := scheme.Default()
	for i := 0; i < len(set); i += 2 {
		if err := s.Set(set[i], set[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	r, err := sim.Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	p, err := pattern.New(r.Plan)
	if err != nil {
		t.Fatal(err)
	}
	return Input{Ruff: r, Findings: check.Find(r, u), Pattern: p, Units: u, Date: day}
}

func pdfOf(t testing.TB, in Input) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Sheets(in, &b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestWriteSheets writes the sheets of every case for both papers into the folder
// that RUFFWRIGHT_SHEETS names, to be looked at.
func TestWriteSheets(t *testing.T) {
	dir := os.Getenv("RUFFWRIGHT_SHEETS")
	if dir == "" {
		t.Skip("RUFFWRIGHT_SHEETS names no folder")
	}
	for _, c := range cases() {
		for _, paper := range []Paper{A4, Letter} {
			in := input(t, c.set, c.u)
			in.Paper = paper
			if paper == Letter {
				in.Need = &sim.Needed{Bend_mm: 62, Droop_mm: 1.2, Bow_mm: 1.8}
				in.Printer = Printer{Wide_mm: 98.5, High_mm: 101}
			}
			if err := os.WriteFile(filepath.Join(dir, c.name+"-"+paper.String()+".pdf"), pdfOf(t, in), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// outside tells how far a box reaches out of the live area.
func outside(x0, y0, x1, y1 float64) float64 {
	return math.Max(math.Max(-x0, -y0), math.Max(x1-sheet.Live_mm, y1-sheet.LiveHigh_mm))
}
