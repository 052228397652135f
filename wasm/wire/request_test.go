package wire

import (
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
	document := Written(scheme.Default())
	k := slices.IndexFunc(replies(), func(r Reply) bool { return r.Result != nil })
	tries := []Trial{{Changes: []check.Change{{Key: "pleat.anchor", Value: "both"}}}}
	for _, want := range []Request{
		{ID: 1, Task: Solve, Scheme: document, Coarse: true, Skip: Skip{Bow: true, Tangents: true, Other: true}},
		{ID: 2, Task: Try, Scheme: document, Tries: tries},
		{ID: 2, Task: Try, Scheme: document, Tries: tries, Base: replies()[k].Result},
		{ID: 3, Task: Mend, Scheme: document, Tries: tries},
		{ID: 5, Task: Verify, Slow: true},
		{ID: 6, Task: Print, Scheme: document, Print: &Printing{Paper: "A4", Units: "mm"}},
		{ID: 6, Task: Print, Scheme: document, Print: &Printing{Paper: "Letter", Units: "in", Wide_mm: 98.5, High_mm: 101, Address: "https://a.example/#"}},
		{ID: 0, Task: Cancel},
		{ID: 5, Task: Cancel},
	} {
		head, body, err := want.Encode()
		if err != nil {
			t.Fatalf("%s: %v", want.Task, err)
		}
		got, err := ReadRequest(head, body)
		if again, bytes, _ := got.Encode(); again != head || !slices.Equal(bytes, body) || (got.Base != nil) != (want.Base != nil) {
			t.Errorf("%s: read and written again it is %s", want.Task, again)
		}
		got.Base, want.Base = nil, nil
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("read %+v (%v), wrote %+v", got, err, want)
		}
		for cut := range head {
			if _, err := ReadRequest(head[:cut], body); err == nil {
				t.Errorf("%s cut to %d bytes was read", want.Task, cut)
			}
		}
	}
	for name, bad := range map[string]Request{
		"no task": {ID: 1}, "unknown": {ID: 1, Task: "brew", Scheme: document},
		"no scheme": {ID: 1, Task: Solve}, "no id": {Task: Solve, Scheme: document}, "id": {ID: -1, Task: Cancel},
		"base":     {ID: 1, Task: Solve, Scheme: document, Base: replies()[k].Result},
		"no tries": {ID: 1, Task: Try, Scheme: document}, "tries": {ID: 1, Task: Solve, Scheme: document, Tries: tries},
		"many":  {ID: 1, Task: Try, Scheme: document, Tries: slices.Repeat(tries, mostTries+1)},
		"empty": {ID: 1, Task: Try, Scheme: document, Tries: []Trial{{}}},
		"long":  {ID: 1, Task: Solve, Scheme: strings.Repeat("x", mostText+1)},
		"how":   {ID: 1, Task: Print, Scheme: document}, "printing": {ID: 1, Task: Solve, Scheme: document, Print: &Printing{Paper: "A4", Units: "mm"}},
		"paper": {ID: 1, Task: Print, Scheme: document, Print: &Printing{Units: "mm"}}, "unit": {ID: 1, Task: Print, Scheme: document, Print: &Printing{Paper: "A4"}},
		"square":  {ID: 1, Task: Print, Scheme: document, Print: &Printing{Paper: "A4", Units: "mm", High_mm: math.NaN()}},
		"address": {ID: 1, Task: Print, Scheme: document, Print: &Printing{Paper: "A4", Units: "mm", Address: strings.Repeat("x", mostAddress+1)}},
	} {
		if head, _, err := bad.Encode(); err == nil {
			t.Errorf("%s: written as %s", name, head)
		}
	}
}

// TestWritten: every scheme arrives as it was.
func TestWritten(t *testing.T) {
	odd := scheme.Default()
	odd.Name = `“odd” \ "places" <b>`
	for i := range 796 {
		fold, edge := scheme.Crest, scheme.EdgeTop
		if i%2 == 1 {
			fold, edge = scheme.Trough, scheme.EdgeBottom
		}
		odd.Pleat.Marks = append(odd.Pleat.Marks, scheme.Mark{Place: float64(i)*20 + math.Sin(float64(i*i)), Fold: fold, Sewn: edge})
	}
	odd.Pleat.Marks[0].Place = 0
	for _, want := range []scheme.Scheme{scheme.Default(), odd} {
		head, body, err := Request{ID: 1, Task: Solve, Scheme: Written(want)}.Encode()
		if err != nil {
			t.Fatal(err)
		}
		r, err := ReadRequest(head, body)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := scheme.Parse([]byte(r.Scheme)); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("a scheme came back changed: %v", err)
		}
	}
}
