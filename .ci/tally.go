// Tally reads what go test -json wrote and shows it as go test would: one line a
// package, and the whole output of what failed. With -count, it ends with the
// line "N passed, N failed". It exits 1 if anything failed, or if nothing ran.
package main

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"strings"
)

// event is one line of go test -json: see go doc test2json.
type event struct {
	Action, Package, ImportPath, Test, Output string
}

func main() {
	count := flag.Bool("count", false, "end with the number of tests passed and failed")
	flag.Parse()
	var passed, failed, skipped int
	for _, name := range flag.Args() {
		p, f, s, err := show(name)
		if err != nil {
			fmt.Fprintf(os.Stderr, "%s: %v\n", name, err)
			os.Exit(1)
		}
		passed, failed, skipped = passed+p, failed+f, skipped+s
	}
	if *count {
		if skipped > 0 {
			fmt.Printf("%d skipped\n", skipped)
		}
		fmt.Printf("%d passed, %d failed\n", passed, failed)
	}
	if failed > 0 || *count && passed == 0 {
		os.Exit(1)
	}
}

// show prints one run and counts its tests, subtests included. A package that
// fails without a failing test (it did not build, or it crashed) counts as one.
func show(name string) (passed, failed, skipped int, err error) {
	file, err := os.Open(name)
	if err != nil {
		return 0, 0, 0, err
	}
	defer file.Close()
	output := map[string]*strings.Builder{} // package + test: what it printed
	broken := map[string]bool{}             // packages with a failing test
	lines := bufio.NewScanner(file)
	lines.Buffer(nil, 16<<20)
	for lines.Scan() {
		var e event
		if err := json.Unmarshal(lines.Bytes(), &e); err != nil {
			return 0, 0, 0, fmt.Errorf("not go test -json: %q", lines.Text())
		}
		of := e.Package + " " + e.Test
		switch e.Action {
		case "output":
			if output[of] == nil {
				output[of] = &strings.Builder{}
			}
			output[of].WriteString(e.Output)
		case "build-output":
			fmt.Print(e.Output)
		case "pass", "fail", "skip":
			text := ""
			if output[of] != nil {
				text = output[of].String()
				delete(output, of)
			}
			switch {
			case e.Test == "" && e.Action == "fail":
				fmt.Print(text)
				if !broken[e.Package] {
					failed++
				}
			case e.Test == "":
				fmt.Print(result(text))
			case e.Action == "fail":
				fmt.Print(text)
				broken[e.Package] = true
				failed++
			case e.Action == "pass":
				passed++
			default:
				fmt.Print(text)
				skipped++
			}
		}
	}
	return passed, failed, skipped, lines.Err()
}

// result is go test's own line about a package, without the chatter before it.
func result(text string) string {
	var kept strings.Builder
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, "ok ") || strings.Contains(line, "[no test files]") {
			kept.WriteString(line)
		}
	}
	return kept.String()
}
