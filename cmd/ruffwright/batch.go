package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"sync"

	"ruffwright/cmd/disk"
	"ruffwright/geom/pattern"
)

// maxJobs is the most wearers that are made at a time.
const maxJobs = 64

func batchVerb() verb {
	b := batch{jobs: runtime.NumCPU()}
	var base string
	return verb{
		name: "batch", args: "WEARERS.csv", least: 1, most: 1,
		does: "makes the sheets of a whole production's wearers",
		help: `
Makes ruffs and cuffs for a list of wearers: for each a folder with the sheets
(PDF), the scheme, and the marks (CSV), and beside the folders what to buy for all
together (cloth-order.csv) and a table of all (summary.csv, summary.txt).

The list is a table saved as CSV, with commas or semicolons. Its first line names
a field in each column, as ruffwright schema lists them, name among them; each
other line is a wearer. An empty cell leaves the field as --scheme has it, but no
wearer is without a name, or without a girth where the list has such a column:

  name,wearer.girth,ruff.sets
  The Cooper,"38,5 cm",40
  The Falconer,15 1/2 in,44

Lengths are in mm unless they say cm or in. A row that cannot be made is reported
with its line and field, and the others are made.

The folder must be new or empty. With --over it may hold what earlier runs made: the
list of that is batch.json, and what this run does not make again is removed. Any
other file is left as it is; where one stands in the way nothing is made.

Exit code 0: all made. 1: some rows were not. 2: the list cannot be read.`,
		flags: func(f *flag.FlagSet) {
			b.printing.flags(f)
			f.StringVar(&b.out, "out", "", "`folder` to write, new or empty")
			f.BoolVar(&b.over, "over", false, "write over what an earlier run left in the folder, and remove the rest of that")
			f.StringVar(&base, "scheme", "default", "what the rows change: a `SCHEME` as other verbs take it")
			f.IntVar(&b.jobs, "jobs", b.jobs, "`wearers` made at a time, 1 to "+strconv.Itoa(maxJobs))
		},
		run: func(j job, args []string) error {
			if b.out == "" {
				return usageError{"batch", "batch needs --out FOLDER"}
			}
			if err := b.printer.Validate(); err != nil {
				return err
			}
			if b.jobs < 1 || b.jobs > maxJobs {
				return fmt.Errorf("--jobs %d: expected 1 to %d", b.jobs, maxJobs)
			}
			from, err := named(j, base)
			if err != nil {
				return fmt.Errorf("--scheme %w", err)
			}
			list, err := readWearers(j, args[0], from)
			if err != nil {
				return err
			}
			if err := b.folder(); err != nil {
				return err
			}
			return b.run(j, list)
		},
	}
}

// batch is how a production is made.
type batch struct {
	printing
	out  string
	over bool
	jobs int
}

// folder makes the folder to write to; one with something in it is refused.
func (b *batch) folder() error {
	inside, err := os.ReadDir(b.out)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return os.MkdirAll(b.out, 0o755)
	case err != nil:
		return err
	case len(inside) > 0 && !b.over:
		return fmt.Errorf("--out %s: the folder is not empty; name another, or write over it with --over", b.out)
	}
	return nil
}

// The files of a production: each wearer's, and the tables beside the folders.
var (
	wearerFiles = []string{"sheets.pdf", "scheme.json", "marks.csv"}
	tableFiles  = []string{"cloth-order.csv", "summary.csv", "summary.txt"}
)

// claim lists what is going to be written, before any of it is, and gives the list
// of what earlier runs left. It refuses where another's file stands in the way. An
// earlier run's tables go at once: they tell of a production that is being changed.
func (b *batch) claim(all []turned, rows []int) (former left, err error) {
	plan := slices.Clone(tableFiles)
	for _, i := range rows {
		plan = append(plan, all[i].files()...)
	}
	if former, err = readLeft(b.out); err != nil {
		return former, err
	}
	if found := former.strangers(b.out, plan); len(found) > 0 {
		return former, fmt.Errorf("--out %s: %s is there and was not made by batch: name another folder", b.out, found[0])
	}
	if err := (left{Files: append(plan, former.Files...)}).write(b.out); err != nil {
		return former, err
	}
	tables := left{Files: slices.DeleteFunc(slices.Clone(tableFiles), func(f string) bool { return !slices.Contains(former.Files, f) })}
	return former, tables.remove(b.out, nil)
}

// settle removes what earlier runs left and this one has not made again, and lists
// what is there now.
func (b *batch) settle(former left, good []turned) error {
	made := slices.Clone(tableFiles)
	for _, t := range good {
		made = append(made, t.files()...)
	}
	if err := former.remove(b.out, made); err != nil {
		return err
	}
	return left{Files: made}.write(b.out)
}

