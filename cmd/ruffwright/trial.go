package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/trial"
)

// trying is what the flags of trial ask for.
type trying struct {
	asked
	read   [trial.Readings]repeated
	weight string
	file   string
	ruler  string
	tilt   float64
	scales float64
}

func trialVerb() verb {
	var y trying
	return verb{
		name: "trial", args: "[SCHEME]", most: 1,
		does: "what a few sets on a card tell of starch, setting and stitch",
		help: `
A trial is a few sets of the ruff's own cloth and starch, set on your own sticks and
sewn to a curved card. Held in four ways, they tell a ruler how stiff the starched
cloth is, how well it was set, and how firmly the stitch holds it. Without readings
it says what to make, and what the ruler would read:

  ruffwright trial sound
  ruffwright trial sound --height 44.5 --tipped -35 --hanging 0.5 --over 45 --weight 6

With readings it answers with the --set that puts them into the scheme. A reading is
how far the lower folds stand off the sewn edge, along the card: minus on the card's
side. --over is needed; each other one narrows the answer. Give a reading again for
every set that you read: their mean counts, and their scatter.

--readings FILE takes them as JSON: {"height_mm": 44.5, "over_mm": [45, 46], ...}
with height_mm, tipped_mm, hanging_mm, over_mm, weight_g, ruler_mm, tilt_deg and
scales_g. All intervals hold nine times in ten, by the model.

Exit code 0: it is told. 1: readings contradict each other. 2: bad input.`,
		flags: func(f *flag.FlagSet) {
			y.flags(f, "the answer", "the lengths")
			for r, p := range trial.Poses {
				f.Var(&y.read[r], p.Key, "a reading, a `length`: "+p.Label.String()+"; again for each set")
			}
			f.StringVar(&y.weight, "weight", "", "the strip's weight as cut, before starch, `grams`")
			f.StringVar(&y.file, "readings", "", "`file` of readings, JSON; - reads standard input")
			f.StringVar(&y.ruler, "ruler", "0.5", "how far a reading may be off, two times in three, a `length`")
			f.Float64Var(&y.tilt, "tilt", 2, "how far the card's slope may be off, `degrees`")
			f.Float64Var(&y.scales, "scales", 0.5, "how far the weight may be off, `grams`")
		},
		prints: trialSaid{},
		run:    y.run,
	}
}

// run tabulates the trial and prints what to make, or what it tells.
func (y *trying) run(j job, args []string) error {
	s, err := y.from.scheme(j, args)
	if err != nil {
		return err
	}
	read, some, err := y.readings(j)
	if err != nil {
		return err
	}
	card, err := trial.New(s)
	if err != nil {
		return unsolvable(s, err)
	}
	if some {
		if err := card.Check(&read); err != nil {
			return err
		}
	}
	p := newProgress(j, y.how.tell)
	table, err := trial.Tabulate(j.ctx, card, trial.Options{Grid: y.how.grid.grid(), Together: true,
		Progress: func(done float64) { p.tell("the trial's model: %.0f %%", 100*done) }})
	p.done()
	if err != nil {
		return err
	}
	a, err := newTrialSaid(s, table, y.units.Units)
	if err != nil {
		return err
	}
	if some {
		got, err := table.Answer(read)
		if err != nil {
			return err
		}
		a.answer(&got, table)
		if _, err := check.Apply(s, check.Remedy{Changes: a.Changes}); err != nil {
			return err
		}
	}
	return say(j, y.asJSON, a, a.text(y.units.Units), len(a.Wrong) == 0)
}

// readings takes them from the flags, or the file.
func (y *trying) readings(j job) (q trial.Read, some bool, err error) {
	lists := [trial.Readings][]float64{}
	for r, texts := range y.read {
		for _, text := range texts {
			mm, err := scheme.ParseLength(text, scheme.Millimetres)
			if err != nil {
				return q, false, fmt.Errorf("--%s: %w", trial.Poses[r].Key, err)
			}
			lists[r] = append(lists[r], mm)
		}
	}
	if q.Ruler_mm, err = scheme.ParseLength(y.ruler, scheme.Millimetres); err != nil {
		return q, false, fmt.Errorf("--ruler: %w", err)
	}
	q.Tilt_deg, q.Scales_g = y.tilt, y.scales
	if y.weight != "" {
		if q.Weight_g, err = strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(y.weight, "g")), 64); err != nil {
			return q, false, fmt.Errorf("--weight %q: expected 0.1 to 1000 g", y.weight)
		}
	}
	if y.file != "" {
		if err := y.readFile(j, &q, &lists); err != nil {
			return q, false, fmt.Errorf("--readings %s: %w", y.file, err)
		}
	}
	for r, list := range lists {
		if len(list) > 0 {
			q.Put(trial.Reading(r), list)
			some = true
		}
	}
	return q, some || q.Weight_g != 0, nil
}

