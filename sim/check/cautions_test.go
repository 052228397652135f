package check

import (
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

func TestCautions(t *testing.T) {
	for _, c := range []struct {
		changes []string
		want    []string
	}{
		{nil, []string{"flame", "breathing", "needles"}},
		{[]string{"starch.bend 60", "band.closure ties"}, []string{"flame", "breathing", "cords", "hot", "needles"}},
		{[]string{"wearer.girth 170", "wearer.part wrist", "band.closure ties"}, []string{"flame", "needles"}},
		{[]string{"cloth.mass 150"}, []string{"flame", "breathing", "needles"}},
	} {
		var got []string
		for _, f := range find(t, set(t, c.changes...)) {
			if f.Severity == Caution {
				got = append(got, f.ID)
				if len(f.Remedies) > 0 {
					t.Errorf("caution %s has a remedy", f.ID)
				}
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%v: cautions %v, want %v", c.changes, got, c.want)
		}
	}
	// Nothing at all still keeps away from flame.
	if _, ok := byID(Find(sim.Ruff{}, scheme.Millimetres), "flame"); !ok {
		t.Error("an empty ruff shows no flame caution")
	}
	light, _ := byID(find(t, set(t, "cloth.mass 88.1")), "flame")
	heavy, _ := byID(find(t, set(t, "cloth.mass 88.2")), "flame")
	if !strings.Contains(light.Sentence.String(), "88 g/m²") || strings.Contains(heavy.Sentence.String(), "g/m²") {
		t.Errorf("light: %s\nheavy: %s", light.Sentence, heavy.Sentence)
	}
}
