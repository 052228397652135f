package sim

import (
	"cmp"
	"math"
	"slices"

	"ruffwright/geom/curve"
	"ruffwright/sim/cloth"
	"ruffwright/sim/measure"
)

// Doubted is what a figure may be off by.
type Doubted string

// What figures hang on that nobody knows exactly.
const (
	ByCloth  Doubted = "cloth"  // how stiff the cloth is
	ByShapes Doubted = "shapes" // which of several shapes tucked cloth takes: how its sticks are put in
	ByMesh   Doubted = "mesh"   // how finely it is solved
	ByNear   Doubted = "near"   // that a ruff a little larger may take another shape
	ByHand   Doubted = "hand"   // how exactly the marks are made
)

// Doubt is by how much less and more a figure may be, because of one thing.
type Doubt struct {
	By         Doubted
	Less, More float64 // mm, 0 or above
}

// Sure is how sure a figure of the solved ruff is: what the ruff, made of this cloth by
// this hand, is likely to measure.
type Sure struct {
	Figure                    measure.Figure
	Value_mm, Low_mm, High_mm float64
	Doubts                    []Doubt // what makes the interval, the most of it first
}

const (
	// NeighbourMoves is how far the folds beside a mark stand off, in mm for each mm that
	// the mark is off: 0.4 to 0.6 in whole strips solved for this project; the larger
	// figure is used.
	NeighbourMoves = 0.6
	// HandHeight is how far a set's height is off for each mm that marks usually are: it
	// hangs on four marks, independent of each other.
	HandHeight = 2 * NeighbourMoves
	// coarsely is how much larger a change that was solved on the coarse grid may be: of
	// the demos' largest, 7 mm of droop, it missed a full solve by 3 % (TestSureCloth).
	coarsely = 1.1
)

// Sure gives how sure every figure is that was measured. It is the one place that decides
// it. Nil: the ruff is not solved, did not come to rest, or it was not tried of limper and
// stiffer cloth.
//
// What cloth and solver leave in doubt are limits, and add; the hand's errors scatter, and
// join by squares. Less and more are reckoned apart. How the figures change with the cloth was solved of half and of twice its stiffness, and goes
// over evenly with the logarithm between (TestSureCloth). No figure is surer than any
// solve of half sets of this project (measure.Alike).
func (r *Ruff) Sure() []Sure {
	m := r.Measured()
	if m == nil || !m.StiffDone || r.Plan.Row.Tucked() && !m.MeshDone {
		return nil
	}
	stiff, hand := cloth.HowSure(r.Plan.Given), r.byHand()
	var all []Sure
	for f, x := range m.Figures() {
		figure := measure.Figure(f)
		if !figure.Known(m) || figure == measure.Bow && !m.StiffBowDone {
			continue
		}
		solver := Doubt{By: ByMesh, Less: figure.Surest_mm(x, r.Plan.Row.Tucked())}
		apart := m.Apart_mm[f]
		if figure == measure.Height {
			apart = math.Max(apart, m.FormedOff_mm)
		}
		if apart > solver.Less {
			solver.Less = apart
			switch {
			case m.Near_mm[f] >= apart:
				solver.By = ByNear
			case m.Paths_mm > m.Mesh_mm:
				solver.By = ByShapes
			}
		}
		solver.More = solver.Less
		s := Sure{Figure: figure, Value_mm: x, Doubts: []Doubt{
			byCloth(stiff, m.Limper_mm[f], m.Stiffer_mm[f]), solver, {ByHand, hand[f], hand[f]},
		}}
		s.add()
		all = append(all, s)
	}
	return all
}

// add makes the interval of what is in doubt, the hand last.
func (s *Sure) add() {
	var less, more float64
	for _, d := range s.Doubts {
		if d.By == ByHand {
			less, more = math.Hypot(less, d.Less), math.Hypot(more, d.More)
			continue
		}
		less, more = less+d.Less, more+d.More
	}
	s.Low_mm, s.High_mm = s.Value_mm-less, s.Value_mm+more
	if s.Value_mm >= 0 && s.Figure.Positive() {
		s.Low_mm = math.Max(0, s.Low_mm)
	}
	s.Doubts = slices.DeleteFunc(s.Doubts, func(d Doubt) bool { return d.Less == 0 && d.More == 0 })
	slices.SortStableFunc(s.Doubts, func(a, b Doubt) int { return cmp.Compare(b.Less+b.More, a.Less+a.More) })
}

// byCloth is by how much less and more a figure may be that changes by limper and stiffer
// with half and twice the stiffness.
func byCloth(sure cloth.Sure, limper, stiffer float64) Doubt {
	d := Doubt{By: ByCloth}
	for _, by := range [2]float64{
		limper * -math.Log(sure.Least), stiffer * math.Log(sure.Most),
	} {
		by *= coarsely / math.Log(measure.StiffTimes)
		d.Less, d.More = math.Max(d.Less, -by), math.Max(d.More, by)
	}
	return d
}

// byHand is how far each figure of a set may be off by its marks. The loop is as much
// wider or narrower as the plane curve of a strip that is that much taller.
func (r *Ruff) byHand() (off measure.Lengths) {
	p := &r.Plan
	tall := HandHeight * p.Scheme.Hand.Error
	off[measure.Height] = tall
	room := p.PitchOuter_mm / 2
	e, err := curve.NewElastica(p.Panel_mm, room)
	if err != nil {
		return off
	}
	for _, h := range [2]float64{math.Max(0, e.Height()-tall), e.Height() + tall} {
		length, err := curve.PanelForHeight(h, room)
		if err != nil {
			continue
		}
		if q, err := curve.NewElastica(length, room); err == nil {
			off[measure.Loop] = math.Max(off[measure.Loop], math.Abs(q.LoopWidth()-e.LoopWidth()))
		}
	}
	return off
}
