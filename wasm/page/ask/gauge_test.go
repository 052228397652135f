package ask

import (
	"strings"
	"testing"

	"ruffwright/sim/check"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/wire"
)

// TestGauge types the readings of a trial: bad ones are told and asked of nobody, good ones
// go to the solver as millimetres, and the answer can be carried.
func TestGauge(t *testing.T) {
	s := &Ask{Voice: &say.Voice{}}
	s.EnterTrial("trial.over", "4x", false)
	if s.Gauge(0); s.gauge.wanted || s.gauge.wrong[3] == "" {
		t.Fatal("a reading of 4x is asked for")
	}
	for key, text := range map[string]string{"trial.over": "4,5 cm", "trial.tipped": "-34", "trial.weight": "4 g"} {
		if _, ok := s.EnterTrial(key, text, false); !ok {
			t.Fatal(key)
		}
	}
	if _, ok := s.EnterTrial("ruff.sets", "4", false); ok {
		t.Error("a field of the scheme is taken for a reading")
	}
	s.Gauge(0)
	want := wire.Readings{At_mm: [4]float64{0, -34, 0, 45}, Has: [4]bool{false, true, false, true}, Weight_g: 4}
	if !s.gauge.wanted || s.gauge.read != want {
		t.Fatalf("asked for %+v", s.gauge.read)
	}
	s.gauged(wire.Told{Bend_mm: [3]float64{55.2, 53, 57}, Changes: []check.Change{{Key: "starch.bend", Value: "55.2"}}})
	if words := s.gaugeWords(); !strings.Contains(words, "55") || !strings.Contains(words, "53") {
		t.Error(words)
	}
	if c, ok := s.Gauged(); !ok || len(c) != 1 {
		t.Error("nothing to carry")
	}
}
