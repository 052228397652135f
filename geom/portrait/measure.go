package portrait

import (
	"maps"
	"math"
	"slices"

	"ruffwright/geom"
	"ruffwright/geom/word"
)

// Bounds is a number with its interval, which holds it 19 times in 20.
type Bounds struct {
	Value float64 `json:"value"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

// Given says whether there is such a number.
func (b Bounds) Given() bool { return b != Bounds{} }

// Told_mm is a length as it is said: to half a millimetre, and where its interval is wider
// than 10 mm to whole ones. The ends are rounded outward, so that the interval is never
// narrower than it is known.
func (b Bounds) Told_mm() Bounds {
	step := 0.5
	if b.High-b.Low > 10 {
		step = 1
	}
	return Bounds{Value: step * math.Round(b.Value/step), Low: step * math.Floor(b.Low/step), High: step * math.Ceil(b.High/step)}
}

// Answer is what a sheet comes to. A number that was not asked for is zero.
type Answer struct {
	Depth_mm  Bounds // from the band to the outer edge
	Height_mm Bounds // from bottom fold to top fold at the outer edge
	Sets      Bounds // all the way round
	Across_mm Bounds // from edge to edge, through the middle
	Tilt_deg  Bounds // of the ruff's plane against the line of sight: 0 seen end on, 90 from above
	Turn_deg  Bounds // of the ellipse's long axis against the picture's level, right side down: plus

	Scales   []Scale          // by each reference that counts
	Left     []Kind           // references that do not count, since the wearer's measure is not known
	Apart    float64          // how many standard deviations the references disagree, chi by its freedom; 0 with one
	Disagree bool             // more than 1 time in 20 by chance
	Outline  []Point          // the ellipse of the edge, in the picture
	Lies     Lying            // how the edge lies to the eye
	Edge_px  float64          // how far the edge's points lie from the ellipse, standard deviation
	Parts    map[Part]float64 // of the variance of the depth (without one: the height, the diameter)
}

// Lying is how the circle of the outer edge lies to the eye that saw the picture.
type Lying struct {
	Middle      Point   // where its middle is seen, px
	Radius_px   float64 // as long as its radius is at the distance of its middle
	Distance_px float64 // from the eye to its middle, in such px
	Tilt_deg    float64 // of its plane to the line of sight: plus seen from above, minus from below
	Roll_deg    float64 // of its diameter square to the line of sight, against the picture's level: right side down plus
}

// Scale is one reference.
type Scale struct {
	Kind   Kind
	Label  word.Text
	From   string  // "measured", "picture" or "people": where the wearer's measure is from
	Face   Bounds  // the wearer's measure, mm
	PerPx  Bounds  // mm that a pixel is at the face
	Weight float64 // its part in the scale
}

// often is what chi square exceeds 1 time in 20, by its degrees of freedom less one
// (tables of chi square, from memory).
var often = [...]float64{3.841, 5.991, 7.815, 9.488, 11.070, 12.592, 14.067}

// Measure turns a sheet into the ruff's millimetres.
//
// A bad sheet is an error that names field, value and what is allowed; so is an edge that
// makes no ellipse. Intervals come by propagate, and TestTrials holds them: of 500 drawn
// pictures whose ruff is known they hold it 19 times in 20.
func Measure(sheet Sheet) (Answer, error) {
	s := sheet.copied()
	s.usual()
	if err := s.check(); err != nil {
		return Answer{}, err
	}
	var a Answer
	var err error
	if a.Outline, a.Edge_px, err = s.edge(); err != nil {
		return a, err
	}
	m := newModel(s)
	for i := range m.s.Source.Edge {
		m.point(&m.s.Source.Edge[i], max(s.Source.Placing, sure*a.Edge_px))
	}
	each, _ := m.propagate(m.scales)
	covariance := each.all()
	var chi2 float64
	m.weights, chi2 = weigh(each.mean, covariance)
	a.reference(m, each, covariance)
	if free := len(m.used) - 1; free > 0 {
		a.Apart = math.Sqrt(chi2 / float64(free))
		if chi2 > often[free-1] {
			a.Disagree = true
			m.knobs = append(m.knobs, knob{Disagree, &m.wide, m.apart(covariance, a.Apart)})
		}
	}
	first, ok := m.evaluate()
	if !ok {
		return a, noEllipse(len(s.Source.Edge))
	}
	m.level = first[turn]
	a.Lies, _ = m.lies()
	if n := len(s.Source.Heights); n > 0 && first[tilt] > steepest {
		return a, bad("source.heights", word.Say("cannot be seen: the ruff lies %s to the line of sight", degrees(first[tilt])), word.Say("at most %s", degrees(steepest)))
	}
	if first[tilt] < flattest {
		return a, bad("source.edge", word.Say("is seen end on: the ruff lies %s to the line of sight", degrees(first[tilt])), word.Say("at least %s", degrees(flattest)))
	}
	got, ok := m.propagate(m.evaluate)
	if !ok {
		return a, noEllipse(len(s.Source.Edge))
	}
	return a, a.take(&s, got)
}

// How far the ruff's plane may lie to the line of sight, degrees. Our choice, no source:
// beyond these a height, or what lies on the plane, shrinks to a fifth and less, or to less
// than a fiftieth.
const (
	steepest = 78
	flattest = 1
)

func degrees(x float64) word.Text { return word.Say("%s°", word.Number{Value: x, Decimals: 0}) }

// apart is by how much references that disagree widen the scale: its standard deviation
// grows by the square root of chi square over its freedom (Birge 1932, from memory).
func (m *model) apart(covariance [][]float64, ratio float64) float64 {
	variance := 0.0
	for i, w := range m.weights {
		for j, v := range m.weights {
			variance += w * v * covariance[i][j]
		}
	}
	return math.Sqrt(math.Max(ratio*ratio-1, 0) * variance)
}

// reference says what each reference comes to.
func (a *Answer) reference(m *model, each spreads, covariance [][]float64) {
	faced, _ := m.propagate(func() ([]float64, bool) {
		var list []float64
		for _, at := range m.used {
			list = append(list, m.measured(face(m.s.Source.References[at].Kind)))
		}
		return list, true
	})
	sd := faced.all()
	for i, at := range m.used {
		of := face(m.s.Source.References[at].Kind)
		a.Scales = append(a.Scales, Scale{
			Kind: faces[of].kind, Label: faces[of].label, From: string(m.origin(of)), Weight: m.weights[i],
			Face:  times(faced.mean[i], sd[i][i]),
			PerPx: times(each.mean[i], covariance[i][i]),
		})
	}
	for i, r := range m.s.Source.References {
		if !slices.Contains(m.used, i) {
			a.Left = append(a.Left, r.Kind)
		}
	}
}

// times is the interval of what has this logarithm.
func times(ln, variance float64) Bounds {
	sd := sure * math.Sqrt(variance)
	return Bounds{math.Exp(ln), math.Exp(ln - sd), math.Exp(ln + sd)}
}

// take fills in the ruff.
func (a *Answer) take(s *Sheet, got spreads) error {
	covariance := got.all()
	chief := lnAcross
	for _, q := range []struct {
		asked bool
		at    int
		to    *Bounds
	}{
		{true, lnAcross, &a.Across_mm}, {len(s.Source.Sets) > 0, lnSets, &a.Sets},
		{len(s.Source.Heights) > 0, lnHeight, &a.Height_mm}, {len(s.Source.Depths) > 0, lnDepth, &a.Depth_mm},
	} {
		if !q.asked {
			continue
		}
		*q.to = times(got.mean[q.at], covariance[q.at][q.at])
		if !(q.to.Low > 0) || math.IsInf(q.to.High, 0) {
			return bad("source", word.Say("is measured too badly for any number"), word.Say("points that lie further apart than they are off"))
		}
		if q.at != lnSets {
			chief = q.at
		}
	}
	for _, q := range []struct {
		at          int
		to          *Bounds
		least, most float64
	}{{tilt, &a.Tilt_deg, 0, 90}, {turn, &a.Turn_deg, -180, 180}} {
		sd := sure * math.Sqrt(covariance[q.at][q.at])
		x := min(max(got.mean[q.at], q.least), q.most)
		*q.to = Bounds{x, max(x-sd, q.least), min(x+sd, q.most)}
	}
	a.Parts = map[Part]float64{}
	for part, m := range got.by {
		a.Parts[part] = m[chief][chief] / covariance[chief][chief]
	}
	return nil
}

// edge gives the ellipse of the edge as points of the picture, and how far the points placed
// lie from it, standard deviation, px; 0 of fewer than eight, which say too little of it.
func (s *Sheet) edge() (outline []Point, off_px float64, err error) {
	points := make([]geom.Vec2, len(s.Source.Edge))
	for i, p := range s.Source.Edge {
		points[i] = p.vec()
	}
	e, ok := fit(points)
	if !ok {
		return nil, 0, noEllipse(len(points))
	}
	for i := range 121 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 60)
		p := e.centre.Add(e.major.Scale(e.a * cos)).Add(geom.Vec2{X: -e.major.Y, Y: e.major.X}.Scale(e.b * sin))
		outline = append(outline, Point{p.X, p.Y})
	}
	if len(points) < 8 {
		return outline, 0, nil
	}
	sum := 0.0
	for _, p := range points {
		sum += e.off(p) * e.off(p)
	}
	return outline, math.Sqrt(sum / float64(len(points)-5)), nil
}

// copied is a sheet that shares nothing with s.
func (s Sheet) copied() Sheet {
	s.Source.References = slices.Clone(s.Source.References)
	s.Source.Edge = slices.Clone(s.Source.Edge)
	s.Source.Depths = slices.Clone(s.Source.Depths)
	s.Source.Heights = slices.Clone(s.Source.Heights)
	s.Source.Sets = slices.Clone(s.Source.Sets)
	s.Wearer.Face = maps.Clone(s.Wearer.Face)
	if q := s.Wearer.Picture; q != nil {
		own := *q
		own.References = slices.Clone(q.References)
		s.Wearer.Picture = &own
	}
	return s
}
