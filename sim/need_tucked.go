package sim

import (
	"math"

	"ruffwright/geom/word"
	"ruffwright/sim/cloth"
	"ruffwright/sim/measure"
	"ruffwright/sim/window"
)

// lack is what is not sure of tucked sets that keep their limits.
type lack struct {
	lean  bool    // loops that are pushed over may stay leaning
	apart float64 // mm, where sets come unlike by how their sticks are put in; else 0
}

func (l lack) any() bool { return l.lean || l.apart > 0 }

// sure looks whether with the answer the loops of tucked sets stand up again and the sets
// come alike, and else for the starch with which they do, up to what starched cloth is
// expected to show. Where there is none the answer says what is not sure. But that no
// starch is needed is never said of loops that may lean over.
func (n *needing) sure() error {
	from := n.out.Bend_mm
	first, err := n.lacks(from, n.asked(true, true))
	if err != nil || !first.any() {
		return err
	}
	apart := n.out.Paths_mm
	answer, last, err := n.enough(math.Max(from, n.own_mm), first)
	if err != nil {
		return err
	}
	if answer > 0 {
		n.found(answer)
		n.out.Governs = "alike"
		if last.lean {
			n.out.Governs = "lean"
		}
		return nil
	}
	n.found(from)
	n.out.Paths_mm = apart
	if first.lean && from == 0 {
		n.out.Found, n.out.Governs = false, "lean"
		n.out.Reason = word.Say("no starch can be named: without starch the loops, pushed sideways, may stay leaning, and that more starch cures it cannot be told. Starch a sample of some sets and try it.")
		return nil
	}
	if first.lean {
		n.doubt("the loops, pushed sideways, may stay leaning: try it on a sample of some sets.")
	}
	if first.apart > 0 {
		n.doubt("starch does not make these sets alike: depending on how the sticks are put in, their outer folds lie up to %s mm elsewhere.", tenths(first.apart))
	}
	return nil
}

// enough looks between from_mm, which lacks last, and the usual most for the least
// starch that lacks nothing and keeps the limits; 0 if there is none. last is what is
// lacking just below. On the way what may lean over is taken to do so, and only what was
// lacking is looked at.
func (n *needing) enough(from_mm float64, last lack) (answer_mm float64, below lack, err error) {
	low, high, set := from_mm, float64(cloth.StarchedMost_mm), n.asked(false, last.apart > 0)
	if low >= high {
		return 0, last, nil
	}
	if l, err := n.lacks(high, set); err != nil || l.any() {
		return 0, last, err
	}
	for high > sureStep*low {
		middle := math.Sqrt(low * high)
		l, err := n.lacks(middle, set)
		if err != nil {
			return 0, last, err
		}
		if l.any() {
			low, last = middle, l
		} else {
			high = middle
		}
	}
	holds, err := n.cold(high)
	if err != nil || !holds {
		return 0, last, err
	}
	if l, err := n.lacks(high, n.asked(true, true)); err != nil || l.any() {
		return 0, last, err
	}
	return high, last, nil
}

// asked are the settings that ask what tucked sets lack: whether what may lean over does,
// and whether they come alike.
func (n *needing) asked(follow, ways bool) window.Settings {
	lean := n.lim.Lean_mm_per_g > 0
	return window.Settings{Grid: window.Coarse, SkipBow: true, SkipTangents: !lean, Follow: lean && follow, Ways: ways && n.lim.Apart_mm > 0}
}

// lacks tells what is not sure with so much starch, on the coarse grid. Without starch
// the loops must stand up again by the fine grid's tangents too, or on two grids.
func (n *needing) lacks(bend_mm float64, set window.Settings) (l lack, err error) {
	note := func(c *window.Window) {
		l.lean = l.lean || !set.SkipTangents && !c.LateralStable && c.Leans != measure.LeanReturns
		l.apart = math.Max(l.apart, c.Paths_mm)
	}
	if err = n.ends(bend_mm, set, nil, note); err == nil && bend_mm == 0 && !set.SkipTangents && !l.lean {
		set.Grid, set.Ways = window.Fine, false
		err = n.ends(bend_mm, set, nil, note)
	}
	n.out.Paths_mm = l.apart
	if l.apart <= n.lim.Apart_mm {
		l.apart = 0
	}
	return l, err
}
