package window

import (
	"fmt"
	"math"

	"ruffwright/sim/shell"
)

// Grid is the number of cells along u (crest to trough) and v (inner to outer
// edge).
type Grid struct{ NU, NV int }

// Three grids: while a control moves, for results, and to see what the mesh
// does to them.
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

// frame is the window's geometry in space and the grid laid on the panel.
type frame struct {
	d        *Design
	u, v     []float64
	ic, it   int // u grid lines of the sewn points: tuck at crest, tuck at trough
	jg       int // v grid line of the second stitch line, 0 if none
	a        float64
	sin, cos float64
	o        float64      // the trough plane's gap is o + sin·x − cos·y
	r0       float64      // the neckline's radius, large but finite for a straight one
	xt, yt   float64      // the trough's mark
	tc, tt   float64      // tucks that count
	spots    []shell.Spot // of tucked cells
}

// straight is the curvature that stands for a straight neckline: over a half
// set of 30 mm it departs from straight by 0.5 µm. A smaller one would lose the
// digits of the distance from the neck's axis.
const straight = 1e-6

func newFrame(d *Design, g Grid) *frame {
	f := &frame{d: d}
	k := max(d.Kappa_1pmm, straight)
	f.r0 = 1 / k
	f.a = k * d.Pitch_mm / 2
	f.sin, f.cos = math.Sincos(f.a)
	f.o = f.sin / k
	s := math.Sin(f.a / 2)
	f.xt, f.yt = -2*s*s/k, f.sin/k
	f.tc, f.tt = d.tucks()
	f.layU(g.NU)
	f.layV(g.NV)
	if d.Tucked() {
		f.spots = shell.Spots(f.u, f.v)
	}
	return f
}

// layU puts grid lines exactly at the tucks' points, in tucks half as many again
// as their share of the panel, at least three a tuck and four between.
func (f *frame) layU(n int) {
	p := f.d.Panel_mm
	cells := func(t float64) int {
		if t == 0 {
			return 0
		}
		return min(max(3, int(math.Round(1.5*float64(n)*t/p))), (n-4)/2)
	}
	nc, nt := cells(f.tc), cells(f.tt)
	f.ic, f.it = nc, n-nt
	f.u = make([]float64, n+1)
	for i := range f.u {
		switch {
		case i < nc:
			f.u[i] = f.tc * float64(i) / float64(nc)
		case i <= n-nt:
			f.u[i] = f.tc + (p-f.tc-f.tt)*float64(i-nc)/float64(n-nt-nc)
		default:
			f.u[i] = p - f.tt*float64(n-i)/float64(nt)
		}
	}
}

