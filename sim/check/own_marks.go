package check

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
)

var marksStepLaw = law{Rule: Rule{"marks-step", "Top and bottom marks are out of step", Mend, 0, "mm", "at most what moves its neighbours by 5 % of the height, 0.6 mm for each mm", "0.6: whole strips solved for this project; 5 %: " + practice, WhereMarks, FromGeometry},
	find: (*view).marksStep, when: (*view).ownMarks}

// marksStep: a top mark belongs midway between its bottom marks, and so on.
func (v *view) marksStep() (seen, bool) {
	var s seen
	worst := 0
	for k := 1; k < v.p.Panels; k++ {
		off := math.Abs(v.p.Row.Panel(k-1)-v.p.Row.Panel(k)) / 2
		if off > s.value {
			s.value, worst = off, k
		}
	}
	s.limit = viewerSees / 100. * v.r.Folded.Mean.HeightOuter_mm / sim.NeighbourMoves
	if !(s.value > s.limit) {
		return s, false
	}
	s.atMarks(worst + 1)
	s.says("Mark %d, a %s, lies %s from the middle of its neighbours: the folds beside it will stand about %s too high and too low, and the sets look out of step.",
		worst+1, fold(v.p.Row[worst].Fold), v.len(s.value), v.len(sim.NeighbourMoves*s.value))
	step := v.p.Panel_mm
	s.offer([]Change{v.marksTo(func(i int, m scheme.Mark) scheme.Mark {
		m.Place = float64(i) * step
		return m
	})}, "Mark the same strip again from one end, every %s.", v.len(step))
	return s, true
}

var marksSewnLaw = law{Rule: Rule{"marks-sewn", "A mark is sewn unlike its fellows", Mend, 0, "marks", "no mark may differ from most of its kind", geometry, WhereMarks, FromGeometry},
	find: (*view).marksSewn, when: (*view).ownMarks}

// marksSewn: own marks of one kind sewn in different ways.
func (v *view) marksSewn() (seen, bool) {
	var s seen
	first := -1
	for k, m := range v.p.Row {
		if m.Edge != v.p.Row.Sewn(m.Fold) {
			s.value++
			s.atMarks(k + 1)
			if first < 0 {
				first = k
			}
		}
	}
	if s.value == 0 {
		return s, false
	}
	m := v.p.Row[first]
	mark := word.Say("Mark %d", first+1)
	if n := int(s.value) - 1; n > 0 {
		mark = word.Count(n, "Mark %d (and %d mark more)", "Mark %d (and %d marks more)", first+1, n)
	}
	words := "%s, a top fold, is %s, while most top folds are %s: that set hangs or stands unlike its neighbours."
	if m.Fold == scheme.Trough {
		words = "%s, a bottom fold, is %s, while most bottom folds are %s: that set hangs or stands unlike its neighbours."
	}
	s.says(words, mark, sewnTo(m.Edge), sewnTo(v.p.Row.Sewn(m.Fold)))
	s.offer([]Change{v.marksTo(func(_ int, m scheme.Mark) scheme.Mark {
		m.Sewn = v.p.Row.Sewn(m.Fold)
		return m
	})}, "Sew every fold like most of its kind.")
	return s, true
}

// fold is the word for f.
func fold(f scheme.Fold) word.Text {
	if f == scheme.Crest {
		return word.Say("top fold")
	}
	return word.Say("bottom fold")
}

// edgeWord is the word for an edge of the band that something is sewn to.
func edgeWord(e scheme.Edge) word.Text {
	if e == scheme.EdgeTop {
		return word.Say("top edge")
	}
	return word.Say("bottom edge")
}

// sewnTo says in words what a fold is sewn to.
func sewnTo(e scheme.Edge) word.Text {
	if e == scheme.EdgeNone {
		return word.Say("not sewn")
	}
	return word.Say("sewn to the %s", edgeWord(e))
}

// marksTo changes the maker's own marks one by one; nothing where the planned
// marks are used.
func (v *view) marksTo(change func(i int, m scheme.Mark) scheme.Mark) Change {
	return asIn(v.s.Marked(change), "pleat.marks")[0]
}

var alikeLaw = law{Rule: Rule{"alike", "Own marks are solved as regular sets", Note, 0, "mm", "said of own marks; by how much they differ", solved, WhereMarks, FromMechanics},
	find: (*view).alike, parts: shapePart, when: (*view).ownMarks}

// alike: the model of the cloth knows regular sets only.
func (v *view) alike() (seen, bool) {
	if !v.r.Solved.Alike {
		return seen{}, false
	}
	s := seen{}
	for k := range v.p.Panels {
		s.value = math.Max(s.value, math.Abs(v.p.Row.Panel(k)-v.p.Panel_mm))
	}
	s.says("Your own marks were solved as regular sets, every fold %s from the next; yours differ from that by up to %s. How single sets stand beside their neighbours is not solved.",
		v.len(v.p.Panel_mm), v.len(s.value))
	return s, true
}
