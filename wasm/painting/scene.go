package painting

import (
	"errors"
	"math"

	"ruffwright/geom"
	"ruffwright/geom/light"
	"ruffwright/wasm/pack"
)

// appendScene writes a scene behind b.
func appendScene(b []byte, s *light.Scene) []byte {
	w := pack.Writer{B: b}
	w.Word(uint32(len(s.Sheets)))
	for i := range s.Sheets {
		t := &s.Sheets[i]
		w.Word(uint32(t.Cols))
		w.Word(uint32(t.Rows))
		places(&w, t.V)
		w.Bool(t.Ring)
		w.Number(float32(t.Through))
		w.Word(uint32(len(t.Tints)))
		for k := range t.Tints {
			for _, c := range t.Tints[k] {
				w.Color(c)
			}
		}
		w.Numbers(t.Pick)
		w.Bool(t.Lined)
		w.Numbers(t.Tone)
		w.Numbers(t.Dense)
		w.Number(float32(t.Hatch_mm))
		w.Number(float32(t.Weave_mm))
		w.Color(t.Ink)
		for _, v := range t.Hem_mm {
			w.Number(float32(v))
		}
		w.Number(float32(t.Fold_mm))
	}
	w.Word(uint32(len(s.Threads)))
	for i := range s.Threads {
		t := &s.Threads[i]
		places(&w, t.V)
		w.Bool(t.Closed)
		w.Number(float32(t.Width_mm))
		w.Color(t.Ink)
		w.Number(float32(t.Lift_mm))
	}
	return w.B
}

func places(w *pack.Writer, list []geom.Vec3) {
	w.Word(uint32(len(list)))
	for _, v := range list {
		w.Number(float32(v.X))
		w.Number(float32(v.Y))
		w.Number(float32(v.Z))
	}
}

// readScene reads a scene that can be drawn.
func readScene(b []byte) (*light.Scene, error) {
	r := pack.Reader{B: b}
	s := &light.Scene{Sheets: make([]light.Sheet, r.Count(1<<16, 80))}
	for i := range s.Sheets {
		t := &s.Sheets[i]
		t.Cols, t.Rows, t.V = int(r.Word()), int(r.Word()), readPlaces(&r)
		t.Ring, t.Through = r.Bool(), float64(r.Number())
		t.Tints = make([]light.Tint, r.Count(1<<12, 4*len(light.Tint{})))
		for k := range t.Tints {
			for l := range t.Tints[k] {
				t.Tints[k][l] = r.Color()
			}
		}
		t.Pick, t.Lined, t.Tone, t.Dense = r.Numbers(), r.Bool(), r.Numbers(), r.Numbers()
		t.Hatch_mm, t.Weave_mm, t.Ink = float64(r.Number()), float64(r.Number()), r.Color()
		for k := range t.Hem_mm {
			t.Hem_mm[k] = float64(r.Number())
		}
		t.Fold_mm = float64(r.Number())
	}
	if n := r.Count(1<<20, 20); n > 0 {
		s.Threads = make([]light.Thread, n)
	}
	for i := range s.Threads {
		s.Threads[i] = light.Thread{V: readPlaces(&r), Closed: r.Bool(), Width_mm: float64(r.Number()), Ink: r.Color(), Lift_mm: float64(r.Number())}
	}
	if r.Bad || len(r.B) > 0 {
		return nil, errBytes
	}
	return s, s.Check()
}

func readPlaces(r *pack.Reader) []geom.Vec3 {
	n := r.Count(math.MaxInt32, 12)
	if n == 0 {
		return nil
	}
	list := make([]geom.Vec3, n)
	for i := range list {
		list[i] = geom.Vec3{X: float64(r.Number()), Y: float64(r.Number()), Z: float64(r.Number())}
	}
	return list
}

var errBytes = errors.New("painting: these bytes are no message")
