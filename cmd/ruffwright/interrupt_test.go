package main

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"
)

// TestCancelStops: ctrl-C ends every long verb at once, with nothing on standard
// output, and says so.
func TestCancelStops(t *testing.T) {
	for _, words := range []string{
		"solve default --grid finest --set wearer.ratio=1.3",
		"fit default --grid finest",
		"need default --grid finest --bow 0.01",
		"compare sound tall --grid finest",
		"verify --slow",
		"robust --ruffs 0",
		"robust --cells 0",
		"robust --cells 0 --ruffs 0 --tucked 50",
		"check default --grid finest --set wearer.ratio=1.3",
	} {
		ctx, cancel := context.WithTimeout(t.Context(), 50*time.Millisecond)
		var out, complaint bytes.Buffer
		began := time.Now()
		code := run(job{ctx, strings.NewReader(""), &out, &complaint, func(string) string { return "" }}, strings.Fields(words))
		cancel()
		if code != exitBad || complaint.String() != "ruffwright: stopped\n" || out.Len() > 0 {
			t.Errorf("%s: exit code %d, %q, %d bytes printed", words, code, complaint.String(), out.Len())
		}
		if took := time.Since(began); took > 5*time.Second {
			t.Errorf("%s: took %v to stop", words, took)
		}
	}
}
