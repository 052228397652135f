package wire

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/figure"
	"ruffwright/geom/pleat"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/measure"
)

// ruff is a small solved ruff with a number of its own in every place.
func ruff(bowed, other bool) *sim.Solved {
	const nu, nv, panels = 5, 4, 3
	n := 0.0
	shape := func() pleat.Shape {
		s := pleat.Shape{NU: nu, NV: nv, Panels: make([]pleat.Panel, panels)}
		for i := range s.Panels {
			for range (nu + 1) * (nv + 1) {
				n += 0.37
				s.Panels[i].V = append(s.Panels[i].V, geom.Vec3{X: n, Y: -2 * n, Z: 100 - n})
			}
		}
		return s
	}
	s := &sim.Solved{Shape: shape(), Of: []int{1, 0, 1}, Alike: true}
	s.Grid.NU, s.Grid.NV = nu, nv
	s.Ruff = filled(1)
	s.Sets = []measure.Values{filled(2), filled(3)}
	for range s.Sets {
		var droop []float64
		for range (nu + 1) * (nv + 1) {
			n += 0.25
			droop = append(droop, float64(float32(n))) // the wire keeps it exactly
		}
		s.Droop = append(s.Droop, droop)
	}
	if bowed {
		b := shape()
		s.Bowed = &b
	}
	if other {
		o := shape()
		s.Other = &o
	}
	return s
}

// filled sets every field of a Measures to something else than zero, so that a
// field without a place on the wire is seen.
func filled(seed float64) measure.Values {
	var m measure.Values
	v := reflect.ValueOf(&m).Elem()
	for i := range v.NumField() {
		switch f := v.Field(i); f.Kind() {
		case reflect.Float64:
			f.SetFloat(seed + float64(i)/7)
		case reflect.Int:
			f.SetInt(int64(i) + 1)
		case reflect.Bool:
			f.SetBool(true)
		case reflect.String:
			f.SetString("word " + v.Type().Field(i).Name)
		case reflect.Array:
			for k := range f.Len() {
				f.Index(k).SetFloat(seed - float64(k))
			}
		default:
			panic("a kind of field that this test does not know: " + f.Kind().String())
		}
	}
	return m
}

func replies() []Reply {
	why := word.Packed{Text: word.Say("%s is a slack below 1", word.Number{Value: 0.9, Decimals: 1})}
	changes := []check.Change{{Key: "pleat.anchor", Value: "both"}}
	line := figure.Line{{0, 1.5}, {62, 40.1}}
	effect := Effect{Gone: []string{"bow"}, Left: []string{"depth"}, Eased: []string{"depth"}, New: []string{"slack-long"}, Quiet: []string{"setting"}, Then: Price{1, 2, 3, 4, 5, 6, 7},
		Drawn: figure.Outline{Band_mm: 36, Crest: line, Trough: line, BowedCrest: line, Set: line, End: line}}
	return []Reply{
		{Alive: true},
		{ID: 3, Last: true},
		{ID: 3, Last: true, Cancelled: true},
		{ID: 3, Progress: &Progress{}},
		{ID: 3, Progress: &Progress{Phase: "forming", Cell: 2, Cells: 20, Factorisation: 31}},
		{ID: 4, Result: &Result{Solved: ruff(false, false), Awaits: []string{"bow", "other"}, Took: 12.5}},
		{ID: 4, Result: &Result{Solved: ruff(true, false), Awaits: []string{"other"}, Took: 12.5}},
		{ID: 4, Last: true, Result: &Result{Solved: ruff(true, true)}},
		{ID: 5, Tried: &Tried{Changes: changes, Why: why}},
		{ID: 5, Tried: &Tried{Changes: changes, Now: Price{Height_mm: 45}, Effect: &effect}},
		{ID: 6, Last: true, Mended: &Mended{Ways: []MendingWay{{Sentences: []word.Packed{why}, Changes: changes, Effect: effect}}}},
		{ID: 8, Checked: &Checked{Name: "n", Source: "s", Unit: "mm", Reference: 1, Value: 1.01, Deviation: 0.01, Allowed: 0.02, Relative: true, Held: true, Took: 3}},
		{ID: 8, Last: true, Told: &Told{Bend_mm: [3]float64{55, 53, 57}, Wrong: []word.Packed{why}, Notes: []word.Packed{why}, Changes: []check.Change{{Key: "starch.bend", Value: "55"}}}},
		{ID: 9, Last: true, Printed: &Printed{Sheets: 17, Stops: 1, Unsolved: true, Body: []byte("%PDF12PK"), Files: []File{
			{SheetsFile, "a.pdf", "application/pdf", 4}, {MarksFile, "a.csv", "text/csv", 2}, {PiecesFile, "a.zip", "application/zip", 2},
		}}},
		{ID: 9, Last: true, Error: &Error{Cause: NoDesign, Why: why}},
	}
}

