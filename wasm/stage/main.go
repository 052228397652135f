//go:build !js

// Command stage is the program that draws on the stage's canvas with Ebiten. It knows
// nothing of ruffs: frames come in through a port, made by the page's program, and it
// draws when one comes and only then. What the reader does never reaches it (see the
// loader). Everything that touches Ebiten is in files ending _js.go; the rest runs
// natively too.
package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "This program runs in the page: type `go run ./cmd/ruffwright open`.")
	os.Exit(2)
}
