package look

import (
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/page/say"
)

// TestNamed: where the code picks words by a name, every name has its words.
func TestNamed(t *testing.T) {
	var keys []string
	for _, p := range poses {
		keys = append(keys, "pose."+string(p), "poselong."+string(p))
		if short, long := say.Word("pose."+string(p)), say.Word("poselong."+string(p)); !strings.HasPrefix(long, short) {
			t.Errorf("the button says %q, its name is %q", short, long)
		}
	}
	part, _ := scheme.Lookup("wearer.part")
	for _, c := range part.Choices {
		keys = append(keys, "shows."+c.Value)
	}
	sewn, _ := scheme.Lookup("pleat.sewn")
	for _, c := range sewn.Choices {
		keys = append(keys, "shows."+c.Value+".top", "shows."+c.Value+".bottom")
	}
	for _, key := range keys {
		if say.Word(key) == "{"+key+"}" {
			t.Errorf("no words for %q", key)
		}
	}
}
