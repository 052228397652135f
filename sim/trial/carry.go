package trial

import (
	"math"
	"strconv"

	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
)

// Changes are what a trial changes in its scheme, in the order of its table of fields;
// none where readings contradict each other. The stitch is carried where the ruff is sewn
// to one edge, the stick where the sets came out taller or lower than planned beyond doubt,
// the mass where the scheme has it by the cloth's name alone.
func (a *Answer) Changes(c *Card) (list []check.Change) {
	if len(a.Wrong) > 0 || a.MassOff {
		return nil
	}
	decimals := func(x float64, n int) string {
		p := math.Pow(10, float64(n))
		return strconv.FormatFloat(math.Round(x*p)/p, 'f', -1, 64)
	}
	add := func(key, value string) { list = append(list, check.Change{Key: key, Value: value}) }
	if c.oneEdge && c.scheme.Pleat.Lines == 1 {
		if a.Turns > 0.5 {
			add("pleat.catch", "0")
		} else {
			add("pleat.catch", decimals(a.Catch_mm.Value, 1))
		}
	}
	if a.Mass_gm2.Value > 0 && c.given.Cloth.Mass == 0 {
		add("cloth.mass", decimals(a.Mass_gm2.Value, 0))
	}
	if f, ok := scheme.Lookup(sureKey); ok {
		add(sureKey, decimals(math.Max(f.Min, math.Min(a.Sure(), f.Max)), 0))
	}
	add("starch.bend", decimals(a.Bend_mm.Value, 1))
	add("starch.quality", decimals(a.Quality.Value, 2))
	if stick, ok := a.stick(c); ok {
		add("starch.stick", decimals(stick, 1))
	}
	return list
}

// sureKey is the field that says how far bending lengths may be off, in %.
const sureKey = "cloth.error"

// Sure is how far the bending length may be off, up or down, in % of it, 95 times in 100.
func (a *Answer) Sure() float64 {
	const normal95 = 1.959963984540054
	b := a.Bend_mm
	return 100 * math.Max(b.High/b.Value-1, 1-b.Low/b.Value) * normal95 / normal90
}

// stick is the thickness of the sticks on which the ruff's sets would stand as tall as the
// trial's did, beside what was planned; false where the trial does not ask for another.
func (a *Answer) stick(c *Card) (float64, bool) {
	if c.Hung || a.Formed_mm.Low <= 0 && a.Formed_mm.High >= 0 {
		return 0, false
	}
	r, err := curve.TautRadius(c.Panel_mm, c.room_mm(), c.Tall_mm+a.Formed_mm.Value)
	f, _ := scheme.Lookup("starch.stick")
	stick := 2*r - c.scheme.Cloth.Thickness
	return stick, err == nil && stick >= f.Min && stick <= f.Max
}
