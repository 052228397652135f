package look

import (
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/light"
)

// The light goes with the reader's colours until one is chosen, which holds whatever they
// become; the light that they bring themselves, chosen, goes on with them. Against the
// light only what is solid is another: the sheet stays the reader's.
func TestLights(t *testing.T) {
	for _, c := range []struct {
		colours, choice, then string
		want                  Lit
		mood                  light.Mood
		ground                draw.Palette
	}{
		{"light", "", "light", ByDay, light.Daylight, draw.Light()},
		{"dark", "", "dark", ByCandle, light.Candle, draw.Dark()},
		{"contrast", "", "contrast", ByDay, light.Daylight, draw.Contrast()},
		{"light", "candle", "light", ByCandle, light.Candle, draw.Dark()},
		{"light", "candle", "contrast", ByDay, light.Daylight, draw.Contrast()},
		{"contrast", "candle", "light", ByDay, light.Daylight, draw.Light()},
		{"dark", "day", "dark", ByDay, light.Daylight, draw.Light()},
		{"dark", "day", "light", ByDay, light.Daylight, draw.Light()},
		{"light", "day", "dark", ByCandle, light.Candle, draw.Dark()},
		{"light", "against", "light", Against, light.Against, draw.Light()},
		{"dark", "against", "dark", Against, light.Against, draw.Dark()},
		{"contrast", "against", "contrast", Against, light.Against, draw.Contrast()},
		{"light", "noon", "light", ByDay, light.Daylight, draw.Light()},
	} {
		l := newLook(t)
		l.Shine(c.colours)
		l.Do("light", c.choice, 0)
		l.Shine(c.then)
		d, _, _, err := l.Picture()
		if err != nil {
			t.Fatal(err)
		}
		if mood := solids(t, l)[0].Mood; l.lit() != c.want || mood != c.mood || d.Ground != c.ground.Ground {
			t.Errorf("%s, then %q, then %s: %s, mood %d on %v, want %s, %d on %v", c.colours, c.choice, c.then, l.lit(), mood, d.Ground, c.want, c.mood, c.ground.Ground)
		}
	}
}

// A picture goes to a printer: candle-light stays on the screen, a window behind the ruff
// does not.
func TestSavedLight(t *testing.T) {
	svg := func(choice string) string {
		l := newLook(t)
		l.Do("light", choice, 0)
		b, err := l.Export("svg")
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	day := svg("day")
	if svg("candle") != day {
		t.Error("saved by candle it is another picture")
	}
	if svg("against") == day {
		t.Error("saved against the light it is the same picture")
	}
}
