package page

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/window"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// value is the last value that patches give to an element, or to its attribute.
func lastOf(patches []doc.Patch, op doc.Op, id, name string) (string, bool) {
	for i := len(patches) - 1; i >= 0; i-- {
		if p := patches[i]; p.Op == op && p.ID == id && p.Name == name {
			return p.Value, true
		}
	}
	return "", false
}

// solvedPage is a page whose ruff is solved.
func solvedPage(t *testing.T) *Page {
	t.Helper()
	p := newPage(t)
	r, err := sim.Settle(context.Background(), p.ruff, sim.Options{Grid: window.Coarse, SkipBow: true, SkipTangents: true, SkipOther: true})
	if err != nil {
		t.Fatal(err)
	}
	p.calm = true
	p.settles(r.Solved, 0)
	p.calm = false
	return p
}

// TestFoldSlides: the slider shows the strip on its way in the hand, whichever
// view was there; its text says where; at 100 the ruff is back.
func TestFoldSlides(t *testing.T) {
	p := solvedPage(t)
	p.Handle(doc.Event{Kind: doc.Do, Name: "view", Value: "above"})
	want := map[string]string{"0": "foldstep.flat", "20": "foldpart.flat", "33": "foldstep.pleated", "50": "foldpart.pleated", "67": "foldstep.drawn", "80": "foldpart.drawn"}
	for at, key := range want {
		p.Changed()
		out := p.Handle(doc.Event{Kind: doc.Typing, Name: "fold", Value: at})
		if !p.view.Turned || !p.folding() || !p.Changed() {
			t.Fatalf("at %s the strip is not shown", at)
		}
		if got, ok := lastOf(out, doc.OpText, "fold-name", ""); ok && got != say.Word(key) || p.foldName() != say.Word(key) {
			t.Errorf("at %s the page says %q, want %q", at, p.foldName(), say.Word(key))
		}
		if got, _ := lastOf(out, doc.OpAttr, "fold", "aria-valuetext"); !strings.Contains(got, say.Word(key)) || !strings.Contains(got, at) {
			t.Errorf("at %s the slider says %q", at, got)
		}
		d, _, _, err := p.Picture()
		if err != nil || len(d.Items) == 0 {
			t.Fatalf("at %s: %v", at, err)
		}
	}
	if !strings.Contains(p.Description(), p.foldName()) {
		t.Errorf("the description does not tell of it: %s", p.Description())
	}
	p.Handle(doc.Event{Kind: doc.Set, Name: "fold", Value: "100"})
	if p.folding() || p.tone(0, &p.ruff) != nil {
		t.Error("at 100 the ruff is not back")
	}
	for _, bad := range []string{"", "NaN", "much"} {
		p.Handle(doc.Event{Kind: doc.Typing, Name: "fold", Value: bad})
	}
	p.Handle(doc.Event{Kind: doc.Typing, Name: "fold", Value: "-1e300"})
	if p.fold.at != 0 {
		t.Errorf("below its beginning the slider stands at %g", p.fold.at)
	}
	p.Handle(doc.Event{Kind: doc.Do, Name: "view", Value: "side"})
	if p.fold.at != wholeFold {
		t.Error("another view does not end it")
	}
}

// TestFoldPlays: play runs from laid flat to released, tells each step, stops,
// and leaves nothing due: an idle page draws nothing.
func TestFoldPlays(t *testing.T) {
	p := solvedPage(t)
	now := 10000.0
	out := p.Handle(doc.Event{Kind: doc.Do, Name: "fold", At_ms: now})
	var told []string
	due := func() bool {
		for _, patch := range out {
			if patch.Op == doc.OpText && patch.ID == "said" {
				told = append(told, patch.Value)
			}
		}
		return slices.ContainsFunc(out, func(p doc.Patch) bool { return p.Op == doc.OpTimer && p.Name == "fold" })
	}
	frames := 0
	for due() {
		now += frame_ms
		out = p.Handle(doc.Event{Kind: doc.Timer, Name: "fold", At_ms: now})
		frames++
		if frames > play_ms {
			t.Fatal("it never ends")
		}
	}
	if p.fold.at != wholeFold || p.fold.playing {
		t.Errorf("ends at %g", p.fold.at)
	}
	if want := play_ms / frame_ms; math.Abs(float64(frames-want)) > 3 {
		t.Errorf("%d frames, want %d", frames, want)
	}
	for step := range foldSteps {
		if !slices.Contains(told, p.foldStory(step)) {
			t.Errorf("%q is not told among %q", p.foldStory(step), told)
		}
	}
	p.Changed()
	for range 5 {
		now += 1000
		p.Handle(doc.Event{Kind: doc.Timer, Name: "fold", At_ms: now})
		p.Handle(doc.Event{Kind: doc.Timer, Name: "voice", At_ms: now})
	}
	if p.Changed() {
		t.Error("a page that has ended goes on drawing")
	}
	// Pause, and on from there.
	p.Handle(doc.Event{Kind: doc.Do, Name: "fold", At_ms: now})
	p.Handle(doc.Event{Kind: doc.Timer, Name: "fold", At_ms: now + 3000})
	p.Handle(doc.Event{Kind: doc.Do, Name: "fold", At_ms: now + 3000})
	at := p.fold.at
	if p.Handle(doc.Event{Kind: doc.Timer, Name: "fold", At_ms: now + 5000}); p.fold.at != at || at <= 0 || at >= wholeFold {
		t.Errorf("paused at %g, then %g", at, p.fold.at)
	}
	if p.Handle(doc.Event{Kind: doc.Do, Name: "fold", At_ms: now + 9000}); !p.fold.playing || p.fold.from != at {
		t.Error("play does not go on from where it was paused")
	}
}

