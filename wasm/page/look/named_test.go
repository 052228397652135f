package look

import (
	"strings"
	"testing"

	"ruffwright/geom/scheme"
)

// TestNamed: where words are picked by a name, every name has its words.
func TestNamed(t *testing.T) {
	for _, p := range poses {
		if w := poseWords[p]; w.short == "" || !strings.HasPrefix(w.long, w.short) {
			t.Errorf("the button of %s says %q, its name is %q", p, w.short, w.long)
		}
	}
	for _, c := range colours {
		if w := colourWords[c]; w.short == "" || w.long == "" || w.said == "" {
			t.Errorf("the colour %s says %q", c, w)
		}
	}
	for _, by := range lights {
		if w := litWords[by]; w.short == "" || w.long == "" || w.said == "" {
			t.Errorf("the light %s says %q", by, w)
		}
	}
	for _, fold := range []scheme.Fold{scheme.Crest, scheme.Trough} {
		for _, edge := range []scheme.Edge{scheme.EdgeTop, scheme.EdgeBottom} {
			if sewnAlone[sewing{fold, edge}] == "" {
				t.Errorf("no words for %s at the %s", fold, edge)
			}
		}
	}
}
