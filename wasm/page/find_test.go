package page

import (
	"testing"

	"ruffwright/wasm/doc"
)

// TestFind: a word leaves the decisions that speak of it, with the parts of the form that
// they stand in unfolded; without a word all stand as at first.
func TestFind(t *testing.T) {
	p, err := New()
	if err != nil {
		t.Fatal(err)
	}
	flags := func(words string) map[string]bool {
		on := map[string]bool{}
		for _, patch := range p.tell().Find(words) {
			if patch.Op == doc.OpAttr {
				on[patch.ID+" "+patch.Name] = !patch.Gone
			}
		}
		return on
	}
	on := flags(" SELVEDGE ")
	for what, want := range map[string]bool{
		"f-strip-selvedge-row hidden": false, "f-wearer-girth-row hidden": true,
		"group-strip open": true, "group-strip hidden": false, "group-hand hidden": true, "group-hand open": false,
	} {
		if on[what] != want {
			t.Errorf("%s: %t, want %t", what, on[what], want)
		}
	}
	for what, is := range flags("") {
		if is {
			t.Errorf("without a word: %s", what)
		}
	}
}
