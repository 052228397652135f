package known

import (
	"context"
	"testing"
)

// BenchmarkPanel solves the curved panel of 160 mm (without and with weight)
// on the product's mesh; to compare with CalculiX, run ccx_b.py's case
// 50,160,up in the same minute (its user_s).
func BenchmarkPanel(b *testing.B) {
	for b.Loop() {
		if _, _, err := Panel(context.Background(), PanelCase{Bend: 50, R: 160, Rims: 1, NU: 32, NV: 16}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkCorrugation solves the corrugated sheet of 60 mm over 59.5 mm; in
// CalculiX ccx_c.py's case ela,59.5,50.
func BenchmarkCorrugation(b *testing.B) {
	for b.Loop() {
		if _, _, err := Corrugation(context.Background(), CorrugationCase{Bend: 50, Chord: 59.5, Depth: 160, NU: 24, NV: 12}); err != nil {
			b.Fatal(err)
		}
	}
}
