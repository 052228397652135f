package page

import (
	"bytes"
	"image/jpeg"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
)

// TestDemosAreWhatTheySay solves every demo: those that show a fault show it and
// no other that stops, all others have nothing to stop for or to mend; the
// numbers in their lines are the scheme's.
func TestDemosAreWhatTheySay(t *testing.T) {
	faults := map[string]struct{ stop, mend []string }{
		"floppy":   {[]string{"bow"}, []string{"flaps-undecided", "soft-sideways"}},
		"ends-up":  {[]string{"ends"}, nil},
		"flaps-up": {[]string{"flaps", "bow", "sinks"}, nil}, // the wrong folds sewn, and what comes of it
		"short":    {[]string{"strip-short"}, nil},
		"uneven":   {nil, []string{"marks-sewn"}},
	}
	kinds := map[string]bool{}
	for _, d := range Demos() {
		r, found := solvedFor(t, d.Scheme)
		var stop, mend []string
		for _, f := range found {
			switch {
			case f.Pending:
				t.Errorf("%s: %s", d.Name, f.Sentence)
			case f.Severity == check.Stop:
				stop = append(stop, f.ID)
			case f.Severity == check.Mend:
				mend = append(mend, f.ID)
			}
		}
		want := faults[d.Name]
		if !slices.Equal(stop, want.stop) || !slices.Equal(mend, want.mend) {
			t.Errorf("%s: stops for %v, want %v; to mend %v, want %v", d.Name, stop, want.stop, mend, want.mend)
		}
		if _, fault := faults[d.Name]; fault != strings.HasPrefix(d.Shows, "A fault: ") {
			t.Errorf("%s: %q", d.Name, d.Shows)
		}
		var known []string
		for _, f := range scheme.Fields() {
			known = append(known, strconv.FormatFloat(f.Number(d.Scheme), 'f', -1, 64))
		}
		for _, n := range numeral.FindAllString(d.Shows, -1) {
			if !slices.Contains(known, n) {
				t.Errorf("%s: where does %s come from?", d.Name, n)
			}
		}
		// What a gallery must hold.
		s := d.Scheme
		kinds["small and early"] = kinds["small and early"] || s.Ruff.Depth <= 30 && r.Plan.Sets >= 60 && s.Wearer.Part == scheme.Neck
		kinds["wide, of many"] = kinds["wide, of many"] || s.Ruff.Depth >= 120 && r.Plan.Sets >= 100
		kinds["tall"] = kinds["tall"] || r.Solved.Ruff.HeightOuter_mm >= 65
		kinds["cuff"] = kinds["cuff"] || s.Wearer.Part == scheme.Wrist
		kinds["tucked"] = kinds["tucked"] || len(stop)+len(mend) == 0 && r.Plan.Row.Tucked()
		kinds["untucked"] = kinds["untucked"] || len(stop)+len(mend) == 0 && !r.Plan.Row.Tucked()
	}
	for _, kind := range []string{"small and early", "wide, of many", "tall", "cuff", "tucked", "untucked"} {
		if !kinds[kind] {
			t.Errorf("no demo is %s", kind)
		}
	}
	if len(Demos()) < 8 || len(faults) < 3 {
		t.Errorf("%d demos, %d with faults", len(Demos()), len(faults))
	}
}

// TestGallery: each demo has its link, its line, and a picture by day and by
// candle with words from the model; all are small.
func TestGallery(t *testing.T) {
	demos := Demos()[:2]
	nodes, pictures, err := gallery(demos)
	if err != nil || len(nodes) != 2 || len(pictures) != 4 {
		t.Fatalf("%d cards, %d pictures (%v)", len(nodes), len(pictures), err)
	}
	html := doc.HTML(nodes...)
	for i, d := range demos {
		for _, want := range []string{`href="#` + d.Scheme.Code() + `"`, doc.HTML(doc.El("a", "").Say(d.Title))[2:], doc.HTML(doc.Text(d.Shows))[5:], "start-" + d.Name + "-light.jpg", `alt="In the hand: a ruff of 40 sets`, "as the cloth hangs", `loading="lazy"`} {
			if !strings.Contains(strings.ToLower(html), strings.ToLower(want)) {
				t.Errorf("%s: no %q in %s", d.Name, want, html)
			}
		}
		light, err := jpeg.Decode(bytes.NewReader(pictures[2*i].JPEG))
		if err != nil || light.Bounds().Dx() != 276 || light.Bounds().Dy() != 183 {
			t.Fatalf("%s: a picture of %v (%v)", d.Name, light.Bounds(), err)
		}
		if n := len(pictures[2*i].JPEG); n > 15000 {
			t.Errorf("%s: a picture of %d bytes", d.Name, n)
		}
		// The paper round the ruff, and something on it.
		if y := bright(light.At(2, 2).RGBA()); y < 200 || bright(light.At(138, 90).RGBA()) > 230 {
			t.Errorf("%s: the picture's corner has a brightness of %d", d.Name, y)
		}
	}
	for _, d := range Demos() {
		if d.Shows == "" {
			t.Errorf("%s: no line", d.Name)
		}
	}
}

func bright(r, g, b, _ uint32) uint32 { return (r + g + b) / 3 / 257 }
