package scheme

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// with gives the default scheme with fields set by key.
func with(t *testing.T, pairs ...string) Scheme {
	t.Helper()
	s := Default()
	for i := 0; i < len(pairs); i += 2 {
		if err := s.Set(pairs[i], pairs[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

// Whatever is put into a field directly (by a program, not through Set) is
// refused where it is not finite, out of range or no choice; the error names the
// field and what is allowed.
func TestValidateEveryField(t *testing.T) {
	for i := range table {
		f := &table[i]
		refused := func(s Scheme) {
			t.Helper()
			errs, _ := s.Validate().(Errors)
			if len(errs) == 0 || errs[0].Field != f.Key || errs[0].Allowed.Empty() {
				t.Errorf("%s %q: %v", f.Key, f.Get(s), errs)
			}
		}
		s := Default()
		switch p := f.at(&s).(type) {
		case *float64:
			for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), f.Max + 0.001, f.Max * 1e300, math.Nextafter(f.Max, math.Inf(1))} {
				*p = v
				refused(s)
				if err := s.Validate(); (math.IsNaN(v) || math.IsInf(v, 0)) && !strings.Contains(err.Error(), "not a number") {
					t.Errorf("%s %g: %v", f.Key, v, err)
				}
			}
			if v := f.Min - 0.001; !f.InRange(v) {
				*p = v
				refused(s)
			}
		case *int:
			for _, v := range []int{-1, math.MaxInt, math.MinInt, int(f.Max) + 1} {
				*p = v
				refused(s)
			}
		case *string:
			for _, v := range []string{"x\x00", "a\u202e", "\xff", strings.Repeat("x", 81), " x", "u\u0308", "a\ufeffb"} {
				*p = v
				refused(s)
			}
		case *[]Mark:
			for _, v := range [][]Mark{
				{{Place: math.NaN(), Fold: Crest, Sewn: EdgeTop}},
				{{Place: 0, Fold: Crest, Sewn: EdgeTop}, {Place: math.Inf(1), Fold: Trough, Sewn: EdgeTop}},
				{{Place: 5, Fold: Crest, Sewn: EdgeTop}},
				{{}}, {{Fold: Crest}}, {{Fold: "peak", Sewn: EdgeTop}},
				make([]Mark, 2001),
			} {
				*p = v
				refused(s)
			}
		}
	}
	if err := (Scheme{}).Validate(); err == nil {
		t.Error("the zero value passed")
	}
}

// Fields that do not fit together: both are named, and the same without the
// offence passes.
func TestValidateFit(t *testing.T) {
	for _, c := range []struct {
		good, bad string // key=value, several divided by |
		names     []string
	}{
		{"pleat.panel=60|pleat.tuck_top=29.9", "pleat.panel=60|pleat.tuck_top=30", []string{"pleat.tuck_top", "pleat.panel"}},
		{"pleat.panel=60|pleat.tuck_bottom=29.9", "pleat.panel=60|pleat.tuck_bottom=30", []string{"pleat.tuck_bottom", "pleat.panel"}},
		// A tuck at folds that are not sewn does not exist.
		{"pleat.panel=60|pleat.tuck_bottom=35|pleat.anchor=top", "pleat.panel=60|pleat.tuck_bottom=35|pleat.anchor=top|pleat.sewn=troughs", []string{"pleat.tuck_bottom", "pleat.panel"}},
		{"pleat.lines=2|pleat.line_gap=19|ruff.depth=20", "pleat.lines=2|pleat.line_gap=20|ruff.depth=20", []string{"pleat.line_gap", "ruff.depth"}},
		{"pleat.lines=1|pleat.line_gap=30|ruff.depth=20", "pleat.lines=2|pleat.line_gap=30|ruff.depth=20", []string{"pleat.line_gap", "ruff.depth"}},
		{"strip.hem=9.5|ruff.depth=10", "strip.hem=10|ruff.depth=10", []string{"strip.hem", "ruff.depth"}},
		{"strip.along=warp|strip.bolt=300", "strip.along=warp|strip.bolt=200|ruff.depth=190", []string{"strip.bolt", "ruff.depth", "strip.along"}},
		{"strip.along=weft|strip.bolt=200|ruff.depth=190", "strip.along=warp|strip.bolt=200|ruff.depth=190", []string{"strip.bolt", "ruff.depth"}},
		{"wearer.face=115|look.depth_ratio=0.6", "look.depth_ratio=0.6", []string{"look.depth_ratio", "wearer.face"}},
		{"wearer.face=115|look.height_ratio=0.4", "look.height_ratio=0.4", []string{"look.height_ratio", "wearer.face"}},
		{"wearer.face=115|look.depth_ratio=2.1", "wearer.face=115|look.depth_ratio=2.7", []string{"look.depth_ratio", "wearer.face", "ruff.depth"}},
		{"wearer.face=115|look.height_ratio=1.3", "wearer.face=115|look.height_ratio=1.4", []string{"look.height_ratio", "wearer.face", "ruff.height"}},
		{"wearer.face=115|look.height_ratio=0.05", "wearer.face=115|look.height_ratio=0.04", []string{"look.height_ratio", "ruff.height"}},
		{"look.quarter=2", "look.quarter=1", []string{"look.quarter", "ruff.sets"}},
		{"wearer.girth=130", "wearer.girth=129", []string{"wearer.girth", "wearer.part"}},
		{"wearer.part=wrist|wearer.girth=260", "wearer.part=wrist|wearer.girth=261", []string{"wearer.girth", "wearer.part"}},
		{"band.length=120", "band.length=119", []string{"band.length", "wearer.part"}},
		{"wearer.part=wrist|wearer.girth=180|band.length=0", "wearer.part=wrist|wearer.girth=180|band.length=401", []string{"band.length", "wearer.part"}},
		{"starch.bend=17", "starch.bend=16.9", []string{"starch.bend", "cloth.bend_weft"}},
		{"starch.bend=19.5|strip.along=warp", "starch.bend=19.4|strip.along=warp", []string{"starch.bend", "cloth.bend_warp"}},
		{"starch.bend=55", "starch.bend=55|cloth.bend_weft=60", []string{"starch.bend", "cloth.bend_weft"}},
		// A stick is drawn out at the outer edge, and ends within the ruff; hung sets
		// have none.
		{"starch.stick=12|starch.tip=12", "starch.stick=12|starch.tip=12.1", []string{"starch.tip", "starch.stick", "12.1 mm", "at most 12 mm"}},
		{"starch.stick=12|starch.tip=12.1|starch.dry=hung", "starch.tip=8", []string{"starch.tip", "starch.stick", "8 mm"}},
		{"starch.reach=70|ruff.depth=70", "starch.reach=70.1|ruff.depth=70", []string{"starch.reach", "ruff.depth", "70.1 mm", "at most 70 mm"}},
		{"starch.reach=100|ruff.depth=70|starch.dry=hung", "wearer.face=100|look.depth_ratio=0.5|starch.reach=51", []string{"starch.reach", "ruff.depth", "50 mm"}},
		// The look decides the depth that the second line must lie within.
		{"pleat.lines=2|pleat.line_gap=25|wearer.face=100|look.depth_ratio=0.3", "pleat.lines=2|pleat.line_gap=25|wearer.face=100|look.depth_ratio=0.2", []string{"pleat.line_gap", "ruff.depth"}},
		{"pleat.marks=" + evenMarks(17, 40), "pleat.marks=" + evenMarks(15, 40), []string{"pleat.marks", "ruff.sets"}},
		{"pleat.marks=" + evenMarks(801, 40), "pleat.marks=" + evenMarks(802, 40), []string{"pleat.marks", "ruff.sets"}},
		{"pleat.marks=" + evenMarks(81, 18.5), "pleat.marks=" + evenMarks(81, 18), []string{"pleat.tuck", "pleat.marks"}},
	} {
		try := func(text string) error {
			var pairs []string
			for _, p := range strings.Split(text, "|") {
				k, v, _ := strings.Cut(p, "=")
				pairs = append(pairs, k, v)
			}
			return with(t, pairs...).Validate()
		}
		if err := try(c.good); c.good != "" && err != nil {
			// 802 marks make 401 sets: the good row of 801 has 400.
			t.Errorf("%.90s: %v", c.good, err)
		}
		err := try(c.bad)
		if err == nil {
			t.Errorf("%.90s passed", c.bad)
			continue
		}
		for _, name := range c.names {
			if !strings.Contains(err.Error(), name) {
				t.Errorf("%.90s: %q does not name %s", c.bad, err, name)
			}
		}
	}
}

// evenMarks gives n marks, trough first, step mm apart.
func evenMarks(n int, step float64) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(exact(float64(i) * step))
		b.WriteString(map[bool]string{true: " trough bottom;", false: " crest top;"}[i%2 == 0])
	}
	return b.String()
}

