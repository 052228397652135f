// Command stage is the program that draws on the stage's canvas with Ebiten.
package main

import (
	"os"

	"ruffwright/wasm/port"
)

// What the loader and this program say to each other.
const (
	line    = "ruffwrightStage" // where the loader has laid the port
	pixels  = "pixels"          // in: the body is the pixels of the next frame's pictures
	picture = "frame"           // in: the body is a frame
	end     = "end"             // in: the stage is not wanted any more
	drew    = "drew"            // out: the first frame is drawn
	failed  = "failed"          // out, with the reason: it cannot draw
)

func main() {
	to := port.At(line)
	s := newStage(func() { to.Post(drew, nil) })
	to.Listen(func(head string, body []byte) {
		switch head {
		case pixels:
			s.pixels = body
		case picture:
			s.show(body)
		case end:
			os.Exit(0)
		}
	})
	if err := s.run(); err != nil {
		to.Post(failed+" "+err.Error(), nil)
	}
}
