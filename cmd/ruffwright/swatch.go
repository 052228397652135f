package main

import (
	"flag"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/sim/cloth"
)

// usualAngle_deg is the slope of the swatch test at which the bending length is
// half the overhang.
const usualAngle_deg = 41.5

// swatching is what swatch's flags ask for.
type swatching struct {
	from     source
	readings overhangs
	angles   repeated
	bend     string
	mass     string
	massErr  float64 // %
	ruler    string
	angleErr float64
	way      string
	starched bool
	units    unitsFlag
	asJSON   bool
}

func swatchVerb() verb {
	var w swatching
	return verb{
		name: "swatch", args: "[SCHEME]", most: 1,
		does: "turns the overhang of a strip of cloth into its stiffness",
		help: `
Cut a straight strip of the cloth along the thread, 25 mm wide and at least 200
mm long. Slide it level over a table's edge until the line from the edge to its
tip slopes by 41.5° (or read any other angle), and read how far it hangs over:
with either face up, from both ends. From that come the bending length, with the
interval that the readings leave, and the rigidity:

  ruffwright swatch --overhang 98 --overhang 101 --angle 41.5 --mass 73
  ruffwright swatch --right 98 --right 101 --wrong 95 --wrong 97 --mass 73

With a SCHEME (or --set) it answers with the --set that puts it there; the mass
may then be left to the scheme. --starched says that the strip was starched and
dried flat; its --mass is then that with the starch. --bend asks the other way
round: the overhang that cloth of that bending length shows.

A single reading is taken as good to ± 10 % (common practice, no source), which
is −27 % to +33 % of the rigidity.`,
		flags: func(f *flag.FlagSet) {
			w.from.flags(f)
			f.Var(overhang{&w.readings, cloth.FaceNotTold}, "overhang", "a reading: the `length` that hangs over, 10 to 500 mm; again for each")
			f.Var(overhang{&w.readings, cloth.FaceRight}, "right", "a reading with the right side up, a `length`; again for each")
			f.Var(overhang{&w.readings, cloth.FaceWrong}, "wrong", "a reading with the wrong side up, a `length`; again for each")
			f.Var(&w.angles, "angle", "`degrees` of the slope from edge to tip, 5 to 85; once for all readings (41.5 if not given), or once for each")
			f.StringVar(&w.bend, "bend", "", "ask the other way round: a bending `length`, 1 to 500 mm")
			f.StringVar(&w.mass, "mass", "", "the strip's `mass` in g/m², 1 to 2000; or with oz/yd2")
			f.Float64Var(&w.massErr, "mass-error", 0, "how well the mass is known, ± `percent`, 0 to 50")
			f.StringVar(&w.ruler, "ruler", "1", "how well the ruler is read, a `length` of 0 to 10 mm")
			f.Float64Var(&w.angleErr, "angle-error", 0.5, "how well the angle is known, ± `degrees`, 0 to 10")
			f.StringVar(&w.way, "way", "", "`way` of the cloth that the strip was cut along: warp or weft; along the ruff's strip if not given")
			f.BoolVar(&w.starched, "starched", false, "the strip was starched and dried flat")
			f.BoolVar(&w.asJSON, "json", false, "print the answer as JSON; ruffwright schema describes the keys")
			f.Var(&w.units, "units", "`unit` of the lengths: mm, cm or in")
		},
		prints: swatchAnswer{},
		run: func(j job, args []string) error {
			a, err := w.answer(j, args)
			if err != nil {
				return err
			}
			return say(j, w.asJSON, a, a.text(w.units.Units), true)
		},
	}
}

// overhangs are the readings in the order typed.
type overhangs []cloth.Reading

// overhang is the flag of readings with one face up.
type overhang struct {
	all  *overhangs
	face cloth.Face
}

func (o overhang) String() string { return "" }

func (o overhang) Set(text string) error {
	mm, err := scheme.ParseLength(text, scheme.Millimetres)
	if err != nil {
		return err
	}
	*o.all = append(*o.all, cloth.Reading{Overhang_mm: mm, Face: o.face})
	return nil
}

