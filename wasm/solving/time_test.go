package solving

import (
	"context"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/wire"
)

// BenchmarkSolve is the cold solve of the demo of 40 sets as the page asks for
// it, through the wire: run it natively and under js/wasm for their ratio.
func BenchmarkSolve(b *testing.B) {
	shape := wire.Skip{Bow: true, Tangents: true, Other: true}
	oval := demo(b, "sound")
	oval.Wearer.Ratio = 1.15
	for _, c := range []struct {
		name string
		s    scheme.Scheme
		r    wire.Request
	}{
		{"sound/coarse", demo(b, "sound"), wire.Request{Coarse: true, Skip: shape}},
		{"sound/fine", demo(b, "sound"), wire.Request{Skip: shape}},
		{"sound/all", demo(b, "sound"), wire.Request{}},
		{"oval/coarse", oval, wire.Request{Coarse: true, Skip: shape}},
		{"oval/fine", oval, wire.Request{Skip: shape}},
		{"oval/all", oval, wire.Request{}},
		{"floppy/fine", demo(b, "floppy"), wire.Request{Skip: shape}},
		{"floppy/all", demo(b, "floppy"), wire.Request{}},
	} {
		b.Run(c.name, func(b *testing.B) {
			c.r.ID, c.r.Task, c.r.Scheme = 1, wire.Solve, wire.Written(c.s)
			head, _, err := c.r.Encode()
			if err != nil {
				b.Fatal(err)
			}
			ended := make(chan struct{}, 1)
			bench := New(func(head string, body []byte) {
				if strings.Contains(head[:min(len(head), 30)], `"last":true`) {
					ended <- struct{}{}
				}
			}, func() {})
			ctx, cancel := context.WithCancel(context.Background())
			defer cancel()
			go bench.Serve(ctx)
			for b.Loop() {
				bench.mu.Lock()
				bench.warm = store{}
				bench.mu.Unlock()
				bench.Take(head, nil)
				<-ended
			}
		})
	}
}
