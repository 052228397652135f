// Command blank is the least that Ebiten can do: one window, one colour. The
// page's times and sizes are told beside it.
package main

import (
	"image/color"
	"syscall/js"

	"github.com/hajimehoshi/ebiten/v2"
)

type blank struct{ drawn bool }

func (b *blank) Update() error { return nil }

func (b *blank) Draw(screen *ebiten.Image) {
	screen.Fill(color.White)
	if !b.drawn {
		b.drawn = true
		js.Global().Get("performance").Call("mark", "blank-stage")
	}
}

func (b *blank) Layout(width, height int) (int, int) { return width, height }

func main() {
	if err := ebiten.RunGameWithOptions(&blank{}, &ebiten.RunGameOptions{InitUnfocused: true}); err != nil {
		panic(err)
	}
}