// TestReplies: what is written is read again, node by node to the rounding of
// float32 (2^-24 of the number), everything else exactly.
func TestReplies(t *testing.T) {
	for i, want := range replies() {
		head, body, err := want.Encode()
		if err != nil {
			t.Fatalf("%d: %v", i, err)
		}
		got, err := ReadReply(head, body)
		if err != nil {
			t.Fatalf("%d: %v", i, err)
		}
		if want.Result != nil {
			a, b := want.Result.Solved, got.Result.Solved
			for k, pair := range [][2]*pleat.Shape{{&a.Shape, &b.Shape}, {a.Bowed, b.Bowed}, {a.Other, b.Other}} {
				if (pair[0] == nil) != (pair[1] == nil) {
					t.Fatalf("%d: surface %d is lost or made up", i, k)
				}
				if pair[0] == nil {
					continue
				}
				if pair[0].NU != pair[1].NU || pair[0].NV != pair[1].NV || len(pair[0].Panels) != len(pair[1].Panels) {
					t.Fatalf("%d: surface %d has another grid", i, k)
				}
				for n := range pair[0].Panels {
					for m, v := range pair[0].Panels[n].V {
						w := pair[1].Panels[n].V[m]
						if far := v.Sub(w).Norm(); far > math.Ldexp(v.Norm(), -24)*2 {
							t.Fatalf("%d: surface %d, panel %d, node %d is %g mm off", i, k, n, m, far)
						}
					}
				}
			}
			// The surfaces are compared; the rest must be the same.
			got.Result.Solved.Shape, got.Result.Solved.Bowed, got.Result.Solved.Other = a.Shape, a.Bowed, a.Other
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%d: read %+v, wrote %+v", i, got, want)
		}
	}
}

// TestTruncated: no shorter body, no longer one, no cut head is a reply.
func TestTruncated(t *testing.T) {
	for i, r := range replies() {
		head, body, err := r.Encode()
		if err != nil {
			t.Fatal(err)
		}
		for cut := range head {
			if _, err := ReadReply(head[:cut], body); err == nil {
				t.Errorf("%d: a head cut to %d of %d bytes was read", i, cut, len(head))
			}
		}
		for _, other := range [][]byte{body[:len(body)*2/3], append(slices.Clone(body), 0, 0, 0, 0), body[:max(0, len(body)-1)]} {
			if _, err := ReadReply(head, other); err == nil && len(other) != len(body) {
				t.Errorf("%d: a body of %d instead of %d bytes was read", i, len(other), len(body))
			}
		}
		if _, err := ReadReply(head+"{}", body); err == nil {
			t.Errorf("%d: something after the head was read", i)
		}
	}
}

