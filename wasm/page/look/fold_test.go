package look

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
)

// lastOf is the last value that patches give to an element, or to its attribute.
func lastOf(patches []doc.Patch, op doc.Op, id, name string) (string, bool) {
	for i := len(patches) - 1; i >= 0; i-- {
		if c := patches[i]; c.Op == op && c.ID == id && c.Name == name {
			return c.Value, true
		}
	}
	return "", false
}

// solvedLook looks at a ruff that is solved.
func solvedLook(t *testing.T) *Look {
	t.Helper()
	l := newLook(t)
	r, err := sim.Settle(context.Background(), *l.A, sim.Options{Grid: window.Coarse, SkipBow: true, SkipTangents: true, SkipOther: true})
	if err != nil {
		t.Fatal(err)
	}
	l.A.Solved = r.Solved
	return l
}

// TestFoldSlides: the slider shows the strip on its way in the hand, whichever
// view was there; its text says where; at 100 the ruff is back.
func TestFoldSlides(t *testing.T) {
	l := solvedLook(t)
	l.shows(figure.Named("above"))
	want := map[string]string{"0": "Laid flat", "20": "Being pleated", "33": "Pleated", "50": "Being drawn up", "67": "Drawn up to the band", "80": "Being released"}
	for at, words := range want {
		l.Changed()
		l.Slide(at)
		out := l.FoldPatches()
		if !l.View.Turned || !l.folding() || !l.Changed() {
			t.Fatalf("at %s the strip is not shown", at)
		}
		if got, ok := lastOf(out, doc.OpText, "fold-name", ""); ok && got != words || l.foldName() != words {
			t.Errorf("at %s the page says %q, want %q", at, l.foldName(), words)
		}
		if got, _ := lastOf(out, doc.OpAttr, "fold", "aria-valuetext"); !strings.Contains(got, words) || !strings.Contains(got, at) {
			t.Errorf("at %s the slider says %q", at, got)
		}
		d, _, _, err := l.Picture()
		if err != nil || len(d.Items) == 0 {
			t.Fatalf("at %s: %v", at, err)
		}
	}
	if !strings.Contains(l.Description(), l.foldName()) {
		t.Errorf("the description does not tell of it: %s", l.Description())
	}
	l.Slide("100")
	if l.folding() || l.tone(0, l.A) != nil {
		t.Error("at 100 the ruff is not back")
	}
	for _, bad := range []string{"", "NaN", "much"} {
		l.Slide(bad)
	}
	l.Slide("-1e300")
	if l.fold.at != 0 {
		t.Errorf("below its beginning the slider stands at %g", l.fold.at)
	}
	l.shows(figure.Named("side"))
	if l.fold.at != wholeFold {
		t.Error("another view does not end it")
	}
}

// TestFoldPlays: play runs from laid flat to released, tells each step, stops,
// and leaves nothing due: an idle page draws nothing.
func TestFoldPlays(t *testing.T) {
	l := solvedLook(t)
	now := 10000.0
	out := l.foldPlays(now)
	var told []string
	due := func() bool {
		words, _ := l.voice.Speak(now)
		told = append(told, words)
		return slices.ContainsFunc(out, func(c doc.Patch) bool { return c.Op == doc.OpTimer && c.Name == "fold" })
	}
	frames := 0
	for due() {
		now += frame_ms
		out, _ = l.FoldFrame(now)
		frames++
		if frames > play_ms {
			t.Fatal("it never ends")
		}
	}
	if l.fold.at != wholeFold || l.fold.playing {
		t.Errorf("ends at %g", l.fold.at)
	}
	if want := play_ms / frame_ms; math.Abs(float64(frames-want)) > 3 {
		t.Errorf("%d frames, want %d", frames, want)
	}
	for step := range foldSteps {
		if !slices.Contains(told, l.foldStory(step)) {
			t.Errorf("%q is not told among %q", l.foldStory(step), told)
		}
	}
	l.Changed()
	for range 5 {
		now += 1000
		l.FoldFrame(now)
	}
	if l.Changed() {
		t.Error("a page that has ended goes on drawing")
	}
	// Pause, and on from there.
	l.foldPlays(now)
	l.FoldFrame(now + 3000)
	l.foldPlays(now + 3000)
	at := l.fold.at
	if l.FoldFrame(now + 5000); l.fold.at != at || at <= 0 || at >= wholeFold {
		t.Errorf("paused at %g, then %g", at, l.fold.at)
	}
	if l.foldPlays(now + 9000); !l.fold.playing || l.fold.from != at {
		t.Error("play does not go on from where it was paused")
	}
}

