package scheme

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The document that stands in testdata is what the default is written as: a
// change of the form, of a key or of a default shows here.
func TestJSONOfDefault(t *testing.T) {
	want, err := os.ReadFile("testdata/default.json")
	if err != nil {
		t.Fatal(err)
	}
	if got := Default().JSON(); !bytes.Equal(got, want) {
		t.Errorf("the default is written as\n%s", got)
	}
}

// export → import → export gives the same bytes, and encoding/json reads the
// document into the same scheme: two readers that know nothing of each other.
func TestJSONRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScheme(t)
		doc := s.JSON()
		back, err := Parse(doc)
		if err != nil {
			t.Fatalf("%v\n%s", err, doc)
		}
		if d := Differ(s, back); len(d) != 0 {
			t.Fatalf("%s: %s became %s", d[0].Key, d[0].Get(s), d[0].Get(back))
		}
		if !bytes.Equal(doc, back.JSON()) {
			t.Fatalf("written again as\n%s", back.JSON())
		}
		var other Scheme
		if err := json.Unmarshal(doc, &other); err != nil {
			t.Fatal(err)
		}
		if d := Differ(s, other); len(d) != 0 {
			t.Fatalf("encoding/json reads %s as %s", d[0].Key, d[0].Get(other))
		}
	})
}

// Fields that are not there have their defaults, whatever the order.
func TestParsePart(t *testing.T) {
	s, err := Parse([]byte(`{"ruff": {"depth": 8e1, "sets": 44.0}, "version": 1, "name": "Ü \u00fc \ud83d\ude00", "wearer": {"girth": -0.0e0, "girth2": 0}}`))
	if err == nil {
		t.Fatal("girth2 passed")
	}
	s, err = Parse([]byte("\ufeff" + ` {"ruff": {"depth": 8e1, "sets": 44.0}, "version": 1, "name": "Ü \u00fc \ud83d\ude00", "hand": {}, "support": {"slope": -0.0}}` + "\n\n"))
	if err != nil {
		t.Fatal(err)
	}
	if s.Ruff.Depth != 80 || s.Ruff.Sets != 44 || s.Name != "Ü ü 😀" || s.Ruff.Height != Default().Ruff.Height || math.Signbit(s.Support.Slope) {
		t.Errorf("%+v", s)
	}
}