// TestFoldWithoutMotion: under reduced motion play goes step by step, and no
// timer runs.
func TestFoldWithoutMotion(t *testing.T) {
	p := newPage(t)
	p.Handle(doc.Event{Kind: doc.Calm, Name: "yes"})
	for _, want := range []float64{0, foldPart, 2 * foldPart, wholeFold, 0} {
		out := p.Handle(doc.Event{Kind: doc.Do, Name: "fold", At_ms: 1e5})
		if math.Abs(p.fold.at-want) > 1e-9 {
			t.Errorf("a step goes to %g, want %g", p.fold.at, want)
		}
		for _, patch := range out {
			if patch.Op == doc.OpTimer && patch.Name == "fold" {
				t.Error("a timer runs")
			}
		}
	}
}

// TestFoldLandsOnTheRuff: just before its end, the strip's way is the solved
// ruff, and at two thirds the drawn one.
func TestFoldLandsOnTheRuff(t *testing.T) {
	p := solvedPage(t)
	p.foldTo(wholeFold - 1e-9)
	shape, turn := p.foldShape()
	worst := 0.0
	for i, panel := range shape.Panels {
		for k, v := range panel.V {
			worst = max(worst, v.Sub(p.ruff.Solved.Shape.Panels[i].V[k]).Norm())
		}
	}
	if worst > 1e-6 || turn != 0 {
		t.Errorf("released it is %g mm off, turned by %g", worst, turn)
	}
	p.foldTo(2 * foldPart)
	if _, turn := p.foldShape(); turn > 1e-6 {
		t.Errorf("drawn up it is turned by %g", turn)
	}
}

// TestColours: droop waits for the solver, contact does not; what is dyed is what
// the solver and the plan say; the description tells it.
func TestColours(t *testing.T) {
	p := newPage(t)
	p.Handle(doc.Event{Kind: doc.Do, Name: "colour", Value: string(ByDroop)})
	if p.dye.by != AsCloth || p.tone(0, &p.ruff) != nil {
		t.Error("droop is shown that nobody solved")
	}
	p.Handle(doc.Event{Kind: doc.Do, Name: "colour", Value: "taste"})
	p.Handle(doc.Event{Kind: doc.Do, Name: "colour", Value: string(ByContact)})
	if tone := p.tone(0, &p.ruff); tone == nil || tone.Kind != figure.ToneGap || len(tone.Values) != p.ruff.Plan.Panels {
		t.Fatalf("contact is not shown: %v", tone)
	}
	if first := p.tone(0, &p.ruff); first != p.tone(0, &p.ruff) {
		t.Error("the same tone is made twice")
	}
	p = solvedPage(t)
	p.Handle(doc.Event{Kind: doc.Do, Name: "colour", Value: string(ByDroop)})
	tone := p.tone(0, &p.ruff)
	if tone == nil || tone.Kind != figure.ToneDroop {
		t.Fatal("droop is not shown")
	}
	s := p.ruff.Solved
	row := s.Shape.NV + 1
	for i := range tone.Values {
		crest, trough := 0, s.Shape.NU
		if p.ruff.Plan.Row[i].Fold != scheme.Crest {
			crest, trough = trough, crest
		}
		own := s.Droop[s.Of[i]]
		if got, want := tone.Values[i][crest*row+row-1], own[row-1]; got != want {
			t.Fatalf("panel %d's crest droops by %g, solved %g", i, got, want)
		}
		if got, want := tone.Values[i][trough*row+row-1], own[s.Shape.NU*row+row-1]; got != want {
			t.Fatalf("panel %d's trough droops by %g, solved %g", i, got, want)
		}
	}
	if !strings.Contains(p.Description(), p.dyedWords()) || p.dyedWords() == "" {
		t.Errorf("the description does not tell of it: %s", p.Description())
	}
	for _, v := range figure.Views {
		p.Handle(doc.Event{Kind: doc.Do, Name: "view", Value: v.Name})
		if _, _, _, err := p.Picture(); err != nil {
			t.Errorf("%s: %v", v.Name, err)
		}
	}
	// A change of the scheme: the droop is not known any more, and the cloth is white.
	p.Handle(doc.Event{Kind: doc.Set, Name: "ruff.sets", Value: "44"})
	if p.tone(0, &p.ruff) != nil {
		t.Error("the droop of another ruff is shown")
	}
}

// BenchmarkFoldFrame is the page's own cost of one picture of the fold-through,
// the drawing included; BenchmarkStillFrame that of the ruff turned in the hand.
func BenchmarkFoldFrame(b *testing.B) {
	p, err := New()
	if err != nil {
		b.Fatal(err)
	}
	p.fold.playing = true
	at := 0.0
	for b.Loop() {
		if at += 0.7; at > 66 {
			at = 0
		}
		p.foldTo(at)
		if _, _, _, err := p.Picture(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTurnFrame(b *testing.B) {
	p, err := New()
	if err != nil {
		b.Fatal(err)
	}
	p.moving = true
	for b.Loop() {
		p.camera.Turn_deg++
		if _, _, _, err := p.Picture(); err != nil {
			b.Fatal(err)
		}
	}
}
