package compare

import (
	"context"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

func demoScheme(t testing.TB, name string, sets ...string) scheme.Scheme {
	t.Helper()
	text, err := os.ReadFile("../../../assets/demos/" + name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	s, err := scheme.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i+1 < len(sets); i += 2 {
		if err := s.Set(sets[i], sets[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	return s
}

func drawn(t testing.TB, s scheme.Scheme) Side {
	t.Helper()
	r, err := sim.Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	return SideOf(r)
}

func settledRuff(t testing.TB, s scheme.Scheme) Side {
	t.Helper()
	d := drawn(t, s)
	var opt sim.Options
	opt.Grid.NU, opt.Grid.NV = 16, 8 // quick
	var err error
	d.Ruff, err = sim.Settle(context.Background(), d.Ruff, opt)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// contradicts lists what Of says of a and b that does not fit what it says of b
// and a.
func contradicts(a, b Side) []string {
	var out []string
	there, back := Of(a, b, scheme.Millimetres), Of(b, a, scheme.Millimetres)
	turned := map[Which]Which{First: Second, Second: First, Neither: Neither}
	if there.Better != turned[back.Better] || there.Waits != back.Waits || len(there.Measures) != len(back.Measures) || len(there.Troubles) != len(back.Troubles) {
		out = append(out, fmt.Sprintf("there %q, back %q", there.Sentence, back.Sentence))
	}
	minus := strings.NewReplacer("+", "−", "−", "+")
	for i := range min(len(there.Measures), len(back.Measures)) {
		m, n := there.Measures[i], back.Measures[i]
		if fmt.Sprint(m.A) != fmt.Sprint(n.B) || fmt.Sprint(m.B) != fmt.Sprint(n.A) || m.Better != turned[n.Better] || m.Difference.String() != minus.Replace(n.Difference.String()) {
			out = append(out, fmt.Sprintf("%+v, and %+v", m, n))
		}
	}
	return out
}

// inLanguages reports what a comparison says that comes from no template: its
// sentence and what it says of measures.
func inLanguages(t testing.TB, c Comparison) {
	t.Helper()
	texts := []word.Text{c.Sentence}
	for _, m := range c.Measures {
		texts = append(texts, m.A.Text, m.B.Text, m.Difference)
	}
	for _, text := range texts {
		got := text.In(word.Accented)
		for _, w := range regexp.MustCompile(`[A-Za-z]*[aeiouyAEIOUY][A-Za-z]+`).FindAllString(got, -1) {
			if w != "in" { // inches
				t.Errorf("%q is in no language: %s", w, got)
			}
		}
		if strings.Contains(got, "%!") {
			t.Error(text)
		}
	}
}

// TestBothWays: B against A says the opposite of A against B, on every pair
// of demos; what is said names no number that is not one.
func TestBothWays(t *testing.T) {
	var ruffs []Side
	for _, name := range []string{"sound", "tall", "wide", "floppy", "short", "uneven", "early", "cuff", "flaps-up"} {
		s := demoScheme(t, name)
		ruffs = append(ruffs, drawn(t, s), settledRuff(t, s))
	}
	for i, a := range ruffs {
		for _, b := range ruffs[i+1:] {
			for _, c := range contradicts(a, b) {
				t.Error(c)
			}
			inLanguages(t, Of(a, b, scheme.Inches))
			c := Of(a, b, scheme.Inches)
			for _, m := range c.Measures {
				if strings.Contains(m.A.Text.String()+m.B.Text.String()+m.Difference.String()+c.Sentence.String(), "NaN") || m.Same && m.Better != Neither {
					t.Errorf("%+v", m)
				}
			}
		}
	}
}

// TestSewing: the first comparison that everybody needs, from either side.
// That one edge alone does not hold is what every source of the trade says; how far
// it moves is the solver's.
func TestSewing(t *testing.T) {
	both := demoScheme(t, "sound", "starch.bend", "0")
	top, err := check.SewnOtherwise(both)
	if err != nil || top.Pleat.Anchor != scheme.AnchorTop {
		t.Fatal(top.Pleat, err)
	}
	held, loose := settledRuff(t, both), settledRuff(t, top)
	c := Of(held, loose, scheme.Millimetres)
	if c.Better != First || c.Waits || len(c.Fields) != 1 || c.Fields[0].Field.Key != "pleat.anchor" {
		t.Errorf("%+v", c)
	}
	moves := func(s Side) string { return check.Length(s.Ruff.Solved.Ruff.Bow_mm, scheme.Millimetres).String() }
	for _, want := range []string{"A is better", "“The lower edge is not supported”", "(sewn at the top and bottom edge) moves by " + moves(held), "(sewn at the top edge only) by " + moves(loose)} {
		if !strings.Contains(c.Sentence.String(), want) {
			t.Errorf("lacks %q: %s", want, c.Sentence)
		}
	}
	if !slices.ContainsFunc(c.Troubles, func(t Trouble) bool { return t.ID == "bow" && t.A == "" && t.B == check.Mend }) {
		t.Errorf("troubles %+v", c.Troubles)
	}
	// From one edge to both the tucks come along that both ask for, and with own
	// marks the marks follow.
	single := demoScheme(t, "floppy")
	sewn, err := check.SewnOtherwise(single)
	if err != nil || sewn.Pleat.Anchor != scheme.AnchorBoth || sewn.Pleat.TuckTop+sewn.Pleat.TuckBottom == 0 {
		t.Errorf("floppy sewn at both: %+v, %v", sewn.Pleat, err)
	}
	uneven := demoScheme(t, "uneven")
	top, err = check.SewnOtherwise(uneven)
	if err != nil || !drawn(t, top).Ruff.Plan.Row.OneEdge() || drawn(t, uneven).Ruff.Plan.Row.OneEdge() {
		t.Errorf("own marks: %v, %v", drawn(t, top).Ruff.Plan.Row, err)
	}
	for _, m := range uneven.Pleat.Marks {
		if m.Fold == scheme.Trough && m.Sewn == scheme.EdgeTop {
			t.Fatal("the marks of the scheme itself were changed")
		}
	}
}

// TestClaimsNothing: where nothing can be known, or nothing differs by more
// than the model can tell, neither is better.
func TestClaimsNothing(t *testing.T) {
	sound := demoScheme(t, "sound")
	a := settledRuff(t, sound)
	stiffer := demoScheme(t, "sound", "starch.bend", "60")
	for name, c := range map[string]Comparison{
		"itself":        Of(a, a, scheme.Millimetres),
		"a little more": Of(a, settledRuff(t, stiffer), scheme.Millimetres),
		"not solved":    Of(a, drawn(t, demoScheme(t, "floppy")), scheme.Millimetres),
		"neither":       Of(drawn(t, sound), drawn(t, demoScheme(t, "floppy")), scheme.Millimetres),
	} {
		if c.Better != Neither || strings.Contains(c.Sentence.String(), "is better") {
			t.Errorf("%s: %q", name, c.Sentence)
		}
		waits := strings.HasPrefix(name, "not") || name == "neither"
		if c.Waits != waits || strings.Contains(c.Sentence.String(), "not solved yet") != waits {
			t.Errorf("%s: waits %v: %q", name, c.Waits, c.Sentence)
		}
		for _, m := range c.Measures {
			if m.Key == "bow_mm" && waits && (m.B.Known || m.B.Text.String() != "not solved yet" || m.Difference.String() != "" || m.Better != Neither) {
				t.Errorf("%s: %+v", name, m)
			}
			if m.Key == "strip_mm" && !m.B.Known {
				t.Errorf("%s: geometry does not wait: %+v", name, m)
			}
		}
	}
	restless := a
	solved := *a.Ruff.Solved
	solved.Ruff.Converged = false
	restless.Ruff.Solved = &solved
	if c := Of(a, restless, scheme.Millimetres); c.Better != Neither || !strings.Contains(c.Sentence.String(), "cloth of B did not come to rest") {
		t.Errorf("restless: %q", c.Sentence)
	}
	// Sets without mechanics stop by their geometry.
	none := drawn(t, demoScheme(t, "sound", "band.height", "60", "pleat.panel", "60"))
	if c := Of(a, none, scheme.Millimetres); c.Better != First || c.Waits || !strings.Contains(c.Sentence.String(), "B is not to be sewn so") {
		t.Errorf("no mechanics: %q", c.Sentence)
	}
	if c := Of(Side{}, Side{}, scheme.Millimetres); c.Better != Neither {
		t.Errorf("nothing at all: %+v", c)
	}
}

// TestWeighsFindingsFirst: what stops counts before what is to be mended, that before how
// firm it is, that before what it costs.
func TestWeighsFindingsFirst(t *testing.T) {
	a := settledRuff(t, demoScheme(t, "sound"))
	for _, c := range []struct {
		name string
		sets []string
		want Which
		says string
	}{
		{"sound", []string{"strip.have", "2000"}, First, "B is not to be sewn so"}, // though it takes less cloth
		{"sound", []string{"pleat.panel", "60"}, First, "A is better: 1 thing is to mend in B (“The height is off”), in A nothing."},
		{"sound", []string{"strip.along", "warp", "hand.stitches", "8"}, First, "A takes less"},
		{"sound", []string{"hand.pace", "practised"}, Second, "B takes less"},
	} {
		got := Of(a, settledRuff(t, demoScheme(t, c.name, c.sets...)), scheme.Millimetres)
		if got.Better != c.want || !strings.Contains(got.Sentence.String(), c.says) {
			t.Errorf("%v: %s %q", c.sets, got.Better, got.Sentence)
		}
	}
}