// layV grades the grid by e^1.5 towards the band, by e^1.6 where there is a tuck,
// and moves one line to the second stitch line. Of the 100 of TestTucked 4 move
// with 1.6, 10 with 1.5, 9 with 1.7.
func (f *frame) layV(n int) {
	a := 1.5
	if f.d.Tucked() {
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

// sector returns y on the trough plane at x.
func (f *frame) sector(x float64) float64 { return (f.o + f.sin*x) / f.cos }

// sheet returns the shell of the window: grid, mirrors, holds, contact. bend
// multiplies the cloth's rigidity (forming), gravity is in g; onBand ties the
// free part of the inner edge to the band.
func (f *frame) sheet(bend float64, gravity [3]float64, onBand bool, frozen *shell.Frozen, set *Settings) *shell.Sheet {
	d := f.d
	sh := &shell.Sheet{
		U: f.u, V: f.v,
		BendU: bend * d.BendU_uNm, BendV: bend * d.BendV_uNm,
		StretchU: set.Stretch_Npm, StretchV: set.Stretch_Npm, Shear: set.Shear_Npm,
		Mass: d.Mass_gm2, Gravity: gravity, Frozen: frozen,
		UStart: shell.Edge{Kind: shell.Mirror, Normal: [3]float64{0, 1, 0}},
		UEnd:   shell.Edge{Kind: shell.Mirror, Normal: [3]float64{f.sin, -f.cos, 0}, Offset: -f.o},
	}
	nu := len(f.u) - 1
	if d.crestsSewn() {
		sh.Held = append(sh.Held, shell.Hold{I: f.ic, J: 0, Axes: shell.All})
		for i := 1; i < f.ic; i++ {
			sh.Held = append(sh.Held, shell.Hold{I: i, J: 0, Axes: shell.First, In: shell.OfUStart})
		}
		if f.jg > 0 {
			for i := 1; i <= f.ic; i++ {
				sh.Held = append(sh.Held, shell.Hold{I: i, J: f.jg, Axes: shell.First, In: shell.OfUStart})
			}
			sh.Held = append(sh.Held, shell.Hold{I: f.ic, J: f.jg, Axes: shell.First | shell.Third, In: shell.OfUStart})
		}
	}
	if d.troughsSewn() {
		sh.Held = append(sh.Held, shell.Hold{I: f.it, J: 0, Axes: shell.All})
		for i := f.it + 1; i < nu; i++ {
			sh.Held = append(sh.Held, shell.Hold{I: i, J: 0, Axes: shell.First, In: shell.OfUEnd})
		}
		if f.jg > 0 {
			for i := f.it; i < nu; i++ {
				sh.Held = append(sh.Held, shell.Hold{I: i, J: f.jg, Axes: shell.First, In: shell.OfUEnd})
			}
			sh.Held = append(sh.Held, shell.Hold{I: f.it, J: f.jg, Axes: shell.First | shell.Third, In: shell.OfUEnd})
		}
	}
	f.fold(sh)
	f.contacts(sh, bend, onBand)
	return sh
}

// fold sets the hinges of the pressed creases.
func (f *frame) fold(sh *shell.Sheet) {
	if f.tc == 0 && f.tt == 0 {
		return
	}
	nu := len(f.u) - 1
	sh.Fold = make([]float64, sh.Nodes())
	for k := range sh.Fold {
		sh.Fold[k] = 1
	}
	crease := func(i int, t float64) {
		lo, hi := max(i-1, 0), min(i+1, nu)
		h := (f.u[hi] - f.u[lo]) / float64(hi-lo)
		for j, v := range f.v {
			if q := v / (4 * t); q < 1 {
				l := 8 * t * (1 - q*q) * (1 - q*q)
				sh.Fold[sh.Node(i, j)] = h / (h + l)
			}
		}
	}
	if f.tc > 0 {
		crease(0, f.tc)
		crease(f.ic, f.tc)
	}
	if f.tt > 0 {
		crease(nu, f.tt)
		crease(f.it, f.tt)
	}
}

// skin_mm is the contact skin of doc.go in package shell.
const skin_mm = 0.5

// bandSkin_mm is that of the band and neck: thin, for the inner edge's hold on
// the band decides how far the sets lean.
const bandSkin_mm = 0.1

// bandFirm is how many times as stiff as the sectors' planes the band is. The
// lean of an unstarched ruff sewn at both edges falls from 6 mm/g at 1 to 3.8
// at 4 and 3.3 at 10; the heights do not change.
const bandFirm = 4

// press is the stiffness of contact in mN/mm: the sheet's own rigidity and
// weight set the scale of what has to be borne.
func (f *frame) press(bend float64, z *shell.Frozen) float64 {
	d := f.d
	frozen := 0.0
	if z != nil {
		frozen = max(z.BendU, z.BendV)
	}
	b := max(d.BendU_uNm, d.BendV_uNm)
	return bend*4*(2*b+5*d.Weight_mN()) + frozen
}

// settle moves the obstacles of the released sheet back where the formed shape
// pressed on them. Forming is done with a multiple of the cloth's rigidity, and
// so with as many times the force; set, the sheet bends no more, and only the
// cloth's own share of that force is left. Without this the starched loops
// would push each other apart by the skin.
func (f *frame) settle(sh *shell.Sheet, formed []float64, forming float64) {
	share := math.Sqrt(f.press(forming, nil) / (forming * f.press(1, sh.Frozen)))
	for q := range sh.Contacts {
		c := &sh.Contacts[q]
		if c.Back == nil {
			c.Back = make([]float64, sh.Nodes())
		}
		for n := range c.Back {
			at := [3]float64{}
			if c.Between {
				at = sh.Spots[n].At(formed)
			} else {
				at = [3]float64(formed[3*n:])
			}
			if s := c.Skin - c.Gap(at) - c.Back[n]; s > 0 {
				c.Back[n] += s * (1 - min(share, 1))
			}
		}
	}
}

// contacts adds the two sector planes, the neck, and the supporter. The neck's
// surface lies a skin behind the neckline, so that what is sewn there is not
// pushed off.
func (f *frame) contacts(sh *shell.Sheet, bend float64, onBand bool) {
	d := f.d
	nu, nv := len(f.u)-1, len(f.v)-1
	k := f.press(bend, sh.Frozen)
	inner, all := make([]float64, sh.Nodes()), make([]float64, sh.Nodes())
	for i := range f.u {
		for j := range f.v {
			lo, hi := max(j-1, 0), min(j+1, nv)
			w := (f.v[hi] - f.v[lo]) / 2 / (d.Width_mm / 12)
			n := sh.Node(i, j)
			all[n] = w
			if i > 0 && i < nu {
				inner[n] = w
			}
			if j == 0 || j == f.jg {
				// pressed together inside a tuck: held in the plane, no contact
				if d.crestsSewn() && i <= f.ic || d.troughsSewn() && i >= f.it {
					inner[n] = 0
				}
			}
		}
	}
	half := d.Thickness_mm / 2
	crest := shell.Plane([3]float64{0, 1, 0}, half)
	trough := shell.Plane([3]float64{f.sin, -f.cos, 0}, half-f.o)
	crest.Weight, trough.Weight = inner, inner
	neck := shell.Outside([2]float64{-f.r0, 0}, f.r0-bandSkin_mm)
	neck.Weight = all
	const neckAt = 2
	list := []shell.Contact{crest, trough, neck}
	if d.Support {
		c := shell.Above([2]float64{-f.r0, 0}, f.r0, -d.SupportDrop_mm+half, d.SupportSlope_deg*math.Pi/180)
		c.Weight = all
		list = append(list, c)
	}
	for i := range list {
		list[i].Stiffness, list[i].Skin = k, skin_mm
	}
	list[neckAt].Skin = bandSkin_mm
	list[neckAt].Stiffness *= bandFirm
	if onBand {
		tie := shell.Outside([2]float64{-f.r0, 0}, f.r0)
		tie.Tie, tie.Stiffness = true, 5*k
		tie.Weight = make([]float64, sh.Nodes())
		for i := range f.u {
			tie.Weight[sh.Node(i, 0)] = 1
		}
		list = append(list, tie)
	}
	if f.spots != nil {
		f.betweens(sh, &list[0], &list[1])
	}
	sh.Contacts = list
}
