package main

import (
	"context"
	"flag"
	"fmt"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/matter"
)

func mattersVerb() verb {
	var a asked
	return verb{
		name: "matters", args: "[SCHEME]", most: 1,
		does: "says which fields move height, droop and bow most",
		help: `
Changes the scheme's fields by a tenth, one after the other, and solves how the
ruff then hangs. The three that move height, droop and the swing at a bow most,
each against its limit, are told, and followed from 30 % below to 30 % above.
All is solved on the coarse mesh: take it for how the figures change.

Exit code 0: told. 2: the scheme cannot be read, or cannot be solved.`,
		flags: func(f *flag.FlagSet) {
			a.from.flags(f)
			f.BoolVar(&a.how.tell, "progress", false, "tell how far it is also where standard error is no terminal")
			f.BoolVar(&a.asJSON, "json", false, "print the answer as JSON; ruffwright schema describes the keys")
			f.Var(&a.units, "units", "`unit` of the lengths: mm, cm or in")
		},
		prints: mattering{},
		run: a.from.run(func(j job, s scheme.Scheme) error {
			p := newProgress(j, a.how.tell)
			solves := 0
			got, err := matter.Find(j.ctx, s, func(ctx context.Context, s scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
				solves++
				p.tell("%d ruffs solved", solves)
				return sim.Solve(ctx, s, opt)
			}, nil)
			p.done()
			if err != nil {
				return unsolvable(s, err)
			}
			answer := matteringOf(s, got)
			return say(j, a.asJSON, answer, answer.text(got, a.units.Units), true)
		}),
	}
}

// mattering is what matters says.
type mattering struct {
	Name   string        `json:"name" means:"of the scheme; may be empty"`
	Code   string        `json:"code" means:"the scheme's share code"`
	Limits moved         `json:"limits" of:"how far it may be off: the height from the wanted one, either way; droop and swing at most"`
	Fields []fieldMatter `json:"fields" means:"the fields that move the ruff most, the most first"`
}

type fieldMatter struct {
	Key    string        `json:"key" means:"the field's key"`
	Now    float64       `json:"now" means:"its value, in its unit, filled in where the scheme leaves it open"`
	Step   float64       `json:"step" means:"a tenth of it, more or less"`
	Moves  moved         `json:"moves" of:"what the step changes, + more"`
	Points []matterPoint `json:"points" means:"the figures at other values, the least value first"`
}

type matterPoint struct {
	Value float64 `json:"value" means:"of the field"`
	At    moved   `json:"at" of:"as it then hangs"`
}

type moved struct {
	Height_mm float64 `json:"height_outer_mm" unit:"mm" means:"the height at the outer edge: %s"`
	Droop_mm  float64 `json:"droop_mm" unit:"mm" means:"the droop: %s"`
	Bow_mm    float64 `json:"bow_mm" unit:"mm" means:"the move when the wearer bows: %s"`
}

func matteringOf(s scheme.Scheme, got []matter.Field) mattering {
	of := func(f matter.Figures) moved { return moved{f[0], f[1], f[2]} }
	a := mattering{Name: s.Name, Code: s.Code(), Limits: of(matter.Limits(s.Looked().Ruff.Height)), Fields: []fieldMatter{}}
	for _, q := range got {
		m := fieldMatter{Key: q.Key, Now: q.Now, Step: q.Step, Moves: of(q.Moves)}
		for _, p := range q.Points {
			m.Points = append(m.Points, matterPoint{p.Value, of(p.At)})
		}
		a.Fields = append(a.Fields, m)
	}
	return a
}

func (a mattering) text(got []matter.Field, u scheme.Units) string {
	var b strings.Builder
	heading(&b, a.Name)
	if len(got) == 0 {
		b.WriteString("No field was found that moves it.\n")
	}
	for _, q := range got {
		b.WriteString(wrapped(q.Says(u).String(), 80, ""))
		rows := [][]string{{"  " + q.Key, "height", "droop", "swing"}}
		for _, p := range q.Points {
			here := ""
			if p.Value == q.Now {
				here = " (now)"
			}
			rows = append(rows, []string{fmt.Sprintf("  %.5g%s", p.Value, here), solvedLength(p.At[0], u), solvedLength(p.At[1], u), solvedLength(p.At[2], u)})
		}
		table(&b, rows)
	}
	return b.String()
}
