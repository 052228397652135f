package wire

import (
	"bytes"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
)

// TestRequests: what is written is read again; what does not fit is refused.
func TestRequests(t *testing.T) {
	code := scheme.Default().Code()
	tries := []Trial{{Finding: "bow", Remedy: 1, Changes: []check.Change{{Key: "pleat.anchor", Value: "both"}}}}
	for _, want := range []Request{
		{ID: 1, Task: Solve, Scheme: code, Coarse: true, Skip: Skip{Bow: true, Tangents: true, Other: true}},
		{ID: 2, Task: Try, Scheme: code, Tries: tries},
		{ID: 5, Task: Verify, Slow: true},
		{ID: 6, Task: Print, Scheme: code, Print: &Printing{Paper: "A4", Units: "mm"}},
		{ID: 6, Task: Print, Scheme: code, Print: &Printing{Paper: "Letter", Units: "in", Wide_mm: 98.5, High_mm: 101, Address: "https://a.example/#"}},
		{ID: 0, Task: Cancel},
		{ID: 5, Task: Cancel},
	} {
		head, err := want.Encode()
		if err != nil {
			t.Fatalf("%s: %v", want.Task, err)
		}
		got, err := ReadRequest(head)
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("read %+v (%v), wrote %+v", got, err, want)
		}
		for cut := range head {
			if _, err := ReadRequest(head[:cut]); err == nil {
				t.Errorf("%s cut to %d bytes was read", want.Task, cut)
			}
		}
	}
	for name, bad := range map[string]Request{
		"no task": {ID: 1}, "unknown": {ID: 1, Task: "brew", Scheme: code},
		"no scheme": {ID: 1, Task: Solve}, "no id": {Task: Solve, Scheme: code}, "id": {ID: -1, Task: Cancel},
		"no tries": {ID: 1, Task: Try, Scheme: code}, "tries": {ID: 1, Task: Solve, Scheme: code, Tries: tries},
		"many":  {ID: 1, Task: Try, Scheme: code, Tries: slices.Repeat(tries, mostTries+1)},
		"empty": {ID: 1, Task: Try, Scheme: code, Tries: []Trial{{Finding: "bow"}}},
		"long":  {ID: 1, Task: Solve, Scheme: strings.Repeat("x", mostText+1)},
		"how":   {ID: 1, Task: Print, Scheme: code}, "printing": {ID: 1, Task: Solve, Scheme: code, Print: &Printing{Paper: "A4", Units: "mm"}},
		"paper": {ID: 1, Task: Print, Scheme: code, Print: &Printing{Units: "mm"}}, "unit": {ID: 1, Task: Print, Scheme: code, Print: &Printing{Paper: "A4"}},
		"square":  {ID: 1, Task: Print, Scheme: code, Print: &Printing{Paper: "A4", Units: "mm", High_mm: math.NaN()}},
		"address": {ID: 1, Task: Print, Scheme: code, Print: &Printing{Paper: "A4", Units: "mm", Address: strings.Repeat("x", mostAddress+1)}},
	} {
		if head, err := bad.Encode(); err == nil {
			t.Errorf("%s: written as %s", name, head)
		}
	}
}

// TestWritten: every scheme reads as it was, also one that no code holds.
func TestWritten(t *testing.T) {
	odd := scheme.Default()
	for i := range 796 { // steps that no code packs
		fold, edge := scheme.Crest, scheme.EdgeTop
		if i%2 == 1 {
			fold, edge = scheme.Trough, scheme.EdgeBottom
		}
		odd.Pleat.Marks = append(odd.Pleat.Marks, scheme.Mark{Place: float64(i)*20 + math.Sin(float64(i*i)), Fold: fold, Sewn: edge})
	}
	odd.Pleat.Marks[0].Place = 0
	for _, s := range []scheme.Scheme{scheme.Default(), odd} {
		text := Written(s)
		got, err := Read(text)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got.JSON(), s.JSON()) {
			t.Error("a scheme came back changed")
		}
	}
	if !strings.HasPrefix(Written(odd), "{") {
		t.Error("the long scheme fits into a code: this test no longer sees a document")
	}
	for _, bad := range []string{"", "{", "1.~", "{}", "null"} {
		if _, err := Read(bad); err == nil {
			t.Errorf("%q was read as a scheme", bad)
		}
	}
}
