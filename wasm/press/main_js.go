// Command press is the page's printing program. It answers all that the solver's
// program answers, and prints as well: where only one of them can be carried
// along, in a single file, this one does for both.
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
	line.Listen(func(head string, _ []byte) { bench.Take(head) })
	bench.Serve(context.Background())
}
