package scheme

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		text string
		u    Units
		want float64
	}{
		{"395", Millimetres, 395}, {"395", Centimetres, 3950}, {"39.5", Centimetres, 395}, {"10", Inches, 254},
		{"39,5 cm", Millimetres, 395}, {"38,5 cm", Inches, 385}, {"39.5cm", Millimetres, 395}, {"395 mm", Inches, 395},
		{`15 1/2"`, Millimetres, 393.7}, {`15.5 in`, Millimetres, 393.7}, {`15½″`, Millimetres, 393.7}, {"15 ½ in", Millimetres, 393.7},
		{"15-1/2 inches", Millimetres, 393.7}, {"15 1/2”", Millimetres, 393.7}, {"15 1/2''", Centimetres, 393.7}, {"15 1/2", Inches, 393.7},
		{"1/4 in", Millimetres, 6.35}, {"¼ in", Millimetres, 6.35}, {"1/4", Inches, 6.35}, {"3/32 in", Millimetres, 2.38125},
		{"1/8 yd", Millimetres, 114.3}, {"4 yards", Millimetres, 3657.6}, {"3.7 m", Millimetres, 3700}, {"1 metre", Inches, 1000},
		{".5 in", Millimetres, 12.7}, {"0,125", Millimetres, 0.125}, {"-2,5 mm", Millimetres, -2.5}, {"−2.5", Millimetres, -2.5}, {"+3", Millimetres, 3}, {"- 3", Millimetres, -3},
		{"  7  mm  ", Millimetres, 7}, {"7\u00a0mm", Millimetres, 7}, {"0010", Millimetres, 10}, {"-0", Millimetres, 0}, {"1400", Millimetres, 1400}, {"1.400", Millimetres, 1.4},
		{"2,01 cm", Millimetres, 20.1}, // 2.01 × 10 in floats is 20.099999999999998
	} {
		got, err := ParseLength(c.text, c.u)
		if err != nil || got != c.want || math.Signbit(got) != math.Signbit(c.want) {
			t.Errorf("%q in %v = %v, %v; want %v", c.text, c.u, got, err, c.want)
		}
	}
	for text, why := range map[string]string{
		"": "nothing", "   ": "nothing", "\u00a0": "nothing", "abc": "not a number", "NaN": "not a number", "Inf": "not a number", "-Infinity": "not a number",
		"1e999": "exponent", "1e5": "exponent", "5 ft": "unit", "5 g": "unit", "5 g/m²": "unit", "5'": "unit", "12 34": "more than one", "12 mm 34 mm": "more than one",
		"12 mm mm": "unit", "1.2.3": "decimal marks", "1,2,3": "decimal marks", "1.": "no digit", ".": "no digit", ",": "no digit", "1/0": "fraction", "1/": "fraction", "1/2/3": "fraction", "1.5/2": "more than one",
		"15 3/2 in": "one or more", "1,400": "two ways", "12,500 mm": "two ways", "--5": "not a number", "5-": "unit", "mm": "not a number", "½½": "more than one", "1 1/2 1/2": "more than one", "٣": "not a number",
		"1 000": "more than one", strings.Repeat("1", 401): "too long", "1/99999": "fraction", "1" + strings.Repeat("0", 320): "too large",
	} {
		got, err := ParseLength(text, Millimetres)
		if err == nil || !strings.Contains(err.Error(), why) || got != 0 {
			t.Errorf("%.40q = %v, %v; want 0 and an error that says %q", text, got, err, why)
		}
	}
}

func TestMinus(t *testing.T) {
	for number, want := range map[string]string{"-1.5": "−1.5", "1.5": "1.5", "2.09e-08": "2.09e-08", "-2e-08": "−2e-08", "": ""} {
		if got := Minus(number); got != want {
			t.Errorf("Minus(%q) = %q, want %q", number, got, want)
		}
	}
}

func TestFormatLength(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		u    Units
		want string
	}{
		{395, Millimetres, "395 mm"}, {10.375, Millimetres, "10.38 mm"}, {0.18, Millimetres, "0.18 mm"}, {-0.001, Millimetres, "0 mm"}, {1000, Millimetres, "1000 mm"},
		{395, Centimetres, "39.5 cm"}, {394.96, Centimetres, "39.5 cm"}, {385, Centimetres, "38.5 cm"}, {390, Centimetres, "39.0 cm"}, {395.5, Centimetres, "39.55 cm"}, {-0.01, Centimetres, "0.0 cm"},
		{393.7, Inches, "15 1/2 in"}, {6.35, Inches, "1/4 in"}, {2.38125, Inches, "3/32 in"}, {25.4, Inches, "1 in"}, {0, Inches, "0 in"}, {-38.1, Inches, "−1 1/2 in"}, {395, Inches, "15.551 in"}, {1, Inches, "0.039 in"},
		{math.NaN(), Inches, "–"}, {math.Inf(1), Millimetres, "–"},
	} {
		if got := FormatLength(c.mm, c.u); got != c.want {
			t.Errorf("%v in %v = %q, want %q", c.mm, c.u, got, c.want)
		}
	}
}

