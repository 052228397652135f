package look

import (
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/wasm/page/say"
)

// sewing is which folds alone are sewn, and to which edge of the band.
type sewing struct {
	kind scheme.Fold
	edge scheme.Edge
}

var sewnAlone = map[sewing]string{
	{scheme.Crest, scheme.EdgeTop}:     " Top folds alone are sewn, to the top edge of the band.",
	{scheme.Crest, scheme.EdgeBottom}:  " Top folds alone are sewn, to the bottom edge of the band.",
	{scheme.Trough, scheme.EdgeTop}:    " Bottom folds alone are sewn, to the top edge of the band.",
	{scheme.Trough, scheme.EdgeBottom}: " Bottom folds alone are sewn, to the bottom edge of the band.",
}

// Description says in words what the picture shows.
func (l *Look) Description() string {
	if l.B == nil {
		return l.describes(l.A)
	}
	return say.Text("Two ruffs on one camera, at one scale. A: %s B: %s", l.describes(l.A), l.describes(l.B))
}

func (l *Look) describes(of *sim.Ruff) string {
	plan, mean := of.Plan, of.Folded.Mean
	s := plan.Scheme
	length := func(mm float64) word.Text { return scheme.Length(mm, l.Units) }
	var b strings.Builder
	shows := "%s: a ruff of %d sets for a neck of %s, %s deep; its outer edge is %s high as folded."
	if s.Wearer.Part == scheme.Wrist {
		shows = "%s: a ruff of %d sets for a wrist of %s, %s deep; its outer edge is %s high as folded."
	}
	b.WriteString(say.Text(shows, l.Label(), plan.Sets, length(s.Wearer.Girth), length(s.Ruff.Depth), length(mean.HeightOuter_mm)))
	switch row := plan.Row; {
	case !row.OneEdge():
		b.WriteString(say.Text(" Top folds are sewn to the top edge of the band, bottom folds to its bottom edge."))
	case row.Edge() != scheme.EdgeNone:
		b.WriteString(say.Text(sewnAlone[sewing{row.Kind(), row.Edge()}]))
	}
	if of.Solved == nil && mean.LoopsMeet || of.Solved != nil && of.Solved.Ruff.LoopsMeet {
		b.WriteString(say.Text(" At the outer edge neighbouring loops meet."))
	} else {
		b.WriteString(say.Text(" At the outer edge there is a gap between neighbouring loops."))
	}
	r := of.Solved
	if r == nil {
		if _, is := l.guessed(of); is {
			b.WriteString(say.Text(" How the cloth hangs is being solved; until then the shape follows the ruff that was solved before."))
		} else {
			b.WriteString(say.Text(" The shape is geometry alone; how the cloth hangs is not solved yet."))
		}
		b.WriteString(l.stageWords())
		return b.String()
	}
	b.WriteString(say.Text(" As the cloth hangs, the outer edge is %s high, stands %s from the neck and %s.", say.Length(r.Ruff.HeightOuter_mm, l.Units), say.Length(r.Ruff.Reach_mm, l.Units), say.Slopes(r.Ruff.Tilt_deg)))
	if r.Ruff.BowDone {
		b.WriteString(say.Text(" When the wearer bows it moves by %s.", say.Length(r.Ruff.Bow_mm, l.Units)))
	}
	if l.Pose != AtRest && l.has(l.Pose) {
		b.WriteString(say.Text(" Shown: %s.", say.Text(poseWords[l.Pose].long)))
	}
	b.WriteString(l.stageWords())
	return b.String()
}
