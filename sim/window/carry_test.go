package window

import (
	"math"
	"testing"
)

// TestCarry: a shape that is a cubic along both sides of each part of a panel comes over
// to another grid exactly, and what is sewn stays on its places.
func TestCarry(t *testing.T) {
	for _, tuck := range []float64{0, 8} {
		d := tabled(Both, Crests, tuck, 40, 0)
		from, to := newFrame(&d, d.Run(), Coarse), newFrame(&d, d.Run(), Fine)
		at := func(u, v float64) [3]float64 {
			w := u - math.Min(math.Max(u, tuck), 60-tuck) // creased where the tucks end
			return [3]float64{v + 1e-4*u*u*v, 0.1*u + 1e-5*u*u*u + 0.3*w, 40 - u + 1e-3*v*v + 1e-5*v*v*v - w}
		}
		shape := func(f *frame) []float64 {
			x := make([]float64, 0, 3*len(f.u)*len(f.v))
			for _, u := range f.u {
				for _, v := range f.v {
					p := at(u, v)
					x = append(x, p[:]...)
				}
			}
			return x
		}
		got, want := to.carry(from, shape(from)), shape(to)
		p := to.panels[0]
		to.stitch(p, func(i, j int) []float64 { return want[3*(i*len(to.v)+j):][:3] })
		if off := farthest(got, want); off > 1e-9 {
			t.Errorf("tuck %g: %g mm off", tuck, off)
		}
	}
}
