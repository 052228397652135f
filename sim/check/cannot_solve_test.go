package check

import (
	"errors"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

// explained says whether a finding stops the refused ruff in words, and whether one
// of that finding's changes gives it mechanics.
func explained(t *testing.T, s scheme.Scheme) (said, helped bool) {
	t.Helper()
	r, err := sim.Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	v := &view{r: r, p: &r.Plan, s: r.Plan.Scheme, u: scheme.Millimetres}
	for _, f := range Find(r, scheme.Millimetres) {
		if f.Severity != Stop || f.Pending {
			continue
		}
		said = said || f.Sentence.String() != ""
		for _, m := range f.Remedies {
			helped = helped || v.solvable(m.Changes)
		}
	}
	return said, helped
}

// design gives the error of the scheme's half sets, and whether its fields are taken.
func design(s scheme.Scheme) (refused error, taken bool) {
	p, err := pleat.NewPlan(s)
	if err != nil {
		return nil, false
	}
	_, err = sim.Design(sim.Ruff{Plan: p})
	return err, true
}

// Of random schemes over the whole ranges of the fields, whatever the solver
// refuses is stopped by a finding in words, with a change that gives it mechanics.
func TestRefusedIsExplained(t *testing.T) {
	seeds := uint64(3000)
	if testing.Short() {
		seeds = 300
	}
	refused := 0
	for seed := range seeds {
		s := scheme.Random(seed)
		why, _ := design(s)
		if why == nil {
			continue
		}
		refused++
		if !errors.Is(why, sim.ErrDesign) {
			t.Errorf("seed %d: %v, want ErrDesign", seed, why)
		}
		if said, helped := explained(t, s); !said || !helped {
			t.Errorf("seed %d: stopped %v, helped %v: %v", seed, said, helped, why)
		}
	}
	if refused == 0 {
		t.Error("no scheme was refused")
	}
	t.Logf("%d of %d refused", refused, seeds)
}

// A ruff that was refused by the solver alone: a tuck nearly as deep as the ruff.
func TestTuckDeeperThanTheRuff(t *testing.T) {
	s := set(t, "ruff.depth 14", "ruff.height 40", "band.height 20", "pleat.tuck_top 12", "pleat.tuck_bottom 12")
	f, ok := byID(find(t, s), "cannot-solve")
	if !ok || f.Severity != Stop || f.Value != 12 || len(f.Remedies) == 0 {
		t.Fatalf("%+v", f)
	}
}

// Around every demo whose fold to fold is fitted, no single change of 5 to 20 %
// takes the mechanics away.
func TestNoCliffAroundDemos(t *testing.T) {
	tried := 0
	files, err := filepath.Glob(filepath.Join("..", "..", "assets", "demos", "*.json"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		demo := demo(t, name)
		if demo.Pleat.Panel > 0 || len(demo.Pleat.Marks) > 0 {
			continue
		}
		for _, key := range []string{"ruff.height", "ruff.depth", "ruff.sets", "band.height", "pleat.tuck_top", "pleat.tuck_bottom", "wearer.girth", "wearer.ease", "wearer.ratio"} {
			f, _ := scheme.Lookup(key)
			for _, times := range []float64{0.8, 0.85, 0.9, 0.95, 1.05, 1.1, 1.15, 1.2} {
				value := times * f.Number(demo)
				if f.Kind == scheme.KindCount {
					value = math.Round(value)
				}
				s := demo
				if s.Set(key, strconv.FormatFloat(value, 'f', 3, 64)) != nil || s.Validate() != nil {
					continue // beyond the field's own range
				}
				tried++
				if why, taken := design(s); why != nil || !taken {
					t.Errorf("%s with %s %.4g: %v", name, key, value, why)
				}
			}
		}
	}
	if tried < 400 {
		t.Errorf("only %d changes tried", tried)
	}
}
