package cloth

import (
	"fmt"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/testdata/frozen"
)

// TestFrozenAnswers holds rigidities, overhangs, swatches and baths to what they were, at and
// beyond the bounds of what is taken.
func TestFrozenAnswers(t *testing.T) {
	texts := map[string]string{}
	put := func(name string, of ...any) { texts[name] += fmt.Sprint(of...) + "\n" }
	for _, x := range []float64{0, 0.5, 1, 4.9, 5, 19.5, 41.5, 60, 73, 89, 101, 119.9, 250, 501, 1e4} {
		for _, y := range []float64{0, 0.02, 1, 20, 41.5, 72.5, 160, 1001} {
			b, err := Rigidity(y, x)
			put("rigidity", b, err)
			o, err := Overhang(x, y)
			put("overhang", o, err)
			r, err := FrozenRatio(y, x)
			put("ratio", r, err)
			m, err := AtMass(x, y, 90)
			put("mass", m, err)
			q, err := RigidityBounds(y, 0.03, Bounds{x + 1, x, x + 2})
			put("bounds", q, err)
			put("first", FirstStrength(x, y))
			for _, kind := range []scheme.StarchKind{scheme.Maize, scheme.Wheat} {
				bath, err := NewBath(kind, x, y/50, 80)
				put("bath", fmt.Sprintf("%+v", bath), err)
			}
			s := Swatch{Mass_gm2: 20 + y, Readings: []Reading{{Overhang_mm: x, Angle_deg: 41.5}, {Overhang_mm: x + 3, Angle_deg: y}, {Overhang_mm: x + 1, Angle_deg: 41.5}}}
			got, err := Measure(s)
			put("measure", fmt.Sprintf("%+v", got), err)
		}
		put("strength", StrengthName(x))
		h, err := Hang(x / 10)
		put("hang", h, err)
		p, err := Span(x)
		put("span", p, err)
	}
	for seed := range uint64(60) {
		sheet, err := FromScheme(scheme.Random(seed))
		put("schemes", fmt.Sprintf("%+v", sheet), err)
	}
	frozen.Hold(t, texts)
}
