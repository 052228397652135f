package figure

import (
	"cmp"
	"image/color"
	"math"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// wearer is the plain form that wears the ruff, turned of wood: shoulders that end in a
// level cut, a neck, and the jaw up to a cut that runs down from below the lips to the
// nape, so low and flat that the loops behind it are seen over it. Of a wrist it is the arm.
type wearer struct {
	plan  pleat.Plan
	round float64 // of the neck: half its breadth and half its depth, mm
	deep  float64
	face  float64 // from under the chin to the root of the nose, mm
	reach float64 // how far the ruff stands out, mm: the shoulders stay within it
	sink  float64 // how much lower than usual the shoulders begin, mm: below the cloth
}

// middling are the middles (50th percentiles) of women and men in ANSUR II, mm:
// testdata/reference/wearer.csv, TestMiddling.
var middling = [2]struct{ girth, face float64 }{{328, 113}, {395, 123}}

// faceOf is the height of a face that goes with a girth of neck where none is given,
// mm: that of the middle woman or man of ANSUR II, or between the two.
func faceOf(girth_mm float64) float64 {
	a, b := middling[0], middling[1]
	t := clamp((girth_mm-a.girth)/(b.girth-a.girth), 0, 1)
	return a.face + (b.face-a.face)*t
}

// Where the form's parts lie. Common practice, no source: chins and collars differ by
// more than this from one wearer to the next.
const (
	underChin  = 21   // from the band's top edge up to the chin, mm
	lipPart    = 0.13 // of the face's height: from under the chin to where the form is cut
	chinOut    = 30   // how far the chin stands before the neck, mm
	napeCut    = 15   // from the band's top edge up to where the nape is cut, mm
	neckBelow  = 9    // from the band's bottom edge down to where the shoulders begin, mm
	leastInset = 1.6  // from the neckline to the wood, mm: the band goes between
)

func newWearer(plan pleat.Plan, rest pleat.Shape) wearer {
	s := plan.Scheme.Wearer
	w := wearer{plan: plan, face: cmp.Or(s.Face, faceOf(s.Girth))}
	inset := math.Max(leastInset, s.Ease/2/math.Pi)
	inset = math.Min(inset, 0.2*narrow(plan.Neckline))
	w.round, w.deep = plan.Neckline.Breadth()/2-inset, plan.Neckline.Depth()/2-inset
	for _, p := range rest.Panels {
		for i := rest.NV; i < len(p.V); i += rest.NV + 1 {
			w.reach = math.Max(w.reach, p.V[i].XY().Norm())
		}
	}
	w.reach = math.Min(w.reach, 4*(w.round+plan.Scheme.Ruff.Depth)) // of a strip on its way
	// Cloth lies on the shoulders at the most.
	const over = 3 // mm
	for _, p := range rest.Panels {
		for _, v := range p.V {
			if v.Z >= over-neckBelow { // over all of the shoulders
				continue
			}
			if out := v.XY().Norm() - w.round; out > 2 && out < w.reach {
				w.sink = math.Max(w.sink, w.slope(out)+over-v.Z-neckBelow)
			}
		}
	}
	w.sink = clamp(w.sink, 0, 60)
	return w
}

// slope is how far the shoulders lie below where they begin, so far out from the neck, as
// a height below 0: what cloth must not go through.
func (w *wearer) slope(out float64) float64 { return -0.3 * out }

// turn is one ring of a turned form: its heights in front and behind, where it lies in
// front and behind, half its breadth, and how much narrower it is in front, a part.
type turn struct{ zf, zb, yf, yb, half, keen float64 }

const aroundForm = 73 // columns of a form: the last is the first again

// place is where a ring passes, at an angle from the front to the wearer's left.
func (t turn) place(angle float64) geom.Vec3 {
	sin, cos := math.Sincos(angle)
	ahead := (1 + cos) / 2 // 1 in front, 0 behind
	return geom.Vec3{
		X: t.half * sin * (1 - t.keen*ahead*ahead),
		Y: (t.yf+t.yb)/2 + (t.yf-t.yb)/2*cos,
		Z: t.zb + (t.zf-t.zb)*ahead,
	}
}

// level is a ring that lies level.
func level(z, front, back, half float64) turn {
	return turn{zf: z, zb: z, yf: -front, yb: back, half: half}
}

// turns are the form's rings from its foot to its cut. foot false: the neck alone.
func (w *wearer) turns(foot bool) []turn {
	a, b, band := w.round, w.deep, w.plan.Scheme.Band.Height
	base := -neckBelow - w.sink
	if w.plan.Scheme.Wearer.Part == scheme.Wrist {
		arm := []turn{
			level(base-58, 1.26*b, 1.26*b, 1.3*a), level(base-40, 1.2*b, 1.2*b, 1.22*a), level(base-20, 1.1*b, 1.1*b, 1.1*a),
			level(base, b, b, a), level(0, b, b, a), level(band, b, b, a),
			level(band+12, b, b, a), level(band+26, b, b, 1.12*a),
			// Closer towards the rim: the curve through rings far apart would rise over it.
			level(band+35, 0.99*b, 0.99*b, 1.2*a), level(band+39.6, 0.985*b, 0.985*b, 1.24*a), level(band+42, 0.98*b, 0.98*b, 1.26*a),
		}
		if !foot {
			return arm[3:7]
		}
		return arm
	}
	// The shoulders: wide, and flat from front to back, as wide as the ruff hides.
	wide := math.Min(math.Max(0.9*w.reach, 1.6*a), 2.6*a)
	out, fore := wide-a, math.Min(0.62*(wide-a), 34)
	var all []turn
	if foot {
		for _, p := range [][3]float64{{36, 1, 1}, {31.5, 0.995, 1}, {26.5, 0.95, 0.96}, {21.5, 0.8, 0.83}, {17, 0.58, 0.64}, {12, 0.33, 0.4}, {7, 0.13, 0.18}, {2.6, 0.03, 0.05}} {
			all = append(all, level(base-p[0]-0.05*out*p[1], b+fore*p[2], b+0.85*fore*p[2], a+out*p[1]))
		}
	}
	all = append(all, level(base, b, b, a), level(base/2, b, b, a), level(band/3, b, b, a), level(band*2/3, b, b, a), level(band, b, b, a))
	if !foot {
		return append(all, level(band+6, b, b, a))
	}
	chin, jaw, nape := band+underChin, lipPart*w.face, band+napeCut
	at := func(part float64) float64 { return band + (nape-band)*part }
	return append(all,
		turn{chin - 12, at(0.3), -b, b, a, 0},
		turn{chin - 6, at(0.4), -b - 5, b, a, 0.05},
		turn{chin - 1, at(0.5), -b - 0.6*chinOut, b, a, 0.17},
		turn{chin + 0.3*jaw, at(0.65), -b - 0.91*chinOut, b + 1, 0.98 * a, 0.27},
		turn{chin + 0.7*jaw, at(0.82), -b - chinOut, b + 3, 0.965 * a, 0.3},
		turn{chin + jaw, nape, -b - 0.98*chinOut, b + 4, 0.95 * a, 0.28},
	)
}

// dome is how the form closes over its last ring: the part of the way from the pith of
// each ring, and how far it rises.
var dome = [][2]float64{{0.97, 2}, {0.92, 3.6}, {0.84, 5}, {0.73, 6.2}, {0.59, 7.2}, {0.42, 7.8}, {0.22, 8.1}, {pithPart, 8.2}}

// pithPart is where a form's rings end, a part of the way from the pith: nearer than a pixel,
// so that one does not look into it, and not at the pith itself, where it would face nowhere.
const pithPart = 1e-4

// outline are rings about all of the form, for the room that it takes.
func (w *wearer) outline() []turn {
	all := w.turns(true)
	last := all[len(all)-1]
	over := dome[4]
	top := turn{last.zf + over[1], last.zb + over[1], last.yf * over[0], last.yb * over[0], last.half * over[0], 0}
	return append(all, top)
}

// add puts the form into the scene: what is turned, its two cuts with their growth
// rings, and the collar or supporter that the ruff rests on.
func (w *wearer) add(scene *light.Scene, pal draw.Palette, foot bool) {
	turns := w.turns(foot)
	last := turns[len(turns)-1]
	t := light.Sheet{
		Cols: aroundForm, Ring: true, Tints: []light.Tint{woodTint(pal)}, Ink: woodInk(pal),
		Hatch_mm: 1.4, Fold_mm: 0.18, Hem_mm: [4]float64{0.18},
	}
	over := dome
	if !foot {
		over, t.Hem_mm = nil, [4]float64{0.18, 0.18}
		scene.Sheets = append(scene.Sheets, cutFace(last, pal))
		scene.Threads = append(scene.Threads, growth(last, pal)...)
	}
	t.Rows = len(turns) + len(over)
	for i := range aroundForm {
		for _, r := range turns {
			t.V = append(t.V, r.place(angleOf(i)))
		}
		for _, d := range over {
			v := last.inner(d[0], angleOf(i))
			v.Z += d[1]
			t.V = append(t.V, v)
		}
	}
	scene.Sheets = append(scene.Sheets, t, cutFace(turns[0], pal))
	if foot {
		w.supports(scene, pal)
	}
}

// angleOf is that of a column of a form; the last is exactly the first.
func angleOf(i int) float64 { return 2 * math.Pi * float64(i%(aroundForm-1)) / (aroundForm - 1) }

// inner is a ring at the part of the way from the pith of a cut to its border.
func (t turn) inner(part, angle float64) geom.Vec3 {
	pith := geom.Vec3{X: 0.14 * t.half, Y: (t.yf+t.yb)/2 + 0.06*(t.yb-t.yf), Z: (t.zf + t.zb) / 2}
	pith.Z += 0.12 * (t.zb - t.zf) / 2
	return pith.Lerp(t.place(angle), part)
}

// cutFace is the flat end of a form within its last ring.
func cutFace(t turn, pal draw.Palette) light.Sheet {
	const rows = 5
	s := light.Sheet{Cols: aroundForm, Rows: rows, Ring: true, Tints: []light.Tint{woodTint(pal)}}
	for i := range aroundForm {
		for k := range rows {
			s.V = append(s.V, t.inner(math.Max(pithPart, float64(k)/(rows-1)), angleOf(i)))
		}
	}
	return s
}

// growth are the rings of a cut, about a pith off its middle.
func growth(t turn, pal draw.Palette) []light.Thread {
	var rings []light.Thread
	for k, part := range [...]float64{0.07, 0.15, 0.24, 0.34, 0.43, 0.55, 0.64, 0.75, 0.85, 0.94} {
		ring := light.Thread{Closed: true, Width_mm: 0.1 + 0.05*float64(k%3), Ink: draw.Mix(pal.WoodDeep, pal.WoodLight, 0.35), Lift_mm: 0.4}
		for i := range aroundForm - 1 {
			a := angleOf(i)
			ring.V = append(ring.V, t.inner(math.Min(0.97, part*(1+0.02*math.Sin(3*a+float64(k))+0.012*math.Sin(5*a+2*float64(k)))), a))
		}
		rings = append(rings, ring)
	}
	return rings
}

// supports adds what the ruff rests on: a doublet's collar that ends in a rim of tabs,
// or a supporter, a hoop of wire on spokes, covered.
func (w *wearer) supports(scene *light.Scene, pal draw.Palette) {
	sup := w.plan.Scheme.Support
	if sup.Kind != scheme.Collar && sup.Kind != scheme.Supporter {
		return
	}
	rise := math.Tan(sup.Slope * math.Pi / 180)
	at := func(out, z float64) turn { return level(z, w.deep+out, w.deep+out, w.round+out) }
	rim := func(out float64) turn { return at(out, -sup.Drop+rise*out) }
	inset := narrow(w.plan.Neckline) - math.Min(w.round, w.deep)
	var rings []turn
	far := supportReach(w.plan.Scheme)
	if sup.Kind == scheme.Collar {
		low := -neckBelow - w.sink - 14 - sup.Drop
		rings = append(rings, at(7, low), at(inset+2, (low-sup.Drop)/2), at(inset+1.5, -sup.Drop-2))
	}
	for _, part := range []float64{0, 0.33, 0.67, 1} {
		rings = append(rings, rim(inset+1.5+(far-inset)*part))
	}
	s := light.Sheet{Cols: aroundForm, Rows: len(rings), Ring: true, Tints: []light.Tint{feltTint(pal)}, Ink: pal.Hatch, Fold_mm: 0.16, Hem_mm: [4]float64{0, 0.22}}
	for i := range aroundForm {
		for _, r := range rings {
			s.V = append(s.V, r.place(angleOf(i)))
		}
	}
	scene.Sheets = append(scene.Sheets, s)
	last := rings[len(rings)-1]
	first := rings[len(rings)-4]
	for i := 0; i < aroundForm-1; i += 3 { // tabs, or spokes
		from, to := first.place(angleOf(i)), last.place(angleOf(i))
		scene.Threads = append(scene.Threads, light.Thread{V: []geom.Vec3{from, to}, Width_mm: 0.16, Ink: pal.Hatch, Lift_mm: 0.5})
	}
}

func woodInk(pal draw.Palette) color.NRGBA { return draw.Mix(pal.WoodDeep, pal.Hatch, 0.5) }

// woodTint and feltTint are the stuffs that the form is made of.
func woodTint(pal draw.Palette) (t light.Tint) {
	for i := range t {
		t[i] = draw.Mix(draw.Mix(pal.WoodDeep, pal.Hatch, 0.25), pal.WoodLight, float64(i)/255)
	}
	return t
}

func feltTint(pal draw.Palette) (t light.Tint) {
	for i := range t {
		t[i] = draw.Mix(pal.Hatch, draw.Mix(pal.WoodDeep, pal.WoodLight, 0.45), float64(i)/255)
	}
	return t
}