// TestBadReplies: what does not fit is refused at either end.
func TestBadReplies(t *testing.T) {
	spoil := map[string]func(*Reply){
		"no ruff":            func(r *Reply) { r.Result.Solved = nil },
		"NaN":                func(r *Reply) { r.Result.Solved.Shape.Panels[1].V[3].Y = math.NaN() },
		"infinite":           func(r *Reply) { r.Result.Solved.Shape.Panels[1].V[3].Y = math.Inf(-1) },
		"beyond float32":     func(r *Reply) { r.Result.Solved.Shape.Panels[1].V[3].Y = 1e300 },
		"NaN in a measure":   func(r *Reply) { r.Result.Solved.Sets[1].Tilt_deg = math.NaN() },
		"a node short":       func(r *Reply) { p := &r.Result.Solved.Shape.Panels[2]; p.V = p.V[1:] },
		"a panel short":      func(r *Reply) { s := &r.Result.Solved.Shape; s.Panels = s.Panels[1:] },
		"no panels":          func(r *Reply) { r.Result.Solved.Shape.Panels, r.Result.Solved.Of = nil, nil },
		"another grid":       func(r *Reply) { r.Result.Solved.Bowed.NU++ },
		"a grid too fine":    func(r *Reply) { r.Result.Solved.Shape.NU = 1 << 30 },
		"no such half set":   func(r *Reply) { r.Result.Solved.Of[2] = 2 },
		"a half set below 0": func(r *Reply) { r.Result.Solved.Of[2] = -1 },
		"no half sets":       func(r *Reply) { r.Result.Solved.Sets = nil },
		"awaits what?":       func(r *Reply) { r.Result.Awaits = []string{"tea"} },
		"NaN in the droop":   func(r *Reply) { r.Result.Solved.Droop[1][2] = math.NaN() },
		"droop a node short": func(r *Reply) { r.Result.Solved.Droop[1] = r.Result.Solved.Droop[1][1:] },
		"droop of one":       func(r *Reply) { r.Result.Solved.Droop = r.Result.Solved.Droop[1:] },
		"took NaN":           func(r *Reply) { r.Result.Took = math.NaN() },
		"two parts":          func(r *Reply) { r.Progress = &Progress{} },
		"id":                 func(r *Reply) { r.ID = -1 },
		"drawn far off": func(r *Reply) {
			*r = Reply{ID: 1, Tried: &Tried{Effect: &Effect{Drawn: figure.Outline{Set: figure.Line{{0, 1e6}}}}}}
		},
		"cancelled": func(r *Reply) { *r = Reply{ID: 1, Cancelled: true} },
		"nothing":   func(r *Reply) { *r = Reply{ID: 1} },
		"no reason": func(r *Reply) { *r = Reply{ID: 1, Last: true, Error: &Error{Cause: Fault}} },
		"progress":  func(r *Reply) { *r = Reply{ID: 1, Progress: &Progress{Cell: 3, Cells: 2}} },
	}
	for name, change := range spoil {
		r := Reply{ID: 1, Result: &Result{Solved: ruff(true, true)}}
		change(&r)
		if _, _, err := r.Encode(); err == nil {
			t.Errorf("%s: was written", name)
		}
	}

	for name, change := range map[string]func(*Printed){
		"no files": func(p *Printed) { p.Files, p.Body = nil, nil }, "no sheets": func(p *Printed) { p.Sheets = 0 },
		"a byte left": func(p *Printed) { p.Body = append(p.Body, 0) }, "a byte short": func(p *Printed) { p.Body = p.Body[1:] },
		"no name": func(p *Printed) { p.Files[1].Name = "" }, "no type": func(p *Printed) { p.Files[1].Type = "" },
		"twice": func(p *Printed) { p.Files[1].Kind = SheetsFile }, "kind": func(p *Printed) { p.Files[1].Kind = "tea" },
		"empty": func(p *Printed) { p.Files[1].Bytes = 0 }, "negative": func(p *Printed) { p.Files[1].Bytes = -2 },
		"huge": func(p *Printed) { p.Files[1].Bytes = math.MaxInt }, "stops": func(p *Printed) { p.Stops = -1 },
	} {
		p := Printed{Sheets: 2, Body: []byte("abc"), Files: []File{{SheetsFile, "a.pdf", "x", 2}, {MarksFile, "a.csv", "y", 1}}}
		change(&p)
		if _, _, err := (Reply{ID: 1, Last: true, Printed: &p}).Encode(); err == nil {
			t.Errorf("printed, %s: was written", name)
		}
	}

	head, body, err := Reply{ID: 1, Result: &Result{Solved: ruff(true, true)}}.Encode()
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []float32{float32(math.NaN()), float32(math.Inf(1))} {
		for _, at := range []int{0, len(body) / 2 / 4 * 4, len(body) - 4} {
			bad := slices.Clone(body)
			binary.LittleEndian.PutUint32(bad[at:], math.Float32bits(x))
			if _, err := ReadReply(head, bad); err == nil {
				t.Errorf("%g at byte %d was read", x, at)
			}
		}
	}
	for _, change := range [][2]string{
		{`"panels":3`, `"panels":4`}, {`"panels":3`, `"panels":-3`}, {`"panels":3`, `"panels":99999999999`},
		{`"nu":5`, `"nu":6`}, {`"nu":5`, `"nu":1e3`}, {`"nu":5`, `"nu":5,"kind":1`}, {`"of":[1,0,1]`, `"of":[1,0]`},
		{`"of":[1,0,1]`, `"of":[1,0,7]`}, {`"bowed":true`, `"bowed":false`}, {`"droop":true`, `"droop":false`}, {`"id":1`, `"id":-1`}, {`"id":1`, `"id":1.5`},
		{`"took_ms":0`, `"took_ms":-1`}, {`"tilt_deg":`, `"tilt_deg":1e999,"x":`},
	} {
		if !strings.Contains(head, change[0]) {
			t.Fatalf("the head has no %s", change[0])
		}
		if _, err := ReadReply(strings.Replace(head, change[0], change[1], 1), body); err == nil {
			t.Errorf("%s for %s was read", change[1], change[0])
		}
	}
}

