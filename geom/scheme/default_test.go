package scheme

import (
	"bytes"
	"testing"
)

// The form opens with a scheme that is valid, and both of its texts lead back to it.
func TestDefaultIsValidAndRoundTrips(t *testing.T) {
	s := Default()
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	if err := s.Filled().Validate(); err != nil {
		t.Fatal(err)
	}
	doc := s.JSON()
	back, err := Parse(doc)
	if err != nil {
		t.Fatalf("%v\n%s", err, doc)
	}
	if len(Differ(s, back)) != 0 || !bytes.Equal(doc, back.JSON()) {
		t.Errorf("document does not lead back:\n%s", back.JSON())
	}
	back, err = FromCode(s.Code())
	if err != nil || len(Differ(s, back)) != 0 {
		t.Errorf("code %q: %v", s.Code(), err)
	}
}
