package keep

import (
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/page/work"
)

// FuzzRecord: whatever stands in the device's storage is read or refused with words;
// what is read is a valid scheme, and is written again as it was.
func FuzzRecord(f *testing.F) {
	good := Record{work.Held{Scheme: scheme.Default(), Whose: work.Whose{Line: "page-1", Own: true}, By: "page"}, 3}
	beside := scheme.Default()
	beside.Ruff.Sets = 48
	both := good
	both.Beside, both.Lesson = &beside, "top-only"
	for _, text := range []string{
		good.text(), both.text(), "", "{}", "null", "[]", `{"ruffwright":2}`, `{"ruffwright":1,"n":-1}`, "\xff\xfe",
		strings.Replace(good.text(), `"sum":"`, `"sum":"0`, 1), good.text() + " {}", strings.Repeat("[", 10000),
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		w, err := readRecord(text)
		if err != nil {
			if err.Error() == "" {
				t.Error("refused without words")
			}
			return
		}
		if err := w.Scheme.Validate(); err != nil {
			t.Errorf("read, but not valid: %v", err)
		}
		if again, err := readRecord(w.text()); err != nil || !work.Same(again.Scheme, w.Scheme) || again.Whose != w.Whose || again.Units != w.Units {
			t.Errorf("written again it is another: %v", err)
		}
	})
}