// TestFoldWithoutMotion: under reduced motion play goes step by step, and no
// timer runs.
func TestFoldWithoutMotion(t *testing.T) {
	l := newLook(t)
	l.KeepCalm(true)
	for _, want := range []float64{0, foldPart, 2 * foldPart, wholeFold, 0} {
		out := l.foldPlays(1e5)
		if math.Abs(l.fold.at-want) > 1e-9 {
			t.Errorf("a step goes to %g, want %g", l.fold.at, want)
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
	l := solvedLook(t)
	l.foldTo(wholeFold - 1e-9)
	shape, turn := l.foldShape()
	worst := 0.0
	for i, panel := range shape.Panels {
		for k, v := range panel.V {
			worst = max(worst, v.Sub(l.A.Solved.Shape.Panels[i].V[k]).Norm())
		}
	}
	if worst > 1e-6 || turn != 0 {
		t.Errorf("released it is %g mm off, turned by %g", worst, turn)
	}
	l.foldTo(2 * foldPart)
	if _, turn := l.foldShape(); turn > 1e-6 {
		t.Errorf("drawn up it is turned by %g", turn)
	}
}

// TestColours: droop waits for the solver, contact does not; what is dyed is what
// the solver and the plan say; the description tells it.
func TestColours(t *testing.T) {
	l := newLook(t)
	l.dyes(ByDroop)
	if l.dye.by != AsCloth || l.tone(0, l.A) != nil {
		t.Error("droop is shown that nobody solved")
	}
	l.dyes("taste")
	l.dyes(ByContact)
	if tone := l.tone(0, l.A); tone == nil || tone.Kind != figure.ToneGap || len(tone.Values) != l.A.Plan.Panels {
		t.Fatalf("contact is not shown: %v", tone)
	}
	if first := l.tone(0, l.A); first != l.tone(0, l.A) {
		t.Error("the same tone is made twice")
	}
	l = solvedLook(t)
	l.dyes(ByDroop)
	tone := l.tone(0, l.A)
	if tone == nil || tone.Kind != figure.ToneDroop {
		t.Fatal("droop is not shown")
	}
	s := l.A.Solved
	row := s.Shape.NV + 1
	for i := range tone.Values {
		crest, trough := 0, s.Shape.NU
		if l.A.Plan.Row[i].Fold != scheme.Crest {
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
	if !strings.Contains(l.Description(), l.dyedWords()) || l.dyedWords() == "" {
		t.Errorf("the description does not tell of it: %s", l.Description())
	}
	for _, v := range figure.Views {
		l.shows(v)
		if _, _, _, err := l.Picture(); err != nil {
			t.Errorf("%s: %v", v.Name, err)
		}
	}
	// A change of the scheme: the droop is not known any more, and the cloth is white.
	other := scheme.Default()
	other.Ruff.Sets = 44
	drawn, err := sim.Draw(other)
	if err != nil {
		t.Fatal(err)
	}
	l.A = &drawn
	if l.tone(0, l.A) != nil {
		t.Error("the droop of another ruff is shown")
	}
}

// BenchmarkFoldFrame is the page's own cost of one picture of the fold-through,
// the drawing included; BenchmarkStillFrame that of the ruff turned in the hand.
func BenchmarkFoldFrame(b *testing.B) {
	l := newLook(b)
	l.fold.playing = true
	at := 0.0
	for b.Loop() {
		if at += 0.7; at > 66 {
			at = 0
		}
		l.foldTo(at)
		if _, _, _, err := l.Picture(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTurnFrame(b *testing.B) {
	l := newLook(b)
	for b.Loop() {
		l.camera.Turn_deg++
		if _, _, _, err := l.Picture(); err != nil {
			b.Fatal(err)
		}
	}
}
