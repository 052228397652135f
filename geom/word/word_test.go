package word

import (
	"encoding/json"
	"testing"
)

// turned is a made-up language with another order of places, three forms of
// plurals (as Polish has them: CLDR, rules one, few, many) and a decimal comma.
var turned = Language{
	Tag: "x",
	Say: func(english string) string {
		return map[string]string{
			"%s of the %s edge":  "krawędź %[2]s: %[1]s",
			"top":                "górna",
			"too long by %s mm.": "za długie o %s mm.",
		}[english]
	},
	Count: func(one, many string, n int) string {
		if many != "%d sets" {
			return ""
		}
		switch {
		case n == 1:
			return "%d fałda"
		case n%10 >= 2 && n%10 <= 4 && (n%100 < 12 || n%100 > 14):
			return "%d fałdy"
		}
		return "%d fałd"
	},
	Point: ",",
}

func TestText(t *testing.T) {
	sets := func(n int) Text { return Count(n, "%d set", "%d sets", n) }
	for _, c := range []struct {
		text               Text
		english, elsewhere string
	}{
		{Text{}, "", ""},
		{Say("%s of the %s edge", Name("Cooper"), Say("top")), "Cooper of the top edge", "krawędź górna: Cooper"},
		{Say("no such template: %d %%", 3), "no such template: 3 %", "no such template: 3 %"},
		{Say("30 %% of it"), "30 % of it", "30 % of it"},
		{Say("4 %"), "4 %", "4 %"}, // a unit alone, nothing in its places
		{Name("100 %% %s"), "100 %% %s", "100 %% %s"},
		{sets(1), "1 set", "1 fałda"},
		{sets(3), "3 sets", "3 fałdy"},
		{sets(13), "13 sets", "13 fałd"},
		{Count(2, "one edge", "both edges"), "both edges", "both edges"},
		{Count(1, "one edge, 5 %%", "%d edges, 5 %%", 1), "one edge, 5 %", "one edge, 5 %"},
		{Join(", ", sets(1), Text{}, Say("top")), "1 set, top", "1 fałda, górna"},
		{Join(" "), "", ""},
	} {
		if got := c.text.String(); got != c.english {
			t.Errorf("in English %q, want %q", got, c.english)
		}
		if got := c.text.In(turned); got != c.elsewhere {
			t.Errorf("elsewhere %q, want %q", got, c.elsewhere)
		}
		if c.text.Empty() != (c.english == "") {
			t.Errorf("%q: Empty is %v", c.english, c.text.Empty())
		}
	}
}

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		n                  Number
		english, elsewhere string
	}{
		{Number{Value: 3.5}, "4", "4"},
		{Number{Value: -3.5}, "−4", "−4"},
		{Number{Value: -0.04, Decimals: 1}, "0.0", "0,0"},
		{Number{Value: -0.06, Decimals: 1}, "−0.1", "−0,1"},
		{Number{Value: 0.0625, Decimals: -1}, "0.0625", "0,0625"},
		{Number{Value: 1.005, Decimals: 2}, "1.00", "1,00"}, // 1.005 is a little less in binary
		{Number{Value: 12.340, Decimals: 3, Short: true}, "12.34", "12,34"},
		{Number{Value: 100, Decimals: 2, Short: true}, "100", "100"},
		{Number{Value: 100, Short: true}, "100", "100"},
		{Number{Value: 1e300, Decimals: 15, Short: true}, Number{Value: 1e300}.String(), Number{Value: 1e300}.String()},
	} {
		if got := c.n.String(); got != c.english {
			t.Errorf("%+v in English %q, want %q", c.n, got, c.english)
		}
		if got := c.n.In(turned); got != c.elsewhere {
			t.Errorf("%+v elsewhere %q, want %q", c.n, got, c.elsewhere)
		}
	}
}

// TestMadeUp holds that the tests' own languages leave verbs and places alone, and
// that nothing of a template without either stays plain.
func TestMadeUp(t *testing.T) {
	for _, c := range []struct {
		text     Text
		accented string
	}{
		{Say("at %[1]d sets %s {of} 5 %%", 3, Name("e")), "át 3 séts e {of} 5 %"},
		{Count(1, "%d fold", "%d folds", 1), "1 fóld"},
		{Say("%.1f mm", 2.0), "2.0 mm"},
		{Say("Edge"), "Édgé"},
	} {
		if got := c.text.In(Accented); got != c.accented {
			t.Errorf("%q, want %q", got, c.accented)
		}
	}
	if a, b := Say("The outer edge hangs.").In(Accented), Say("The outer edge hangs.").In(Long); len([]rune(b)) < 5*len([]rune(a))/4 {
		t.Errorf("%q is not longer than %q", b, a)
	}
}

func TestJSON(t *testing.T) {
	b, err := json.Marshal(struct{ T Text }{Say("%d %s", 4, Say("sets"))})
	if err != nil || string(b) != `{"T":"4 sets"}` {
		t.Errorf("%s, %v", b, err)
	}
	var back struct{ T Text }
	if err := json.Unmarshal(b, &back); err != nil || back.T.In(Long) != "4 sets" {
		t.Errorf("%q, %v", back.T.In(Long), err)
	}
}
