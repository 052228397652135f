// Command press is the page's printing program. It answers all that the solver
// answers, and prints as well.
package main

import (
	"context"
	"time"

	"ruffwright/wasm/port"
	"ruffwright/wasm/printing"
	"ruffwright/wasm/solving"
)

func main() {
	line := port.Open()
	bench := solving.New(line.Post, line.Yield)
	bench.Prints(printing.Maker{Today: time.Now}.Print)
	line.Listen(bench.Take)
	bench.Serve(context.Background())
}
