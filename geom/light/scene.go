package light

import (
	"fmt"
	"image/color"
	"math"
	"slices"

	"ruffwright/geom"
)

// Scene is what there is to see: surfaces, and lines that lie on them. It is not
// changed by what draws it, but for what Bake and Thin keep in it.
type Scene struct {
	Sheets  []Sheet
	Threads []Thread

	baked  *baked
	baking *baking
	thin   *Scene
}

// Sheet is one surface: a grid of nodes with the cloth or wood between them, drawn as
// a smooth surface through the nodes. Both its sides may be seen.
type Sheet struct {
	Cols, Rows int
	V          []geom.Vec3 // node (c, r) at c*Rows + r, mm
	Ring       bool        // the last column is the first again
	Through    float64     // Kubelka and Munk's scattering of one layer, see the function Through; 0 = nothing comes through

	Tints []Tint    // at least one
	Pick  []float32 // of every node: which of the tints, part way between two counted down; nil: the first
	Lined bool      // with a line where Pick passes from one tint to the next
	Tone  []float32 // of every node: how light the stuff is of itself; nil: 1

	Dense    []float32   // of every tint: how full the hatching stands whatever the light, 0 to 1; nil: by the dark
	Hatch_mm float64     // between hatching lines where it is dark, sheet mm; 0 = none. They run from row to row
	Weave_mm float64     // from thread to thread, mm, seen when near; 0 = none
	Ink      color.NRGBA // of its lines
	Hem_mm   [4]float64  // widths of the lines where it ends, sheet mm, by FirstRow to LastCol; 0 = none
	Fold_mm  float64     // width of the lines where it turns away from the eye, sheet mm; 0 = none
}

// Tint is a stuff's colour by how much light comes from it: 0 none, 255 full light.
type Tint [256]color.NRGBA

// The ends of a sheet: what Hem_mm counts.
const (
	FirstRow = iota
	LastRow
	FirstCol
	LastCol
)

// Thread is a line in space, drawn where nothing hides it.
type Thread struct {
	V        []geom.Vec3 // mm
	Closed   bool
	Width_mm float64 // sheet mm
	Ink      color.NRGBA
	Lift_mm  float64 // it is seen although something hides it by so much
}

// Check says what is wrong with the scene, nil if nothing is: grids that do not hold
// what they say, places that are not finite or over 100 m away.
func (s *Scene) Check() error {
	for i := range s.Sheets {
		if err := s.Sheets[i].check(); err != nil {
			return fmt.Errorf("light: sheet %d has %w", i, err)
		}
	}
	for i := range s.Threads {
		if k := slices.IndexFunc(s.Threads[i].V, astray); k >= 0 {
			return fmt.Errorf("light: thread %d has a place at %v; allowed are places within 100 m", i, s.Threads[i].V[k])
		}
	}
	return nil
}

func (t *Sheet) check() error {
	n := t.Cols * t.Rows
	if t.Cols < 2 || t.Rows < 2 || t.Cols > 1<<20 || t.Rows > 1<<12 || len(t.V) != n {
		return fmt.Errorf("%d nodes for %d × %d; allowed are from 2 × 2, one for each", len(t.V), t.Cols, t.Rows)
	}
	for _, list := range [][]float32{t.Pick, t.Tone} {
		if list != nil && len(list) != n || slices.ContainsFunc(list, func(x float32) bool { return x != x }) {
			return fmt.Errorf("%d picks or tones for %d nodes; allowed are none, or a number for each", len(list), n)
		}
	}
	if len(t.Tints) == 0 || t.Dense != nil && len(t.Dense) != len(t.Tints) {
		return fmt.Errorf("%d tints, %d of them with a density; allowed are from one, none or all with a density", len(t.Tints), len(t.Dense))
	}
	if !(t.Through >= 0 && t.Through < 1e6) {
		return fmt.Errorf("a scattering of %g; allowed are 0 to 1e6", t.Through)
	}
	if k := slices.IndexFunc(t.V, astray); k >= 0 {
		return fmt.Errorf("a node at %v; allowed are places within 100 m", t.V[k])
	}
	return nil
}

func astray(v geom.Vec3) bool { return !(math.Abs(v.X)+math.Abs(v.Y)+math.Abs(v.Z) < 1e5) }
