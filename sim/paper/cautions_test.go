package paper

import (
	"strings"
	"testing"
)

// TestCautions: every caution stands whole on the sheet of each of its steps, at a
// neck and at a wrist; flame comes first and stands on the first sheet always.
func TestCautions(t *testing.T) {
	on := map[Step]string{
		StepCloth: "cutting", StepSew: "order", StepBand: "order", StepCook: "starch", StepDry: "starch",
		StepSet: "starch", StepColour: "starch", StepWear: "wear", StepKeep: "wear",
	}
	for _, c := range cases()[:2] {
		in := input(t, c.set, c.u)
		pages, err := Pages(in)
		if err != nil {
			t.Fatal(err)
		}
		all := Cautions(in.Ruff.Plan.Scheme.Wearer.Part)
		if all[0].ID != "flame" {
			t.Errorf("%s: the first caution is %s", c.name, all[0].ID)
		}
		for _, k := range all {
			if len(k.Steps) == 0 {
				t.Errorf("%s stands at no step", k.ID)
			}
			for _, step := range k.Steps {
				if text := said(pages, on[step]); !strings.Contains(text, k.Text.String()) || !strings.Contains(text, "Caution: "+k.Title.String()+".") {
					t.Errorf("%s: caution %s is not on sheet %s", c.name, k.ID, on[step])
				}
			}
		}
		for _, kind := range []string{"start", "order", "wear"} {
			if !strings.Contains(said(pages, kind), all[0].Text.String()) {
				t.Errorf("%s: no flame caution on sheet %s", c.name, kind)
			}
		}
		if !strings.Contains(said(pages, "band"), all[1].Text.String()) {
			t.Errorf("%s: the band's pattern does not warn of a tight band", c.name)
		}
		if !strings.Contains(said(pages, "start"), "local rules say more") {
			t.Error("the first sheet does not defer to local rules")
		}
	}
}
