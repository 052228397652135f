package easel

import (
	"slices"

	"ruffwright/geom/portrait"
	"ruffwright/wasm/page/say"
)

// kind is what a mark marks.
type kind string

// The kinds of marks, and move, which marks nothing.
const (
	faceHeight       = kind(portrait.FaceHeight)
	faceBreadth      = kind(portrait.FaceBreadth)
	pupils           = kind(portrait.Pupils)
	nose             = kind(portrait.Nose)
	edge        kind = "edge"
	depth       kind = "depth"
	height      kind = "height"
	sets        kind = "sets"
	share       kind = "share" // sets over a share of the way round that is typed
	ruler       kind = "ruler"
	move        kind = "move"
)

// tools are what can be placed, in the order of the work: on which pictures, in words, and
// where each end goes.
var tools = []struct {
	kind   kind
	on     []side
	points int
	label  string
	where  [2]string
}{
	{faceHeight, []side{source, wearer}, 2, "Face height", [2]string{"Face height: press where the chin ends below.", "Face height: now the nose’s root, deepest between the eyes."}},
	{faceBreadth, []side{source, wearer}, 2, "Face breadth", [2]string{"Face breadth: press the outer edge of one cheekbone.", "Face breadth: now that of the other cheekbone."}},
	{pupils, []side{source, wearer}, 2, "Pupils", [2]string{"Pupils: press the middle of one.", "Pupils: now the middle of the other."}},
	{nose, []side{source, wearer}, 2, "Nose", [2]string{"Nose: press its root, deepest between the eyes.", "Nose: now where it meets the lip."}},
	{edge, []side{source}, 1, "Outer edge", [2]string{"Outer edge: press five points or more along the ruff’s outer edge, well spread."}},
	{depth, []side{source}, 2, "Depth", [2]string{"Depth: press where the ruff leaves the band.", "Depth: now its outer edge, straight outward from there."}},
	{height, []side{source}, 2, "Height", [2]string{"Height: press a bottom fold at the outer edge.", "Height: now the top fold above it."}},
	{sets, []side{source}, 2, "Sets", [2]string{"Sets: press where the run begins that you count, on the outer edge.", "Sets: now where it ends; then type the count in the list."}},
	{share, []side{source}, 0, "Sets by a share", [2]string{"Sets by a share: type in the list how many sets lie in which share of the way round."}},
	{ruler, []side{wearer}, 2, "Ruler", [2]string{"Ruler: press one end of it.", "Ruler: now its other end; then type its length."}},
	{move, []side{source, wearer}, 0, "Move", [2]string{"Drag the picture, or any point on it."}},
}

// toolOf is the place of a kind in the table.
func toolOf(k kind) int {
	for i, t := range tools {
		if t.kind == k {
			return i
		}
	}
	return -1
}

// mark is a line, a point of the edge, or a count that the reader placed.
type mark struct {
	n     int // its number, which it keeps
	on    side
	kind  kind
	at    []portrait.Point // px of the picture; fewer than its ends while it is being placed
	count string           // of sets: as typed
	share string
}

// whole says whether all its ends are placed.
func (m *mark) whole() bool { return len(m.at) == tools[toolOf(m.kind)].points }

// counted says whether it is a run of sets.
func (m *mark) counted() bool { return m.kind == sets || m.kind == share }

// named is a mark in words: its kind, and which of several.
func (e *Easel) named(m *mark) string {
	label := say.Text(tools[toolOf(m.kind)].label)
	n, all := 0, 0
	for i := range e.marks {
		if o := &e.marks[i]; o.kind == m.kind && o.on == m.on {
			if all++; o.n == m.n {
				n = all
			}
		}
	}
	if all > 1 || m.kind == edge {
		return say.Text("%s %d", label, n)
	}
	return label
}

// mostBack is how many steps the points can go back.
const mostBack = 200

// remember keeps what is placed, to go back to.
func (e *Easel) remember() {
	e.past = append(e.past, copied(e.marks))
	if len(e.past) > mostBack {
		e.past = e.past[len(e.past)-mostBack:]
	}
	e.future = nil
}

func copied(marks []mark) []mark {
	out := slices.Clone(marks)
	for i := range out {
		out[i].at = slices.Clone(out[i].at)
	}
	return out
}

// travel goes a step back, or forward again.
func (e *Easel) travel(from, to *[][]mark) {
	if len(*from) == 0 {
		return
	}
	last := len(*from) - 1
	*to = append(*to, e.marks)
	e.marks, *from = (*from)[last], (*from)[:last]
	e.hand.let()
	e.measure()
}

// find is the mark of a number; nil for none.
func (e *Easel) find(n int) *mark {
	for i := range e.marks {
		if e.marks[i].n == n {
			return &e.marks[i]
		}
	}
	return nil
}

// mostMarks is how many marks there may be: more than a measurement takes.
const mostMarks = 260

// place puts the next point at a place of the picture, and takes hold of it.
func (e *Easel) place(at portrait.Point) {
	b := &e.boards[e.on]
	t := toolOf(e.tool)
	if b.wide == 0 || tools[t].points == 0 || !slices.Contains(tools[t].on, e.on) || len(e.marks) >= mostMarks {
		return
	}
	e.remember()
	at = b.inside(at)
	if n := len(e.marks); n > 0 {
		if m := &e.marks[n-1]; m.kind == e.tool && m.on == e.on && !m.whole() {
			m.at = append(m.at, at)
			e.hand.hold(m.n, len(m.at)-1, true)
			return
		}
	}
	e.dropHalf()
	e.newest++
	e.marks = append(e.marks, mark{n: e.newest, on: e.on, kind: e.tool, at: []portrait.Point{at}})
	e.hand.hold(e.newest, 0, true)
}

// dropHalf takes away the line of which one end alone is placed.
func (e *Easel) dropHalf() {
	e.marks = slices.DeleteFunc(e.marks, func(m mark) bool { return !m.whole() })
}

// counts adds a run of sets whose share is typed.
func (e *Easel) counts() {
	if len(e.marks) >= mostMarks {
		return
	}
	e.remember()
	e.dropHalf()
	e.newest++
	e.marks = append(e.marks, mark{n: e.newest, kind: share})
}

// away takes a mark away.
func (e *Easel) away(n int) {
	if e.find(n) == nil {
		return
	}
	e.remember()
	e.marks = slices.DeleteFunc(e.marks, func(m mark) bool { return m.n == n })
	e.hand.let()
	e.measure()
}

// half is the line of which one end alone is placed; nil where there is none.
func (e *Easel) half() *mark {
	if n := len(e.marks); n > 0 && !e.marks[n-1].whole() {
		return &e.marks[n-1]
	}
	return nil
}
