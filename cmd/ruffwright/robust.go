package main

import (
	"flag"
	"fmt"
	"math"
	"strings"
	"time"

	"ruffwright/sim"
	"ruffwright/sim/window"
)

// What robust demands: this share of what is not refused beforehand must come to
// rest, and none may take longer than a minute (a whole ruff: ten), many times
// what the slowest took: longer is a hang.
const (
	robustShare = 0.995
	cellMost    = time.Minute
	ruffMost    = 10 * time.Minute
)

func robustVerb() verb {
	cells, ruffs, tucked := 2000, 50, 0
	var seed uint64
	var how solving
	var asJSON bool
	return verb{
		name: "robust",
		does: "tries the solver on random schemes (for those who change it)",
		help: `
Draws half sets and whole ruffs at random over the ranges of all fields, possible
or not, and solves them. Counted: what is refused beforehand, what is solved, what
comes to rest, the most steps, panics and numbers that are not finite. The same
seed draws the same. The whole takes some minutes; a sample of it is in the tests.
--tucked N also solves tucked half sets, every fourth without starch: on two
meshes, formed on their sticks in three ways, and 1 % larger. How many of them are
unsure, and told to be, is counted, and no part of the answer.

Exit code 0: no fault, no half set over a minute, no ruff over ten, and 99.5 % of
what was not refused came to rest. 1: not so.`,
		flags: func(f *flag.FlagSet) {
			how.flags(f)
			f.IntVar(&cells, "cells", cells, "how many half sets, a `number` of 0 to 1000000")
			f.IntVar(&ruffs, "ruffs", ruffs, "how many whole ruffs, a `number` of 0 to 1000000")
			f.IntVar(&tucked, "tucked", tucked, "how many tucked half sets, a `number` of 0 to 1000000")
			f.Uint64Var(&seed, "seed", 1, "the first `seed`")
			f.BoolVar(&asJSON, "json", false, "print the counts as JSON; ruffwright schema describes the keys")
		},
		prints: robustness{},
		run: func(j job, _ []string) error {
			for _, n := range []struct {
				name  string
				value int
			}{{"cells", cells}, {"ruffs", ruffs}, {"tucked", tucked}} {
				if n.value < 0 || n.value > 1e6 {
					return fmt.Errorf("--%s %d: expected 0 to 1000000", n.name, n.value)
				}
			}
			p := newProgress(j, how.tell)
			r := robustness{Seed: seed, Mesh: how.grid.String()}
			r.Cells = triedCells(j, p, how, seed, cells)
			r.Ruffs = triedRuffs(j, p, how, seed, ruffs)
			err := r.Tucked.try(j, p, seed, tucked)
			p.done()
			if j.ctx.Err() != nil {
				return j.ctx.Err()
			}
			if err != nil {
				return err
			}
			r.Sound = r.Cells.sound(cellMost) && r.Ruffs.sound(ruffMost)
			return say(j, asJSON, r, r.text(), r.Sound)
		},
	}
}

// robustness is what robust says.
type robustness struct {
	Sound  bool        `json:"sound" means:"no fault, nothing too slow, enough came to rest; the exit code is 1 where not"`
	Seed   uint64      `json:"seed" means:"the first seed"`
	Mesh   string      `json:"mesh" means:"cells along the strip × from neck to outer edge, of a half set"`
	Cells  tried       `json:"cells" of:"half sets"`
	Ruffs  tried       `json:"ruffs" of:"whole ruffs"`
	Tucked triedTucked `json:"tucked"`
}

// tried is what became of random half sets or ruffs.
type tried struct {
	Tried       int      `json:"tried" means:"%s drawn"`
	Refused     int      `json:"refused" means:"refused before any solve: by validation, the plan, or the half set's geometry"`
	Solved      int      `json:"solved" means:"solved"`
	Converged   int      `json:"converged" means:"of which came to rest"`
	Faults      int      `json:"faults" means:"panics, and numbers that are not finite"`
	HalfSets    int      `json:"half_sets" means:"distinct half sets solved"`
	Most        int      `json:"most_iterations" means:"most factorisations of one half set"`
	Slowest_s   float64  `json:"slowest_s" unit:"s" means:"longest time that one took"`
	Unconverged []uint64 `json:"unconverged" means:"seeds of those that did not come to rest"`
	Faulty      []string `json:"faulty" means:"seeds of the faults, and what they are"`
}

