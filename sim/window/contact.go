package window

import (
	"math"

	"ruffwright/sim/shell"
)

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
	weight := d.Mass_gm2 * 9.80665e-6 * f.length * d.Width_mm
	frozen := 0.0
	if z != nil {
		frozen = max(z.BendU, z.BendV)
	}
	b := max(d.BendU_uNm, d.BendV_uNm)
	return bend*4*(2*b+5*weight) + frozen
}

// setBack moves the obstacles of the released sheet back where the formed shape
// pressed on them: forming has a multiple of the cloth's rigidity, and so of the
// force, of which only the cloth's own share is left. Without this the starched loops
// would push each other apart by the skin.
func (f *frame) setBack(sh *shell.Sheet, formed []float64) {
	forming := f.forming()
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

// wall is a radial plane that a panel keeps to its side of: that of its crest or of
// its trough. There the panel meets the next one, which keeps to the other side.
type wall struct {
	p      *panel
	panel  int // its number
	trough bool
}

// at is the number of the fold whose plane it is.
func (w *wall) at() int {
	if w.trough == (w.p.step > 0) {
		return w.panel + 1
	}
	return w.panel
}

// across is the number of the panel on the other side; beyond an end it is that of
// an image.
func (w *wall) across() int { return 2*w.at() - 1 - w.panel }

// image reports that the plane is a mirror of the window.
func (f *frame) mirrors(w *wall) bool {
	return w.at() == 0 && f.run.Start == Mirrored || w.at() == len(f.panels) && f.run.End == Mirrored
}

// share is what a node of grid line j bears of a contact, in nodes of the Fine
// grid, evenly spaced.
func (f *frame) share(j int) float64 {
	return width(f.v, j) / (f.d.Width_mm / 12)
}

// beside weighs the nodes of a panel for contact with its walls: all but those on
// the folds and inside a tuck, which is held. The edge at a free end is on no fold.
func (f *frame) beside(panel int, sh *shell.Sheet) []float64 {
	p, last := f.panels[panel], len(f.panels[panel].u)-1
	weight := make([]float64, sh.Nodes())
	for i := range p.u {
		at := p.line(i)
		edge := at == 0 && f.run.Start == Free || at == len(f.u)-1 && f.run.End == Free
		if (i == 0 || i == last) && !edge {
			continue
		}
		tucked := p.crest.Sewn && i <= p.ic || p.trough.Sewn && i >= p.it
		for j := range f.v {
			if !(tucked && (j == 0 || j == f.jg)) {
				weight[sh.Node(at, j)] = f.share(j)
			}
		}
	}
	return weight
}

// everywhere weighs all nodes for contact with what is not cloth. A fold that two
// panels of the window share bears for both.
func (f *frame) everywhere(sh *shell.Sheet) []float64 {
	weight := make([]float64, sh.Nodes())
	for _, p := range f.panels {
		for i := range p.u {
			for j := range f.v {
				weight[sh.Node(f.line(p, i), j)] += f.share(j)
			}
		}
	}
	return weight
}

// contacts adds the walls, in their order, the neck, a skin behind the neckline so
// that what is sewn there is not pushed off, and the supporter.
func (f *frame) contacts(sh *shell.Sheet, bend float64, onBand bool) {
	d := f.d
	k := f.press(bend, sh.Frozen)
	half := d.Thickness_mm / 2
	for w := range f.walls {
		q := &f.walls[w]
		normal, offset := q.p.plane(q.trough, f.k)
		c := shell.Plane(normal, half+offset)
		c.Image = f.mirrors(q)
		if f.spots != nil {
			f.between(&c, q)
		} else {
			c.Weight = f.beside(q.panel, sh)
		}
		c.Stiffness, c.Skin = k, skin_mm
		sh.Contacts = append(sh.Contacts, c)
	}
	sh.Spots = f.spots
	axis, all := [2]float64{-f.r0, 0}, f.everywhere(sh)
	neck := shell.Outside(axis, f.r0-bandSkin_mm)
	neck.Weight, neck.Stiffness, neck.Skin = all, k*bandFirm, bandSkin_mm
	sh.Contacts = append(sh.Contacts, neck)
	if d.Support {
		c := shell.Above(axis, f.r0, -d.SupportDrop_mm+half, d.SupportSlope_deg*math.Pi/180)
		c.Weight, c.Stiffness, c.Skin = all, k, skin_mm
		sh.Contacts = append(sh.Contacts, c)
	}
	if onBand {
		tie := shell.Outside(axis, f.r0)
		tie.Tie, tie.Stiffness = true, 5*k
		tie.Weight = make([]float64, sh.Nodes())
		for _, p := range f.panels {
			for i := range p.u {
				tie.Weight[sh.Node(f.line(p, i), 0)]++
			}
		}
		sh.Contacts = append(sh.Contacts, tie)
	}
}
