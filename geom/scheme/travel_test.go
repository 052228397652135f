package scheme

import (
	"encoding/json"
	"testing"

	"ruffwright/geom/word"
)

// TestErrorsTravel: what is wrong with any document or code can be sent on as a text,
// with all that stands in its places.
func TestErrorsTravel(t *testing.T) {
	_, notJSON := Parse([]byte(`{"version":1`))
	_, strange := Parse([]byte(`{"version":1,"ruff":{"sets":"many"},"x":1}`))
	_, code := FromCode("1.AAAA")
	_, _, pair := FromPair(Default().Code() + "~1.AAAA")
	s := Default()
	for what, err := range map[string]error{"no JSON": notJSON, "fields": strange, "code": code, "pair": pair, "range": s.Set("ruff.sets", "1e9")} {
		if err == nil {
			t.Errorf("%s: no error", what)
			continue
		}
		sent, bad := json.Marshal(word.Packed{Text: word.Of(err)})
		var got word.Packed
		if bad == nil {
			bad = json.Unmarshal(sent, &got)
		}
		if bad != nil || got.In(word.Accented) != word.Of(err).In(word.Accented) {
			t.Errorf("%s: %q arrives as %q: %v", what, err, got, bad)
		}
	}
}
