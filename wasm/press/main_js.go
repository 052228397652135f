// Command press is the page's printing program, and its opener of pictures. It answers all
// that the solver answers, and prints as well; in the opener's role it opens one picture.
package main

import (
	"context"
	"os"
	"time"

	"ruffwright/wasm/opening"
	"ruffwright/wasm/port"
	"ruffwright/wasm/printing"
	"ruffwright/wasm/solving"
)

// opener is the argument by which the role of the opener is asked for.
const opener = "opener"

func main() {
	line := port.Open()
	if len(os.Args) > 1 && os.Args[1] == opener {
		line.Listen(func(_ string, file []byte) { line.Post(opening.Open(file)) })
		line.Post(opening.Ready(), nil)
		select {} // until the page ends it
	}
	bench := solving.New(line.Post, line.Yield)
	bench.Prints(printing.Maker{Today: time.Now}.Print)
	line.Listen(bench.Take)
	bench.Serve(context.Background())
}
