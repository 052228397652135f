package main

import (
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestLookExample: the README's example is what it says it is, and the scheme takes it.
func TestLookExample(t *testing.T) {
	code, out, complaint := typed(t, "", "look", "testdata/look/falconer.json", "sound")
	if code != exitWell || complaint != "" || !strings.Contains(out, "--set ruff.sets=40") {
		t.Errorf("exit code %d: %s%s", code, out, complaint)
	}
}

// TestLookOverlay: the lines and the ellipse are drawn on the picture where they lie;
// points outside it are refused, and nothing is written.
func TestLookOverlay(t *testing.T) {
	dir := t.TempDir()
	blank := func(name string, w, h int) string {
		m := image.NewNRGBA(image.Rect(0, 0, w, h))
		file, err := os.Create(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		if err := png.Encode(file, m); err != nil {
			t.Fatal(err)
		}
		return file.Name()
	}
	large, small, out := blank("large.png", 1400, 1200), blank("small.png", 1000, 1200), filepath.Join(dir, "seen.png")
	code, _, complaint := typed(t, "", "look", "testdata/look/falconer.json", "--picture", small, "--out", out)
	if _, err := os.Stat(out); code != exitBad || err == nil || !strings.Contains(complaint, "lies outside the picture; allowed: 0 to 1000 and 0 to 1200") {
		t.Errorf("exit code %d: %s", code, complaint)
	}
	code, _, complaint = typed(t, "", "look", "testdata/look/falconer.json", "--picture", large, "--out", out)
	if code != exitWell {
		t.Fatalf("exit code %d: %s", code, complaint)
	}
	file, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	m, err := png.Decode(file)
	if err != nil {
		t.Fatal(err)
	}
	drawn := func(x, y int) bool { return color.NRGBAModel.Convert(m.At(x, y)).(color.NRGBA).A > 0 }
	for what, at := range map[string][2]int{"face": {700, 500}, "edge": {756, 1068}, "depth": {973, 951}} {
		if !drawn(at[0], at[1]) {
			t.Errorf("no %s at %v", what, at)
		}
	}
	if drawn(30, 30) || drawn(700, 800) {
		t.Error("something is drawn where nothing was placed")
	}
	for words, why := range map[string]string{
		"--out " + out: "give that as --picture", "--out x.jpg --picture " + large: "ends in .png",
		"--out " + out + " --picture " + large: "--over", "--picture testdata/look/falconer.json": "no JPEG, PNG, WebP, TIFF or BMP", "--picture nowhere.png": "no such file",
	} {
		code, _, complaint := typed(t, "", append([]string{"look", "testdata/look/falconer.json"}, strings.Fields(words)...)...)
		if code != exitBad || !strings.Contains(complaint, why) {
			t.Errorf("%s: exit code %d, %s", words, code, complaint)
		}
	}
}
