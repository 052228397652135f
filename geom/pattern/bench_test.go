package pattern

import (
	"io"
	"testing"

	"ruffwright/geom/scheme"
)

func BenchmarkNew(b *testing.B) {
	for _, c := range []struct {
		name string
		sets [][2]string
	}{
		{"40 sets", nil},
		{"40 sets, warp", [][2]string{{"strip.along", "warp"}}},
		{"200 sets", [][2]string{{"ruff.sets", "200"}, {"pleat.tuck_top", "2"}, {"pleat.tuck_bottom", "2"}}},
	} {
		p := planned(b, c.sets...)
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := New(p); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkCSV(b *testing.B) {
	p := made(b, [2]string{"ruff.sets", "200"}, [2]string{"pleat.tuck_top", "2"}, [2]string{"pleat.tuck_bottom", "2"})
	b.ReportAllocs()
	for b.Loop() {
		if err := p.AsCSV(io.Discard, scheme.Inches); err != nil {
			b.Fatal(err)
		}
	}
}