// one is a number or a list of them.
type one []float64

func (o *one) UnmarshalJSON(b []byte) error {
	var x float64
	if err := json.Unmarshal(b, &x); err == nil {
		*o = one{x}
		return nil
	}
	return json.Unmarshal(b, (*[]float64)(o))
}

// readFile adds the readings of the file.
func (y *trying) readFile(j job, q *trial.Read, lists *[trial.Readings][]float64) error {
	in := j.input()
	if y.file != "-" {
		f, err := os.Open(y.file)
		if err != nil {
			return err
		}
		defer f.Close()
		in = f
	}
	var d struct {
		Height  one     `json:"height_mm"`
		Tipped  one     `json:"tipped_mm"`
		Hanging one     `json:"hanging_mm"`
		Over    one     `json:"over_mm"`
		Weight  float64 `json:"weight_g"`
		Ruler   float64 `json:"ruler_mm"`
		Tilt    float64 `json:"tilt_deg"`
		Scales  float64 `json:"scales_g"`
	}
	dec := json.NewDecoder(io.LimitReader(in, 1<<20))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&d); err != nil {
		return err
	}
	for r, list := range [trial.Readings]one{trial.Height: d.Height, trial.Tipped: d.Tipped, trial.Hanging: d.Hanging, trial.Over: d.Over} {
		lists[r] = append(lists[r], list...)
	}
	for _, f := range []struct {
		from float64
		to   *float64
	}{{d.Weight, &q.Weight_g}, {d.Ruler, &q.Ruler_mm}, {d.Tilt, &q.Tilt_deg}, {d.Scales, &q.Scales_g}} {
		if f.from != 0 {
			*f.to = f.from
		}
	}
	return nil
}

// trialSaid is what trial says.
type trialSaid struct {
	Name     string         `json:"name" means:"of the scheme; may be empty"`
	Code     string         `json:"code" means:"the scheme's share code"`
	Make     []string       `json:"make" means:"what to make, in the order of work"`
	Poses    []posed        `json:"poses" means:"where the ruler is held, and what it would read"`
	Off_mm   float64        `json:"table_off_mm" unit:"mm" means:"how far the model's table may be off what is solved, standard deviation"`
	Told     []trialTold    `json:"told" means:"what the readings tell; empty without them"`
	Turns    float64        `json:"folds_turn" means:"how likely it is that folds turn about their stitches, 0 to 1; 0 without readings"`
	Wrong    []string       `json:"wrong" means:"what contradicts the rest: readings, or weight; empty where all go together"`
	Notes    []string       `json:"notes" means:"what else the readings say"`
	Changes  []check.Change `json:"changes" means:"what to set in the scheme; empty without readings, or where they contradict each other"`
	Cautions []string       `json:"cautions" means:"what can hurt in starching and setting"`

	read bool
}

// posed is one pose and what is expected in it.
type posed struct {
	Key    string  `json:"key" means:"height, tipped, hanging or over"`
	Slope  float64 `json:"slope_deg" unit:"degrees" means:"how far the card is tipped outward"`
	Hold   string  `json:"hold" means:"how to hold it and where to read"`
	Tells  string  `json:"tells" means:"what the reading tells"`
	Soft   float64 `json:"half_as_stiff_mm" unit:"mm" means:"the reading with cloth half as stiff as the scheme's, set well"`
	Expect float64 `json:"as_expected_mm" unit:"mm" means:"as the scheme has it, set well"`
	Stiff  float64 `json:"twice_as_stiff_mm" unit:"mm" means:"twice as stiff"`
	Worse  float64 `json:"set_worse_mm" unit:"mm" means:"as the scheme has it, at a quality of 0.9 of that"`
	Held   float64 `json:"stitch_holds_mm" unit:"mm" means:"as the scheme has it, with a stitch that holds 2 mm"`
}

// trialTold is one thing that the readings tell.
type trialTold struct {
	What  string  `json:"what" means:"bend_mm, quality, catch_mm, formed_mm or mass_g_per_m2"`
	Value float64 `json:"value" means:"the middle of what it may be"`
	Low   float64 `json:"low" means:"its interval of nine in ten, low end"`
	High  float64 `json:"high" means:"its interval of nine in ten, high end"`
}

