//go:build !js

// Command worker is the solver's program. It runs in a Web Worker of the page:
// `ruffwright open` builds it for js/wasm beside the page's program.
package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "This program runs in a worker of the page: type `go run ./cmd/ruffwright open`.")
	os.Exit(2)
}