// All errors are told, in the order of the table.
func TestValidateTellsAll(t *testing.T) {
	s := Default()
	s.Hand.Pace, s.Wearer.Girth, s.Ruff.Sets = "slow", math.NaN(), 7
	errs, _ := s.Validate().(Errors)
	var keys []string
	for _, e := range errs {
		keys = append(keys, e.Field)
	}
	if got := strings.Join(keys, " "); got != "wearer.girth ruff.sets hand.pace" {
		t.Errorf("%s\n%v", got, errs)
	}
	s = with(t, "look.depth_ratio", "1", "wearer.girth", "120")
	errs, _ = s.Validate().(Errors)
	if len(errs) != 2 || errs[0].Field != "wearer.girth" || errs[1].Field != "look.depth_ratio" {
		t.Errorf("%v", errs)
	}
}

// The range that the form shows for a part is the one that Validate holds to.
func TestForNarrows(t *testing.T) {
	for part, ends := range map[string][2]float64{"neck": {130, 560}, "wrist": {100, 260}} {
		f, _ := Lookup("wearer.girth")
		s := with(t, "wearer.part", part)
		f = f.For(s)
		if f.Min != ends[0] || f.Max != ends[1] {
			t.Errorf("%s: %g to %g", part, f.Min, f.Max)
		}
		for _, v := range []float64{f.Min, f.Max, f.Min - 1, f.Max + 1} {
			s.Wearer.Girth = v
			if err := s.Validate(); (err == nil) != f.InRange(v) {
				t.Errorf("%s %g: %v", part, v, err)
			}
			if err := f.Set(&s, strconv.FormatFloat(v, 'f', -1, 64), Centimetres); v > 56 && err == nil {
				t.Errorf("%s: %g cm was taken", part, v)
			}
		}
	}
	f, _ := Lookup("ruff.sets")
	if g := f.For(with(t, "wearer.part", "wrist")); g.Min != f.Min || g.Max != f.Max {
		t.Error("sets were narrowed")
	}
}

