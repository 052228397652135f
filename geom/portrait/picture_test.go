package portrait

import (
	"math"
	"math/rand/v2"

	"ruffwright/geom"
)

// painted is a face and a ruff of known measures, seen by a pinhole: what Measure must find
// again. The picture is drawn in three dimensions, apart from the closed forms of ring.
type painted struct {
	depth, height, radius float64 // mm
	sets                  float64
	tilt, roll            float64 // of the ruff, degrees
	distance, ahead       float64 // of the eye from the face; of the face before the ruff's middle, mm
	face                  [4]float64
	head                  Head
	px                    float64 // of a mm at the face
	ruffTimes             float64 // the painter's freedom with the ruff,
	faceTimes             [4]float64
}

func usualPainting() painted {
	return painted{depth: 90, height: 40, radius: 180, sets: 44, tilt: 25, roll: 5, distance: 2000, ahead: 80,
		face: [4]float64{118, 138, 63, 49}, px: 2.5, ruffTimes: 1, faceTimes: [4]float64{1, 1, 1, 1}}
}

// random is a painting drawn by lot, of one of the people, as the sheet takes it to be.
func random(lot *rand.Rand, whose string, s *Sheet) painted {
	between := func(a, b float64) float64 { return a + (b-a)*lot.Float64() }
	off := func(a float64) float64 { return lot.NormFloat64() * a / sure }
	p := painted{depth: between(40, 110), height: between(20, 70), radius: between(150, 250), sets: math.Floor(between(28, 90)),
		tilt: between(10, 50), roll: between(-15, 15), px: between(1.5, 4)}
	src := s.Source
	p.distance = src.Distance * math.Exp(off(math.Log(src.Factor)))
	p.ahead = src.Ahead + off(src.AheadOff)
	p.head = Head{Turn: src.Head.Turn + off(src.Head.TurnOff), Nod: src.Head.Nod + off(src.Head.NodOff)}
	middle, within, between2 := people(whose)
	z, side := [4]float64{}, 1-2*float64(lot.IntN(2))
	for i := range z {
		z[i] = lot.NormFloat64()
	}
	freedom := math.Log(src.Freedom) / math.Sqrt2
	for i := range middle {
		p.face[i] = middle[i] + side*between2[i]
		for j, x := range z {
			p.face[i] += within[i][j] * x
		}
		p.face[i] = math.Exp(p.face[i])
		p.faceTimes[i] = math.Exp(off(freedom))
	}
	p.ruffTimes = math.Exp(off(freedom))
	return p
}

// seen is the place in the picture of a point of space: to the right, down, and away from
// the eye, mm.
func (p painted) seen(q geom.Vec3) geom.Vec2 {
	f := p.px * p.distance
	return geom.Vec2{X: 700 + f*q.X/q.Z, Y: 500 + f*q.Y/q.Z}
}

// frame gives the ruff's middle, and the directions of its plane: right, towards the eye,
// and square on it.
func (p painted) frame() (middle, right, near, up geom.Vec3) {
	middle = geom.Vec3{Y: 170, Z: p.distance + p.ahead}
	sight := middle.Scale(1 / middle.Norm())
	level := geom.Vec3{X: 1}
	down := sight.Cross(level)
	s, c := math.Sincos(p.roll * math.Pi / 180)
	right = level.Scale(c).Add(down.Scale(s))
	lower := down.Scale(c).Sub(level.Scale(s))
	s, c = math.Sincos(p.tilt * math.Pi / 180)
	near = lower.Scale(s).Sub(sight.Scale(c))
	up = lower.Scale(-c).Sub(sight.Scale(s))
	return middle, right, near, up
}

// on is the place of a point of the ruff: so far out at an angle of it, and so far above its
// plane.
func (p painted) on(out, angle, above float64) geom.Vec2 {
	middle, right, near, up := p.frame()
	s, c := math.Sincos(angle)
	out, above = out*p.ruffTimes, above*p.ruffTimes
	return p.seen(middle.Add(right.Scale(out * c)).Add(near.Scale(out * s)).Add(up.Scale(above)))
}

// measureOf is a line over the face, as it is painted.
func (p painted) measureOf(of int) (a, b geom.Vec2) {
	turned := func(q geom.Vec3) geom.Vec3 {
		s, c := math.Sincos(p.head.Turn * math.Pi / 180)
		q.X, q.Z = c*q.X+s*q.Z, c*q.Z-s*q.X
		s, c = math.Sincos(p.head.Nod * math.Pi / 180)
		q.Y, q.Z = c*q.Y+s*q.Z, c*q.Z-s*q.Y
		return q.Add(geom.Vec3{Z: p.distance})
	}
	half := p.face[of] * p.faceTimes[of] / 2
	if faces[of].across {
		// Level with the middle of the turn, so that the other end is not nearer by more.
		return p.seen(turned(geom.Vec3{X: -half, Z: faces[of].behind})), p.seen(turned(geom.Vec3{X: half, Z: faces[of].behind}))
	}
	return p.seen(turned(geom.Vec3{Y: -half, Z: faces[of].behind})), p.seen(turned(geom.Vec3{Y: half, Z: faces[of].behind}))
}

// paint places points on the picture, each off by what the sheet says; lot nil: by nothing.
func (p painted) paint(lot *rand.Rand, s *Sheet, kinds ...Kind) {
	at := func(q geom.Vec2) Point {
		if lot != nil {
			q.X += lot.NormFloat64() * s.Source.Placing / sure
			q.Y += lot.NormFloat64() * s.Source.Placing / sure
		}
		return Point{q.X, q.Y}
	}
	src := &s.Source
	src.References, src.Edge, src.Depths, src.Heights, src.Sets = nil, nil, nil, nil, nil
	for _, k := range kinds {
		a, b := p.measureOf(face(k))
		src.References = append(src.References, Reference{k, Line{at(a), at(b)}})
	}
	for i := range 12 { // the back is behind the head
		src.Edge = append(src.Edge, at(p.on(p.radius, (-20+20*float64(i))*math.Pi/180, 0)))
	}
	for _, angle := range []float64{0.2, 2.7} {
		src.Depths = append(src.Depths, Line{at(p.on(p.radius-p.depth, angle, 0)), at(p.on(p.radius, angle, 0))})
	}
	for _, angle := range []float64{0.6, 1.6} {
		src.Heights = append(src.Heights, Line{at(p.on(p.radius, angle, -p.height/2)), at(p.on(p.radius, angle, p.height/2))})
	}
	counted := math.Floor(p.sets / 4)
	arc := Arc{Count: counted, From: at(p.on(p.radius, 0.7, 0)), To: at(p.on(p.radius, 0.7+2*math.Pi*counted/p.sets, 0))}
	if lot != nil {
		arc.Count += lot.NormFloat64() * 0.5 / sure
	}
	src.Sets = []Arc{arc}
}