// run makes all rows, b.jobs at a time. What is written depends on the list alone,
// not on which of them is ready first.
func (b *batch) run(j job, list wearers) error {
	all := make([]turned, len(list.rows))
	names := folders{}
	var rows []int
	for i, w := range list.rows {
		all[i].wearer = w
		if len(w.wrong) == 0 {
			all[i].folder = names.name(w.scheme.Name, "wearer")
			rows = append(rows, i)
		}
	}
	former, err := b.claim(all, rows)
	if err != nil {
		return err
	}
	if err := b.makeAll(j, all, rows); err != nil {
		return err
	}
	var good []turned
	bad, stopped := 0, 0
	for _, t := range all {
		if len(t.wrong) == 0 {
			good = append(good, t)
			if t.stops > 0 {
				stopped++
			}
			if why := unprinted(t.scheme.Name); why != "" {
				fmt.Fprintf(j.err, "ruffwright: %s: line %d, %s\n", list.file, t.line, why)
			}
			continue
		}
		bad++
		for _, why := range t.wrong {
			fmt.Fprintf(j.err, "ruffwright: %s: line %d, %s\n", list.file, t.line, why)
		}
	}
	if err := b.tables(good); err != nil {
		return err
	}
	if err := b.settle(former, good); err != nil {
		return err
	}
	fmt.Fprintf(j.out, "%s of %d made in %s\n", counted(len(good), "wearer", "wearers"), len(all), b.out)
	if stopped > 0 {
		fmt.Fprintf(j.out, "%d of them must not be sewn as planned: %s\n", stopped, filepath.Join(b.out, "summary.txt"))
	}
	if bad > 0 {
		return errStops
	}
	return nil
}

// files are the names of a wearer's files below the folder.
func (t *turned) files() []string {
	var names []string
	for _, f := range wearerFiles {
		names = append(names, t.folder+"/"+f)
	}
	return names
}

// makeAll makes the rows named. The first that cannot be written, or ctrl-C, ends
// them all; rows that cannot be made say so themselves.
func (b *batch) makeAll(j job, all []turned, rows []int) error {
	ctx, stop := context.WithCancelCause(j.ctx)
	defer stop(nil)
	quiet := j // what one wearer's solve would tell of itself
	quiet.ctx, quiet.err, quiet.out = ctx, io.Discard, io.Discard
	line := newProgress(j, b.how.tell)
	defer line.done()
	one := b.printing
	one.how.tell = false

	next := make(chan int)
	var hands sync.WaitGroup
	var telling sync.Mutex
	ready := 0
	for range min(b.jobs, len(rows)) {
		hands.Go(func() {
			for i := range next {
				if err := b.makeOne(quiet, one, &all[i]); err != nil {
					stop(err)
					return
				}
				telling.Lock()
				ready++
				line.tell("%d of %d: %s", ready, len(rows), all[i].scheme.Name)
				telling.Unlock()
			}
		})
	}
feed:
	for _, i := range rows {
		select {
		case next <- i:
		case <-ctx.Done():
			break feed
		}
	}
	close(next)
	hands.Wait()
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	return nil
}

// makeOne makes one wearer's folder. Its files are made whole before the first is
// written.
func (b *batch) makeOne(j job, how printing, t *turned) error {
	made, err := how.make(j, t.scheme)
	var pdf []byte
	var marks bytes.Buffer
	if err == nil {
		pdf, err = how.pdf(j, made)
	}
	if err == nil {
		err = made.Pattern.AsCSV(&marks, how.units.Units)
	}
	switch {
	case j.ctx.Err() != nil:
		return context.Cause(j.ctx)
	case err != nil:
		t.wrong = lines(err)
		return nil
	}
	t.pattern, t.need, t.unsolved = made.Pattern, made.Need, !made.Unsolved.Empty()
	t.stops, t.mends = made.Stops(), made.Mends()
	if s := made.Ruff.Solved; s != nil && s.Converged() {
		t.ruff = &s.Ruff
	}
	folder := filepath.Join(b.out, t.folder)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for i, text := range [][]byte{pdf, t.scheme.JSON(), marks.Bytes()} {
		if err := disk.Write(filepath.Join(folder, wearerFiles[i]), text); err != nil {
			return err
		}
	}
	return nil
}

// tables writes what is summed over all that were made.
func (b *batch) tables(good []turned) error {
	var patterns []pattern.Pattern
	for _, t := range good {
		patterns = append(patterns, t.pattern)
	}
	order := pattern.NewOrder(patterns)
	for i, text := range [][]byte{orderCSV(order, good), summaryCSV(good), summaryText(order, good, b.units.Units)} {
		if err := disk.Write(filepath.Join(b.out, tableFiles[i]), text); err != nil {
			return err
		}
	}
	return nil
}
