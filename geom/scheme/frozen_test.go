package scheme

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"ruffwright/testdata/frozen"
)

// scattered is a scheme whose numbers are quarters spread over their ranges: Random's
// last bits are not the same on every target. What does not fit is left as it was.
func scattered(seed int) Scheme {
	s := Default()
	for i, f := range Fields() {
		text := strconv.FormatFloat(math.Round(4*(f.Min+(f.Max-f.Min)*float64((7*seed+5*i)%17)/16))/4, 'f', -1, 64)
		if n := len(f.Choices); n > 0 {
			text = f.Choices[(seed+i)%n].Value
		}
		if was := s; f.Set(&s, text, Millimetres) != nil || s.Validate() != nil {
			s = was
		}
	}
	return s
}

// TestFrozen holds schemes, and what each field makes of what is typed, to what
// they were: codes, documents, lengths in all units, errors in words.
func TestFrozen(t *testing.T) {
	texts := map[string]string{}
	last := Default()
	for seed := range uint64(120) {
		s := scattered(int(seed))
		texts[fmt.Sprintf("%d-code", seed)] = s.Code()
		texts[fmt.Sprintf("%d-json", seed)] = string(s.JSON())
		text := fmt.Sprint(s.Validate(), s.OwnMarks(), FaceError(s), s.Filled(), s.Looked(), PairCode(s, last))
		for _, f := range Differ(s, last) {
			text += " " + f.Key
		}
		for _, f := range Fields() {
			own := f.For(s)
			for u := range Units(3) {
				text += fmt.Sprint(" ", f.Show(s, u), own.Allowed(u), f.UnitIn(u), own.Number(s))
			}
		}
		for _, q := range []Scheme{s.SewnTo(EdgeTop, EdgeNone), s.SewnTo(EdgeBottom, EdgeTop), s.EndsOn(Crest), s.EndsOn(Trough), s.Planned()} {
			text += q.Code()
		}
		texts[fmt.Sprintf("%d-said", seed)] = text
		last = s
	}
	for _, f := range Fields() {
		text := ""
		for _, typed := range []string{"", "0", "-1", "1", "2", "12,5", "12.5", `3 1/2"`, "1/0", "7 cm", "9e9", "1e-9", "250", "fall", "top", "nothing", "0 crest top; 50 trough bottom", "5%", "2.8 oz", "40 g/L", "\u202ex"} {
			for u := range Units(3) {
				s := Default()
				over, err := f.Decide(&s, typed, u)
				text += fmt.Sprintf("%q %v %v %v\n", typed, f.Get(s), over, err)
				if err == nil {
					text += fmt.Sprintln(s.Validate(), s.DecidedBy(f.Key))
				}
			}
		}
		texts[f.Key] = text
	}
	frozen.Hold(t, texts)
}
