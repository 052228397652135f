package window

import (
	"fmt"
	"math"

	"ruffwright/geom/pleat"
)

// Misfit says why a design has no mechanics: one field is out of its range, or
// fields do not fit together.
type Misfit struct {
	Kind  MisfitKind
	Field string  // of Design; the first one where several do not fit together
	Value float64 // what was found, in the field's unit, or what Kind names
	Least float64 // what is allowed
	Most  float64
}

// MisfitKind is one way in which a design can be impossible.
type MisfitKind uint8

const (
	OutOfRange  MisfitKind = iota // Field is not between Least and Most
	TucksLong                     // Value, the tucks together, is more than Most: too much of the panel
	TuckDeep                      // Value, the deeper tuck, is more than Most: too much of the width
	GapWide                       // Value, between the stitch lines, is more than Most: too much of the width
	NoWave                        // Value, the pitch, is more than Most: the inner edge lies flat
	NoOuterWave                   // Value, the pitch at the outer edge, is more than Most: it lies flat there
	StickThick                    // Value, the stick, is more than Most: it does not fit into its loop
	TooShort                      // Value, the slack, is less than Least: the inner edge does not reach
)

// Error gives the fields, what was found and what is allowed.
func (m Misfit) Error() string {
	switch m.Kind {
	case TucksLong:
		return fmt.Sprintf("window: TuckTop_mm + TuckBottom_mm = %.4g; at most %.4g of this Panel_mm", m.Value, m.Most)
	case TuckDeep:
		return fmt.Sprintf("window: %s = %.4g; at most %.4g of this Width_mm", m.Field, m.Value, m.Most)
	case GapWide:
		return fmt.Sprintf("window: LineGap_mm = %.4g; at most %.4g of this Width_mm", m.Value, m.Most)
	case NoWave:
		return fmt.Sprintf("window: Pitch_mm = %.4g leaves no wave in Panel_mm less tucks; at most %.4g", m.Value, m.Most)
	case NoOuterWave:
		return fmt.Sprintf("window: Pitch_mm is %.4g at the outer edge and leaves no wave in two panels; at most %.4g there", m.Value, m.Most)
	case StickThick:
		return fmt.Sprintf("window: Stick_mm = %.4g; at most %.4g in loops of this Panel_mm and Pitch_mm", m.Value, m.Most)
	case TooShort:
		return fmt.Sprintf("window: slack = %.3f; at least %g, or the cloth does not reach from edge to edge", m.Value, m.Least)
	}
	return fmt.Sprintf("window: %s = %v; allowed is %g to %g", m.Field, m.Value, m.Least, m.Most)
}

// Validate gives a Misfit for the first field that is out of its range or does
// not fit together with others; nil where the design has mechanics.
func (d *Design) Validate() error {
	for _, f := range []struct {
		name      string
		v, lo, hi float64
	}{
		{"Panel_mm", d.Panel_mm, 3, 400},
		{"Width_mm", d.Width_mm, 5, 350},
		{"Pitch_mm", d.Pitch_mm, 0.3, math.Max(0.3, 1.6*d.Panel_mm)},
		{"Kappa_1pmm", d.Kappa_1pmm, 0, 0.25},
		{"BandHeight_mm", d.BandHeight_mm, 2, 120},
		{"TuckTop_mm", d.TuckTop_mm, 0, 60},
		{"TuckBottom_mm", d.TuckBottom_mm, 0, 60},
		{"LineGap_mm", d.LineGap_mm, 0, 60},
		{"BendU_uNm", d.BendU_uNm, 1e-4, 1e5},
		{"BendV_uNm", d.BendV_uNm, 1e-4, 1e5},
		{"FrozenU_uNm", d.FrozenU_uNm, 0, 1e6},
		{"FrozenV_uNm", d.FrozenV_uNm, 0, 1e6},
		{"FrozenShear_Npm", d.FrozenShear_Npm, 0, 1e5},
		{"Quality", d.Quality, 0, 1},
		{"Stick_mm", d.Stick_mm, 0, 200},
		{"StickTip_mm", d.StickTip_mm, 0, 200},
		{"StickReach_mm", d.StickReach_mm, 0, d.Width_mm},
		{"Mass_gm2", d.Mass_gm2, 1, 1000},
		{"Thickness_mm", d.Thickness_mm, 0.01, 3},
		{"SupportDrop_mm", d.SupportDrop_mm, -60, 200},
		{"SupportSlope_deg", d.SupportSlope_deg, -60, 75},
		{"Anchor", float64(d.Anchor), float64(Both), float64(Bottom)},
		{"Sewn", float64(d.Sewn), float64(Crests), float64(Troughs)},
	} {
		if !(f.v >= f.lo && f.v <= f.hi) {
			return Misfit{OutOfRange, f.name, f.v, f.lo, f.hi}
		}
	}
	return d.fit()
}

// fit says which fields, each in its range, do not fit together.
func (d *Design) fit() error {
	c, t := d.tucks()
	inner := pleat.WaveMost*d.Panel_mm - c - t
	deeper := "TuckTop_mm"
	if t > c {
		deeper = "TuckBottom_mm"
	}
	outer := Room_mm(d.Pitch_mm, d.Kappa_1pmm, d.Width_mm)
	for _, m := range []Misfit{
		{TucksLong, "TuckTop_mm", c + t, 0, pleat.TucksMost * d.Panel_mm},
		{TuckDeep, deeper, math.Max(c, t), 0, pleat.TuckMost * d.Width_mm},
		{GapWide, "LineGap_mm", d.LineGap_mm, 0, pleat.GapMost * d.Width_mm},
		{NoWave, "Pitch_mm", d.Pitch_mm, 0, 2 * inner},
		{NoOuterWave, "Pitch_mm", outer, 0, 2 * pleat.WaveMost * d.Panel_mm},
	} {
		if m.Value > m.Most {
			return m
		}
	}
	if err := d.fitStick(); err != nil {
		return err
	}
	if s := d.Slack(); d.Anchor == Both && s < 1 {
		return Misfit{TooShort, "Panel_mm", s, 1, math.Inf(1)}
	}
	return nil
}
