package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/sim/propose"
)

// proposing is what the flags of propose ask for.
type proposing struct {
	asked
	free, keep string
}

func proposeVerb() verb {
	var p proposing
	return verb{
		name: "propose", args: "[SCHEME]", most: 1,
		does: "finds ways to sew the ruff that hold, and what each of them costs",
		help: `
Finds schemes that make the ruff you want and leave nothing to stop for and nothing
to mend: at most three, that differ in how they are sewn. What needs least cloth
comes first, then what needs least starch, then least work. It tells what each
changes, what it costs and how the ruff then hangs; and of those that it refuses,
why. Pleats, band, starch and supporter may change; --free names more fields that
may, such as ruff.sets, and --keep fields that may not.

A neck and a look are enough to begin with. What an answer hangs on besides, the
cloth, the bolt and the hand, is then as a new scheme has it, and named; how the
ruff is sewn is what is looked for.

Every answer is solved as the whole ruff. Starch is not pared to the last
millimetre: tucks that are starched least may lie in several ways.

Exit code 0: something holds. 1: nothing does, and why. 2: the scheme cannot be
read.`,
		flags: func(f *flag.FlagSet) {
			p.from.flags(f)
			f.BoolVar(&p.how.tell, "progress", false, "tell how far it is also where standard error is no terminal")
			f.BoolVar(&p.asJSON, "json", false, "print the answer as JSON; ruffwright schema describes the keys")
			f.Var(&p.units, "units", "`unit` of the lengths: mm, cm or in")
			f.StringVar(&p.free, "free", "", "`keys` of more fields that may change, with commas between")
			f.StringVar(&p.keep, "keep", "", "`keys` of fields that stay as they are, with commas between")
		},
		prints: proposed{},
		run:    p.run,
	}
}

// run looks for the ways and prints them.
func (p *proposing) run(j job, args []string) error {
	ask := propose.Asked{Together: true}
	for _, list := range []struct {
		flag, text string
		keys       *[]string
	}{{"free", p.free, &ask.Free}, {"keep", p.keep, &ask.Keep}} {
		for _, key := range strings.FieldsFunc(list.text, func(r rune) bool { return r == ',' || r == ' ' }) {
			if _, ok := scheme.Lookup(key); !ok {
				return fmt.Errorf("--%s %s: no field has this key; ruffwright schema lists them", list.flag, key)
			}
			*list.keys = append(*list.keys, key)
		}
	}
	s, err := p.from.scheme(j, args)
	if err != nil {
		return err
	}
	how := newProgress(j, p.how.tell)
	ask.Progress = func(n int) { how.tell("%d ruffs tried", n) }
	got, err := propose.Propose(j.ctx, s, ask)
	how.done()
	if err != nil {
		return err
	}
	answer := proposedAnswer(s, got, p.units.Units)
	return say(j, p.asJSON, answer, answer.text(p.units.Units), len(got.Alternatives) > 0)
}

// proposed is what propose says.
type proposed struct {
	Name         string         `json:"name" means:"of the scheme; may be empty"`
	Code         string         `json:"code" means:"the scheme's share code"`
	Alternatives []alternative  `json:"alternatives" means:"ways to sew it that hold, least cloth first; empty where there is none"`
	Refused      []refusal      `json:"refused" means:"ways to sew it that do not hold"`
	Assumed      []check.Change `json:"assumed" means:"fields that the answer hangs on and that are as a new scheme has them: set what is otherwise"`
	Solves       int            `json:"solves" means:"ruffs solved on the way"`
	Cautions     []string       `json:"cautions" means:"what can hurt in starching and setting"`
}

// alternative is a way to sew the ruff.
type alternative struct {
	Kind      string          `json:"kind" means:"how it is sewn"`
	Changes   []check.Change  `json:"changes" means:"what to set in the scheme; empty where it holds as it is"`
	Scheme    json.RawMessage `json:"scheme" means:"the document with the changes made, as share --json prints it"`
	Findings  []check.Finding `json:"findings" means:"what is left of it: notes and cautions"`
	Strip_mm  float64         `json:"strip_mm" unit:"mm" means:"length of the strip as marked, with its end hems, without joins and spare"`
	Cloth_mm  float64         `json:"cloth_mm" unit:"mm" means:"cloth to buy, exactly, at the width of the bolt"`
	Starch_mm float64         `json:"starch_bend_mm" unit:"mm" means:"bending length of the starched swatch; 0: no starch"`
	Height_mm float64         `json:"height_outer_mm" unit:"mm" means:"as it hangs"`
	Droop_mm  float64         `json:"droop_mm" unit:"mm" means:"how far the outer edge sinks"`
	Bow_mm    float64         `json:"bow_mm" unit:"mm" means:"how far the outer edge moves when the wearer bows"`
	Least_h   float64         `json:"hours_least" unit:"h" means:"work in all, at the scheme's pace, at least"`
	Most_h    float64         `json:"hours_most" unit:"h" means:"at most"`
}