// FuzzReply: whatever comes is a reply that is written again as it was read, or
// an error.
func FuzzReply(f *testing.F) {
	for _, r := range replies() {
		head, body, err := r.Encode()
		if err != nil {
			f.Fatal(err)
		}
		f.Add(head, body)
	}
	f.Add(`{"id":1,"result":null}`, []byte(nil))
	f.Add("null", []byte{1})
	f.Fuzz(func(t *testing.T, head string, body []byte) {
		r, err := ReadReply(head, body)
		if err != nil {
			return
		}
		again, bytesAgain, err := r.Encode()
		if err != nil {
			t.Fatalf("read, but cannot be written: %v", err)
		}
		if !bytes.Equal(body, bytesAgain) {
			t.Fatal("another body")
		}
		if _, err := ReadReply(again, bytesAgain); err != nil {
			t.Fatalf("cannot be read a second time: %v", err)
		}
	})
}

// FuzzRequest likewise.
func FuzzRequest(f *testing.F) {
	f.Add(`{"id":1,"task":"solve","scheme":"1.AA","coarse":true,"skip":{"bow":true}}`, []byte(nil))
	f.Add(`{"id":2,"task":"try","scheme":"x","tries":[{"changes":[{"key":"a","value":"b"}]}]}`, []byte(nil))
	f.Add(`{"id":0,"task":"cancel"}`, []byte(nil))
	f.Add(`{"id":2,"task":"try","scheme":"x","tries":[{"changes":[{"key":"a","value":"b"}]}],"base":{"nu":4,"nv":4,"panels":1,"ruff":{},"sets":[{}],"of":[0],"took_ms":0}}`, make([]byte, 300))
	f.Fuzz(func(t *testing.T, head string, body []byte) {
		r, err := ReadRequest(head, body)
		if err != nil {
			return
		}
		again, bytesAgain, err := r.Encode()
		if err != nil {
			t.Fatalf("read, but cannot be written: %v", err)
		}
		if !bytes.Equal(body, bytesAgain) {
			t.Fatal("another body")
		}
		if got, err := ReadRequest(again, bytesAgain); err != nil || !json.Valid([]byte(again)) || got.ID != r.ID || got.Task != r.Task {
			t.Fatalf("%s: %v", again, err)
		}
	})
}

// BenchmarkResult is the passage of a ruff of 40 sets with three surfaces.
func BenchmarkResult(b *testing.B) {
	s := &sim.Solved{Of: make([]int, 80), Sets: slices.Repeat([]measure.Values{filled(1)}, 20), Ruff: filled(2)}
	s.Shape = pleat.Shape{NU: 24, NV: 12, Panels: make([]pleat.Panel, 80)}
	for i := range s.Shape.Panels {
		s.Shape.Panels[i].V = make([]geom.Vec3, 25*13)
	}
	s.Droop = slices.Repeat([][]float64{make([]float64, 25*13)}, 20)
	s.Bowed, s.Other = &s.Shape, &s.Shape
	r := Reply{ID: 1, Last: true, Result: &Result{Solved: s}}
	b.Run("encode", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, _, err := r.Encode(); err != nil {
				b.Fatal(err)
			}
		}
	})
	head, body, err := r.Encode()
	if err != nil {
		b.Fatal(err)
	}
	b.Run("decode", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := ReadReply(head, body); err != nil {
				b.Fatal(err)
			}
		}
	})
}
