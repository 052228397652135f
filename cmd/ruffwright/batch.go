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
	"strconv"
	"sync"

	"ruffwright/geom/pattern"
	"ruffwright/sim"
	"ruffwright/sim/paper"
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
other line is a wearer, and an empty cell leaves the field as --scheme has it:

  name,wearer.girth,ruff.sets
  The Cooper,"38,5 cm",40
  The Falconer,15 1/2 in,44

Lengths are in mm unless they say cm or in. A row that cannot be made is reported
with its line and field, and the others are made.

Exit code 0: all made. 1: some rows were not. 2: the list cannot be read.`,
		flags: func(f *flag.FlagSet) {
			b.printing.flags(f)
			f.StringVar(&b.out, "out", "", "`folder` to write, new or empty")
			f.BoolVar(&b.over, "over", false, "write over what an earlier run left in the folder")
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

// turned is a wearer made, as far as the tables need it.
type turned struct {
	wearer
	folder       string
	unsolved     bool
	ruff         *sim.Measures // nil: not solved, or not come to rest
	need         *paper.Need
	pattern      pattern.Pattern
	stops, mends int
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
	fmt.Fprintf(j.out, "%s of %d made in %s\n", counted(len(good), "wearer", "wearers"), len(all), b.out)
	if stopped > 0 {
		fmt.Fprintf(j.out, "%d of them must not be sewn as planned: %s\n", stopped, filepath.Join(b.out, "summary.txt"))
	}
	if bad > 0 {
		return errStops
	}
	return nil
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
	t.pattern, t.need, t.unsolved = made.Pattern, made.Need, made.Unsolved != ""
	t.stops, t.mends = made.Stops(), made.Mends()
	if s := made.Ruff.Solved; s != nil && s.Converged() {
		t.ruff = &s.Ruff
	}
	folder := filepath.Join(b.out, t.folder)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for _, f := range []struct {
		name string
		text []byte
	}{{"sheets.pdf", pdf}, {"scheme.json", t.scheme.JSON()}, {"marks.csv", marks.Bytes()}} {
		if err := os.WriteFile(filepath.Join(folder, f.name), f.text, 0o644); err != nil {
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
	for _, f := range []struct {
		name string
		text []byte
	}{
		{"cloth-order.csv", orderCSV(order, good)},
		{"summary.csv", summaryCSV(good)},
		{"summary.txt", summaryText(order, good, b.units.Units)},
	} {
		if err := os.WriteFile(filepath.Join(b.out, f.name), f.text, 0o644); err != nil {
			return err
		}
	}
	return nil
}
