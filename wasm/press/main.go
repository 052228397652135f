//go:build !js

// Command press is the page's printing program. It runs in a Web Worker of the
// page, started when the reader asks for sheets: `ruffwright open` builds it for
// js/wasm beside the page's program.
package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "This program runs in a worker of the page: type `go run ./cmd/ruffwright open`.")
	os.Exit(2)
}
