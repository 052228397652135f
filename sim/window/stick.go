package window

import (
	"errors"
	"math"

	"ruffwright/geom/curve"
	"ruffwright/sim/shell"
)

// Tucked sets are formed as they are set: damp, with the rigidity that the cloth has,
// drawn over a round stick in every crest and every trough. Without weight the formed
// shape of cloth that hardly stretches does not depend on its rigidity, so it takes
// sticks to choose one: a half set left to itself has several. At the outer edge the snug
// strip has a closed form (curve.TautHeight), to which every forming is held.
//
// The constants below were tried one by one on 40 designs of RandomTucked from seed 3000
// on, formed on the Coarse grid in the first of the ways alone, where nothing else is
// said. As they stand all 40 come to rest in 49 factorisations in the mean, 0.41 mm off
// the closed form in the mean; 3 stand more than 1 mm off it, the worst 4.2 mm.

const (
	// snug is how hard the sticks are pressed apart: each length of stick with 1/snug²
	// times B/r², the tension that bends a strip of rigidity B round it. Tried on sticks
	// 1 mm thinner than the loops, of 60 random tucked half sets at 0.1 none, of 20 at 0.2
	// one and at 0.07 one stood 1 mm off the closed form; at 0.45 of 80 thirty did.
	snug = 0.1
	// StickReach is how far in from the outer edge a stick reaches where the design does
	// not say, as a share of the width. At 0.4 and 0.6 more sets depend on the way they
	// are formed than at 0.5.
	StickReach = 0.5
	// stickSkin_mm is the skin of a stick, stickFirm how many times as firm as elsewhere
	// it is, and wallFirm the same of all else, for it presses the cloth on them. With 1
	// layers came to lie 0.4 mm in each other, with 3 at most 0.2; with 5 more sets
	// depend on the way they are formed. A skin of 0.1 or 0.4 mm and a stick a third as
	// firm come 0.03 to 0.12 mm farther off in the mean.
	stickSkin_mm, stickFirm, wallFirm = 0.2, 10, 3
	// stickStep is the longest step of a forming, as a share of the stick's radius and of
	// a fifteenth of the panel, whichever is less. With the solver's own, a quarter of
	// the sheet, a quarter of such solves did not come to rest: a stick jumps through
	// the cloth. An eighth or a thirtieth of the panel come to the same as a fifteenth.
	stickStep = 0.25
	// stickRoom is how much of the room between two folds a stick may fill at its inner
	// end: thicker there than the loop, it would press on the cloth beside it. With 0.85
	// 7 of the 40 designs stand more than 1 mm off the closed form, the worst by 23 mm;
	// 1.05 is as good as 0.95, but then the sticks are thicker than the room.
	stickRoom = 0.95
	// stickGive_mm is how much farther out than the closed form a stick may go, for what
	// the sheet gives: with 0.5 and 6 as with 2.
	stickGive_mm = 2
	// hung_mm is how far off the closed form a formed height is where a fold hangs beside
	// its stick. Nearer than that, and farther than 1 mm, are deep tucks that draw in the
	// outer edge by a tenth of the width; no other way serves them better, and they are
	// told as uncertain.
	hung_mm = 2.5
	// caughtStrain is the strain of forming above which a stick has caught cloth that
	// belongs on its other side. Of 72 formings (24 random sets, three ways) five were
	// such, strained by 0.18 and more or 20 mm off; all others by 0.04 at most.
	caughtStrain = 0.1
	// gatheredShare is how far the outer edge stands from the inner one at least, in the
	// mean, as a share of the width: less, and the cloth lies gathered along its sticks,
	// and nobody leaves it so. Of 1,580 formings of random tucked sets, on three grids and
	// in three ways, those of 19 sets stood at 0.76 or less, all others at 0.84 or more.
	// Seven of the 19 were as tall as their sticks, three of them strained by 0.02 or less.
	gatheredShare = 0.8
)

// way is one way to the same sticks. Before, the loops find their shape by themselves,
// with free times the cloth's rigidity (0: not before), and may lie on sticks that are
// only so thick. The sticks begin so far apart, as a share of the closed form.
type way struct{ free, thin, start float64 }

