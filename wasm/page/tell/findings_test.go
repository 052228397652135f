package tell

import (
	"strings"
	"testing"

	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/ask"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/work"
	"ruffwright/wasm/wire"
)

// told is what the page tells of a ruff with these findings, when the changes that they
// offer were tried with these effects and the ways were found; an effect of nil cannot be
// told.
func told(t *testing.T, findings []check.Finding, effects []*wire.Effect, ways []wire.MendingWay) (advice, found string, asks wire.Request) {
	t.Helper()
	w, err := work.New(scheme.Default())
	if err != nil {
		t.Fatal(err)
	}
	w.Findings = findings
	a := &ask.Ask{Voice: &say.Voice{}}
	a.See(ask.Want{A: w.Asked, Scheme: w.Scheme, Whole: true, Findings: w.Findings}, true)
	a.Wake(0)
	hear := func(r wire.Reply) {
		head, body, err := r.Encode()
		if err != nil {
			t.Fatal(err)
		}
		a.Hear(0, head, body, 0)
	}
	asked := func() (r wire.Request) {
		for _, p := range a.Next(0) {
			if p.Op == doc.OpSolver && p.Name == "ask" {
				if r, err = wire.ReadRequest(p.Value, p.Body); err != nil {
					t.Fatal(err)
				}
			}
		}
		return r
	}
	hear(wire.Reply{Alive: true})
	for i := range effects {
		tries := asked()
		if len(tries.Tries) != 1 {
			t.Fatalf("of %d changes, each tried once, %d are asked for at the %d. request", len(effects), len(tries.Tries), i+1)
		}
		tried := wire.Tried{Changes: tries.Tries[0].Changes, Now: wire.Price{Height_mm: 17.7, Cloth_mm: 560}, Effect: effects[i]}
		if effects[i] == nil {
			tried.Why.Text = word.Say("it did not come to rest")
		}
		hear(wire.Reply{ID: tries.ID, Last: true, Tried: &tried})
	}
	if asks = asked(); asks.Task == wire.Mend {
		hear(wire.Reply{ID: asks.ID, Last: true, Mended: &wire.Mended{Ways: ways}})
	}
	tell := Tell{Work: w, Ask: a}
	return doc.HTML(tell.AdviceNodes()...), doc.HTML(tell.FindingNodes()...), asks
}

