package window

import (
	"fmt"
	"math"

	"ruffwright/sim/shell"
)

// Grid is the number of cells along u (crest to trough) and v (inner to outer
// edge).
type Grid struct{ NU, NV int }

// Three grids: while a control moves, for results, and to see what the mesh does.
var (
	Coarse = Grid{16, 8}
	Fine   = Grid{24, 12}
	Finest = Grid{32, 16}
)

func (g Grid) validate() error {
	if g.NU < 10 || g.NU > 200 || g.NV < 4 || g.NV > 100 {
		return fmt.Errorf("window: Grid = %d × %d; allowed is 10 × 4 to 200 × 100", g.NU, g.NV)
	}
	return nil
}

// frame is the window's geometry in space and the grid laid on its panels.
type frame struct {
	d      *Design // what all folds share: cloth, starch, band and neck
	run    Run
	panels []*panel
	walls  []wall
	// u are the grid lines along the strip, those of a closed run with the first one's
	// image; v those from inner to outer edge, mm.
	u, v   []float64
	jg     int          // v grid line of the second stitch line, 0 if none
	k, r0  float64      // the neckline's curvature and radius
	length float64      // of a panel, the mean, mm
	spots  []shell.Spot // of tucked windows, and where there are sticks
	// on is what sticks returns, once onKnown: the loops' own takes some work to find.
	on      *sticks
	onKnown bool
}

// straight is the curvature that stands for a straight neckline: a smaller one would
// lose the digits of the distance from the neck's axis.
const straight = 1e-6

func newFrame(d *Design, run Run, g Grid) *frame {
	f := &frame{d: d, run: run, k: max(d.Kappa_1pmm, straight)}
	f.r0 = 1 / f.k
	n := len(run.Panels_mm)
	f.u = make([]float64, n*g.NU+1)
	for k, l := range run.Panels_mm {
		p := newPanel(&f.run.Folds[k], &f.run.Folds[k+1], l, f.k, k*g.NU, g.NU)
		f.panels = append(f.panels, p)
		for i, u := range p.u {
			if p.step < 0 {
				u = l - u
			}
			f.u[p.line(i)] = f.start_mm(k) + u
		}
		f.length += l / float64(n)
		for _, trough := range [2]bool{false, true} {
			w := wall{p, k, trough}
			if at := w.at(); !(at == 0 && run.Start == Free) && !(at == n && run.End == Free) {
				f.walls = append(f.walls, w)
			}
		}
	}
	f.layV(g.NV)
	if (f.tucked() || d.Stick_mm > 0) && run.Start != Closed {
		f.spots = shell.Spots(f.u, f.v)
	}
	return f
}

// start_mm is where a panel begins along the strip.
func (f *frame) start_mm(panel int) (u float64) {
	for _, l := range f.run.Panels_mm[:panel] {
		u += l
	}
	return
}

// tucked reports that a tuck counts.
func (f *frame) tucked() bool {
	for _, p := range f.panels {
		if p.tc > 0 || p.tt > 0 {
			return true
		}
	}
	return false
}

// lines are the grid lines that the sheet has.
func (f *frame) lines() int {
	if f.run.Start == Closed {
		return len(f.u) - 1
	}
	return len(f.u)
}

// line is the sheet's grid line of a panel's i-th from the crest.
func (f *frame) line(p *panel, i int) int { return p.line(i) % f.lines() }

// layV grades the grid by e^1.5 towards the band, by e^1.6 where there is a tuck,
// and moves one line to the second stitch line. Of the 100 of TestTucked 4 move
// with 1.6, 10 with 1.5, 9 with 1.7.
func (f *frame) layV(n int) {
	a := 1.5
	if f.tucked() {
		a = 1.6
	}
	w := f.d.Width_mm
	f.v = make([]float64, n+1)
	for j := range f.v {
		f.v[j] = w * math.Expm1(a*float64(j)/float64(n)) / math.Expm1(a)
	}
	f.v[n] = w
	g := f.d.LineGap_mm
	if g <= 0 {
		return
	}
	f.jg = 1
	for j := 2; j < n-1; j++ {
		if math.Abs(f.v[j]-g) < math.Abs(f.v[f.jg]-g) {
			f.jg = j
		}
	}
	at := f.v[f.jg]
	for j := range f.v {
		if j <= f.jg {
			f.v[j] *= g / at
		} else {
			f.v[j] = g + (f.v[j]-at)*(w-g)/(w-at)
		}
	}
	f.v[f.jg], f.v[n] = g, w
}

