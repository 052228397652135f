package known

import (
	"bufio"
	"context"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ruffwright/geom/curve"
	"ruffwright/sim/shell"
)

// rows reads a reference file's rows that begin with the given columns.
func rows(t *testing.T, file string, begin ...string) (out [][]float64) {
	t.Helper()
	f, err := os.Open("../../../testdata/reference/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
next:
	for sc := bufio.NewScanner(f); sc.Scan(); {
		c := strings.Split(sc.Text(), ",")
		if strings.HasPrefix(c[0], "#") || len(c) <= len(begin) {
			continue
		}
		for k, b := range begin {
			if c[k] != b {
				continue next
			}
		}
		var r []float64
		for _, s := range c[len(begin):] {
			v, err := strconv.ParseFloat(s, 64)
			if err != nil {
				v = math.NaN()
			}
			r = append(r, v)
		}
		if !math.IsNaN(r[0]) {
			out = append(out, r)
		}
	}
	if len(out) == 0 {
		t.Fatalf("%s: no rows beginning %v", file, begin)
	}
	return
}

// TestStationsAreTheFiles holds the tables of this package equal to the files.
func TestStationsAreTheFiles(t *testing.T) {
	given := map[string]int{}
	for _, file := range []string{"ccx_b_stations.csv", "ccx_c_stations.csv"} {
		text, err := os.ReadFile("../../../testdata/reference/" + file)
		if err != nil {
			t.Fatal(err)
		}
		for row := range strings.Lines(string(text)) {
			given[row]++
		}
	}
	n := 0
	for deck, rows := range stations {
		u := panelU
		if strings.HasPrefix(deck, "c_") {
			u = corrugationU
		}
		for _, row := range rows {
			for k, p := range row.at {
				line := fmt.Sprintf("%s,%v,%v,%.5f,%.5f,%.5f\n", deck, u[k], row.v, p[0], p[1], p[2])
				if given[line] != 1 {
					t.Errorf("%q stands %d times in the files", line, given[line])
				}
				n++
			}
		}
	}
	if n != 130 {
		t.Errorf("%d stations; there are 130", n)
	}
	same := func(file string, col map[float64][]float64, pick []int) {
		for _, r := range rows(t, file) {
			want, ok := col[r[0]]
			if !ok {
				continue
			}
			delete(col, r[0])
			for k, c := range pick {
				if math.Abs(r[c]-want[k]) > 1e-11*math.Abs(r[c]) {
					t.Errorf("%s, %v: column %d is %v, the table has %v", file, r[0], c, r[c], want[k])
				}
			}
		}
		if len(col) > 0 {
			t.Errorf("%s: rows missing: %v", file, col)
		}
	}
	cols := map[float64][]float64{}
	for _, c := range cantilevers {
		cols[c[0]] = c[1:]
	}
	same("cantilever.csv", cols, []int{4})
	cols = map[float64][]float64{}
	for _, c := range elasticas {
		cols[c[0]] = c[1:]
	}
	same("elastica.csv", cols, []int{1, 3, 5, 7})
	cols = map[float64][]float64{}
	for _, c := range contacts {
		cols[c[0]] = c[1:]
	}
	same("elastica_contact.csv", cols, []int{2, 9})
	cols = map[float64][]float64{}
	for _, c := range arcs {
		cols[c[0]] = c[1:]
	}
	same("arc.csv", cols, []int{4})
	cols = map[float64][]float64{}
	for _, c := range taut {
		cols[c[0]] = c[1:]
	}
	same("taut.csv", cols, []int{1})
	for _, h := range halfSets {
		for k, gravity := range [...]string{"up", "front", "back"} {
			r := rows(t, "ccx_d.csv", fmt.Sprint(h.starch), gravity, "24x20")
			want := []float64{h.mass_gm2, h.stretch_Npm, h.sinks[k][0], h.sinks[k][1]}
			if got := []float64{r[0][0], r[0][1], r[0][3], r[0][4]}; len(r) != 1 || !slices.Equal(got, want) {
				t.Errorf("ccx_d.csv, starch %g, %s: %v, the table has %v", h.starch, gravity, got, want)
			}
		}
	}
}

// TestOrder: halving the mesh divides the error of cantilevers and free loops
// by nearly 4. Below nu = 16 the figure-eight is not yet in that regime.
func TestOrder(t *testing.T) {
	ctx := context.Background()
	for _, c := range []struct{ ratio, want float64 }{{1, 7.10029237486}, {2, 41.4873025594}, {4, 77.1907139079}} {
		var e [3]float64
		for k, n := range []int{32, 64, 128} {
			a, err := CantileverAngle(ctx, c.ratio, n)
			if err != nil {
				t.Fatal(err)
			}
			e[k] = math.Abs(a - c.want)
		}
		p := math.Log2(e[1] / e[2])
		t.Logf("cantilever l/c = %g: errors %.4f %.4f %.4f°, order %.2f, %.2f", c.ratio, e[0], e[1], e[2], math.Log2(e[0]/e[1]), p)
		if p < 1.9 {
			t.Errorf("cantilever l/c = %g: order %.2f", c.ratio, p)
		}
	}
	for _, c := range elasticas {
		var e, w [3]float64
		for k, n := range []int{16, 32, 64} {
			l, err := HalfLoop(ctx, LoopSetting{Chord: c[0], Segments: n})
			if err != nil {
				t.Fatal(err)
			}
			e[k], w[k] = math.Abs(l.Height/c[2]-1), math.Abs(l.Width/c[3]-1)
		}
		p, q := math.Log2(e[1]/e[2]), math.Log2(w[1]/w[2])
		t.Logf("elastica chord %g: height errors %.3f %.3f %.3f %%, order %.2f, %.2f; loop order %.2f", c[0], 100*e[0], 100*e[1], 100*e[2], math.Log2(e[0]/e[1]), p, q)
		if p < 1.9 {
			t.Errorf("elastica chord %g: order %.2f", c[0], p)
		}
		if c[0] < 0.45 && q < 1.9 {
			t.Errorf("elastica chord %g: order of the loop's width %.2f", c[0], q)
		}
	}
}

// TestFrozenStays: a corrugated sheet wholly frozen as it stands, no rigidity
// else and no weight, stays: what it moves is the stretch that bending it left
// behind and falls as the stretch stiffness rises, down to the bluntness of the
// normal. With its weight on, it moves.
func TestFrozenStays(t *testing.T) {
	ctx := context.Background()
	var moved [2]float64
	for q, stiffer := range []float64{1, 100} {
		const nu, nv, chord = 16, 8, 15.0
		e, err := curve.NewElastica(60, chord)
		if err != nil {
			t.Fatal(err)
		}
		sh := ccxSheet(50)
		sh.StretchU *= stiffer
		sh.StretchV *= stiffer
		sh.U, sh.V = even(nu, 60), even(nv, 80)
		sh.UStart = shell.Edge{Kind: shell.Mirror, Normal: [3]float64{1, 0, 0}}
		sh.UEnd = shell.Edge{Kind: shell.Mirror, Normal: [3]float64{1, 0, 0}, Offset: chord}
		sh.Held = []shell.Hold{{I: 0, J: 0, Axes: shell.All}, {I: 0, J: nv, Axes: shell.Third}}
		x := make([]float64, 3*sh.Nodes())
		for i, u := range sh.U {
			p, _ := e.At(u)
			for j, v := range sh.V {
				k := 3 * sh.Node(i, j)
				x[k], x[k+1], x[k+2] = p.X, v, p.Y
			}
		}
		if _, err := solved(ctx, &sh, x, shell.Settings{}); err != nil {
			t.Fatal(err)
		}
		formed := append([]float64(nil), x...)
		s, err := shell.NewSolver(&sh)
		if err != nil {
			t.Fatal(err)
		}
		sh.Frozen = s.Freeze(x, 50, 50, 0, 0, 1)
		sh.BendU, sh.BendV = 0, 0
		away := func() (d float64) {
			if _, err := solved(ctx, &sh, x, shell.Settings{}); err != nil {
				t.Fatal(err)
			}
			for k := range x {
				d = max(d, math.Abs(x[k]-formed[k]))
			}
			return
		}
		moved[q] = away()
		sh.Gravity = [3]float64{0, 0, -1}
		if d := away(); d < 0.01 {
			t.Errorf("its weight moved the frozen shape by only %.3g mm", d)
		}
	}
	t.Logf("moved by %.2g and %.2g mm", moved[0], moved[1])
	if moved[0] > 2e-3 || moved[1] > 3e-4 {
		t.Errorf("without weight the frozen shape moved by %.3g and %.3g mm", moved[0], moved[1])
	}
}