// TestAdvice: what leaves nothing comes first; what spoils something is only tried, says
// what is new, and comes last; what does nothing is not offered; what several findings
// share is told once, what one offers alone is told there.
func TestAdvice(t *testing.T) {
	change := func(name string) check.Remedy {
		return check.Remedy{Sentence: word.Name("Do " + name + "."), Changes: []check.Change{{Key: "name", Value: name}}}
	}
	bow := check.Finding{ID: "bow", Severity: check.Stop, Unit: "mm", Value: 9, Sentence: word.Name("It swings.")}
	for _, name := range []string{"nothing", "trade", "harm", "cure", "unknown"} {
		bow.Remedies = append(bow.Remedies, change(name))
	}
	sinks := check.Finding{ID: "sinks", Severity: check.Mend, Sentence: word.Name("It sinks."), Remedies: []check.Remedy{change("cure"), change("trade")}}
	quarters := check.Finding{ID: "quarters", Severity: check.Note, Sentence: word.Name("No quarters."), Remedies: []check.Remedy{change("forty")}}
	line := func(far float64) figure.Line { return figure.Line{{0, 20}, {30, 20 - far}} }
	drawn := figure.Outline{Crest: line(0), Trough: line(4)}
	both := []string{"bow", "sinks"}
	cure := wire.Effect{Gone: both, Then: wire.Price{Height_mm: 41.6, Cloth_mm: 561}, Drawn: drawn}
	advice, found, asks := told(t, []check.Finding{bow, sinks, quarters}, []*wire.Effect{
		{Left: both},
		{Gone: both, New: []string{"height"}},
		{Left: both, New: []string{"joins"}},
		&cure,
		nil,
		{Left: both, Quiet: []string{"quarters"}},
	}, []wire.MendingWay{{Sentences: []word.Packed{{Text: word.Name("Do cure in mm.")}}, Changes: change("cure").Changes, Effect: cure}})
	if asks.Task != wire.Mend || len(asks.Tries) != 1 || asks.Tries[0].Changes[0].Value != "cure" {
		t.Errorf("what to do is asked for with %+v", asks.Tries)
	}
	order := []string{"Do this: ", "Do cure.", "Apply 1", "Gone: the lower edge is not supported; the ruff sinks or turns up.", "Nothing is left to stop for or to mend.",
		"Height 41.5 mm (now 17.5 mm); cloth 570 mm (now 560 mm).", "As now: droop, bow, starch, work.", "One other way", "Do trade.", "Try 2", "New: the height is off."}
	at := 0
	for _, want := range order {
		i := strings.Index(advice[at:], want)
		if i < 0 {
			t.Fatalf("no %q in its place in %s", want, advice)
		}
		at += i
	}
	for _, want := range []string{"Stop: The lower edge is not supported. ", "Apply 1", "ends it", "Do unknown.", "Do forty.", "Gone: sets do not divide into quarters."} {
		if !strings.Contains(found, want) {
			t.Errorf("no %q in %s", want, found)
		}
	}
	for _, never := range []string{"Do nothing", "Do harm", "Do cure in mm"} {
		if strings.Contains(advice+found, never) {
			t.Errorf("%q is offered", never)
		}
	}
	for _, once := range []string{"Do cure.</", "Do trade.</", "Do unknown.</", "Do forty.</"} {
		if n := strings.Count(advice+found, once); n != 1 {
			t.Errorf("%q stands %d times", once, n)
		}
	}

	// Where nothing helps, nothing is asked for, and that is said.
	advice, _, asks = told(t, []check.Finding{sinks}, []*wire.Effect{{Left: both}, {Gone: both, New: []string{"height"}}}, nil)
	if asks.Task == wire.Mend || !strings.Contains(advice, "No change that was tried makes it better") || strings.Contains(advice, "Do this") {
		t.Errorf("nothing helps: %s, %s", asks.Task, advice)
	}
	// Where nothing is wrong there is nothing to do.
	if advice, _, _ = told(t, []check.Finding{quarters}, []*wire.Effect{{Quiet: []string{"quarters"}}}, nil); advice != "" {
		t.Errorf("nothing is wrong: %s", advice)
	}
}

// TestGlimpse: a picture shows what a finding speaks of before and after, in one scale; where
// the lines do not differ there is none.
func TestGlimpse(t *testing.T) {
	ruff := func(falls, swings float64) figure.Outline {
		crest, trough := figure.Line{{0, 36}, {60, 40 - falls}}, figure.Line{{0, 0}, {60, -2 - falls}}
		o := figure.Outline{Band_mm: 36, Crest: crest, Trough: trough, Set: figure.Line{{0, 0}, {10, 40}}}
		o.BowedCrest, o.BowedTrough = figure.Line{{0, 36}, {60, 40 - falls - swings}}, figure.Line{{0, 0}, {60, -2 - falls - swings}}
		return o
	}
	node, ok := glimpse("bow", ruff(0, 20), ruff(0, 0.5), "with 1")
	html := doc.HTML(node)
	if !ok || strings.Count(html, "class=\"bowed\"") != 1 || strings.Count(html, "<svg") != 2 || !strings.Contains(html, "Dashed: when the wearer bows.") {
		t.Errorf("%t: %s", ok, html)
	}
	if boxes := strings.Split(html, "viewBox="); len(boxes) != 3 || boxes[1][:14] != boxes[2][:14] {
		t.Errorf("two scales: %s", html)
	}
	if _, ok := glimpse("bow", ruff(0, 20), ruff(0, 20.5), "then"); ok {
		t.Error("the same twice is shown")
	}
	if _, ok := glimpse("height", ruff(0, 20), ruff(30, 0), "then"); ok {
		t.Error("another difference than the finding's is shown")
	}
	if _, ok := glimpse("strip-short", ruff(0, 20), ruff(30, 0), "then"); ok {
		t.Error("the strip's length cannot be seen on a set")
	}
	if _, ok := glimpse("sinks", ruff(0, 0), ruff(30, 0), "then"); !ok {
		t.Error("a ruff that sinks is not shown")
	}
}