// Errors of hostile values are short and hold nothing that could hide or turn text.
func TestErrorsAreClean(t *testing.T) {
	s := Default()
	s.Name = "\u202e\x00" + strings.Repeat("x", 5000)
	err := s.Validate()
	if err == nil || len(err.Error()) > 300 || strings.ContainsAny(err.Error(), "\u202e\x00\n") {
		t.Errorf("%q", err)
	}
	if e := (Error{}); e.Error() != "" {
		t.Errorf("empty error: %q", e.Error())
	}
}

// Validate looks at any scheme without panic, and Filled of a valid one is valid,
// finite and filled once for all.
func TestFilledOfValid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScheme(t)
		f := s.Filled()
		if err := f.Validate(); err != nil {
			t.Fatal(err)
		}
		if d := Differ(f, f.Filled()); len(d) != 0 {
			t.Fatalf("%s changes when filled again", d[0].Key)
		}
		if !(f.Cloth.Mass > 0 && f.Cloth.Thickness > 0 && f.Cloth.BendWarp > 0 && f.Cloth.BendWeft > 0) {
			t.Fatalf("cloth not filled: %+v", f.Cloth)
		}
		for _, field := range Differ(s, f) {
			switch field.Key {
			case "ruff.sets", "ruff.depth", "ruff.height", "pleat.first", "pleat.last", "cloth.mass", "cloth.thickness", "cloth.bend_warp", "cloth.bend_weft", "cloth.light":
			default:
				t.Fatalf("%s was changed", field.Key)
			}
		}
	})
}
