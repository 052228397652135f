package look

import (
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/wasm/page/say"
)

// Description says in words what the picture shows.
func (l *Look) Description() string {
	if l.B == nil {
		return l.describes(l.A)
	}
	return say.Word("shows.pair", "a", l.describes(l.A), "b", l.describes(l.B))
}

func (l *Look) describes(of *sim.Ruff) string {
	plan, mean := of.Plan, of.Folded.Mean
	s := plan.Scheme
	length := func(mm float64) string { return scheme.FormatLength(mm, l.Units) }
	var b strings.Builder
	b.WriteString(say.Word("shows."+string(s.Wearer.Part), "view", l.Label(), "sets", plan.Sets,
		"girth", length(s.Wearer.Girth), "depth", length(s.Ruff.Depth), "height", length(mean.HeightOuter_mm)))
	switch row := plan.Row; {
	case !row.OneEdge():
		b.WriteString(say.Word("shows.both"))
	case row.Edge() != scheme.EdgeNone:
		b.WriteString(say.Word("shows." + string(row.Kind()) + "s." + string(row.Edge())))
	}
	if of.Solved == nil && mean.LoopsMeet || of.Solved != nil && of.Solved.Ruff.LoopsMeet {
		b.WriteString(say.Word("shows.meet"))
	} else {
		b.WriteString(say.Word("shows.gape"))
	}
	r := of.Solved
	if r == nil {
		b.WriteString(say.Word("shows.drawn"))
		b.WriteString(l.stageWords())
		return b.String()
	}
	b.WriteString(say.Word("shows.hangs", "height", say.Length(r.Ruff.HeightOuter_mm, l.Units), "reach", say.Length(r.Ruff.Reach_mm, l.Units), "slope", say.Slopes(r.Ruff.Tilt_deg)))
	if r.Ruff.BowDone {
		b.WriteString(say.Word("shows.bow", "bow", say.Length(r.Ruff.Bow_mm, l.Units)))
	}
	if l.Pose != AtRest && l.has(l.Pose) {
		b.WriteString(say.Word("shows.pose", "pose", say.Word("poselong."+string(l.Pose))))
	}
	b.WriteString(l.stageWords())
	return b.String()
}
