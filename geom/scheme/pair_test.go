package scheme

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestGoldenPair: a code of two that is out in the world stays readable for ever:
// it holds the golden documents beside it. It is never changed.
func TestGoldenPair(t *testing.T) {
	code, err := os.ReadFile("testdata/codes/sound-wide.pair")
	if err != nil {
		t.Fatal(err)
	}
	a, b, err := FromPair(string(code))
	if err != nil || b == nil {
		t.Fatalf("%v %v", b, err)
	}
	for name, s := range map[string]Scheme{"sound": a, "wide": *b} {
		want, err := os.ReadFile("testdata/codes/" + name + ".json")
		if err != nil || !bytes.Equal(s.JSON(), want) {
			t.Errorf("%s: %v\n%s", name, err, s.JSON())
		}
	}
	if again := PairCode(a, *b); again != strings.TrimSpace(string(code)) {
		t.Errorf("written again as %s", again)
	}
	if len(code) > 600 {
		t.Errorf("two demos take %d characters", len(code))
	}
	// A code of one is read as one.
	one, none, err := FromPair(" " + Default().Code() + "\n")
	if err != nil || none != nil || len(Differ(one, Default())) > 0 {
		t.Errorf("%v %v", none, err)
	}
}

func TestPairRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawScheme(t), drawScheme(t)
		code := PairCode(a, b)
		if code == "" {
			if len(a.Pleat.Marks)+len(b.Pleat.Marks) < 100 {
				t.Fatal("no code")
			}
			return
		}
		x, y, err := FromPair(code)
		if err != nil || y == nil || len(Differ(a, x)) > 0 || len(Differ(b, *y)) > 0 {
			t.Fatalf("%s: %v", code, err)
		}
		if len(code) > MaxCode || strings.Trim(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.~") != "" || !strings.HasPrefix(code, "1.") {
			t.Fatalf("%s is not fit for an address", code)
		}
	})
}

// TestFromPairRefuses: what is at fault is said, with whose it is, and nothing of
// either is given.
func TestFromPairRefuses(t *testing.T) {
	good := demoCode(t)
	long := good + strings.Repeat("A", MaxCode-len(good)-4)
	for _, c := range []struct{ code, why string }{
		{good + "~", "B cannot be read: this is not a share code"},
		{"~" + good, "A cannot be read: this is not a share code"},
		{good + "~" + good[:len(good)-5], "B cannot be read: the share code is cut short"},
		{good[:20] + "~" + good, "A cannot be read: the share code is cut short"},
		{good + "~2.AAAA", "B cannot be read: "},
		{good + "~" + sealed(0, []byte{10, 2}), "B cannot be read: "},
		{good + "~" + good + "~" + good, "more than two"},
		{long + "~" + good, "too long"},
		{strings.Repeat("~", 1<<20), "too long"},
		{good[:len(good)-1] + "é~" + good, "A cannot be read: "},
		{"", "not a share code"},
	} {
		a, b, err := FromPair(c.code)
		if err == nil || !strings.Contains(err.Error(), c.why) || b != nil || len(Differ(a, Scheme{})) != 0 || len(err.Error()) > 500 {
			t.Errorf("%.60q: %v; want …%s…", c.code, err, c.why)
		}
	}
	if _, err := FromCode(good + "~" + good); err == nil || !strings.Contains(err.Error(), "two ruffs") {
		t.Errorf("read as one: %v", err)
	}
	// Two that fit alone and not together have no code.
	s := Default()
	for i := range 801 {
		s.Pleat.Marks = append(s.Pleat.Marks, Mark{Place: float64(i*i%977+i*1000) / 37, Fold: codeFolds[(i+1)%2], Sewn: codeEdges[(i+1)%2]})
	}
	for len(s.Code()) == 0 {
		s.Pleat.Marks = s.Pleat.Marks[:len(s.Pleat.Marks)-20]
	}
	if code := PairCode(s, s); code != "" {
		t.Errorf("a pair code of %d characters", len(code))
	}
}

func FuzzFromPair(f *testing.F) {
	good := demoCode(f)
	f.Add(Default().Code() + "~" + good)
	f.Add(good)
	f.Add(good + "~")
	f.Add("~~")
	f.Add(good + "~2.AAAA")
	f.Add(sealed(0, []byte{25, 2, 0, 0, 0, 1}) + "~" + good)
	f.Fuzz(func(t *testing.T, code string) {
		a, b, err := FromPair(code)
		if err != nil {
			if b != nil || len(Differ(a, Scheme{})) != 0 {
				t.Fatal("refused, and yet something is given")
			}
			return
		}
		checkDecoded(t, a)
		if b != nil {
			checkDecoded(t, *b)
		}
	})
}