// ways are the one that is gone, and the others that are tried to see whether they end
// alike: put in with slack while the loops are still to find themselves, and thin ones
// first. Found with 5 times the rigidity 4 of the 40 are off, the worst by 56 mm; with 80
// times 2, by 2.1 mm, and so without.
var ways = [...]way{{20, 1, 1}, {0, 1, 0.8}, thinFirst: {20, 0.7, 1}}

const thinFirst = 2 // the index of the way with thin sticks first

// sticks is what is drawn into the loops of a window.
type sticks struct {
	radius, tip float64 // at the outer edge and at the inner end, mm
	reach       float64 // from the outer edge in, mm
	room        float64 // of a half set at the outer edge, mm
	height      float64 // of the cloth's middle at the outer edge, by the closed form
}

// sticks returns what the sets are formed on; nil where they are not: hung up to dry,
// or not tucked and no stick given, where the cloth finds its loops by itself.
func (f *frame) sticks() *sticks {
	if !f.onKnown {
		f.on, f.onKnown = f.laySticks(), true
	}
	return f.on
}

func (f *frame) laySticks() *sticks {
	d := f.d
	if d.Hung || d.Stick_mm == 0 && !f.tucked() {
		return nil
	}
	q := &sticks{radius: d.Stick_mm / 2, tip: d.StickTip_mm / 2, reach: d.StickReach_mm}
	if q.reach == 0 {
		q.reach = StickReach * d.Width_mm
	}
	q.room = f.room(d.Width_mm)
	if q.radius == 0 {
		q.radius = OwnStick(f.length, q.room, d.Thickness_mm) / 2
	}
	if q.tip == 0 {
		q.tip = min(q.radius, max(stickRoom*(f.room(d.Width_mm-q.reach)-d.Thickness_mm), leastStick_mm/2))
	}
	h, err := curve.TautHeight(f.length, q.room, q.radius+d.Thickness_mm/2)
	if err != nil {
		return nil // Validate has refused it, or the edge lies nearly flat
	}
	q.height = h
	return q
}

// room is the mean room of a half set so far out, mm.
func (f *frame) room(out_mm float64) (room float64) {
	for _, p := range f.panels {
		room += Room_mm(p.room, f.d.Kappa_1pmm, out_mm) / float64(len(f.panels))
	}
	return
}

// OwnStick is the diameter in mm of the sticks round which a panel of the given length,
// with room for a half set at the outer edge, stands as tall as its own free loops.
func OwnStick(panel_mm, room_mm, thickness_mm float64) float64 {
	e, err := curve.NewElastica(panel_mm, room_mm)
	if err != nil {
		return leastStick_mm
	}
	r, err := curve.TautRadius(panel_mm, room_mm, e.Height())
	if err != nil {
		return leastStick_mm
	}
	return math.Max(2*r-thickness_mm, leastStick_mm)
}

// leastStick_mm is the thinnest stick; chosen, not tried.
const leastStick_mm = 0.5

// drawnOn adds the sticks to the sheet, from the levels of an earlier forming on. Where
// both edges are sewn they lie as far above the band's middle as below it; where one is,
// that middle is free. So the sticks stand level with each other, as on a stand, and
// neither tip over nor turn.
func (q *sticks) drawnOn(f *frame, sh *shell.Sheet, levels []float64, t try) {
	d := f.d
	r := q.radius + d.Thickness_mm/2
	apart := t.way.start * (q.height - 2*r)
	middle, free := f.middle(q.height)
	pull := t.firm * d.BendU_uNm * q.reach / (snug * snug * r * r) * float64(len(f.panels))
	// Beyond the closed form, with what the sheet may give, sticks would leave the loops.
	most := q.height/2 - r - apart/2 + stickGive_mm
	sh.Levels = []shell.Level{{Pull_mN: pull, Most_mm: most + q.steeper(f)}, {Pull_mN: pull, Most_mm: most}}
	for l, up := range levels {
		sh.Levels[l%2].Most_mm -= up * float64(1-l/2)
	}
	if free {
		sh.Levels = append(sh.Levels, shell.Level{})
	}
	sh.Spots = f.spots
	for k, p := range f.panels {
		for _, trough := range [2]bool{false, true} {
			side := 1.0
			s := shell.Stick{Origin: p.at([3]float64{}), Out: p.direction([3]float64{1, 0, 0}), Clear: d.Thickness_mm / 2, Stiffness: f.press(stickFirm, nil), Skin: stickSkin_mm, Weight: q.weights(f, k)}
			if trough {
				side = -1
				s.Origin, s.Out = p.at([3]float64{p.xt, p.yt, 0}), p.direction([3]float64{p.cos, p.sin, 0})
			}
			for e, end := range [2]shell.StickEnd{{Out_mm: d.Width_mm - q.reach, Radius_mm: q.tip}, {Out_mm: d.Width_mm, Radius_mm: q.radius}} {
				end.Height_mm = middle + side*apart/2
				end.Lift = make([]float64, len(sh.Levels))
				if end.Lift[e] = side; free {
					end.Lift[2] = 1
				}
				for l, up := range levels {
					end.Height_mm += end.Lift[l] * up
				}
				s.Ends[e] = end
			}
			sh.Sticks = append(sh.Sticks, s)
		}
	}
}

