package shell

import "fmt"

// Grade says how the cloth differs from grid line to grid line of one direction: a
// hem is heavier and stiffer, lace lighter and limper. Each number multiplies the
// sheet's own on that line, which stands for the cloth up to half way to its
// neighbours. A nil slice means 1 on every line; where a node's two lines both
// have a factor, they multiply.
type Grade struct {
	Mass    []float64 // of Sheet.Mass; ≥ 0
	Bend    []float64 // of the rigidities against bending and twist, frozen ones too; ≥ 0
	Stretch []float64 // of the stiffnesses against stretch and shear; > 0
}

// times returns the factor of line k.
func times(f []float64, k int) float64 {
	if k < len(f) {
		return f[k]
	}
	return 1
}

// mean returns the factor between line k and the one after it where both give
// alike: twist, the same on both sides of a seam.
func mean(f []float64, k int) float64 {
	if f == nil {
		return 1
	}
	return (f[k] + f[(k+1)%len(f)]) / 2
}

// series is mean where both bear the same force, like two springs in a row:
// stretch across the lines, and shear.
func series(f []float64, k int) float64 {
	if f == nil {
		return 1
	}
	a, b := f[k], f[(k+1)%len(f)]
	return 2 * a * b / (a + b)
}

// largestFactor returns the largest of the factors.
func largestFactor(f []float64) float64 {
	if f == nil {
		return 1
	}
	return largest(f)
}

func (g *Grade) validate(name string, lines int) error {
	for _, q := range []struct {
		name  string
		f     []float64
		above bool
	}{{"Mass", g.Mass, false}, {"Bend", g.Bend, false}, {"Stretch", g.Stretch, true}} {
		if q.f != nil && len(q.f) != lines {
			return fmt.Errorf("shell: %s.%s has %d entries; nil or %d", name, q.name, len(q.f), lines)
		}
		for k, v := range q.f {
			if err := positive(fmt.Sprintf("%s.%s[%d]", name, q.name, k), v, q.above); err != nil {
				return err
			}
		}
	}
	return nil
}
