// Package reference reads this folder's tables: numbers made outside this project's
// code. Each file's head tells how, and how accurate they are. It is for tests.
package reference

import (
	"embed"
	"encoding/csv"
	"strconv"
	"testing"
)

//go:embed *.csv
var tables embed.FS

// Rows are the rows of a table, each a map from the column's name to its text.
func Rows(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := tables.Open(name)
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

// Number reads a column of a row.
func Number(t testing.TB, row map[string]string, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(row[column], 64)
	if err != nil {
		t.Fatalf("column %s: %v", column, err)
	}
	return x
}

// Numbers are the rows of a table with those columns that hold numbers.
func Numbers(t testing.TB, name string) []map[string]float64 {
	t.Helper()
	var rows []map[string]float64
	for _, texts := range Rows(t, name) {
		row := make(map[string]float64, len(texts))
		for column, text := range texts {
			if x, err := strconv.ParseFloat(text, 64); err == nil {
				row[column] = x
			}
		}
		rows = append(rows, row)
	}
	return rows
}