// swatchAnswer is what swatch says.
type swatchAnswer struct {
	Bend_mm          float64        `json:"bend_mm" unit:"mm" means:"bending length"`
	BendLow_mm       float64        `json:"bend_low_mm" unit:"mm" means:"its interval at 95 %, low end"`
	BendHigh_mm      float64        `json:"bend_high_mm" unit:"mm" means:"its interval at 95 %, high end"`
	Mass_gm2         float64        `json:"mass_g_per_m2" unit:"g/m²" means:"the strip's mass; 0 where it was not given"`
	Rigidity_uNm     float64        `json:"rigidity_unm" unit:"µN·m" means:"bending rigidity per width; 0 where the mass was not given"`
	RigidityLow_uNm  float64        `json:"rigidity_low_unm" unit:"µN·m" means:"its interval at 95 %, low end"`
	RigidityHigh_uNm float64        `json:"rigidity_high_unm" unit:"µN·m" means:"its interval at 95 %, high end"`
	Angle_deg        float64        `json:"angle_deg" unit:"degrees" means:"the slope that overhang_mm is for"`
	Overhang_mm      float64        `json:"overhang_mm" unit:"mm" means:"how far such a strip hangs over at that slope"`
	Each_mm          []float64      `json:"each_mm" unit:"mm" means:"the bending length by each reading, in the order typed; empty with --bend"`
	Spread_mm        float64        `json:"spread_mm" unit:"mm" means:"standard deviation of single readings; 0 with one reading"`
	FaceGap_mm       float64        `json:"face_gap_mm" unit:"mm" means:"the right face's bending length less the wrong face's; 0 where both are not told"`
	Assumed          bool           `json:"assumed" means:"the interval rests on ± 10 % for a single reading, not on scatter"`
	Changes          []check.Change `json:"changes" means:"what to set in the scheme; empty without one"`

	asked, starched bool // the other way round; of a starched strip
	way             scheme.Along
	unstarched      float64 // mass of the cloth before starch, g/m²
}

// answer reads the flags and measures the strip, or answers the other way round.
func (w *swatching) answer(j job, args []string) (swatchAnswer, error) {
	a := swatchAnswer{Each_mm: []float64{}, Changes: []check.Change{}, starched: w.starched}
	switch {
	case w.bend != "" && len(w.readings) > 0:
		return a, usageError{"swatch", "--bend asks the other way round: give it or readings, not both"}
	case w.bend == "" && len(w.readings) == 0:
		return a, usageError{"swatch", "swatch needs a reading: --overhang LENGTH; or --bend LENGTH"}
	}
	var made *scheme.Scheme
	if len(args) > 0 || len(w.from.set) > 0 {
		s, err := w.from.scheme(j, args)
		if err != nil {
			return a, err
		}
		made = &s
	}
	if err := w.numbers(&a, made); err != nil {
		return a, err
	}
	if made == nil {
		return a, nil
	}
	return a, w.changes(&a, *made)
}

// numbers sets all that the strip itself says.
func (w *swatching) numbers(a *swatchAnswer, made *scheme.Scheme) error {
	mass, err := w.massOf(made)
	if err != nil {
		return err
	}
	a.Mass_gm2, a.Angle_deg = mass, usualAngle_deg
	angles, err := w.anglesOf()
	if err != nil {
		return err
	}
	if w.bend != "" {
		return w.inverse(a, angles)
	}
	if mass == 0 {
		return usageError{"swatch", "swatch needs the strip's --mass in g/m², or a SCHEME that says it"}
	}
	ruler, err := scheme.ParseLength(w.ruler, scheme.Millimetres)
	if err != nil {
		return fmt.Errorf("--ruler: %w", err)
	}
	if n := len(angles); n > 1 && n != len(w.readings) {
		return fmt.Errorf("--angle: %d angles for %d readings; expected one for all, or one for each", n, len(w.readings))
	}
	if !(w.massErr >= 0 && w.massErr <= 50) { // NaN fails too
		return fmt.Errorf("--mass-error %g: expected 0 to 50 %%", w.massErr)
	}
	readings := slices.Clone(w.readings)
	for i := range readings {
		readings[i].Angle_deg = angles[min(i, len(angles)-1)]
	}
	m, err := cloth.Measure(cloth.Swatch{Readings: readings, Mass_gm2: mass, MassErr_rel: w.massErr / 100, Ruler_mm: ruler, AngleErr_deg: w.angleErr})
	if err != nil {
		return err
	}
	a.Bend_mm, a.BendLow_mm, a.BendHigh_mm = m.Bend_mm.Value, m.Bend_mm.Low, m.Bend_mm.High
	a.Rigidity_uNm, a.RigidityLow_uNm, a.RigidityHigh_uNm = m.Rigidity_uNm.Value, m.Rigidity_uNm.Low, m.Rigidity_uNm.High
	a.Each_mm, a.Spread_mm, a.FaceGap_mm, a.Assumed = m.Each_mm, m.Spread_mm, m.FaceGap_mm, m.Assumed
	a.Overhang_mm, err = cloth.Overhang(a.Bend_mm, a.Angle_deg)
	return err
}

