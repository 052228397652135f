package paper

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// TestBadInput: what does not hold together is refused with the field's name.
func TestBadInput(t *testing.T) {
	good := input(t, nil, scheme.Millimetres)
	other := input(t, []string{"ruff.sets", "44"}, scheme.Millimetres)
	for field, spoil := range map[string]func(*Input){
		"ruff":          func(in *Input) { in.Ruff = sim.Ruff{} },
		"pattern":       func(in *Input) { in.Pattern = other.Pattern },
		"units":         func(in *Input) { in.Units = 9 },
		"paper":         func(in *Input) { in.Paper = 7 },
		"date":          func(in *Input) { in.Date = time.Time{} },
		"need.bend":     func(in *Input) { in.Need = &sim.Needed{Bend_mm: math.NaN()} },
		"need.overhang": func(in *Input) { in.Need = &sim.Needed{Bend_mm: 50, Overhang_mm: -1} },
		"printer.wide":  func(in *Input) { in.Printer.Wide_mm = 94.9 },
		"printer.high":  func(in *Input) { in.Printer.High_mm = 105.1 },
		"address":       func(in *Input) { in.Address = strings.Repeat("x", 4000) },
	} {
		in := good
		spoil(&in)
		var e scheme.Error
		if err := Sheets(in, &bytes.Buffer{}); !errors.As(err, &e) || e.Field != field || e.Allowed.Empty() {
			t.Errorf("%s: %v", field, err)
		}
	}
	if _, err := Pieces(Input{}); err == nil {
		t.Error("pieces of nothing")
	}
	if p, err := ParsePaper("letter"); err != nil || p != Letter {
		t.Errorf("letter: %v, %v", p, err)
	}
	if _, err := ParsePaper("foolscap"); err == nil {
		t.Error("foolscap was taken")
	}
}

// BenchmarkSheets makes all sheets of a ruff of 200 sets.
func BenchmarkSheets(b *testing.B) {
	in := input(b, cases()[2].set, scheme.Inches)
	b.ReportAllocs()
	for b.Loop() {
		var w bytes.Buffer
		if err := Sheets(in, &w); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(w.Len())/1024, "KiB")
	}
}

// BenchmarkPages lays them out without writing.
func BenchmarkPages(b *testing.B) {
	in := input(b, cases()[2].set, scheme.Inches)
	for b.Loop() {
		if _, err := Pages(in); err != nil {
			b.Fatal(err)
		}
	}
}

// TestDates: a sheet bears a day of the years 1 to 9999.
func TestDates(t *testing.T) {
	in := input(t, nil, scheme.Millimetres)
	for year, good := range map[int]bool{-1: false, 0: false, 1: true, 2026: true, 9999: true, 10000: false} {
		in.Date = time.Date(year, time.May, 4, 0, 0, 0, 0, time.UTC)
		if err := in.check(); (err == nil) != good {
			t.Errorf("year %d: %v", year, err)
		}
	}
	in.Date = time.Time{}
	if in.check() == nil {
		t.Error("no day at all is taken")
	}
}
