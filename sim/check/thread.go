package check

// threadMost: sewing cotton and fine linen thread break at some 8 N and more
// (from memory, no source); a quarter of that, since stitches share unevenly,
// knots weaken thread, and fine cloth tears before it.
const threadMost = 2 // N

var threadLaw = law{Rule: Rule{"thread", "Load on the thread", Note, threadMost, "N", "at most, on the most loaded stitch", "a quarter of what sewing thread breaks at, some 8 N, from memory, no source", WhereInner, FromMechanics},
	find: (*view).thread, parts: shapePart}

// thread: the pull on the most loaded stitch.
func (v *view) thread() (seen, bool) {
	s := seen{value: v.measures().Thread_N, limit: threadMost}
	if s.value <= threadMost {
		return s, false
	}
	s.says("The most loaded stitch holds %s N, more than the quarter of sewing thread's strength that is safe at every fold: sew each fold twice with doubled thread, and mind that fine cloth tears first.", Number(s.value, 1))
	v.offerLimper(&s)
	v.offerShallower(&s)
	if n, _ := v.fourfold(0.8 * float64(v.p.Sets)); n > 0 && n < v.p.Sets {
		s.offer(v.setsTo(n), "Make %d sets: each fold is then less tight.", n)
	}
	return s, true
}
