package scheme

import (
	"encoding/json"
	"golang.org/x/text/unicode/norm"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"
)

// TestUnseenName: a name of which nothing can be seen is none, however it comes in, and
// makes no name of a file; a name with a letter keeps what stands on it.
func TestUnseenName(t *testing.T) {
	for _, c := range []struct{ name, want, file string }{
		{"\u200b", "", "wearer"}, {"\u200d\u2060\u00ad", "", "wearer"}, {"\u0301", "", "wearer"}, {"\u20dd", "", "wearer"}, {"\ufe0f\u034f", "", "wearer"},
		{"\u3164", "", "wearer"}, {"\u115f\uffa0", "", "wearer"}, {"\u2800", "", "wearer"}, {"\U000e0020", "", "wearer"}, {"\u200b \u200b", "", "wearer"},
		{"a\u200db", "a\u200db", "a-b"}, {"क्‍ष", "क्‍ष", "क्-ष"}, {"摩擦", "摩擦", "摩擦"}, {"-", "-", "wearer"}, {"7", "7", "7"}, {"x\u0323\u0307", "ẋ̣", "ẋ̣"},
	} {
		s := Default()
		if err := s.Set("name", c.name); err != nil || s.Name != norm.NFC.String(c.want) {
			t.Errorf("%+q is set as %+q, %v", c.name, s.Name, err)
		}
		if got := FileName(c.name, "wearer"); norm.NFC.String(got) != norm.NFC.String(c.file) {
			t.Errorf("%+q gives the file %+q, want %+q", c.name, got, c.file)
		}
		given := Default()
		given.Name = norm.NFC.String(c.name)
		text, err := json.Marshal(map[string]any{"version": Version, "name": given.Name})
		if err != nil {
			t.Fatal(err)
		}
		if read, err := Parse(text); err != nil || read.Name != norm.NFC.String(c.want) {
			t.Errorf("%+q is read as %+q, %v", c.name, read.Name, err)
		}
		if read, err := FromCode(given.Code()); err != nil || read.Name != norm.NFC.String(c.want) {
			t.Errorf("%+q is decoded as %+q, %v", c.name, read.Name, err)
		}
	}
	if _, err := Parse([]byte(`{"version": 1, "name": "\u202e"}`)); err == nil {
		t.Error("what turns the writing around is passed over")
	}
}

// FuzzSet: whatever is typed into whichever field: it is refused with the field's name
// and what is allowed, and the scheme is as it was; or the field holds a value of its
// range that reads back to itself, and all other fields are as they were.
func FuzzSet(f *testing.F) {
	for i, field := range Fields() {
		f.Add(i, field.Default, 0)
		f.Add(i, field.Get(Default()), 2)
	}
	for _, text := range []string{"", "NaN", "1e999", "-0", "15 1/2\"", "38,5 cm", "1,400", "crest", "0 trough bottom; 30.5 crest top", "\u200b", "\x00", "\xff", "e\u0301", "45°", "0.5 %", "4 oz/yd²", "12 sets"} {
		for i, field := range Fields() {
			if i == 0 || field.Kind != Fields()[i-1].Kind {
				f.Add(i, text, 1)
			}
		}
	}
	f.Fuzz(func(t *testing.T, which int, text string, u int) {
		fields := Fields()
		field := fields[uint(which)%uint(len(fields))]
		edge := Units(uint(u) % 3)
		was, s := Default(), Default()
		if err := field.Set(&s, text, edge); err != nil {
			e, ok := err.(Error)
			if !ok || e.Field != field.Key || e.Allowed.Empty() || e.Why.Empty() || len(err.Error()) > 2000 {
				t.Fatalf("%s=%q: %v", field.Key, text, err)
			}
			if len(Differ(s, was)) != 0 {
				t.Fatalf("%s=%q is refused and changes the scheme", field.Key, text)
			}
			return
		}
		for _, d := range Differ(s, was) {
			if d.Key != field.Key {
				t.Fatalf("%s=%q changes %s", field.Key, text, d.Key)
			}
		}
		v := field.Number(s)
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%s=%q is %v", field.Key, text, v)
		}
		if _, numbers := field.at(&s).(*float64); numbers && !field.InRange(v) {
			t.Fatalf("%s=%q is %v, outside its range", field.Key, text, v)
		}
		back, shown := Default(), s
		if err := back.Set(field.Key, field.Get(s)); err != nil || len(Differ(s, back)) != 0 {
			t.Fatalf("%s=%q is %q, and is not read back: %v", field.Key, text, field.Get(s), err)
		}
		if err := field.Set(&shown, field.Show(s, edge), edge); err != nil || len(Differ(s, shown)) != 0 {
			t.Fatalf("%s=%q is shown as %q, and that is another: %v", field.Key, text, field.Show(s, edge), err)
		}
		if name := s.Name; name != "" && !strings.ContainsFunc(name, visible) {
			t.Fatalf("nothing of the name %+q can be seen", name)
		}
	})
}

// FuzzMarks: own marks from any text are refused, or are marks that may stand in a
// scheme and read back to themselves.
func FuzzMarks(f *testing.F) {
	for _, text := range []string{"", "0 trough bottom; 30.5 crest top; 61 trough bottom", "0 crest no\n3 5/8 in trough bottom", "0 trough bottom; 0 crest top",
		"NaN crest top", "0 ridge top", ";;;", "1e9 trough no", "0 trough bottom; 50001 crest top", "-0 crest top"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		marks, err := ParseMarks(text)
		if err != nil {
			if marks != nil || len(err.Error()) > 2000 {
				t.Fatalf("%q: %v, %d marks", text, err, len(marks))
			}
			return
		}
		if errs := checkMarks(marks); len(errs) > 0 {
			t.Fatalf("%q: taken, but %v", text, errs)
		}
		back, err := ParseMarks(FormatMarks(marks))
		if err != nil || !slices.Equal(back, marks) {
			t.Fatalf("%q is %q, and reads back as %v, %v", text, FormatMarks(marks), back, err)
		}
	})
}

// FuzzFileName: whatever something is called, its file stays in its folder, has a name
// of bearable length, and one that can be seen.
func FuzzFileName(f *testing.F) {
	for _, name := range []string{"", "The Cooper", "../../etc", `C:\nul`, "CON", "com1", "\u200b", "\u0301", "\u3164", "摩擦", "-rf", ".hidden", "\xff", strings.Repeat("é", 300), strings.Repeat("a", longestFile-1) + " b"} {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, called string) {
		got := FileName(called, "wearer")
		switch {
		case got == "" || len(got) > longestFile && !strings.HasPrefix(got, "wearer-") || len(got) > longestFile+len("wearer-"):
			t.Fatalf("%q gives %d bytes", called, len(got))
		case !filepath.IsLocal(got) || strings.ContainsAny(got, `/\:*?"<>|. `) || strings.HasPrefix(got, "-"):
			t.Fatalf("%q gives %q", called, got)
		case strings.ContainsFunc(got, unicode.IsControl) || !strings.ContainsFunc(got[:1]+got, visible):
			t.Fatalf("%q gives %q", called, got)
		case FileName(got, "wearer") != got && !strings.HasPrefix(got, "wearer-"):
			t.Fatalf("%q gives %q, and that gives %q", called, got, FileName(got, "wearer"))
		}
	})
}
