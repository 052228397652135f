// Command wasm is the program of the page, its solver and its painter: one module, which
// the loader compiles once and starts in each role.
package main

import (
	"context"
	"fmt"
	"os"

	"ruffwright/wasm/dom"
	"ruffwright/wasm/page"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/painting"
	"ruffwright/wasm/port"
	"ruffwright/wasm/solving"
)

// The arguments by which the roles in workers are asked for; any other is the page's.
const (
	solver  = "solver"
	painter = "painter"
)

func main() {
	if len(os.Args) > 1 {
		switch os.Args[1] {
		case solver:
			solve()
		case painter:
			paint()
		}
	}
	document := dom.Open()
	defer func() {
		if why := recover(); why != nil {
			document.Fail(fmt.Sprint(why))
		}
		select {} // its callbacks live on
	}()
	say.Speak(document.Language())
	state, err := page.New()
	if err != nil {
		document.Fail(err.Error())
		return
	}
	document.Listen(state.Handle)
}

// paint makes pictures in a worker.
func paint() {
	line := port.Open()
	artist := painting.New(line.Post)
	line.Listen(artist.Hear)
	artist.Serve(context.Background(), line.Yield)
}

// solve answers in a worker.
func solve() {
	line := port.Open()
	bench := solving.New(line.Post, line.Yield)
	bench.Holds()
	line.Listen(bench.Take)
	bench.Serve(context.Background())
}
