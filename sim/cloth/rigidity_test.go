package cloth

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestRigidity(t *testing.T) {
	for _, v := range []struct{ mass, c, want, tol float64 }{
		// Worked magnitudes (two digits): 75 g/m² at 20 mm, 45 at 45, starched 80.
		{75, 20, 5.9, 0.05},
		{45, 45, 40, 0.5},
		{80, 40, 50, 0.5},
		{80, 55, 131, 0.5},
		{80, 75, 331, 0.5},
		{100, 25, 15.3, 0.05},
		// From the definition: 100 g/m² is 0.980665 N/m²; × (0.1 m)³.
		{100, 100, 980.665, 1e-9},
	} {
		b, err := Rigidity(v.mass, v.c)
		if err != nil || math.Abs(b-v.want) > v.tol {
			t.Errorf("%v g/m², %v mm: %v µN·m, want %v (%v)", v.mass, v.c, b, v.want, err)
		}
	}
	// BS 3356's form, G = 0.10 W c³ mg·cm with c in cm, is the same number.
	b, _ := Rigidity(120, 30)
	if bs := 0.10 * 120 * 3 * 3 * 3 * 0.0980665; math.Abs(b/bs-1) > 1e-14 {
		t.Errorf("%v, by BS 3356 %v", b, bs)
	}
	// The constant printed in ASTM D1388 is not what B = w c³ gives, and not used.
	if r := 1.421e-5 * 120 * 27000 / b; math.Abs(r-1.449) > 5e-4 {
		t.Errorf("ASTM's constant ÷ ours %v, want 1.449", r)
	}
}

func TestAtMassKeepsRigidity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mass := rapid.Float64Range(1, 2000).Draw(t, "mass")
		c := rapid.Float64Range(1, 500).Draw(t, "c")
		b, err := Rigidity(mass, c)
		if err != nil {
			t.Fatal(err)
		}
		to := mass * rapid.Float64Range(0.55, 1.9).Draw(t, "mass ratio")
		if to < 1 || to > 2000 {
			return
		}
		other, err := AtMass(c, mass, to)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(rigidity(to, other)/b-1) > 1e-14 {
			t.Fatalf("at %v g/m²: %v mm has another rigidity", to, other)
		}
	})
}

func TestRigidityBounds(t *testing.T) {
	b, err := RigidityBounds(100, 0, Bounds{25, 22.5, 27.5})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "−10 %", b.Low/b.Value, 0.729)
	near(t, "+10 %", b.High/b.Value, 1.331)
	b, err = RigidityBounds(100, 0.05, Bounds{25, 25, 25})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mass alone, low", b.Low/b.Value, 0.95)
	near(t, "mass alone, high", b.High/b.Value, 1.05)
	for _, bad := range []Bounds{{25, 26, 27}, {25, 24, 24.5}, {25, math.NaN(), 27}, {25, 24, math.Inf(1)}, {math.NaN(), 24, 27}} {
		if _, err := RigidityBounds(100, 0, bad); err == nil {
			t.Errorf("%v is taken", bad)
		}
	}
	for _, f := range []func() error{
		func() error { _, err := Rigidity(math.NaN(), 20); return err },
		func() error { _, err := Rigidity(100, math.Inf(1)); return err },
		func() error { _, err := AtMass(20, 100, 300); return err },
		func() error { _, err := RigidityBounds(100, 0.6, Bounds{25, 25, 25}); return err },
	} {
		if f() == nil {
			t.Error("a number outside its range is taken")
		}
	}
}
