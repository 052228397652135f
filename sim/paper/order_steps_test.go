package paper

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"ruffwright/geom/pattern"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// stepsOf lays out every sheet of a scheme as drawn and gives the words of all of
// them by kind.
func stepsOf(t *testing.T, s scheme.Scheme, u scheme.Units) (Input, map[string]string) {
	t.Helper()
	r, err := sim.Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	in := input(t, nil, u)
	in.Ruff, in.Findings = r, check.Find(r, u)
	if in.Pattern, err = pattern.New(r.Plan); err != nil {
		t.Fatal(err)
	}
	pages, err := Pages(in)
	if err != nil {
		t.Fatal(err)
	}
	words := map[string]string{}
	for _, p := range pages {
		if _, ok := words[p.Sheet]; !ok {
			words[p.Sheet] = said(pages, p.Sheet)
		}
	}
	return in, words
}

// wanting says of the order of work and of the sheets beside it what must be said of
// a scheme, and what must not because the scheme does not have it.
func wanting(in Input) (says, never []string) {
	p, plan := in.Pattern, in.Ruff.Plan
	s, st := plan.Scheme, p.Strip
	expect := func(is bool, yes, no []string) {
		if is {
			says, never = append(says, yes...), append(never, no...)
		} else {
			says, never = append(says, no...), append(never, yes...)
		}
	}
	cut := 0
	for _, c := range p.Cut.Pieces {
		if !c.AtHand {
			cut++
		}
	}
	never = append(never, " 0 pieces", "of 0 mm", "of 0 in", "0 joins", "0 of them")
	expect(cut > 0, []string{"of strip, "}, nil)
	expect(cut > 0 && st.Hem_mm > 0, []string{"Hem. "}, nil)
	expect(cut > 0 && st.Hem_mm == 0, []string{"No hem is planned"}, nil)
	expect(len(p.Cut.Joins) > 0, []string{"Join before hemming."}, nil)
	expect(st.Hem_mm > 0, []string{"from the hemmed end, never"}, []string{"from the strip's first end, never"})
	expect(st.Takeup_mm > 0, []string{"Turn in the inner edge: its fold is the stitch line."}, []string{"The inner edge is the stitch line."})
	expect(st.Spare_mm > 0, []string{"Then cut off the spare"}, nil)
	if st.Spare_mm > 0 {
		never = append(never, "and both ends:")
	}
	expect(p.Band.AtHand, []string{"Take the band that is made."}, []string{"Make the band, finished all round."})
	if s.Strip.Selvedge > 0 {
		never = append(never, "selvedge to selvedge")
	}
	tucks := false
	sewn := map[scheme.Edge]map[scheme.Fold]int{scheme.EdgeTop: {}, scheme.EdgeBottom: {}, scheme.EdgeNone: {}}
	for _, m := range plan.Row {
		tucks = tucks || m.Tuck_mm > 1e-6
		sewn[m.Edge][m.Fold]++
	}
	expect(tucks, []string{"with a tuck"}, nil)
	for _, e := range []scheme.Edge{scheme.EdgeTop, scheme.EdgeBottom} {
		for _, f := range []scheme.Fold{scheme.Crest, scheme.Trough} {
			expect(sewn[e][f] > 0, []string{fmt.Sprintf("%ss on the band's %s", foldName[f], edgeName[e])}, nil)
		}
	}
	expect(s.Pleat.Lines == 2, []string{"a second line of stitches"}, nil)
	expect(s.Band.Overlap > 0, []string{"the overlap goes under the other end"}, []string{"the band's ends meet"})
	if s.Band.Overlap == 0 {
		never = append(never, "overlap's", "without overlap")
	}
	closes := map[scheme.Closure]string{scheme.Hooks: "Sew the hooks inside", scheme.Buttons: "Sew the buttons", scheme.Ties: "Work eyelets"}
	for c, words := range closes {
		expect(s.Band.Closure == c, []string{words}, nil)
	}
	never = append(never, "Sew on")
	expect(s.Wearer.Part == scheme.Wrist, []string{"Two are made, left and right."}, nil)
	if s.Wearer.Part == scheme.Wrist {
		never = append(never, "wearer's left", "centre back", "left end lies", "a neck")
	}
	return says, never
}

