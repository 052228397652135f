package main

import (
	"bytes"
	"context"
	"encoding/json"
	"encoding/xml"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"ruffwright/assets"
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

var (
	update = flag.Bool("update", false, "write the table of answers anew; with -full")
	full   = flag.Bool("full", false, "the whole table of answers, solved drawings and sheets too: minutes")
)

// answersTolerance is by how much a number of the table may differ, relative to
// its size: far below what anyone reads, far above what another order of the same
// sums does to a solve that ends at a residual.
const answersTolerance = 1e-6

// TestAnswers holds what the tool answers to a table of what it answered before:
// measures and findings, marks, the sheets' words, every drawing's words and what its
// lines come to, for each demo; and measures and findings of random half sets. A change of
// the code that is not meant to change an answer changes nothing here. One that is
// meant to writes the table anew with -full -update, and its commit says why.
func TestAnswers(t *testing.T) {
	for _, name := range assets.Demos() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			holds(t, name, demoAnswers(t, name))
		})
	}
	t.Run("half-sets", func(t *testing.T) {
		t.Parallel()
		count := halfSets
		if !*full {
			count /= 10
		}
		holds(t, "half-sets", randomAnswers(t, count))
	})
}

// halfSets is how many random half sets the table holds that can be solved.
const halfSets = 150

// demoAnswers is all that the command says of a demo.
func demoAnswers(t *testing.T, name string) string {
	var b strings.Builder
	section := func(title, text string) { fmt.Fprintf(&b, "== %s\n%s\n", title, strings.TrimSpace(text)) }
	for _, verb := range []string{"check", "solve", "marks"} {
		section(verb, sorted(t, says(t, verb, name, "--json")))
	}
	at := slices.Index(assets.Demos(), name)
	for k, v := range figure.Views {
		for _, how := range []string{"--drawn --notes --units in", "", "--bowed"} {
			if how == "--bowed" && v.Name != "side" {
				continue
			}
			if !*full && (how != "--drawn --notes --units in" || (at+k)%4 != 0) {
				continue // every view of three demos, two or more views of every demo
			}
			args := append([]string{"draw", name, "--view", v.Name, "--out", "-"}, strings.Fields(how)...)
			section(strings.Join(args[2:], " "), sumOfSVG(t, says(t, args...)))
		}
	}
	for _, units := range []string{"mm", "in"} {
		args := []string{"sheets", name, "--drawn", "--date", "2026-05-04", "--units", units, "--out", "-"}
		if units == "mm" && *full { // solved, and with the starch that it needs
			args = slices.Delete(args, 2, 3)
		}
		if units == "mm" && !*full {
			continue
		}
		section("sheets in "+units, wordsOfPDF(t, says(t, args...)))
	}
	return b.String()
}

// says is what the command writes to standard output.
func says(t *testing.T, args ...string) string {
	t.Helper()
	var out, err bytes.Buffer
	j := job{context.Background(), strings.NewReader(""), &out, &err, func(string) string { return "" }}
	if code := run(j, args); code == exitBad {
		return fmt.Sprintf("exit %d: %s", code, err.String())
	}
	return out.String()
}

// sorted gives a JSON text with its keys in alphabetical order, without what is
// left over of a solve, which is no answer.
func sorted(t *testing.T, text string) string {
	t.Helper()
	dec := json.NewDecoder(strings.NewReader(text))
	dec.UseNumber()
	var v any
	if err := dec.Decode(&v); err != nil {
		return text
	}
	out, err := json.MarshalIndent(answersOnly(v), "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func answersOnly(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for _, k := range []string{"residual_mn", "deepest_mm"} {
			delete(v, k)
		}
		for k := range v {
			v[k] = answersOnly(v[k])
		}
	case []any:
		for i := range v {
			v[i] = answersOnly(v[i])
		}
	}
	return v
}

// sumOfSVG sums up an SVG: how many paths, their length, and the words. What is drawn of
// solid things is left out: tests of their own see what an eye does.
func sumOfSVG(t *testing.T, svg string) string {
	t.Helper()
	if strings.HasPrefix(svg, "exit ") {
		return svg
	}
	var words []string
	paths, length := 0, 0.0
	dec := xml.NewDecoder(strings.NewReader(svg))
	text, within, solid := 0, 0, 0 // groups that are open, and at which of them a solid begins
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := tok.(type) {
		case xml.StartElement:
			if e.Name.Local == "g" {
				if within++; solid == 0 && slices.Contains(e.Attr, xml.Attr{Name: xml.Name{Local: "class"}, Value: "solid"}) {
					solid = within
				}
			}
			if e.Name.Local == "text" || e.Name.Local == "title" || e.Name.Local == "desc" {
				text++
				words = append(words, "")
			}
			for _, a := range e.Attr {
				if solid == 0 && (a.Name.Local == "d" || a.Name.Local == "points") {
					paths++
					length += pathLength(a.Value)
				}
			}
		case xml.EndElement:
			if e.Name.Local == "g" {
				if solid == within {
					solid = 0
				}
				within--
			}
			if e.Name.Local == "text" || e.Name.Local == "title" || e.Name.Local == "desc" {
				text--
			}
		case xml.CharData:
			if text > 0 {
				words[len(words)-1] += string(e)
			}
		}
	}
	slices.Sort(words)
	return fmt.Sprintf("paths %d length %.6g\n%s", paths, length, strings.Join(words, "\n"))
}

var numbers = regexp.MustCompile(`[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?`)

