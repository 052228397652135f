package say

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// TestVoice: whenever things happen, and however late the timer is, no two messages
// come within quiet_ms, a notice is told, and the newest is told in the end.
func TestVoice(t *testing.T) {
	dice := rand.New(rand.NewPCG(1, 0))
	for range 20 {
		var v Voice
		now, due := 0.0, -1.0
		var told []string
		var at []float64
		speak := func() {
			words, again_ms := v.Speak(now)
			if words != "" {
				told, at = append(told, words), append(at, now)
			}
			if again_ms > 0 {
				due = now + again_ms
			}
		}
		wait := func(ms float64) {
			until := now + ms
			for due >= 0 && due <= until {
				now, due = max(now, due+dice.Float64()*80), -1
				v.Rings()
				speak()
			}
			now = max(now, until)
		}
		newest := ""
		for i := range 40 {
			wait(dice.ExpFloat64() * 300)
			if i == 20 {
				v.Notice("a notice")
			}
			newest = fmt.Sprint("change ", i)
			v.Soon(newest)
			speak()
		}
		wait(3 * quiet_ms)
		noticed := false
		for i := range told {
			noticed = noticed || told[i] == "a notice"
			if i > 0 && at[i]-at[i-1] < quiet_ms {
				t.Errorf("two messages within %.0f ms", at[i]-at[i-1])
			}
		}
		if len(told) < 5 || told[len(told)-1] != newest || !noticed {
			t.Errorf("told %q", told)
		}
	}
}
