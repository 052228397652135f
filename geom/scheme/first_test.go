package scheme

import "testing"

// TestFirst: the scheme to begin with is the defaults, starched, and nothing else; what a
// document or a code leaves out is still the defaults'.
func TestFirst(t *testing.T) {
	d := Differ(First(), Default())
	if len(d) != 1 || d[0].Key != "starch.bend" || First().Starch.Bend != 55 || First().Validate() != nil {
		t.Errorf("%v", d)
	}
	if s, err := Parse([]byte(`{"version":1}`)); err != nil || len(Differ(s, Default())) != 0 {
		t.Errorf("an empty document: %v, %v", s, err)
	}
	if s, err := FromCode(Default().Code()); err != nil || s.Starch.Bend != 0 {
		t.Errorf("%+v, %v", s.Starch, err)
	}
}
