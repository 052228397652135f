package main

import (
	"bytes"
	"context"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

	"ruffwright/geom/scheme"
)

// typed runs the command in this process as if its words had been typed.
func typed(t *testing.T, in string, words ...string) (code int, out, complaint string) {
	t.Helper()
	var o, e bytes.Buffer
	env := func(string) string { return "" }
	code = run(job{context.Background(), strings.NewReader(in), &o, &e, env}, words)
	return code, o.String(), e.String()
}

// TestEveryFieldRefuses holds every field of the table, not only those of the
// scripts, to the promise: below, above, empty, NaN, Inf, 1e999, letters and a
// wrong unit end with exit code 2, nothing on standard output, and a complaint
// that names field, value and what is allowed.
func TestEveryFieldRefuses(t *testing.T) {
	for _, f := range scheme.Fields() {
		bad := []string{"NaN", "Inf", "-Inf", "1e999", "letters", "3 furlongs", strings.Repeat("9", 400), "0x10", "1 2", "\x00", "\xff"}
		switch f.Kind {
		case scheme.KindText:
			bad = []string{strings.Repeat("a", int(f.Max)+1), "a\x00b", "a\u202eb", "\xff"}
		case scheme.KindMarks:
			bad = append(bad, "0 trough bottom; 0 crest top", "5", "0 ridge top", "0 trough left", "NaN trough bottom",
				strings.Repeat("0 trough bottom; ", int(f.Max)+1))
		case scheme.KindChoice:
			bad = append(bad, "", "-1")
		default:
			bad = append(bad, "", " ", fmt.Sprint(f.Max+1), fmt.Sprintf("%.9f", f.Max+1e-6))
			if f.InRange(f.Min - 1) { // 0 has a meaning of its own there
				bad = append(bad, fmt.Sprint(f.Min-2))
			} else {
				bad = append(bad, fmt.Sprint(f.Min-1))
			}
		}
		for _, value := range bad {
			code, out, complaint := typed(t, "", "check", "default", "--set", f.Key+"="+value)
			short := value
			if len(short) > 20 {
				short = short[:20] + "..."
			}
			switch {
			case code != exitBad:
				t.Errorf("%s=%q: exit code %d, want %d", f.Key, short, code, exitBad)
			case out != "":
				t.Errorf("%s=%q: prints %q", f.Key, short, out)
			case !strings.Contains(complaint, f.Key), !strings.Contains(complaint, "allowed: "):
				t.Errorf("%s=%q: the complaint names no field or range: %s", f.Key, short, complaint)
			case len(complaint) > 600:
				t.Errorf("%s=%q: the complaint has %d bytes", f.Key, short, len(complaint))
			}
		}
	}
}

// TestEveryFieldAtItsRange: both ends of every range are taken by themselves.
// Where they do not fit the rest of the default scheme, the complaint is about
// fields that do not fit together, names at least two, and is never about this
// field's own range.
func TestEveryFieldAtItsRange(t *testing.T) {
	for _, f := range scheme.Fields() {
		var ends []string
		switch f.Kind {
		case scheme.KindText, scheme.KindMarks:
			ends = []string{""}
		case scheme.KindChoice:
			for _, c := range f.Choices {
				ends = append(ends, c.Value)
			}
		default:
			ends = []string{fmt.Sprint(f.Min), strconv.FormatFloat(f.Max, 'f', -1, 64)}
			if f.Zero != "" {
				ends = append(ends, "0")
			}
		}
		for _, value := range ends {
			s := scheme.Default()
			if err := s.Set(f.Key, value); err != nil {
				t.Errorf("%s=%s: %v", f.Key, value, err)
				continue
			}
			code, _, complaint := typed(t, "", "check", "default", "--drawn", "--set", f.Key+"="+value)
			named := 0
			for _, other := range scheme.Fields() {
				if strings.Contains(complaint, other.Key) {
					named++
				}
			}
			if code == exitBad && (strings.Contains(complaint, " is too ") || named < 2) {
				t.Errorf("%s=%s: %s", f.Key, value, complaint)
			}
			if code != exitBad && s.Validate() != nil {
				t.Errorf("%s=%s: exit code %d for a scheme that is not valid", f.Key, value, code)
			}
		}
	}
}

// endless never ends: a pipe that a document comes from.
type endless struct{ read int }

func (e *endless) Read(b []byte) (int, error) {
	for i := range b {
		b[i] = ' '
	}
	e.read += len(b)
	return len(b), nil
}

// TestEndlessInput: a document without end is refused after scheme.MaxDocument bytes.
func TestEndlessInput(t *testing.T) {
	var o, e bytes.Buffer
	from := &endless{}
	begun := time.Now()
	code := run(job{context.Background(), from, &o, &e, func(string) string { return "" }}, []string{"check", "-"})
	if code != exitBad || !strings.Contains(e.String(), "at most 1048576 bytes") {
		t.Errorf("exit code %d: %s", code, e.String())
	}
	if from.read > 4*scheme.MaxDocument {
		t.Errorf("read %d bytes of it", from.read)
	}
	if took := time.Since(begun); took > 5*time.Second {
		t.Errorf("took %v", took)
	}
}