// sound says whether no fault was met, nothing took longer than most, and enough
// came to rest.
func (t tried) sound(most time.Duration) bool {
	return t.Faults == 0 && t.Slowest_s <= most.Seconds() && float64(t.Converged) >= robustShare*float64(t.Solved)
}

func triedCells(j job, p *progress, how solving, seed uint64, n int) tried {
	t := tried{Unconverged: []uint64{}, Faulty: []string{}}
	began := time.Now()
	set := window.Settings{Grid: how.grid.grid()}
	y := window.Robustness(j.ctx, seed, n, set, func(q window.Trial) {
		t.Slowest_s = math.Max(t.Slowest_s, time.Since(began).Seconds())
		began = time.Now()
		if q.Fault != "" {
			t.Faulty = append(t.Faulty, fmt.Sprintf("%d: %s", q.Seed, q.Fault))
		}
		t.Tried++
		p.tell("half set %d of %d", t.Tried, n)
	})
	t.Refused, t.Solved, t.Converged, t.Faults = y.Refused, y.Solved, y.Converged, y.Faults
	t.HalfSets, t.Most = y.Solved, y.Most
	t.Unconverged = append(t.Unconverged, y.Unconverged...)
	return t
}

func triedRuffs(j job, p *progress, how solving, seed uint64, n int) tried {
	t := tried{Unconverged: []uint64{}, Faulty: []string{}}
	began := time.Now()
	y := sim.Robustness(j.ctx, seed, n, sim.Options{Grid: how.grid.grid()}, func(done int) {
		t.Slowest_s = math.Max(t.Slowest_s, time.Since(began).Seconds())
		began = time.Now()
		p.tell("ruff %d of %d", done, n)
	})
	t.Tried, t.Refused, t.Solved, t.Converged, t.Faults = y.Schemes, y.Refused, y.Solved, y.Converged, y.Faults
	t.HalfSets, t.Most = y.HalfSets, y.Most
	t.Unconverged = append(t.Unconverged, y.Unconverged...)
	t.Faulty = append(t.Faulty, y.Faulty...)
	return t
}

// triedTucked is how sure the shapes of tucked half sets are, kind by kind.
type triedTucked struct {
	Both  triedKind `json:"both_edges" of:"starched half sets sewn at both edges"`
	One   triedKind `json:"one_edge" of:"starched half sets sewn at one edge"`
	Fresh triedKind `json:"fresh" of:"half sets without starch"`
}

type triedKind struct {
	Tried            int     `json:"tried" means:"%s, tucked: solved"`
	Refused          int     `json:"refused" means:"refused beforehand"`
	Unconverged      int     `json:"unconverged" means:"did not come to rest"`
	Sinking          int     `json:"sinking" means:"whose outer edge drops by more than 10 mm"`
	Off              int     `json:"off" means:"formed more than 1 mm off the closed form of their sticks"`
	Meshes           int     `json:"meshes" means:"whose outer heights differ by more than 0.5 mm between the fine and the finest mesh"`
	LargestMesh_mm   float64 `json:"largest_mesh_mm" unit:"mm" means:"the largest such difference"`
	Paths            int     `json:"paths" means:"whose outer heights differ by more than 0.5 mm between three ways to form them"`
	LargestPaths_mm  float64 `json:"largest_paths_mm" unit:"mm" means:"the largest such difference"`
	Bows             int     `json:"bows" means:"whose move when the wearer bows differs by more than 0.5 mm over mesh and ways"`
	Told             int     `json:"told" means:"that are any of these three, so that the maker is told"`
	Jumps            int     `json:"jumps" means:"of which a figure differs by more than 1 mm and a hundredth of the panel from one 1 % larger"`
	Silent           int     `json:"silent" means:"those of them that are not told"`
	LargestSilent_mm float64 `json:"largest_silent_mm" unit:"mm" means:"the largest difference of those, the hundredth taken off"`
	Most             int     `json:"most_iterations" means:"most factorisations of one, cold"`
}

// try solves them one by one, so that ctrl-C and progress come through.
func (t *triedTucked) try(j job, p *progress, seed uint64, n int) error {
	var both, one, fresh window.TuckedTally
	for k := range n {
		d, y := window.RandomTucked(seed+uint64(k)), &one
		if k%4 == 3 {
			d, y = d.Fresh(), &fresh
		} else if d.Anchor == window.Both {
			y = &both
		}
		if err := y.Add(j.ctx, d); err != nil {
			return err
		}
		p.tell("tucked half set %d of %d", k+1, n)
	}
	t.Both, t.One, t.Fresh = kindTried(&both), kindTried(&one), kindTried(&fresh)
	return nil
}

