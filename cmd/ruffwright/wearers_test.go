package main

import (
	"bytes"
	"context"
	"io"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
)

// listed reads a list of wearers as it comes from a file.
func listed(text []byte) (wearers, error) {
	j := job{context.Background(), bytes.NewReader(text), io.Discard, io.Discard, func(string) string { return "" }}
	return readWearers(j, "-", scheme.Default())
}

// TestOwnGirth: a cell for the girth that is empty is refused, for a ruff and a cuff;
// a list without such a column takes it from the base.
func TestOwnGirth(t *testing.T) {
	for text, wrong := range map[string]string{
		"name,wearer.girth\nThe Cooper,\n":                       "wearer.girth: cell 2 is empty",
		"wearer.girth;name\n ;The Cooper\n":                      "wearer.girth: cell 1 is empty",
		"name,wearer.part,wearer.girth\nThe Cooper,wrist,\u00a0": "wearer.girth: cell 3 is empty",
		"name\nThe Cooper\n":                                     "",
		"name,wearer.girth\nThe Cooper,400\n":                    "",
		"name,wearer.girth\n\u200b,400\n":                        "name: it is empty",
	} {
		list, err := listed([]byte(text))
		if err != nil || len(list.rows) != 1 {
			t.Fatalf("%q: %d rows, %v", text, len(list.rows), err)
		}
		if got := strings.Join(list.rows[0].wrong, "\n"); !strings.HasPrefix(got, wrong) || wrong == "" && got != "" {
			t.Errorf("%q: %q, want %q", text, got, wrong)
		}
	}
}

// FuzzWearers: from any bytes a list is refused with an error of bearable length, or
// each of its rows is a valid scheme with a name, or says what is wrong with it.
func FuzzWearers(f *testing.F) {
	for _, text := range []string{
		"", "\ufeffname,wearer.girth\nThe Cooper,\"38,5 cm\"\n", "name;ruff.sets\r\nThe Falconer;44\r\n", "name,,\nThe Cooper,1,\n", "name\n\"", "name,name\na,b\n",
		"name,pleat.marks\nThe Pilot,0 trough bottom; 30 crest top; 61 trough bottom\n", "name,wearer.girth\n=1+1,\n\u200b,400\n,,\nThe Chandler,NaN\n", "\x00,\xff\n",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		list, err := listed(text)
		if err != nil {
			if len(err.Error()) > 400*(1+bytes.Count(text, []byte(","))+bytes.Count(text, []byte(";"))) {
				t.Fatalf("an error of %d bytes", len(err.Error()))
			}
			return
		}
		for _, w := range list.rows {
			switch {
			case w.line < 2 || w.line > 1+bytes.Count(text, []byte("\n"))+bytes.Count(text, []byte("\r")):
				t.Fatalf("line %d", w.line)
			case len(w.wrong) == 0 && (w.scheme.Name == "" || w.scheme.Validate() != nil):
				t.Fatalf("line %d is taken, with the name %q: %v", w.line, w.scheme.Name, w.scheme.Validate())
			case len(w.wrong) > 0 && strings.TrimSpace(strings.Join(w.wrong, "")) == "":
				t.Fatalf("line %d is refused without a word", w.line)
			}
		}
	})
}