// weights are those of a panel's spots within the sticks' reach.
func (q *sticks) weights(f *frame, panel int) []float64 {
	weight := make([]float64, len(f.spots))
	start := f.start_mm(panel)
	for n := range f.spots {
		if s := &f.spots[n]; s.V >= f.d.Width_mm-q.reach && s.U > start && s.U < start+f.panels[panel].length {
			weight[n] = f.perNode(s, f.panels[panel])
		}
	}
	return weight
}

// middle is the height midway between the sewn crests and troughs, or where one kind is
// sewn, half of height from it; free says that it is.
func (f *frame) middle(height float64) (middle float64, free bool) {
	var sum, n [2]float64
	for k := range f.run.Folds {
		if q := &f.run.Folds[k]; q.Sewn {
			at := 0
			if q.Crest {
				at = 1
			}
			sum[at] += q.Height_mm
			n[at]++
		}
	}
	switch {
	case n[0] == 0:
		return sum[1]/n[1] - height/2, true
	case n[1] == 0:
		return sum[0]/n[0] + height/2, true
	}
	return (sum[0]/n[0] + sum[1]/n[1]) / 2, false
}

// errClosed is why a tucked run that is closed onto itself cannot be formed: its cloth
// feels sticks between nodes, and none lie between the last line and the first.
var errClosed = errors.New("window: Folds are tucked and the run is Closed; such a run is not formed")

// form fills c.Formed, from the shape that is there, on sticks where there are any; from
// levels on where that shape is one that was formed.
func (s *solver) form(c *Window, levels []float64) (err error) {
	q := s.f.sticks()
	if q == nil {
		c.Form, err = s.run("forming", s.f.damp(s.set), c.Formed, shell.Settings{})
		return err
	}
	if s.f.spots == nil {
		return errClosed
	}
	// Where a fold hangs beside its stick another way may do, or a harder press, and the
	// best of them counts.
	tries := []try{{ways[s.set.way], 1}, {ways[1], 1}, {ways[2], 1}, {ways[s.set.way], 4}}
	switch {
	case s.set.way > 0 || s.first: // asked for by itself
		tries = tries[:1]
	case levels != nil:
		tries = []try{{way{0, 1, ways[0].start}, 1}}
	}
	begin, best := append([]float64(nil), c.Formed...), []float64(nil)
	if x, up, err := s.fromCoarse(c, levels); err != nil {
		return err
	} else if x != nil {
		tries = append([]try{{way{0, 1, ways[0].start}, 1}}, tries...)
		begin, levels = x, up
	}
	least := 0.0 // of what is amiss
	for k, t := range tries {
		x := append([]float64(nil), begin...)
		r, up, err := s.drawOver(q, x, t, levels)
		if err != nil {
			return err
		}
		w := Window{Design: c.Design, U: c.U, V: c.V, Form: r, Formed: x}
		w.FormedOff_mm = math.Abs(s.f.tall(x) - q.height)
		if bad := w.amiss(); k == 0 || bad < least {
			c.Form, c.levels, c.FormedOff_mm, best, least = r, up, w.FormedOff_mm, x, bad
		}
		if least <= hung_mm {
			break
		}
		begin, levels = s.f.start(), nil // the others from nothing
	}
	c.Formed = best
	return nil
}