func TestParseRefuses(t *testing.T) {
	deep := strings.Repeat("[", 100000)
	for _, c := range []struct{ doc, field, why string }{
		{``, "", "too early"}, {`   `, "", "too early"}, {`{`, "", "too early"}, {`{"version": 1`, "", "too early"}, {`{"version": 1,}`, "", "cannot be read"}, {`{"version": }`, "", "cannot be read"},
		{`null`, "", "object"}, {`[]`, "", "object"}, {`"x"`, "", "object"}, {`1`, "", "object"}, {`nonsense`, "", "cannot be read"},
		{`{"version": 1} x`, "", "after its end"}, {`{"version": 1}{}`, "", "after its end"}, {`{"version": 1}]`, "", "after its end"},
		{"{\"version\": 1, \"name\": \"\xff\"}", "", "UTF-8"}, {"{\"version\": 1, \"na\xc0me\": \"\"}", "", "UTF-8"},
		{`{}`, "version", "missing"}, {`{"name": "x"}`, "version", "missing"}, {`{"ruf": 1}`, "version", "missing"},
		{`{"version": 2}`, "version", "newer"}, {`{"version": 2, "frill": {"x": [1, {"y": 2}]}, "ruff": 7}`, "version", "newer"},
		{`{"version": 0}`, "version", "not a version"}, {`{"version": 99999999999999999999}`, "version", "not a version"}, {`{"version": -1}`, "version", "not a version"}, {`{"version": "1"}`, "version", "not a version"}, {`{"version": 1.5}`, "version", "not a version"}, {`{"version": null}`, "version", "not a version"}, {`{"version": [1]}`, "version", "not a version"},
		{`{"version": 1, "version": 1}`, "version", "twice"},
		{`{"version": 1, "colour": "white"}`, "colour", "not a key"}, {`{"version": 1, "ruff": {"frills": 3}}`, "ruff.frills", "not a key"}, {`{"version": 1, "ruff": {"frills": {"a": [1, 2, {"b": 3}]}}}`, "ruff.frills", "not a key"},
		{`{"version": 1, "Name": "x"}`, "Name", "name is"}, {`{"version": 1, "Ruff": {}}`, "Ruff", "ruff is"}, {`{"version": 1, "ruff": {"Sets": 40}}`, "ruff.Sets", "ruff.sets is"}, {`{"Version": 1}`, "Version", "version is"},
		{`{"version": 1, "ruff.sets": 40}`, "ruff.sets", "not a key"}, {`{"version": 1, "": 40}`, "", "not a key"},
		{`{"version": 1, "ruff": {"sets": 40, "sets": 41}}`, "ruff.sets", "twice"}, {`{"version": 1, "ruff": {}, "ruff": {}}`, "ruff", "twice"}, {`{"version": 1, "ruff": {"sets": 40, "set\u0073": 41}}`, "ruff.sets", "twice"},
		{`{"version": 1, "ruff": 3}`, "ruff", "not an object"}, {`{"version": 1, "ruff": [1, [2]]}`, "ruff", "not an object"}, {`{"version": 1, "name": {"a": 1}}`, "name", "not text"}, {`{"version": 1, "name": 3}`, "name", "not text"},
		{`{"version": 1, "ruff": {"depth": "70"}}`, "ruff.depth", "not a number"}, {`{"version": 1, "ruff": {"depth": null}}`, "ruff.depth", "not a number"}, {`{"version": 1, "ruff": {"depth": true}}`, "ruff.depth", "not a number"}, {`{"version": 1, "ruff": {"depth": [70]}}`, "ruff.depth", "not a number"},
		{`{"version": 1, "ruff": {"depth": 1e999}}`, "ruff.depth", "not a number"}, {`{"version": 1, "ruff": {"depth": NaN}}`, "", "cannot be read"}, {`{"version": 1, "ruff": {"depth": Infinity}}`, "", "cannot be read"}, {`{"version": 1, "ruff": {"depth": 0x46}}`, "", "cannot be read"},
		{`{"version": 1, "ruff": {"sets": 40.5}}`, "ruff.sets", "whole"}, {`{"version": 1, "ruff": {"sets": 1e300}}`, "ruff.sets", "whole"}, {`{"version": 1, "ruff": {"sets": "40"}}`, "ruff.sets", "whole"},
		{`{"version": 1, "ruff": {"flaps": "hang"}}`, "ruff.flaps", "choices"}, {`{"version": 1, "ruff": {"flaps": 1}}`, "ruff.flaps", "not text"},
		{`{"version": 1, "ruff": {"depth": 301}}`, "ruff.depth", "too large"}, {`{"version": 1, "wearer": {"part": "wrist"}}`, "wearer.girth", "wearer.part"},
		{`{"version": 1, "name": "a\u0000b"}`, "name", "control"}, {`{"version": 1, "name": "a\ud800b"}`, "name", "could not be read"}, {`{"version": 1, "name": "a\u202eb"}`, "name", "direction"}, {`{"version": 1, "name": "u\u0308"}`, "name", "NFC"},
		{`{"version": 1, "pleat": {"marks": {}}}`, "pleat.marks", "not a list"}, {`{"version": 1, "pleat": {"marks": null}}`, "pleat.marks", "not a list"}, {`{"version": 1, "pleat": {"marks": [1]}}`, "pleat.marks[0]", "not a mark"},
		{`{"version": 1, "pleat": {"marks": [{"place": 0, "fold": "crest"}]}}`, "pleat.marks[0].sewn", "missing"}, {`{"version": 1, "pleat": {"marks": [{"place": "0", "fold": "crest", "sewn": "top"}]}}`, "pleat.marks[0].place", "not a number"},
		{`{"version": 1, "pleat": {"marks": [{"place": 0, "fold": 1, "sewn": "top"}]}}`, "pleat.marks[0].fold", "not text"}, {`{"version": 1, "pleat": {"marks": [{"place": 0, "Fold": "crest", "sewn": "top"}]}}`, "pleat.marks[0].Fold", "not a key"},
		{`{"version": 1, "pleat": {"marks": [{"place": 0, "place": 0, "fold": "crest", "sewn": "top"}]}}`, "pleat.marks[0].place", "twice"},
		{`{"version": 1, "pleat": {"marks": [{"place": 0, "fold": "crest", "sewn": "top"}, {"place": 0, "fold": "trough", "sewn": "top"}]}}`, "pleat.marks", "mark 2"},
		{`{"version": 1, "pleat": {"marks": [` + strings.Repeat(`{"place": 0, "fold": "crest", "sewn": "top"},`, 2100) + `0]}}`, "pleat.marks", "2000"},
		{`{"version": 1, "x": ` + deep, "", "too early"}, {deep, "", "object"},
		{strings.Repeat(" ", MaxDocument+1), "", "too many"}, {strings.Repeat("\xff", 10<<20), "", "too many"},
	} {
		s, err := Parse([]byte(c.doc))
		errs, ok := err.(Errors)
		if !ok || len(errs) == 0 || len(Differ(s, Scheme{})) != 0 {
			t.Errorf("%.80s: error %v, scheme %+v", c.doc, err, s)
			continue
		}
		found := false
		for _, e := range errs {
			found = found || e.Field == c.field && strings.Contains(e.Error(), c.why)
		}
		if !found || len(errs) > maxErrors || len(err.Error()) > 300*maxErrors {
			t.Errorf("%.80s: %v; want %s: …%s…", c.doc, err, c.field, c.why)
		}
	}
}