// refusal is a way to sew the ruff that does not hold.
type refusal struct {
	Kind   string `json:"kind" means:"how it would be sewn"`
	Reason string `json:"reason" means:"what stands against it"`
}

func proposedAnswer(s scheme.Scheme, got propose.Answer, u scheme.Units) proposed {
	a := proposed{Name: s.Name, Code: s.Code(), Alternatives: []alternative{}, Refused: []refusal{}, Assumed: got.Assumed, Solves: got.Solves, Cautions: []string{}}
	for _, q := range got.Alternatives {
		a.Alternatives = append(a.Alternatives, alternative{q.Kind.Name().String(), q.Changes, q.Scheme.JSON(), q.Findings, q.Strip_mm, q.Cloth_mm, q.Starch_mm,
			q.Height_mm, q.Droop_mm, q.Bow_mm, q.Hours.Least, q.Hours.Most})
		if q.Starch_mm > 0 && len(a.Cautions) == 0 {
			a.Cautions = cautions(q.Ruff, u, "hot")
		}
	}
	for _, r := range got.Refused {
		a.Refused = append(a.Refused, refusal{r.Kind.Name().String(), r.Reason[u].String()})
	}
	return a
}

// bought is a length of cloth to buy, up to the next whole centimetre.
func bought(mm float64, u scheme.Units) string { return roundedLength(math.Ceil(mm/10)*10, u) }

// assumed lists fields by their labels, with what they hold.
func assumed(fields []check.Change, u scheme.Units) string {
	var said []string
	for _, c := range fields {
		f, ok := scheme.Lookup(c.Key)
		var with scheme.Scheme
		if !ok || with.Set(c.Key, c.Value) != nil {
			continue
		}
		value := f.Show(with, u)
		if f.Kind == scheme.KindLength {
			value += " " + f.UnitIn(u)
		}
		said = append(said, fmt.Sprintf("%s %s (%s)", f.Label, value, c.Key))
	}
	return strings.Join(said, "; ")
}

func (a proposed) text(u scheme.Units) string {
	length := func(mm float64) string { return roundedLength(mm, u) }
	var b strings.Builder
	heading(&b, a.Name)
	for i, q := range a.Alternatives {
		fmt.Fprintf(&b, "%d. Sewn to %s\n", i+1, q.Kind)
		starch := "no starch"
		if q.Starch_mm > 0 {
			starch = "starch to a bending length of " + length(q.Starch_mm)
		}
		b.WriteString(wrapped(fmt.Sprintf("Strip %s, cloth %s, %s, %.0f to %.0f hours of work.", length(q.Strip_mm), bought(q.Cloth_mm, u), starch, q.Least_h, q.Most_h), 80, "   "))
		b.WriteString(wrapped(fmt.Sprintf("As it hangs: height %s, sinks %s, moves %s when the wearer bows.",
			solvedLength(q.Height_mm, u), solvedLength(q.Droop_mm, u), solvedLength(q.Bow_mm, u)), 80, "   "))
		for _, f := range q.Findings {
			if f.Severity == check.Note {
				b.WriteString(wrapped("Note: "+f.Sentence.String(), 80, "   "))
			}
		}
		if len(q.Changes) > 0 {
			fmt.Fprintf(&b, "   %s\n", sets(q.Changes))
		} else {
			b.WriteString("   As it is.\n")
		}
	}
	for _, r := range a.Refused {
		b.WriteString(wrapped(fmt.Sprintf("Not %s: %s", r.Kind, strings.TrimSuffix(r.Reason, ".")+"."), 80, ""))
	}
	if len(a.Assumed) > 0 {
		b.WriteString(wrapped("Taken for granted, as a new scheme has it: "+assumed(a.Assumed, u)+". Set what is otherwise.", 80, ""))
	}
	fmt.Fprintf(&b, "%d ruffs were solved.\n", a.Solves)
	for _, c := range a.Cautions {
		b.WriteString(wrapped("Caution: "+c, 80, ""))
	}
	return b.String()
}
