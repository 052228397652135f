package figure

import (
	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// Kept holds the scenes of one drawing for the next: what is seen again, only from
// elsewhere, is the same scene. What the next drawing does not show is let go.
type Kept struct{ now, before map[kept]*light.Scene }

// kept says what a scene was made of.
type kept struct {
	part        string // of the drawing
	first, last int    // of the panels, or what else tells parts of a kind apart
	shape, rest *geom.Vec3
	size        [3]int // of the shape
	tone        *Tone
	units       scheme.Units
	pal         draw.Palette
	set         int
	bow_deg     float64
	row         bool
	full        float64
	plan        planned
}

// planned is what of a plan is seen beside its shape.
type planned struct {
	neckline geom.Neckline
	support  scheme.Support
	wearer   scheme.Wearer
	band     scheme.Band
	row      *pleat.Mark
	light    float64
}

// madeOf says what a part of the drawing is made of.
func (s *sheet) madeOf(part string) kept {
	o, p := &s.opt, &s.plan
	of := kept{
		part: part, shape: &s.shape.Panels[0].V[0], size: [3]int{s.shape.NU, s.shape.NV, len(s.shape.Panels)},
		tone: o.Tone, units: o.Units, pal: s.Pal, set: o.Set, bow_deg: o.Bow_deg, row: o.Row,
		plan: planned{p.Neckline, p.Scheme.Support, p.Scheme.Wearer, p.Scheme.Band, &p.Row[0], p.Scheme.Cloth.Light},
	}
	if o.Rest != nil {
		of.rest = &o.Rest.Panels[0].V[0]
	}
	return of
}

// keep gives the scene of the drawing before that was made of the same, or makes it.
func (s *sheet) keep(of kept, made func() *light.Scene) *light.Scene {
	k := s.opt.Kept
	if k == nil || s.opt.Moves && of.shape == &s.shape.Panels[0].V[0] {
		return made()
	}
	scene := k.before[of]
	if scene == nil {
		scene = made()
	}
	k.now[of] = scene
	return scene
}

// begin makes what was kept ready for the next drawing.
func (k *Kept) begin() {
	if k != nil {
		k.before, k.now = k.now, map[kept]*light.Scene{}
	}
}