// Errors of syntax say the line.
func TestParseSaysLine(t *testing.T) {
	doc := strings.Replace(string(Default().JSON()), `"sets": 40,`, `"sets": 40`, 1)
	line := 1 + strings.Count(doc[:strings.Index(doc, `"depth"`)], "\n")
	_, err := Parse([]byte(doc))
	if err == nil || !(strings.Contains(err.Error(), "line "+exact(float64(line))) || strings.Contains(err.Error(), "line "+exact(float64(line-1)))) {
		t.Errorf("%v, want line %d", err, line)
	}
}

// A scheme that is not valid never puts NaN into a document, and the document
// says where the hole is.
func TestJSONOfInvalid(t *testing.T) {
	s := Default()
	s.Ruff.Depth = math.NaN()
	s.Pleat.Marks = []Mark{{Place: math.Inf(1)}}
	doc := s.JSON()
	if !json.Valid(doc) {
		t.Fatalf("%s", doc)
	}
	if _, err := Parse(doc); err == nil || !strings.Contains(err.Error(), "ruff.depth: null is not a number") {
		t.Error(err)
	}
}

func FuzzParse(f *testing.F) {
	f.Add(Default().JSON())
	f.Add([]byte(`{"version": 1, "pleat": {"marks": [{"place": 0, "fold": "crest", "sewn": "top"}, {"place": 3e1, "fold": "trough", "sewn": "no"}]}}`))
	f.Add([]byte(`{"version": 2, "x": [[{}]]}`))
	f.Add([]byte(`{"Version": 1, "name": "\ud800", "ruff": {"sets": 1e999, "sets": -0}}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		s, err := Parse(doc)
		if err != nil {
			if len(err.Error()) > 300*maxErrors {
				t.Errorf("an error of %d bytes", len(err.Error()))
			}
			return
		}
		if err := s.Validate(); err != nil {
			t.Fatalf("parsed but not valid: %v", err)
		}
		out := s.JSON()
		back, err := Parse(out)
		if err != nil || !bytes.Equal(out, back.JSON()) || len(Differ(s, back)) != 0 {
			t.Fatalf("does not come back: %v", err)
		}
	})
}