func kindTried(y *window.TuckedTally) triedKind {
	return triedKind{
		Tried: y.Designs, Refused: y.Refused, Unconverged: y.Unconverged, Sinking: y.Sinking, Off: y.Off,
		Meshes: y.Meshes, LargestMesh_mm: y.LargestMesh_mm, Paths: y.Paths, LargestPaths_mm: y.LargestPaths_mm,
		Bows: y.Bows, Told: y.Told, Jumps: y.Jumps, Silent: y.Silent, LargestSilent_mm: y.LargestSilent_mm, Most: y.Most,
	}
}

// text is a table of the kinds; nothing where none was tried.
func (t triedTucked) text(b *strings.Builder) {
	if t.Both.Tried+t.One.Tried+t.Fresh.Tried == 0 {
		return
	}
	b.WriteByte('\n')
	rows := [][]string{{"tucked", "both edges", "one edge", "no starch"}}
	for _, q := range []struct {
		label string
		of    func(k triedKind) string
	}{
		{"solved", func(k triedKind) string { return fmt.Sprint(k.Tried) }},
		{"refused beforehand", func(k triedKind) string { return fmt.Sprint(k.Refused) }},
		{"not at rest", func(k triedKind) string { return fmt.Sprint(k.Unconverged) }},
		{"sink", func(k triedKind) string { return fmt.Sprint(k.Sinking) }},
		{"off the sticks’ closed form", func(k triedKind) string { return fmt.Sprint(k.Off) }},
		{"hang on the mesh", func(k triedKind) string { return fmt.Sprintf("%d (%.1f mm)", k.Meshes, k.LargestMesh_mm) }},
		{"hang on the way of forming", func(k triedKind) string { return fmt.Sprintf("%d (%.1f mm)", k.Paths, k.LargestPaths_mm) }},
		{"whose bow hangs on either", func(k triedKind) string { return fmt.Sprint(k.Bows) }},
		{"told to be unsure", func(k triedKind) string { return fmt.Sprint(k.Told) }},
		{"jump when 1 % larger", func(k triedKind) string { return fmt.Sprint(k.Jumps) }},
		{"of those, not told", func(k triedKind) string { return fmt.Sprintf("%d (%.1f mm)", k.Silent, k.LargestSilent_mm) }},
		{"most steps of one", func(k triedKind) string { return fmt.Sprint(k.Most) }},
	} {
		rows = append(rows, []string{q.label, q.of(t.Both), q.of(t.One), q.of(t.Fresh)})
	}
	table(b, rows)
}

func (r robustness) text() string {
	var b strings.Builder
	rows := [][]string{{"", "half sets", "whole ruffs"}}
	c, w := r.Cells, r.Ruffs
	share := func(of, all int) string {
		if all == 0 {
			return fmt.Sprint(of)
		}
		return fmt.Sprintf("%d (%.1f %%)", of, 100*float64(of)/float64(all))
	}
	row := func(label string, say func(t tried) string) { rows = append(rows, []string{label, say(c), say(w)}) }
	row("drawn", func(t tried) string { return fmt.Sprint(t.Tried) })
	row("refused beforehand", func(t tried) string { return share(t.Refused, t.Tried) })
	row("solved", func(t tried) string { return share(t.Solved, t.Tried) })
	row("came to rest, of those", func(t tried) string { return share(t.Converged, t.Solved) })
	row("panics, or not finite", func(t tried) string { return fmt.Sprint(t.Faults) })
	row("distinct half sets", func(t tried) string { return fmt.Sprint(t.HalfSets) })
	row("most steps of one", func(t tried) string { return fmt.Sprint(t.Most) })
	row("slowest", func(t tried) string { return fmt.Sprintf("%.1f s", t.Slowest_s) })
	table(&b, rows)
	for _, t := range []tried{c, w} {
		if len(t.Unconverged) > 0 {
			b.WriteString(wrapped("Not at rest, seeds: "+strings.Trim(fmt.Sprint(t.Unconverged), "[]"), 80, ""))
		}
		for _, f := range t.Faulty {
			fmt.Fprintf(&b, "Fault, seed %s\n", f)
		}
	}
	r.Tucked.text(&b)
	answer := "Sound"
	if !r.Sound {
		answer = "Not sound"
	}
	fmt.Fprintf(&b, "\n%s. Seeds from %d on, mesh %s.\n", answer, r.Seed, r.Mesh)
	return b.String()
}
