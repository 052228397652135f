package site

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// mostSingle is the goal of the page that is one file, in bytes.
const mostSingle = 6e6

// bolt makes bytes with everything in them that packing meets: words, numbers
// that count, noise, and repeats near and far.
func bolt(n int) []byte {
	words := strings.Fields("strip set crest trough panel tuck pitch loop depth height droop band neck cuff lawn batiste starch stick needle")
	var b []byte
	seed := uint32(372)
	next := func(below int) int {
		seed = seed*1664525 + 1013904223
		return int(uint64(seed) * uint64(below) >> 32)
	}
	for len(b) < n {
		switch next(6) {
		case 0, 1, 2:
			b = append(append(b, words[next(len(words))]...), ' ')
		case 3:
			b = binary.LittleEndian.AppendUint32(b, uint32(len(b)))
		case 4:
			for range next(20) {
				b = append(b, byte(next(256)))
			}
		case 5:
			if from := next(len(b) + 1); from < len(b) {
				b = append(b, b[from:min(len(b), from+next(400))]...)
			}
		}
	}
	return b[:n]
}

// unpackInNode reads packed by the page's own unpack.js, in Node.
func unpackInNode(t *testing.T, packed []byte, sizes ...int) ([]byte, error) {
	t.Helper()
	root, err := Root("")
	if err != nil {
		t.Fatal(err)
	}
	var parts []string
	for i, size := range sizes {
		parts = append(parts, fmt.Sprintf("{name: %q, size: %d}", fmt.Sprint(i), size))
	}
	in := filepath.Join(t.TempDir(), "packed")
	if err := os.WriteFile(in, written(packed), 0o644); err != nil {
		t.Fatal(err)
	}
	script := fmt.Sprintf(`globalThis.document = {};
		const fs = require("fs");
		require("vm").runInThisContext(fs.readFileSync(%q, "utf8"));
		let n = 0;
		try { unpacked(fs.readFileSync(%q, "utf8"), [%s], (name, bytes) => { if (name !== String(n++)) throw new Error("out of turn: " + name); fs.writeSync(1, new Uint8Array(bytes)); }); }
		catch (why) { fs.writeSync(2, why.message); process.exit(1); }`, filepath.Join(root, "assets/page/unpack.js"), in, strings.Join(parts, ", "))
	node := exec.Command("node", "-e", script)
	var says bytes.Buffer
	node.Stderr = &says
	out, err := node.Output()
	if err != nil {
		return nil, fmt.Errorf("%w: %s", err, says.String())
	}
	return out, nil
}

// mustPack packs what can be packed.
func mustPack(t *testing.T, data []byte) []byte {
	t.Helper()
	packed, err := pack(data)
	if err != nil {
		t.Fatal(err)
	}
	return packed
}

// TestUnpack: unpack.js reads what another program packed: testdata/packed/bolt.lzma
// is bolt(40000) by `xz --format=lzma --lzma1=lc=3,lp=0,pb=0` (XZ Utils 5.4), whose
// head leaves the size open.
func TestUnpack(t *testing.T) {
	packed, err := os.ReadFile("testdata/packed/bolt.lzma")
	if err != nil {
		t.Fatal(err)
	}
	want := bolt(40000)
	binary.LittleEndian.PutUint64(packed[5:], uint64(len(want)))
	got, err := unpackInNode(t, packed, 15000, 25000)
	if err != nil || !bytes.Equal(got, want) {
		t.Errorf("%d bytes, %v; want the %d that were packed", len(got), err, len(want))
	}
	if own := mustPack(t, want); len(own) > len(packed)*104/100 {
		t.Errorf("packs into %d bytes, XZ Utils into %d", len(own), len(packed))
	}
}

// TestPack: what is packed comes back, whatever it is; the same twice; and what
// is damaged, cut short or of another size is an error, never a program.
func TestPack(t *testing.T) {
	noise := make([]byte, 70000)
	for i := range noise {
		noise[i] = byte(i * i >> 7 * 31 >> (i & 3))
	}
	for name, data := range map[string][]byte{
		"nothing": {}, "one": {7}, "three": []byte("set"), "alike": bytes.Repeat([]byte{0}, 100000), "noise": noise, "bolt": bolt(300000),
		"far": append(append(bolt(5000), noise...), bolt(5000)...),
	} {
		packed := mustPack(t, data)
		if !bytes.Equal(packed, mustPack(t, data)) {
			t.Errorf("%s: packed twice, two results", name)
		}
		got, err := unpackInNode(t, packed, len(data))
		if err != nil || !bytes.Equal(got, data) {
			t.Errorf("%s: %d bytes come back as %d (%v)", name, len(data), len(got), err)
		}
	}
	data := bolt(20000)
	packed := mustPack(t, data)
	if _, err := unpackInNode(t, packed, len(data)+1); err == nil {
		t.Error("another size is not noticed")
	}
	if _, err := unpackInNode(t, packed[:len(packed)/2], len(data)); err == nil {
		t.Error("half of it is not noticed")
	}
}