// pathLength is the length of the polygon through all points of a path.
func pathLength(d string) float64 {
	all := numbers.FindAllString(d, -1)
	var length, x, y float64
	for i := 0; i+1 < len(all); i += 2 {
		a, _ := strconv.ParseFloat(all[i], 64)
		b, _ := strconv.ParseFloat(all[i+1], 64)
		if i > 0 {
			length += math.Hypot(a-x, b-y)
		}
		x, y = a, b
	}
	return length
}

var shown = regexp.MustCompile(`(?s)\(((?:[^()\\]|\\.)*)\)\s*Tj`)

// wordsOfPDF gives the words of a PDF, page by page in the order in which they are
// painted. Its text is UTF-16 (ISO 32000-1, 9.7).
func wordsOfPDF(t *testing.T, pdf string) string {
	t.Helper()
	if strings.HasPrefix(pdf, "exit ") {
		return pdf
	}
	api.DisableConfigDir()
	ctx, err := api.ReadValidateAndOptimize(strings.NewReader(pdf), model.NewDefaultConfiguration())
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for n := 1; n <= ctx.PageCount; n++ {
		r, err := pdfcpu.ExtractPageContent(ctx, n)
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&b, "page %d\n", n)
		for _, m := range shown.FindAllSubmatch(content, -1) {
			raw := unescaped(m[1])
			units := make([]uint16, len(raw)/2)
			for i := range units {
				units[i] = uint16(raw[2*i])<<8 | uint16(raw[2*i+1])
			}
			fmt.Fprintf(&b, "%s\n", string(utf16.Decode(units)))
		}
	}
	return b.String()
}

func unescaped(s []byte) []byte {
	var out []byte
	for i := 0; i < len(s); i++ {
		if s[i] == '\\' && i+1 < len(s) {
			i++
			switch s[i] {
			case 'r':
				out = append(out, '\r')
				continue
			case 'n':
				out = append(out, '\n')
				continue
			}
		}
		out = append(out, s[i])
	}
	return out
}

// randomAnswers solves random schemes on round necks, where one half set stands for
// all, until count have been solved.
func randomAnswers(t *testing.T, count int) string {
	t.Helper()
	var b strings.Builder
	for seed := uint64(1); count > 0; seed++ {
		s := scheme.Random(seed)
		s.Wearer.Ratio = 1
		r, err := sim.Solve(context.Background(), s, sim.Options{})
		if err != nil {
			fmt.Fprintf(&b, "%d refused: %s\n", seed, err)
			continue
		}
		count--
		measures, err := json.Marshal(r.Solved.Ruff)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&b, "%d %s\n", seed, strings.Join(strings.Fields(sorted(t, string(measures))), " "))
		for _, f := range check.Find(r, scheme.Millimetres) {
			fmt.Fprintf(&b, "%d %s %.9g of %.9g: %s\n", seed, f.ID, f.Value, f.Limit, f.Sentence)
			for _, m := range f.Remedies {
				fmt.Fprintf(&b, "%d %s, change: %s\n", seed, f.ID, m.Sentence)
			}
		}
	}
	return b.String()
}

// holds compares a text with its file in testdata/answers: words exactly, numbers
// within the tolerance. A run without -full compares what it has.
func holds(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", "answers", name+".txt")
	if *update {
		if !*full {
			t.Fatal("-update needs -full")
		}
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	a, b := strings.Split(strings.TrimSpace(like(string(want), got)), "\n"), strings.Split(strings.TrimSpace(got), "\n")
	wrong := 0
	for i := range min(len(a), len(b)) {
		if alike(a[i], b[i]) {
			continue
		}
		if wrong++; wrong <= 8 {
			t.Errorf("%s, line %d:\n got %s\nwant %s", name, i+1, b[i], a[i])
		}
	}
	if len(a) != len(b) {
		t.Errorf("%s has %d lines, want %d", name, len(b), len(a))
	}
	if wrong > 8 {
		t.Errorf("%s: %d lines differ", name, wrong)
	}
}

// like is the table with its sections in the order of what is compared with it.
// Without -full it has only what that has as well: the sections of the same titles,
// or as many lines.
func like(want, got string) string {
	if !strings.HasPrefix(got, "== ") {
		lines := strings.SplitAfter(want, "\n")
		if *full {
			return want
		}
		return strings.Join(lines[:min(len(lines), strings.Count(got, "\n"))], "")
	}
	split := func(text string) (titles []string, of map[string]string) {
		of = map[string]string{}
		for _, section := range strings.Split("\n"+text, "\n== ")[1:] {
			title, rest, _ := strings.Cut(section, "\n")
			titles, of[title] = append(titles, title), "== "+title+"\n"+strings.TrimSpace(rest)+"\n"
		}
		return titles, of
	}
	titles, _ := split(got)
	held, of := split(want)
	if *full {
		titles = append(titles, slices.DeleteFunc(held, func(h string) bool { return slices.Contains(titles, h) })...)
	}
	var b strings.Builder
	for _, title := range titles {
		b.WriteString(of[title])
	}
	return b.String()
}

// alike reports whether two lines hold the same words, and numbers that differ by
// no more than the tolerance.
func alike(a, b string) bool {
	if a == b {
		return true
	}
	x, y := numbers.FindAllStringIndex(a, -1), numbers.FindAllStringIndex(b, -1)
	if len(x) != len(y) {
		return false
	}
	i, j := 0, 0
	for k := range x {
		if a[i:x[k][0]] != b[j:y[k][0]] {
			return false
		}
		u, _ := strconv.ParseFloat(a[x[k][0]:x[k][1]], 64)
		v, _ := strconv.ParseFloat(b[y[k][0]:y[k][1]], 64)
		if math.Abs(u-v) > answersTolerance*math.Max(math.Abs(u), math.Abs(v))+1e-9 {
			return false
		}
		i, j = x[k][1], y[k][1]
	}
	return a[i:] == b[j:]
}
