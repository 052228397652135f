package curve

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// reference reads a table of numbers made outside this project's code
// (testdata/reference; each file's head tells how and how accurate). It
// returns a row as a map from the column's name to its text.
func reference(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(lines) < 2 {
		t.Fatalf("%s: no rows", name)
	}
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := make(map[string]string, len(line))
		for i, text := range line {
			row[lines[0][i]] = text
		}
		rows = append(rows, row)
	}
	return rows
}

// number reads a column of a reference row.
func number(t testing.TB, row map[string]string, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(row[column], 64)
	if err != nil {
		t.Fatalf("column %s: %v", column, err)
	}
	return x
}