// TestSteps: over demos and schemes of every kind the order of work says what is to
// be done with this one, and speaks of nothing that it does not have; pins are sewn
// folds, and steps give the numbers of the table.
func TestSteps(t *testing.T) {
	var all []scheme.Scheme
	var called []string
	add := func(name string, s scheme.Scheme) { all, called = append(all, s), append(called, name) }
	files, err := filepath.Glob(filepath.Join("..", "..", "assets", "demos", "*.json"))
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		add(name, demo(t, name))
	}
	axes := []struct {
		key    string
		values []string
	}{
		{"pleat.anchor", []string{"both", "top", "bottom"}},
		{"strip.hem", []string{"2", "0"}},
		{"strip.spare", []string{"2", "0"}},
		{"band.closure", []string{"hooks", "buttons", "ties"}},
		{"band.overlap", []string{"15", "0"}},
		{"strip.takeup", []string{"8", "0"}},
		{"strip.have", []string{"0", "6000", "3000"}},
		{"band.length", []string{"0", "430"}},
		{"strip.selvedge", []string{"8", "0"}},
		{"strip.join", []string{"1.5", "0"}},
		{"band.seam", []string{"10", "0"}},
		{"pleat.lines", []string{"1", "2"}},
		{"wearer.part", []string{"neck", "wrist"}},
	}
	// Each pair of neighbouring axes in every combination, the others at a value that
	// goes round: a few dozen schemes in which every two faults may meet.
	for a := range axes {
		b := (a + 1) % len(axes)
		for x, va := range axes[a].values {
			for y, vb := range axes[b].values {
				s := scheme.Default()
				name := ""
				for k, axis := range axes {
					v := axis.values[(x+2*y+k)%len(axis.values)]
					switch k {
					case a:
						v = va
					case b:
						v = vb
					}
					if err := s.Set(axis.key, v); err != nil {
						t.Fatal(err)
					}
					name += axis.key + "=" + v + " "
				}
				if s.Wearer.Part == scheme.Wrist {
					s.Wearer.Girth, s.Ruff.Sets = 190, 24
				}
				add(name, s)
			}
		}
	}
	own := scheme.Default()
	for i := range 41 {
		m := scheme.Mark{Place: float64(i) * 50, Fold: scheme.Trough, Sewn: scheme.EdgeNone}
		if i%2 == 1 {
			m.Fold, m.Sewn = scheme.Crest, scheme.EdgeTop
		}
		own.Pleat.Marks = append(own.Pleat.Marks, m)
	}
	add("own marks, top", own)
	ruffs := 0
	for i, s := range all {
		if testing.Short() && i%3 != 0 {
			continue
		}
		if _, err := pleat.NewPlan(s); err != nil {
			continue // no ruff
		}
		ruffs++
		t.Run(called[i], func(t *testing.T) {
			in, words := stepsOf(t, s, []scheme.Units{scheme.Millimetres, scheme.Inches}[i%2])
			order := words["order"]
			says, never := wanting(in)
			for _, w := range says {
				if !strings.Contains(order, w) {
					t.Errorf("no step says %q in %s", w, order)
				}
			}
			for _, w := range never {
				if strings.Contains(order, w) {
					t.Errorf("a step says %q in %s", w, order)
				}
			}
			if strings.Index(order, "Wash before cutting") > strings.Index(order, "Test the washed cloth") {
				t.Error("the cloth is tested before it is washed")
			}
			table := in.Pattern.Marks(in.Units)
			for _, q := range in.Pattern.Band.Pins {
				if in.Ruff.Plan.Row[q.Mark].Edge == scheme.EdgeNone {
					t.Errorf("free mark %d is pinned", q.Mark)
				}
				for _, r := range table.Rows {
					if r.Mark == q.Mark && !strings.Contains(order, "("+table.Text(r.Place)+" "+in.Units.Symbol()+")") {
						t.Errorf("the pin of mark %d is not at %s as in the table", q.Mark, table.Text(r.Place))
					}
				}
			}
			if in.Pattern.Strip.Takeup_mm > 0 && (!strings.Contains(words["marks"], "at the stitch line") || !strings.Contains(words["tape"], "upper edge: stitch line")) {
				t.Error("table or tape do not say where the stitch line is")
			}
		})
	}
	if ruffs < 60 && !testing.Short() {
		t.Errorf("%d ruffs only", ruffs)
	}
}

// TestStopOnEverySheet: what must not be sewn says so on each of its sheets, and
// nothing else does.
func TestStopOnEverySheet(t *testing.T) {
	for name, stops := range map[string]bool{"ends-up": true, "sound": false} {
		in, words := stepsOf(t, demo(t, name), scheme.Millimetres)
		if (in.Stops() > 0) != stops {
			t.Fatalf("%s: %d stops", name, in.Stops())
		}
		for sheet, w := range words {
			if strings.Contains(w, "Do not sew this ruff") != stops {
				t.Errorf("%s: sheet %s: stop sign %v", name, sheet, !stops)
			}
		}
	}
}

// TestInches: with inches no step is in metric units, fractions are those of a tape
// measure, and test strips are a round 1 × 10 in.
func TestInches(t *testing.T) {
	_, words := stepsOf(t, scheme.Default(), scheme.Inches)
	for _, sheet := range []string{"order", "band", "tape", "marks"} {
		if m := regexp.MustCompile(`\b[0-9.]+ (mm|cm)\b|to the cm`).FindString(words[sheet]); m != "" {
			t.Errorf("sheet %s in inches says %q", sheet, m)
		}
	}
	if !strings.Contains(words["cutting"], "10 in × 1 in") || !strings.Contains(words["swatch"], "1 in wide and 10 in long") {
		t.Error("the test strips are not 10 × 1 in")
	}
	for _, m := range regexp.MustCompile(`([0-9]+) ([0-9]+)/32 in`).FindAllString(words["order"], -1) {
		if !strings.Contains(words["marks"], strings.TrimSuffix(m, " in")) {
			t.Errorf("a step says %s, on no tape measure", m)
		}
	}
}