// amiss is how far off its closed form a set was formed, mm, and above all those where it
// is caught on a stick or gathered along them, above these where it did not come to rest.
func (c *Window) amiss() float64 {
	switch {
	case c.Form.Status.Early():
		return 2e6 + c.FormedOff_mm
	case c.Form.Strain > caughtStrain, c.drawnOut() < gatheredShare*c.Design.Width_mm:
		return 1e6 + c.FormedOff_mm
	}
	return c.FormedOff_mm
}

// drawnOut is how far the formed outer edge stands from the inner one, in the mean, mm.
func (c *Window) drawnOut() (mean float64) {
	n := len(c.V)
	for i := range c.U {
		in, out := c.Node(c.Formed, i, 0), c.Node(c.Formed, i, n-1)
		far := math.Hypot(math.Hypot(out[0]-in[0], out[1]-in[1]), out[2]-in[2])
		mean += width(c.U, i) / c.Design.Panel_mm * far
	}
	return mean
}

// missesSticks reports that a fold hangs beside its stick, is caught on one or gathered: so
// no maker leaves it.
func (c *Window) missesSticks() bool { return c.amiss() > hung_mm }

// try is a way to the sticks, and how many times as hard as snug they are pressed apart.
type try struct {
	way  way
	firm float64
}

// drawOver draws the shape x over the sticks q, and returns how high their levels came.
func (s *solver) drawOver(q *sticks, x []float64, t try, levels []float64) (r shell.Result, up []float64, err error) {
	if t.way.free > 0 {
		if r, err = s.run("forming", s.f.sheet(t.way.free, [3]float64{}, true, nil, s.set), x, shell.Settings{}); err != nil {
			return r, nil, err
		}
	}
	draw := func(q *sticks, levels []float64) error {
		sh := s.f.damp(s.set)
		q.drawnOn(s.f, sh, levels, t)
		r, err = s.run("forming", sh, x, shell.Settings{StepCap: min(stickStep*q.radius, s.f.length/15)})
		return err
	}
	if t.way.thin < 1 {
		thin := *q
		thin.radius, thin.tip = t.way.thin*q.radius, t.way.thin*q.tip
		if thin.height, err = curve.TautHeight(s.f.length, q.room, thin.radius+s.f.d.Thickness_mm/2); err != nil {
			return r, nil, err
		}
		if err = draw(&thin, nil); err != nil {
			return r, nil, err
		}
	}
	if err = draw(q, levels); err != nil {
		return r, nil, err
	}
	up = append([]float64(nil), r.Levels...)
	for k, v := range levels {
		up[k] += v
	}
	return r, up, nil
}

// damp is the sheet that is formed: on sticks without weight, hung with it.
func (f *frame) damp(set *Settings) *shell.Sheet {
	g := [3]float64{}
	if f.d.Hung {
		g = upright
	}
	sh := f.sheet(f.forming(), g, true, nil, set)
	if f.sticks() != nil {
		for k := range sh.Contacts {
			sh.Contacts[k].Stiffness *= wallFirm
		}
	}
	return sh
}

// tall is the mean height of a shape's crests above its troughs at the outer edge, mm.
func (f *frame) tall(shape []float64) (height float64) {
	n := len(f.v)
	at := func(line int) float64 { return shape[3*((line+1)*n-1)+2] }
	for _, p := range f.panels {
		height += (at(f.line(p, 0)) - at(f.line(p, len(p.u)-1))) / float64(len(f.panels))
	}
	return
}

// fitStick says whether the stick that the design names fits its loops.
func (d *Design) fitStick() error {
	if d.Stick_mm == 0 || d.Hung {
		return nil
	}
	room := Room_mm(d.Pitch_mm/2, d.Kappa_1pmm, d.Width_mm)
	if _, err := curve.TautHeight(d.Panel_mm, room, (d.Stick_mm+d.Thickness_mm)/2); err == nil {
		return nil
	}
	return Misfit{StickThick, "Stick_mm", d.Stick_mm, 0, max(0, 2*curve.TautThickest(d.Panel_mm, room)-d.Thickness_mm)}
}

// steeper is how much farther from the middle than at the outer edge a stick's inner end
// may be: there is less room there, and the stick may be thinner.
func (q *sticks) steeper(f *frame) float64 {
	h, err := curve.TautHeight(f.length, f.room(f.d.Width_mm-q.reach), q.tip+f.d.Thickness_mm/2)
	if err != nil {
		return 0
	}
	return max(0, h/2-q.tip-(q.height/2-q.radius))
}
