package scheme

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// Hostile documents of the greatest size allowed are refused in a blink (the
// limit is loose: 20 s holds under js/wasm beside a busy browser too).
func TestHostileDocumentsAreQuick(t *testing.T) {
	var keys strings.Builder
	keys.WriteString(`{"version": 1`)
	for i := 0; keys.Len() < MaxDocument-40; i++ {
		fmt.Fprintf(&keys, `,"k%d":0`, i)
	}
	keys.WriteString("}")
	for name, doc := range map[string]string{
		"keys":   keys.String(),
		"nested": `{"version": 1, "x": ` + strings.Repeat("[", MaxDocument/2-20) + strings.Repeat("]", MaxDocument/2-20) + "}",
		"number": `{"version": 1, "ruff": {"depth": ` + strings.Repeat("7", MaxDocument-100) + "}}",
		"name":   `{"version": 1, "name": "` + strings.Repeat("x", MaxDocument-100) + `"}`,
		"marks":  `{"version": 1, "pleat": {"marks": [` + strings.Repeat("{},", MaxDocument/3-50) + "{}]}}",
		"group":  `{"version": 1, "ruff": {` + strings.Repeat(`"sets":40,`, MaxDocument/10-20) + `"sets":40}}`,
	} {
		start := time.Now()
		_, err := Parse([]byte(doc))
		if err == nil || len(doc) > MaxDocument || len(err.Error()) > 300*maxErrors {
			t.Errorf("%s: %d bytes, error %.100v", name, len(doc), err)
		}
		if took := time.Since(start); took > 20*time.Second {
			t.Errorf("%s took %v", name, took)
		} else {
			t.Logf("%s: %v", name, took)
		}
	}
}

func BenchmarkValidate(b *testing.B) {
	s := Default()
	for b.Loop() {
		if err := s.Validate(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCode(b *testing.B) {
	s := Default()
	s.Ruff.Depth = 80
	for b.Loop() {
		if _, err := FromCode(s.Code()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkJSON(b *testing.B) {
	doc := Default().JSON()
	for b.Loop() {
		s, err := Parse(doc)
		if err != nil {
			b.Fatal(err)
		}
		s.JSON()
	}
}