// inverse answers the other way round: from the bending length to the overhang.
func (w *swatching) inverse(a *swatchAnswer, angles []float64) error {
	if len(angles) > 1 {
		return fmt.Errorf("--angle: %d angles for --bend; expected one", len(angles))
	}
	bend, err := scheme.ParseLength(w.bend, scheme.Millimetres)
	if err != nil {
		return fmt.Errorf("--bend: %w", err)
	}
	a.asked, a.Angle_deg = true, angles[0]
	a.Bend_mm, a.BendLow_mm, a.BendHigh_mm = bend, bend, bend
	if a.Overhang_mm, err = cloth.Overhang(bend, a.Angle_deg); err != nil || a.Mass_gm2 == 0 {
		return err
	}
	r, err := cloth.RigidityBounds(a.Mass_gm2, w.massErr/100, cloth.Bounds{Value: bend, Low: bend, High: bend})
	a.Rigidity_uNm, a.RigidityLow_uNm, a.RigidityHigh_uNm = r.Value, r.Low, r.High
	return err
}

// anglesOf reads the angles; the usual one if none is given.
func (w *swatching) anglesOf() ([]float64, error) {
	if len(w.angles) == 0 {
		return []float64{usualAngle_deg}, nil
	}
	var angles []float64
	for _, text := range w.angles {
		v, err := strconv.ParseFloat(strings.TrimSuffix(strings.Replace(text, ",", ".", 1), "°"), 64)
		if err != nil {
			return nil, fmt.Errorf("--angle %q: expected 5 to 85 degrees", text)
		}
		angles = append(angles, v)
	}
	return angles, nil
}

// massOf is the strip's mass: as given, or the scheme's cloth; 0 for neither.
func (w *swatching) massOf(made *scheme.Scheme) (float64, error) {
	if w.mass == "" {
		if made == nil {
			return 0, nil
		}
		return made.Filled().Cloth.Mass, nil
	}
	if v, err := strconv.ParseFloat(w.mass, 64); err == nil {
		if !(v >= cloth.MassMin_gm2 && v <= cloth.MassMax_gm2) {
			return 0, fmt.Errorf("--mass %s: expected %d to %d g/m²", w.mass, cloth.MassMin_gm2, cloth.MassMax_gm2)
		}
		return v, nil
	}
	var s scheme.Scheme // reads units
	if err := s.Set("cloth.mass", w.mass); err != nil {
		return 0, fmt.Errorf("--mass: %w", err)
	}
	return s.Cloth.Mass, nil
}

