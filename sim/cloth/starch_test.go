package cloth

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom/scheme"
)

func TestFrozen(t *testing.T) {
	// Starched from 20 to 40 mm: 8 times the rigidity, so 7 frozen.
	r, err := FrozenRatio(20, 40)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ratio", r, 7)
	for _, starched := range []float64{0, 20} {
		if f, err := FrozenRatio(20, starched); f != 0 || err != nil {
			t.Errorf("starched %v: %v, %v", starched, f, err)
		}
	}
	_, err = FrozenRatio(20, 19)
	if err == nil || !strings.HasPrefix(err.Error(), "starched bending length 19 mm is outside 20 to 500 mm: starch does not make the cloth limper") {
		t.Error(err)
	}
	for _, bad := range []float64{-1, 501, math.NaN(), math.Inf(1)} {
		if _, err := FrozenRatio(20, bad); err == nil {
			t.Errorf("starched %v is taken", bad)
		}
		if _, err := FrozenRatio(bad, 40); err == nil {
			t.Errorf("cloth %v is taken", bad)
		}
	}
}

// From a wanted multiple to what the maker watches for on the table's edge, and
// back from the reading, weighed with its starch.
func TestStarchTargetRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mass := rapid.Float64Range(20, 200).Draw(t, "mass")
		cloth := rapid.Float64Range(11, 40).Draw(t, "cloth")
		ratio := rapid.Float64Range(0.01, 100).Draw(t, "ratio")
		target := cloth * math.Cbrt(1+ratio)
		heavy := mass * rapid.Float64Range(1, 1.2).Draw(t, "starch taken up")
		asHung, err := AtMass(target, mass, heavy)
		if err != nil {
			t.Fatal(err)
		}
		l, err := Overhang(asHung, 41.5)
		if err != nil {
			t.Fatal(err)
		}
		if l > OverhangMax_mm {
			return
		}
		read, _, err := bend(Reading{Overhang_mm: l, Angle_deg: 41.5})
		if err != nil {
			t.Fatal(err)
		}
		back, err := AtMass(read, heavy, mass)
		if err != nil {
			t.Fatal(err)
		}
		f, err := FrozenRatio(cloth, back)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(f-ratio) > 1e-12*(1+ratio) {
			t.Fatalf("ratio %v comes back as %v", ratio, f)
		}
	})
}

func filled() scheme.Scheme {
	var s scheme.Scheme
	s.Cloth = scheme.Cloth{Mass: 100, Thickness: 0.2, BendWarp: 25, BendWeft: 20}
	s.Strip.Along = scheme.Weft
	s.Starch.Bend = 40
	return s
}

func TestFromScheme(t *testing.T) {
	s := filled()
	sh, err := FromScheme(s)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u", sh.BendU_uNm, 9.80665e-4*8000)
	near(t, "v", sh.BendV_uNm, 9.80665e-4*15625)
	near(t, "frozen u", sh.FrozenU_uNm, 7*sh.BendU_uNm)
	near(t, "frozen v", sh.FrozenV_uNm, 7*sh.BendV_uNm)
	if sh.Mass_gm2 != 100 || sh.Thickness_mm != 0.2 {
		t.Errorf("%+v", sh)
	}
	// Turned by a right angle, u and v change places; the frozen part is then
	// told by the warp's own length.
	s.Strip.Along = scheme.Warp
	tu, err := FromScheme(s)
	if err != nil {
		t.Fatal(err)
	}
	if tu.BendU_uNm != sh.BendV_uNm || tu.BendV_uNm != sh.BendU_uNm {
		t.Errorf("%+v turned is %+v", sh, tu)
	}
	near(t, "frozen u, warp", tu.FrozenU_uNm+tu.BendU_uNm, 9.80665e-4*64000)
	s.Starch.Bend = 0
	if sh, err = FromScheme(s); err != nil || sh.FrozenU_uNm != 0 || sh.FrozenV_uNm != 0 {
		t.Errorf("no starch: %+v, %v", sh, err)
	}
}

func TestFromSchemeErrors(t *testing.T) {
	for want, change := range map[string]func(*scheme.Scheme){
		"cloth.mass 0 g/m² is outside":                                              func(s *scheme.Scheme) { s.Cloth.Mass = 0 },
		"cloth.thickness is not a number":                                           func(s *scheme.Scheme) { s.Cloth.Thickness = math.NaN() },
		"cloth.bend_warp -3 mm is outside 1 to 500 mm":                              func(s *scheme.Scheme) { s.Cloth.BendWarp = -3 },
		"cloth.bend_weft +Inf mm is outside":                                        func(s *scheme.Scheme) { s.Cloth.BendWeft = math.Inf(1) },
		`strip.along "bias" is neither warp nor weft`:                               func(s *scheme.Scheme) { s.Strip.Along = "bias" },
		"starch.bend, with the strip along the weft: starched bending length 19 mm": func(s *scheme.Scheme) { s.Starch.Bend = 19 },
	} {
		s := filled()
		change(&s)
		if _, err := FromScheme(s); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

// Every named cloth of the scheme's table makes a sheet, both ways along.
func TestNamedCloths(t *testing.T) {
	field, _ := scheme.Lookup("cloth.name")
	for _, choice := range field.Choices {
		c, ok := scheme.ClothNamed(choice.Value)
		if !ok {
			t.Fatalf("%s is offered and not known", choice.Value)
		}
		for _, along := range []scheme.Along{scheme.Warp, scheme.Weft} {
			s := filled()
			s.Strip.Along = along
			s.Starch.Bend = 0
			s.Cloth = scheme.Cloth{Name: c.Name, Mass: c.Mass, Thickness: c.Thickness, BendWarp: c.BendWarp, BendWeft: c.BendWeft}
			sh, err := FromScheme(s)
			if err != nil {
				t.Errorf("%s: %v", c.Name, err)
			}
			// Ruff cloth lies between the softest voile and stiff linen.
			if !(sh.BendU_uNm > 0.5 && sh.BendU_uNm < 150) {
				t.Errorf("%s: %v µN·m", c.Name, sh.BendU_uNm)
			}
		}
	}
}
