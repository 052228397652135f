// Package frozen holds what a room answers to what it answered before. It is for
// tests: a change of the code that is meant to change no answer changes nothing here.
package frozen

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"hash/fnv"
	"maps"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

var refreeze = flag.Bool("refreeze", false, "write testdata/frozen.txt of the room anew; the commit says why")

// near is by how much the sums of a text's numbers may differ, of all there is to
// sum: floats differ in their last bits between targets.
const near = 1e-8

var number = regexp.MustCompile(`-?\d+(\.\d+)?(e[-+]?\d+)?`)

// sum is what is kept of a text: a digest of its words, and of its numbers how many
// there are and two sums, one of them weighted by place.
type sum struct {
	words      string
	count      int
	plain, led float64
	all        float64
}

func sumOf(text string) (s sum) {
	h := fnv.New64a()
	h.Write([]byte(number.ReplaceAllString(text, "#")))
	s.words = strconv.FormatUint(h.Sum64(), 36)
	for _, n := range number.FindAllString(text, -1) {
		x, _ := strconv.ParseFloat(n, 64)
		x = math.Min(x, math.MaxFloat32)                  // of a colour such as #1e9999
		x = math.Copysign(math.Log1p(1e3*math.Abs(x)), x) // small numbers count as large ones do
		s.plain += x
		s.led += x * float64(s.count%97+1) / 97
		s.all += math.Abs(x)
		s.count++
	}
	return s
}

// JSON is v as a text to freeze.
func JSON(t testing.TB, v any) string {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// Hold compares texts, each by a name without blanks, with what testdata/frozen.txt of
// the room holds of them: words exactly, numbers nearly.
func Hold(t testing.TB, texts map[string]string) {
	t.Helper()
	const file = "testdata/frozen.txt"
	if *refreeze {
		var b strings.Builder
		for _, name := range slices.Sorted(maps.Keys(texts)) {
			s := sumOf(texts[name])
			fmt.Fprintf(&b, "%s %s %d %.12g %.12g\n", name, s.words, s.count, s.plain, s.led)
		}
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	held, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer held.Close()
	lines, n := bufio.NewScanner(held), 0
	for lines.Scan() {
		var name string
		var was sum
		if _, err := fmt.Sscan(lines.Text(), &name, &was.words, &was.count, &was.plain, &was.led); err != nil {
			t.Fatalf("%s: %v: %q", file, err, lines.Text())
		}
		text, ok := texts[name]
		if n++; !ok {
			t.Errorf("%s is frozen and was not answered", name)
			continue
		}
		is := sumOf(text)
		off := math.Max(math.Abs(is.plain-was.plain), math.Abs(is.led-was.led))
		if is.words != was.words || is.count != was.count || !(off <= near*(1+is.all)) {
			t.Errorf("%s is not as it was: other words %v, %d numbers for %d, sums off by %.3g. Now: %.1000s", name, is.words != was.words, is.count, was.count, off, text)
		}
	}
	if n != len(texts) {
		t.Errorf("%d answers, %d are frozen", len(texts), n)
	}
}