// changes says what the strip changes in the scheme, and that the scheme takes it.
func (w *swatching) changes(a *swatchAnswer, s scheme.Scheme) error {
	filled := s.Filled()
	a.way = filled.Strip.Along
	if w.way != "" {
		a.way = scheme.Along(w.way)
		if a.way != scheme.Warp && a.way != scheme.Weft {
			return fmt.Errorf("--way %q: expected warp or weft", w.way)
		}
	}
	if w.starched {
		if a.way != filled.Strip.Along {
			return fmt.Errorf("--way %s: the ruff's strip runs along the %s; a starched swatch is cut along it", a.way, filled.Strip.Along)
		}
		// Kept at the cloth's mass before starch, so that rigidities compare.
		bend, err := cloth.AtMass(a.Bend_mm, a.Mass_gm2, filled.Cloth.Mass)
		if err != nil {
			return err
		}
		a.unstarched = filled.Cloth.Mass
		a.Changes = append(a.Changes, check.Change{Key: "starch.bend", Value: tenths(bend)})
	} else {
		key := "cloth.bend_weft"
		if a.way == scheme.Warp {
			key = "cloth.bend_warp"
		}
		a.Changes = append(a.Changes, check.Change{Key: key, Value: tenths(a.Bend_mm)})
		if w.mass != "" {
			a.Changes = append(a.Changes, check.Change{Key: "cloth.mass", Value: tenths(a.Mass_gm2)})
		}
	}
	if !a.asked {
		a.Changes = append(a.Changes, check.Change{Key: "cloth.error", Value: tenths(a.sure())})
	}
	_, err := check.Apply(s, check.Remedy{Changes: a.Changes})
	return err
}

// sure is how far the bending length may be off, either way, in % as the scheme takes it.
func (a *swatchAnswer) sure() float64 {
	f, _ := scheme.Lookup("cloth.error")
	far := 100 * math.Max(a.BendHigh_mm-a.Bend_mm, a.Bend_mm-a.BendLow_mm) / a.Bend_mm
	return min(max(math.Ceil(far*10-1e-6)/10, f.Min), f.Max)
}

func (a swatchAnswer) text(u scheme.Units) string {
	var b strings.Builder
	length := func(mm float64) string { return roundedLength(mm, u) }
	if a.asked {
		fmt.Fprintf(&b, "Cloth of a bending length of %s slopes by %g° at an overhang of %s.\n", length(a.Bend_mm), a.Angle_deg, length(a.Overhang_mm))
		if a.Overhang_mm > cloth.OverhangMax_mm {
			fmt.Fprintf(&b, "That is more than the %s that can be read well: choose a smaller --angle.\n", length(cloth.OverhangMax_mm))
		}
		if a.Rigidity_uNm > 0 {
			fmt.Fprintf(&b, "At %.4g g/m² its rigidity is %.3g µN·m.\n", a.Mass_gm2, a.Rigidity_uNm)
		}
	} else {
		fmt.Fprintf(&b, "bending length  %s, 95 times in 100 between %s and %s\n", length(a.Bend_mm), length(a.BendLow_mm), length(a.BendHigh_mm))
		fmt.Fprintf(&b, "rigidity        %.3g µN·m, between %.3g and %.3g, at %.4g g/m²\n", a.Rigidity_uNm, a.RigidityLow_uNm, a.RigidityHigh_uNm, a.Mass_gm2)
		var each []string
		for _, mm := range a.Each_mm {
			each = append(each, length(mm))
		}
		b.WriteString(wrapped("by each reading: "+strings.Join(each, "; "), 80, ""))
		if a.FaceGap_mm != 0 {
			fmt.Fprintf(&b, "the right side shows %s more than the wrong side: the cloth's curl, which the mean is free of\n", solvedLength(a.FaceGap_mm, u))
		}
		if a.Assumed {
			b.WriteString(wrapped("One reading says nothing of its scatter: ± 10 % is taken (common practice, no source). Read both faces, from both ends.", 80, ""))
		}
	}
	if len(a.Changes) > 0 {
		if a.starched {
			b.WriteString(wrapped(fmt.Sprintf("The scheme keeps it at the mass before starch, %.4g g/m², so that stiffnesses compare.", a.unstarched), 80, ""))
		} else {
			other := scheme.Warp
			if a.way == scheme.Warp {
				other = scheme.Weft
			}
			fmt.Fprintf(&b, "Along the %s; a strip cut along the %s tells the other way (--way %s).\n", a.way, other, other)
		}
		fmt.Fprintf(&b, "  %s\n", sets(a.Changes))
	}
	return b.String()
}
