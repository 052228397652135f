// Command worker is the solver's program.
package main

import (
	"context"

	"ruffwright/wasm/port"
	"ruffwright/wasm/solving"
)

func main() {
	line := port.Open()
	bench := solving.New(line.Post, line.Yield)
	line.Listen(func(head string, _ []byte) { bench.Take(head) })
	bench.Serve(context.Background())
}