// TestSingle: the page as one file names nothing outside it, has a policy that
// lets run only what stands in it, is not above its size, is the same every time,
// and takes the place of nothing but itself.
func TestSingle(t *testing.T) {
	name := strings.TrimPrefix(single(t), "file://")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("one file of %d bytes (goal %.0f)", len(text), mostSingle)
	if len(text) > mostSingle {
		t.Error("it is above its goal")
	}
	again, err := bundle(siteDir(t))
	if err != nil || !bytes.Equal(again, text) {
		t.Errorf("made again it is another: %v", err)
	}
	html := string(text)
	words := regexp.MustCompile(`(?s)(<(script|style)[^>]*>).*?</(script|style)>`).ReplaceAllString(html, "$1")
	for _, bad := range []string{"<!-- fill", "unbuilt", "assets/", " style=", " onclick", "http://", "https://", "'self'", "unsafe-inline", "'unsafe-eval'", " src=\"start", "<link rel=\"stylesheet\"", "<link rel=\"preload\""} {
		if strings.Contains(words, bad) {
			t.Errorf("it holds %q", bad)
		}
	}
	for _, ref := range regexp.MustCompile(`\s(?:href|src|srcset)="([^"#]{0,40})`).FindAllStringSubmatch(words, -1) {
		if ref[1] != "" && !strings.HasPrefix(ref[1], "data:") {
			t.Errorf("it names %q", ref[1])
		}
	}
	policy := regexp.MustCompile(`Content-Security-Policy" content="([^"]+)"`).FindStringSubmatch(html)
	if policy == nil {
		t.Fatal("it has no policy")
	}
	scripts := 0
	for _, s := range regexp.MustCompile(`(?s)<(script|style)([^>]*)>(.*?)</(?:script|style)>`).FindAllStringSubmatch(html, -1) {
		if strings.Contains(s[2], "type=") { // a block of data: it never runs
			continue
		}
		scripts++
		if !strings.Contains(policy[1], "'"+digest([]byte(s[3]))+"'") {
			t.Errorf("its policy does not know the %s%s of %d bytes", s[1], s[2], len(s[3]))
		}
	}
	if n := strings.Count(policy[1], "'sha256-"); n != scripts || scripts != 4 {
		t.Errorf("%d digests in the policy for %d scripts and styles, want 4", n, scripts)
	}

	dir := t.TempDir()
	letter := filepath.Join(dir, "letter.html")
	if err := os.WriteFile(letter, []byte("<p>Seven ells of lawn for the Cooper."), 0o644); err != nil {
		t.Fatal(err)
	}
	for out, says := range map[string]string{letter: "no page written by ruffwright", filepath.Join(dir, "page.txt"): "ends in .html", filepath.Join(dir, "there", "page.html"): "there", dir: ".html"} {
		if _, err := Single(context.Background(), out); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", out, err)
		}
	}
	if kept, _ := os.ReadFile(letter); !bytes.HasPrefix(kept, []byte("<p>Seven")) {
		t.Error("somebody's letter is gone")
	}
	for range 2 { // new, then over itself
		if n, err := Single(context.Background(), filepath.Join(dir, "page.html")); err != nil || n != len(text) {
			t.Errorf("%d bytes, %v", n, err)
		}
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".ruffwright-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// TestInline: what stands in a page cannot end its own tag.
func TestInline(t *testing.T) {
	got := string(inline([]byte(`const a = "</script><script>"; // <!-- </style>`)))
	for _, bad := range []string{"</script", "</style", "<!--"} {
		if strings.Contains(got, bad) {
			t.Errorf("%q is left in %s", bad, got)
		}
	}
}

// TestSingleTimes tells how long the page that is one file takes from the disk to
// its first findings and until all is solved, as a ratio to the served site, in
// turns. Nothing is judged, for the machine may be busy: it runs where times are
// wanted.
func TestSingleTimes(t *testing.T) {
	if !measuring {
		t.Skip("RUFFWRIGHT_MEASURE is not set")
	}
	marks := []string{"ruffwright-findings", "ruffwright-shape", "ruffwright-solved"}
	times := map[string][]float64{}
	for range 5 {
		for name, home := range map[string]string{"file": single(t), "site": site(t)} {
			b := open(t, home, screen{width: 800, height: 600}).ready()
			for _, mark := range marks {
				times[name+mark] = append(times[name+mark], eval[float64](b, fmt.Sprintf(`performance.getEntriesByName(%q)[0].startTime`, mark)))
			}
			b.do(chromedp.Navigate("about:blank"))
		}
	}
	for _, mark := range marks {
		file, site := times["file"+mark], times["site"+mark]
		slices.Sort(file)
		slices.Sort(site)
		t.Logf("%s, median of %d: one file %.0f ms, served %.0f ms, ratio %.2f", mark, len(file), file[len(file)/2], site[len(site)/2], file[len(file)/2]/site[len(site)/2])
	}
}
