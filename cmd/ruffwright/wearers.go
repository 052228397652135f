package main

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"ruffwright/geom/scheme"
)

// What a list of wearers may be.
const (
	maxWearersBytes = 4 << 20
	maxWearers      = 2000
)

// wearer is one row of the list: what it is to be made by, or what is wrong.
type wearer struct {
	line   int // of the file, 1 the first
	scheme scheme.Scheme
	wrong  []string // one complaint each, that begins with the field where it has one
}

// wearers is a list as read.
type wearers struct {
	file string
	rows []wearer
}

// readWearers reads a list of wearers: the first line names a field of the scheme in
// each column, every other line is a wearer and changes these fields of base; an
// empty cell leaves the field. Commas or semicolons part the cells, by what parts
// the first line. A row that cannot be used is kept with what is wrong; an error is
// a file that cannot be read as a whole.
func readWearers(j job, name string, base scheme.Scheme) (wearers, error) {
	list := wearers{file: name}
	if name == "-" {
		list.file = "standard input"
	}
	text, err := wholeFile(j, name)
	if err != nil {
		return list, err
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	head, _, _ := bytes.Cut(text, []byte("\n"))
	r := csv.NewReader(bytes.NewReader(text))
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = true
	if bytes.Count(head, []byte(";")) > bytes.Count(head, []byte(",")) {
		r.Comma = ';'
	}
	columns, err := r.Read()
	if errors.Is(err, io.EOF) {
		return list, fmt.Errorf("%s: the list is empty; its first line names the columns, among them name and wearer.girth", list.file)
	}
	if err != nil {
		return list, unreadable(list.file, err)
	}
	if err := list.head(columns); err != nil {
		return list, err
	}
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return list, unreadable(list.file, err)
		}
		line, _ := r.FieldPos(0)
		if !slices.ContainsFunc(cells, func(c string) bool { return strings.TrimSpace(c) != "" }) {
			continue // a line of commas, as spreadsheets leave them
		}
		if len(list.rows) == maxWearers {
			return list, fmt.Errorf("%s: line %d: a list has at most %d wearers", list.file, line, maxWearers)
		}
		list.rows = append(list.rows, row(base, columns, cells, line))
	}
	if len(list.rows) == 0 {
		return list, fmt.Errorf("%s: no wearers stand below the names of the columns", list.file)
	}
	return list, nil
}

// wholeFile reads the file, or standard input for -, unless it is too large.
func wholeFile(j job, name string) ([]byte, error) {
	from := j.input()
	if name != "-" {
		file, err := os.Open(name)
		if err != nil {
			return nil, err
		}
		defer file.Close()
		if about, err := file.Stat(); err == nil && about.IsDir() {
			return nil, fmt.Errorf("%s is a folder, not a list of wearers", name)
		}
		from = bufio.NewReader(file)
	}
	text, err := io.ReadAll(io.LimitReader(from, maxWearersBytes+1))
	if err != nil {
		return nil, within(name, err)
	}
	if len(text) > maxWearersBytes {
		return nil, fmt.Errorf("%s: a list has at most %d bytes, this has more", name, maxWearersBytes)
	}
	return text, nil
}

// unreadable says where a file stops being a list.
func unreadable(name string, err error) error {
	var where *csv.ParseError
	if errors.As(err, &where) {
		return fmt.Errorf("%s: line %d, column %d: %w", name, where.Line, where.Column, where.Err)
	}
	return within(name, err)
}

// head refuses columns that are no fields, stand twice, or leave the wearers
// without names.
func (list *wearers) head(columns []string) error {
	seen := map[string]bool{}
	var wrong []error
	say := func(format string, args ...any) {
		wrong = append(wrong, fmt.Errorf("%s: line 1, %s", list.file, fmt.Sprintf(format, args...)))
	}
	for i := range columns {
		columns[i] = strings.TrimSpace(columns[i])
		key := columns[i]
		_, known := scheme.Lookup(key)
		switch {
		case key == "": // may be empty below as well
		case !known:
			say("column %s: no field of the scheme is called so; ruffwright schema lists them", shortened(key))
		case seen[key]:
			say("column %q: it stands twice", key)
		}
		seen[key] = true
	}
	if !seen["name"] {
		say("there is no column called name")
	}
	return errors.Join(wrong...)
}

// row makes the scheme of one wearer.
func row(base scheme.Scheme, columns, cells []string, line int) wearer {
	w := wearer{line: line, scheme: base}
	if len(cells) > len(columns) {
		w.wrong = append(w.wrong, fmt.Sprintf("it has %d cells for %s; a cell with a comma in it is written in \"\"", len(cells), counted(len(columns), "column", "columns")))
		return w
	}
	if len(cells) < len(columns) {
		w.wrong = append(w.wrong, fmt.Sprintf("it has %s for %d columns", counted(len(cells), "cell", "cells"), len(columns)))
		return w
	}
	w.scheme.Name = ""
	for i, cell := range cells {
		cell = strings.TrimSpace(cell)
		if cell == "" {
			if columns[i] == "wearer.girth" { // the base's is somebody else's neck
				w.wrong = append(w.wrong, fmt.Sprintf("wearer.girth: cell %d is empty; every wearer needs a girth of their own", i+1))
			}
			continue
		}
		if columns[i] == "" {
			w.wrong = append(w.wrong, fmt.Sprintf("cell %d stands below no name of a column", i+1))
			continue
		}
		if err := w.scheme.Set(columns[i], cell); err != nil {
			w.wrong = append(w.wrong, lines(err)...)
		}
	}
	if w.scheme.Name == "" && len(w.wrong) == 0 {
		w.wrong = append(w.wrong, "name: it is empty; every wearer needs one")
	}
	if len(w.wrong) == 0 {
		if err := w.scheme.Validate(); err != nil {
			w.wrong = lines(err)
		}
	}
	return w
}

// lines are an error's lines.
func lines(err error) []string { return strings.Split(strings.TrimSpace(err.Error()), "\n") }
