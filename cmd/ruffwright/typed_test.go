package main

import (
	"math"
	"regexp"
	"testing"

	"ruffwright/geom/scheme"
)

// TestPrintedLengthsAreTaken: every length that check, solve and marks print can be
// typed back, and is the length that was printed.
func TestPrintedLengthsAreTaken(t *testing.T) {
	longest := 0.0
	length := regexp.MustCompile(`[−-]?[0-9][0-9.,]*( [0-9]+/[0-9]+|/[0-9]+)? (mm|cm|in)\b`)
	for _, words := range [][]string{{"check", "wide", "--drawn"}, {"solve", "sound", "--grid", "coarse"}, {"check", "wide", "--drawn", "--units", "in"}, {"check", "wide", "--drawn", "--units", "cm"}} {
		code, out, complaint := typed(t, "", words...)
		if code == exitBad {
			t.Fatal(complaint)
		}
		found := length.FindAllString(out, -1)
		if len(found) < 5 {
			t.Errorf("%v: %d lengths are printed", words, len(found))
		}
		for _, text := range found {
			mm, err := scheme.ParseLength(text, scheme.Millimetres)
			if err != nil {
				t.Errorf("%v: %q is printed, and is not taken: %v", words, text, err)
			}
			longest = math.Max(longest, mm)
		}
	}
	if longest < 1000 {
		t.Error("no length over a metre is printed: the test tells nothing")
	}
}