// Other quantities take their units too. 33.906 g/m² to the oz/yd²: the trade
// figure; 25.4 mm to the inch.
func TestOtherUnits(t *testing.T) {
	for _, c := range []struct {
		key, text string
		want, tol float64
	}{
		{"cloth.mass", "2.8 oz/yd²", 2.8 * 33.906, 0.001}, {"cloth.mass", "95 g/m2", 95, 0}, {"cloth.mass", "72,5 gsm", 72.5, 0},
		{"starch.bath", "70 g/l", 70, 0}, {"support.slope", "-12.5°", -12.5, 0}, {"support.slope", "10 degrees", 10, 0},
		{"strip.shrink_warp", "4,5 %", 4.5, 0}, {"hand.stitches", "15 per inch", 15 / 2.54, 1e-12}, {"hand.stitches", "6 /cm", 6, 0},
		{"ruff.sets", "44 sets", 44, 0}, {"ruff.sets", "40.0", 40, 0}, {"wearer.ratio", "1/1", 1, 0},
	} {
		s := Default()
		if err := s.Set(c.key, c.text); err != nil {
			t.Error(err)
			continue
		}
		f, _ := Lookup(c.key)
		if got := f.Number(s); math.Abs(got-c.want) > c.tol {
			t.Errorf("%s %q = %v, want %v", c.key, c.text, got, c.want)
		}
	}
}

// What is shown and not touched changes nothing: whatever the scheme, every box
// written back as shown in every unit leaves every float as it was.
func TestShownAndUntouchedChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScheme(t)
		switchUnits(t, s, 3)
	})
}

// A hundred switches on lengths that no unit shows exactly.
func TestHundredSwitchesChangeNothing(t *testing.T) {
	s := Default()
	for i := range table {
		if p, ok := table[i].at(&s).(*float64); ok && table[i].Kind == KindLength {
			*p = table[i].Min + (table[i].Max-table[i].Min)/math.Pi
		}
	}
	switchUnits(t, s, 100)
}

func switchUnits(t interface{ Fatalf(string, ...any) }, s Scheme, times int) {
	was := s
	for i := range times {
		u := Units(i % 3)
		for _, f := range table {
			if err := f.Set(&s, f.Show(s, u), u); err != nil {
				t.Fatalf("%s shown as %q in %v: %v", f.Key, f.Show(s, u), u, err)
			}
		}
	}
	if d := Differ(was, s); len(d) != 0 {
		t.Fatalf("%s moved from %s to %s", d[0].Key, d[0].Get(was), d[0].Get(s))
	}
}

// What is shown is within the rounding of what it shows; what the maker types is
// kept as typed.
func TestShownIsNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-1000, 50000).Draw(t, "mm")
		for u, tol := range map[Units]float64{Millimetres: 0.005, Centimetres: 0.05, Inches: 0.0005 * 25.4} {
			got, err := ParseLength(FormatLength(mm, u), Millimetres)
			if err != nil || math.Abs(got-mm) > tol*(1+1e-9) {
				t.Fatalf("%v shown as %q is read as %v, %v", mm, FormatLength(mm, u), got, err)
			}
			bare, err := ParseLength(BareLength(mm, u), u)
			if err != nil || bare != got {
				t.Fatalf("%v: bare %q is read as %v, with unit as %v (%v)", mm, BareLength(mm, u), bare, got, err)
			}
		}
	})
}

// Decimal text is read to the nearest float, as strconv reads it; every 32nd of
// an inch is shown as the fraction that was typed.
func TestParseLengthIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "v")
		if got, err := ParseLength(strconv.FormatFloat(v, 'f', -1, 64), Millimetres); err != nil || got != v {
			t.Fatalf("%v is read as %v, %v", v, got, err)
		}
		n := rapid.IntRange(1, 60000).Draw(t, "32nds")
		text := strconv.Itoa(n) + "/32 in"
		mm, err := ParseLength(text, Millimetres)
		if err != nil || math.Abs(mm-float64(n)*25.4/32) > 1e-9 {
			t.Fatalf("%s is read as %v, %v", text, mm, err)
		}
		if shown := FormatLength(mm, Inches); strings.Contains(shown, ".") {
			t.Fatalf("%s is shown as %s", text, shown)
		} else if back, err := ParseLength(shown, Millimetres); err != nil || back != mm {
			t.Fatalf("%s is shown as %s, which is read as %v, %v", text, shown, back, err)
		}
	})
}

func TestParseUnits(t *testing.T) {
	for _, u := range []Units{Millimetres, Centimetres, Inches} {
		if got, err := ParseUnits(u.String()); err != nil || got != u {
			t.Errorf("%v: %v, %v", u, got, err)
		}
	}
	if _, err := ParseUnits("furlong"); err == nil || !strings.Contains(err.Error(), "mm, cm, in") {
		t.Errorf("furlong: %v", err)
	}
}

// Text for a person who typed something out of range shows the bounds in that
// person's units, and never a bound as what is wrong.
func TestOutsideInEdgeUnits(t *testing.T) {
	f, _ := Lookup("wearer.girth")
	s := Default()
	err := f.Set(&s, `30"`, Inches)
	if err == nil || !strings.Contains(err.Error(), "30 in is too large") || !strings.Contains(err.Error(), "5.118 to 22.047 in") {
		t.Error(err)
	}
	err = f.Set(&s, "56,001", Centimetres)
	if err == nil || strings.Contains(err.Error(), "56.0 cm is") {
		t.Error(err)
	}
	if got := f.UnitIn(Inches); got != "in" {
		t.Error(got)
	}
	drift, _ := Lookup("hand.drift")
	if got := drift.UnitIn(Centimetres); got != "cm a set" {
		t.Error(got)
	}
}