// newTrialSaid says what to make.
func newTrialSaid(s scheme.Scheme, t *trial.Table, u scheme.Units) (trialSaid, error) {
	a := trialSaid{Name: s.Name, Code: s.Code(), Off_mm: trial.TableOff_mm, Make: []string{}, Poses: []posed{}, Told: []trialTold{}, Wrong: []string{}, Notes: []string{}, Changes: []check.Change{}}
	for _, p := range t.Card.Steps(u) {
		a.Make = append(a.Make, p.Do.String())
	}
	own := trial.Values{Bend_mm: t.Card.Bend_mm, Quality: s.Starch.Quality}
	ys := t.Expect(own)
	for r, p := range trial.Poses {
		y := ys[r]
		a.Poses = append(a.Poses, posed{p.Key, trial.Slope_deg(trial.Reading(r)), p.Hold.String(), p.Tells.String(), y.Soft_mm, y.Expected_mm, y.Stiff_mm, y.Worse_mm, y.Held_mm})
	}
	r, err := sim.Draw(s)
	if err != nil {
		return a, err
	}
	a.Cautions = cautions(r, u, "hot", "needles")
	return a, nil
}

// answer adds what the readings tell.
func (a *trialSaid) answer(got *trial.Answer, t *trial.Table) {
	a.read, a.Turns = true, got.Turns
	for _, q := range []struct {
		what string
		b    trial.Bounds
		is   bool
	}{{"bend_mm", got.Bend_mm, true}, {"quality", got.Quality, true}, {"catch_mm", got.Catch_mm, true}, {"formed_mm", got.Formed_mm, got.Formed_mm != trial.Bounds{}}, {"mass_g_per_m2", got.Mass_gm2, got.Mass_gm2.Value > 0}} {
		if q.is {
			a.Told = append(a.Told, trialTold{q.what, q.b.Value, q.b.Low, q.b.High})
		}
	}
	for _, r := range got.Wrong {
		a.Wrong = append(a.Wrong, trial.Keys[r])
	}
	if got.MassOff {
		a.Wrong = append(a.Wrong, "weight")
	}
	for _, n := range got.Notes(&t.Card) {
		a.Notes = append(a.Notes, n.String())
	}
	if c := got.Changes(&t.Card); c != nil {
		a.Changes = c
	}
}

func (a trialSaid) text(u scheme.Units) string {
	var b strings.Builder
	heading(&b, a.Name)
	if !a.read {
		for i, do := range a.Make {
			b.WriteString(wrapped(fmt.Sprintf("%d. %s", i+1, do), 80, ""))
		}
		for _, p := range a.Poses {
			b.WriteString(wrapped(fmt.Sprintf("--%s: %s It tells %s.", p.Key, p.Hold, p.Tells), 80, ""))
		}
		fmt.Fprintf(&b, "\nWhat the ruler would read, mm:\n%-9s %9s %9s %9s %9s %9s\n", "", "half as", "as", "twice as", "set", "stitch")
		fmt.Fprintf(&b, "%-9s %9s %9s %9s %9s %9s\n", "", "stiff", "expected", "stiff", "worse", "holds")
		for _, p := range a.Poses {
			fmt.Fprintf(&b, "%-9s", p.Key)
			for _, x := range []float64{p.Soft, p.Expect, p.Stiff, p.Worse, p.Held} {
				fmt.Fprintf(&b, " %9s", scheme.Minus(fmt.Sprintf("%.1f", math.Round(x*2)/2+0)))
			}
			fmt.Fprintln(&b)
		}
		b.WriteString(wrapped(fmt.Sprintf("By the model; its table is off by %.2g mm. No cloth was tried.", a.Off_mm), 80, ""))
		for _, c := range a.Cautions {
			b.WriteString(wrapped("Caution: "+c, 80, ""))
		}
		return b.String()
	}
	for _, w := range a.Wrong {
		b.WriteString(wrapped(fmt.Sprintf("Contradiction: no stiffness, setting and stitch explain the %s beside the rest. Read it again.", w), 80, ""))
	}
	for _, q := range a.Told {
		b.WriteString(q.text(u))
	}
	for _, n := range a.Notes {
		b.WriteString(wrapped(n, 80, ""))
	}
	if len(a.Changes) > 0 {
		fmt.Fprintf(&b, "  %s\n", sets(a.Changes))
	}
	return b.String()
}

// text is one thing told, with its interval.
func (q trialTold) text(u scheme.Units) string {
	length := func(mm float64) string { return roundedLength(math.Round(mm*2)/2, u) }
	hundredth := func(x float64) string { return fmt.Sprintf("%.2f", x) }
	for _, is := range []struct {
		what, name string
		say        func(float64) string
	}{
		{"bend_mm", "bending length, starched", length},
		{"quality", "quality of the setting", hundredth},
		{"catch_mm", "stitch holds", length},
		{"formed_mm", "formed taller by", length},
		{"mass_g_per_m2", "mass, g/m²", func(x float64) string { return fmt.Sprintf("%.0f", x) }},
	} {
		if is.what == q.What {
			return fmt.Sprintf("%-25s %s, 9 times in 10 between %s and %s\n", is.name, is.say(q.Value), is.say(q.Low), is.say(q.High))
		}
	}
	return ""
}
