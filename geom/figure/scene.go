package figure

import (
	"image/color"
	"math"
	"slices"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// Widths of lines on solid things, sheet mm.
const (
	hemLine    = 0.26
	foldLine   = 0.2
	hatchStep  = 1.15 // between hatching lines
	stitchLine = 0.26
)

// scatters is what layers of the plan's cloth scatter together (Kubelka and Munk's s),
// by the part of the light that one lets through.
func scatters(plan pleat.Plan, layers float64) float64 {
	return layers * light.Scatters(clamp(plan.Scheme.Cloth.Light/100, 0.01, 0.99))
}

// full is how full lines on the whole ruff are drawn, a part: less where its folds crowd
// on the sheet. It hangs on the sheet and the ruff, not on how that is held, and goes in
// steps, so that the scene stays the same.
func (s *sheet) full() float64 {
	reach := 1.0
	for _, p := range s.restShape().Panels {
		reach = math.Max(reach, p.V[len(p.V)-1].XY().Norm())
	}
	scale := math.Min(s.opt.Width_mm/2, s.opt.Height_mm/1.3) / reach
	panel := 2 * math.Pi * reach / float64(len(s.shape.Panels)) * scale // sheet mm
	const steps = 5
	return clamp(math.Ceil(panel/2.2*steps)/steps, 1.0/steps, 1)
}

// mood is the light that what is solid on the sheet is seen by.
func (s *sheet) mood() light.Mood {
	if s.opt.Against {
		return light.Against
	}
	pal := s.Pal
	if int(pal.Ground.R)+int(pal.Ground.G)+int(pal.Ground.B) < 3*128 {
		return light.Candle
	}
	return light.Daylight
}

// scenes gives the scene of the whole ruff on its wearer, and of what it is at rest,
// where it is bowed. above: seen from there, the form is cut at the neck.
func (s *sheet) scenes(first, last int, above bool) (scene, ghost *light.Scene) {
	of := s.madeOf("whole")
	if above {
		of.part = "above"
	}
	of.first, of.last, of.full = first, last, s.full()
	scene = s.keep(of, func() *light.Scene { return s.worn(first, last, above) })
	if s.opt.Bow_deg > 0 && s.opt.Rest != nil {
		ghost = s.keep(kept{part: "ghost", shape: &s.opt.Rest.Panels[0].V[0], pal: s.Pal, plan: of.plan, full: of.full}, s.ghost)
	}
	return scene, ghost
}

// worn is the whole ruff on its wearer.
func (s *sheet) worn(first, last int, above bool) *light.Scene {
	o := &s.opt
	var scene light.Scene
	w := newWearer(s.plan, s.restShape())
	w.add(&scene, s.Pal, !above)
	c := newCloth(s.shape, first, last)
	c.dyed(s.shape, s.tone, first)
	d := s.dress(c, first)
	if !o.Row {
		d.full = s.full()
	}
	scene.Sheets = append(scene.Sheets, neckband(s.plan, s.Pal), d.sheet(&c))
	if o.Row {
		scene.Threads = append(scene.Threads, markLines(s.plan, s.shape, first, last, s.Pal.Thread)...)
	} else {
		scene.Threads = append(scene.Threads, stitches(s.plan, s.shape, 3, s.Pal.Thread)...)
	}
	if o.Bow_deg > 0 {
		if o.Rest != nil {
			scene.Threads = append(scene.Threads, s.stiff()...)
		}
		move(&scene, bowing(s.plan, o.Bow_deg))
	}
	return &scene
}

// ghost is the ruff at rest, upright.
func (s *sheet) ghost() *light.Scene {
	rest := newCloth(*s.opt.Rest, 0, len(s.opt.Rest.Panels))
	return &light.Scene{Sheets: []light.Sheet{neckband(s.plan, s.Pal), dress{pal: s.Pal, through: scatters(s.plan, 1), plain: true, full: s.full()}.sheet(&rest)}}
}

// swungLeast_mm is a swing that is shown.
const swungLeast_mm = 1

// stiff is the outer edge where it would stand if the cloth did not swing, wherever it
// swings: over the cloth, so that it is told at a glance.
func (s *sheet) stiff() (lines []light.Thread) {
	rest, now := newCloth(*s.opt.Rest, 0, len(s.opt.Rest.Panels)), newCloth(s.shape, 0, len(s.shape.Panels))
	if rest.cols != now.cols {
		return nil
	}
	going := false
	for col := range rest.cols {
		v := rest.at(col, rest.rows-1)
		swings := now.at(col, now.rows-1).Sub(v).Norm() > swungLeast_mm
		if swings && !going {
			lines = append(lines, light.Thread{Width_mm: 0.3, Ink: s.Pal.ToneHigh, Lift_mm: 14})
		}
		if going = swings; going {
			last := &lines[len(lines)-1]
			last.V = append(last.V, v)
		}
	}
	return slices.DeleteFunc(lines, func(l light.Thread) bool { return len(l.V) < 2 })
}

// restShape is the ruff at rest: what is drawn, where nothing else is given.
func (s *sheet) restShape() pleat.Shape {
	if s.opt.Rest != nil {
		return *s.opt.Rest
	}
	return s.shape
}

// bowing turns what stands upright as the wearer bows: forward about a level axis through
// the middle of the neck, half way up the band.
func bowing(plan pleat.Plan, deg float64) func(geom.Vec3) geom.Vec3 {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	mid := plan.Scheme.Band.Height / 2
	return func(v geom.Vec3) geom.Vec3 {
		z := v.Z - mid
		return geom.Vec3{X: v.X, Y: v.Y*cos - z*sin, Z: v.Y*sin + z*cos + mid}
	}
}

// move moves all places of a scene, whose places are its own.
func move(s *light.Scene, to func(geom.Vec3) geom.Vec3) {
	for i := range s.Sheets {
		for k, v := range s.Sheets[i].V {
			s.Sheets[i].V[k] = to(v)
		}
	}
	for i := range s.Threads {
		for k, v := range s.Threads[i].V {
			s.Threads[i].V[k] = to(v)
		}
	}
}

// dress is how cloth is shown: plain, with some columns tinted, or dyed by a tone.
type dress struct {
	pal     draw.Palette
	through float64 // what a layer scatters
	lo, hi  int     // columns that are tinted, both included; hi 0: none
	tone    *toned  // of cloth that is dyed
	plain   bool    // without hatching
	full    float64 // how full its lines are drawn; 0: in full
}

// dress is the cloth's, with the selected set's panels tinted; first is the panel of the
// cloth's first column.
func (s *sheet) dress(c cloth, first int) dress {
	d := dress{pal: s.Pal, through: scatters(s.plan, 1), tone: s.tone}
	if lo, hi, ok := setPanels(s.plan, s.opt.Set); ok {
		d.lo, d.hi = (lo-first)*c.per, (hi-first)*c.per
	}
	return d
}

// sheet is the cloth as a surface, which takes over its places.
func (d dress) sheet(c *cloth) light.Sheet {
	t := light.Sheet{
		Cols: c.cols, Rows: c.rows, V: c.v, Through: d.through,
		Hatch_mm: hatchStep, Weave_mm: 0.45, Ink: d.pal.Hatch,
		Hem_mm: [4]float64{0.12, hemLine, hemLine, hemLine}, Fold_mm: foldLine,
	}
	if d.full > 0 {
		t.Fold_mm *= d.full
		for i := range t.Hem_mm {
			t.Hem_mm[i] *= d.full
		}
	}
	plain, tinted := d.pal.Ramp()
	switch {
	case d.tone != nil:
		t.Tints, t.Dense, t.Ink, t.Lined = d.tone.tints, d.tone.dense, d.tone.ink, true
		t.Weave_mm = 0
		t.Pick = make([]float32, len(c.v))
		for i, x := range c.dye {
			t.Pick[i] = float32(min(x, toneSteps-1e-3))
		}
	case d.hi > 0:
		t.Tints = []light.Tint{plain, tinted}
		t.Pick = make([]float32, len(c.v))
		for col := max(0, d.lo); col <= min(d.hi, c.cols-1); col++ {
			for j := range c.rows {
				t.Pick[col*c.rows+j] = 1
			}
		}
	default:
		t.Tints = []light.Tint{plain}
	}
	if d.plain {
		t.Hatch_mm, t.Weave_mm = 0, 0
	}
	return t
}

// bandIn is how far within the neckline the band's outer face is drawn, mm: the cloth
// then hides it where it should.
const bandIn = 0.8

// neckband is the band, from its bottom edge to its top, open at the centre front.
func neckband(plan pleat.Plan, pal draw.Palette) light.Sheet {
	const around, up = 96, 4
	plain, _ := pal.Ramp()
	t := light.Sheet{
		Cols: around + 1, Rows: up + 1, Through: scatters(plan, 2), Tints: []light.Tint{plain},
		Ink: pal.Hatch, Hem_mm: [4]float64{0.22, 0.22, 0.22, 0.22}, Fold_mm: foldLine,
	}
	stations := plan.Neckline.Stations(around)
	for i := range around + 1 {
		st := stations[i%around]
		p := st.Pos.Sub(st.Normal.Scale(math.Min(bandIn, 0.1*narrow(plan.Neckline))))
		for k := range up + 1 {
			t.V = append(t.V, geom.Vec3{X: p.X, Y: p.Y, Z: plan.Scheme.Band.Height * float64(k) / up})
		}
	}
	return t
}

// stitches are those where a mark's fold is sewn to the band: over the edge and back,
// length_mm long.
func stitches(plan pleat.Plan, shape pleat.Shape, length_mm float64, c color.NRGBA) []light.Thread {
	var all []light.Thread
	for m, mark := range plan.Row {
		if mark.Edge == scheme.EdgeNone {
			continue
		}
		v := innerAt(shape, m, 0)
		out := geom.Vec3{X: v.X, Y: v.Y}.Unit()
		z, d := plan.Edge_mm(mark.Edge), length_mm
		if mark.Edge == scheme.EdgeTop {
			d = -d
		}
		on := geom.Vec3{X: v.X, Y: v.Y, Z: z}
		all = append(all, light.Thread{
			V:        []geom.Vec3{on.Add(out.Scale(0.6)), on.Sub(out.Scale(2 * bandIn)), {X: on.X - 2*bandIn*out.X, Y: on.Y - 2*bandIn*out.Y, Z: z + d}},
			Width_mm: stitchLine, Ink: c, Lift_mm: 1,
		})
	}
	return all
}

// markLines are the marks on the cloth from first to last: a line for a top mark, a
// broken one for a bottom mark.
func markLines(plan pleat.Plan, shape pleat.Shape, first, last int, c color.NRGBA) []light.Thread {
	const points = 12
	whole, broken := [][2]float64{{0, 1}}, [][2]float64{{0.06, 0.42}, {0.58, 0.94}}
	var all []light.Thread
	for k := first; k <= last; k++ {
		parts := whole
		if plan.Row[k].Fold == scheme.Trough {
			parts = broken
		}
		for _, part := range parts {
			t := light.Thread{Width_mm: 0.18, Ink: c, Lift_mm: 0.35}
			for i := range points + 1 {
				t.V = append(t.V, onLine(shape, k, part[0]+(part[1]-part[0])*float64(i)/points))
			}
			all = append(all, t)
		}
	}
	return all
}

// onLine is the place at the part t of the way along mark k's line from the inner
// edge to the outer.
func onLine(shape pleat.Shape, k int, t float64) geom.Vec3 {
	j := min(int(t*float64(shape.NV)), shape.NV-1)
	return innerAt(shape, k, j).Lerp(innerAt(shape, k, j+1), t*float64(shape.NV)-float64(j))
}

// innerAt is the node of mark m's fold line at row j.
func innerAt(shape pleat.Shape, m, j int) geom.Vec3 {
	if m < len(shape.Panels) {
		return shape.Panels[m].V[j]
	}
	return shape.Panels[len(shape.Panels)-1].V[shape.NU*(shape.NV+1)+j]
}

// solid lays what the eye sees of a scene on the sheet, over the rule and below all else;
// it ends where the notes' words begin.
func (s *sheet) solid(scene *light.Scene, e draw.Eye, faint float64) {
	s.Items = slices.Insert(s.Items, s.below, draw.Item(draw.Solid{
		Scene: scene, Eye: e, Mood: s.mood(), Clip: draw.Rect{Max: draw.Pt(s.Width_mm, s.Height_mm)}, Faint: faint, Plain: s.opt.Plain,
	}))
	s.below++
}