// sheet returns the shell of the window: grid, mirrors, holds, contact. bend
// multiplies the cloth's rigidity, gravity is in g; onBand, for forming, ties the free
// part of the inner edge to the band.
func (f *frame) sheet(bend float64, gravity [3]float64, onBand bool, frozen *shell.Frozen, set *Settings) *shell.Sheet {
	d := f.d
	sh := &shell.Sheet{
		U: f.u[:f.lines()], V: f.v,
		BendU: bend * d.BendU_uNm, BendV: bend * d.BendV_uNm,
		StretchU: set.Stretch_Npm, StretchV: set.Stretch_Npm, Shear: set.Shear_Npm,
		Mass: d.Mass_gm2, Gravity: gravity, Frozen: frozen,
	}
	f.ends(sh)
	for _, p := range f.panels {
		f.hold(sh, p, false)
		f.hold(sh, p, true)
	}
	f.fold(sh)
	f.contacts(sh, bend, onBand)
	return sh
}

// ends sets what lies beyond the first and the last fold.
func (f *frame) ends(sh *shell.Sheet) {
	n := len(f.panels) - 1
	edge := func(e End, p *panel, trough bool) (s shell.Edge) {
		if e == Mirrored {
			s.Kind = shell.Mirror
			s.Normal, s.Offset = p.plane(trough, f.k)
		}
		return
	}
	sh.UStart = edge(f.run.Start, f.panels[0], f.panels[0].step < 0)
	sh.UEnd = edge(f.run.End, f.panels[n], f.panels[n].step > 0)
	if f.run.Start == Closed {
		whole := panel{step: 1, r0: f.r0, turn: f.k * (f.run.Folds[n+1].Station_mm - f.run.Folds[0].Station_mm)}
		r := &shell.Round{Step: f.u[len(f.u)-1] - f.u[len(f.u)-2], Shift: whole.at([3]float64{})}
		for k := range 3 {
			var e [3]float64
			e[k] = 1
			for row, v := range whole.direction(e) {
				r.Turn[3*row+k] = v
			}
		}
		sh.Round = r
	}
}

// hold holds a panel at its crest or its trough: the stitch at its place, the cloth
// inside the tuck in the fold's plane; at a second line the same but that it may
// slide along the plane outward.
func (f *frame) hold(sh *shell.Sheet, p *panel, trough bool) {
	if !p.fold(trough).Sewn {
		return
	}
	stitch := p.from(trough, p.stitch(trough)) // lines from the fold
	normal, _ := p.plane(trough, f.k)
	put := func(i, j int, axes shell.Axes) {
		sh.Held = append(sh.Held, shell.Hold{I: f.line(p, p.from(trough, i)), J: j, Axes: axes, In: normal})
	}
	put(stitch, 0, shell.All)
	for i := 1; i < stitch; i++ {
		put(i, 0, shell.First)
	}
	if f.jg > 0 {
		for i := 1; i <= stitch; i++ {
			put(i, f.jg, shell.First)
		}
		put(stitch, f.jg, shell.First|shell.Third)
	}
}

// fold sets the hinges of the pressed creases.
func (f *frame) fold(sh *shell.Sheet) {
	if !f.tucked() {
		return
	}
	sh.Fold = make([]float64, sh.Nodes())
	for k := range sh.Fold {
		sh.Fold[k] = 1
	}
	crease := func(i int, t float64) {
		h := f.step(i)
		for j, v := range f.v {
			if q := v / (4 * t); q < 1 {
				l := 8 * t * (1 - q*q) * (1 - q*q)
				sh.Fold[sh.Node(i, j)] = h / (h + l)
			}
		}
	}
	for _, p := range f.panels {
		for _, trough := range [2]bool{false, true} {
			if t := p.fold(trough).tuck(); t > 0 {
				crease(f.line(p, p.from(trough, 0)), t)
				crease(f.line(p, p.stitch(trough)), t)
			}
		}
	}
}

// step is the mean of the steps beside a grid line, mm.
func (f *frame) step(i int) float64 {
	n := len(f.u) - 1
	if i == 0 && f.run.Start == Closed {
		return (f.u[1] - f.u[0] + f.u[n] - f.u[n-1]) / 2
	}
	lo, hi := max(i-1, 0), min(i+1, n)
	return (f.u[hi] - f.u[lo]) / float64(hi-lo)
}
