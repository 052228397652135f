package propose

import (
	"context"
	"slices"
	"testing"

	"ruffwright/geom/scheme"
)

// TestProposeEmpty: of a neck and a look alone something holds, low ones sewn to both edges
// too, for which the band to begin with is too high; what was not given is told.
func TestProposeEmpty(t *testing.T) {
	for name, q := range map[string]struct {
		text    string
		assumed []string
	}{
		"a neck and a look": {`{"version":1,"wearer":{"girth":400},"ruff":{"depth":60,"height":46}}`, []string{"ruff.sets", "strip.bolt", "cloth.name", "hand.error"}},
		"a low one":         {`{"version":1,"wearer":{"girth":300},"ruff":{"depth":40,"height":25},"starch":{"bend":55}}`, []string{"ruff.sets", "strip.bolt", "cloth.name", "hand.error"}},
	} {
		if testing.Short() && name != "a low one" {
			continue
		}
		s, err := scheme.Parse([]byte(q.text))
		if err != nil {
			t.Fatal(err)
		}
		a, err := Propose(context.Background(), s, Asked{Solve: coarsely})
		if err != nil || len(a.Alternatives) < 2 {
			t.Errorf("%s: %d alternatives, refused %v, %v", name, len(a.Alternatives), a.Refused, err)
		}
		if name == "a low one" && !slices.ContainsFunc(a.Alternatives, func(w Alternative) bool { return w.Kind == Tucked && w.Scheme.Band.Height < 25 }) {
			t.Errorf("%s: none is tucked on a lower band: %v", name, a.Refused)
		}
		var keys []string
		for _, c := range a.Assumed {
			keys = append(keys, c.Key)
		}
		if !slices.Equal(keys, q.assumed) {
			t.Errorf("%s: assumed %v, want %v", name, keys, q.assumed)
		}
	}
	if got := assumptions(scheme.First()); len(got) != len(hangsOn) {
		t.Errorf("where nothing is given %v is assumed", got)
	}
	s := scheme.First()
	s.Cloth.BendWeft, s.Cloth.BendWarp, s.Look.Quarter = 18, 19, 11
	if got := assumptions(s); len(got) != len(hangsOn)-2 {
		t.Errorf("of a measured cloth and sets counted in a picture %v is assumed", got)
	}
}
