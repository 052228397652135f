//go:build !js

// Command wasm is the program of the page, its solver and its painter. It runs in a browser:
// `ruffwright open` builds it for js/wasm and serves it with its page.
package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "This program runs in the page: type `go run ./cmd/ruffwright open`.")
	os.Exit(2)
}
