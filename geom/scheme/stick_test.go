package scheme

import (
	"strings"
	"testing"
)

// TestShearUnits: a figure of shear may be typed with its unit, and with no other.
func TestShearUnits(t *testing.T) {
	for text, want := range map[string]float64{"600": 600, "600 N/m": 600, "1250,5 N per m": 1250.5, "60 newtons per metre": 60, "0": 0} {
		s := Default()
		if err := s.Set("starch.shear", text); err != nil || s.Starch.Shear != want {
			t.Errorf("%q: %g, %v", text, s.Starch.Shear, err)
		}
	}
	for text, why := range map[string]string{"59": "too small", "20001": "too large", "600 mN": "unit", "600 mm": "unit"} {
		s := Default()
		err := s.Set("starch.shear", text)
		if err == nil || !strings.Contains(err.Error(), "starch.shear") || !strings.Contains(err.Error(), why) || !strings.Contains(err.Error(), "60 to 20000 N/m, or 0 (guessed)") {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// TestStickBySteps: a stick may be entered in any order in which every step makes sense,
// and one that ends within the picture's depth stands.
func TestStickBySteps(t *testing.T) {
	s := with(t, "starch.stick", "12 mm", "starch.tip", "3/8 in", "starch.reach", "4 cm")
	if err := s.Validate(); err != nil || s.Starch.Tip != 9.525 || s.Starch.Reach != 40 {
		t.Errorf("%+v, %v", s.Starch, err)
	}
	s.Starch.Stick = 0
	if err := s.Validate(); err == nil || !strings.Contains(err.Error(), "needs starch.stick") || !strings.Contains(err.Error(), "9.525 mm") {
		t.Errorf("a tip without a stick: %v", err)
	}
	s.Starch.Dry = Hung
	if err := s.Validate(); err != nil {
		t.Errorf("hung: %v", err)
	}
}
