package scheme

import "slices"

// SewnTo gives s with its top folds sewn to the edge crests of the band and its
// bottom folds to the edge troughs, own marks too: top and bottom, or one of them
// EdgeNone.
func (s Scheme) SewnTo(crests, troughs Edge) Scheme {
	switch {
	case troughs == EdgeNone:
		s.Pleat.Anchor, s.Pleat.Sewn = Anchor(crests), Crests
	case crests == EdgeNone:
		s.Pleat.Anchor, s.Pleat.Sewn = Anchor(troughs), Troughs
	default:
		s.Pleat.Anchor = AnchorBoth
	}
	return s.Marked(func(_ int, m Mark) Mark {
		m.Sewn = troughs
		if m.Fold == Crest {
			m.Sewn = crests
		}
		return m
	})
}

// TuckedBy gives s with tucks so deep, mm, at its top and bottom folds.
func (s Scheme) TuckedBy(top_mm, bottom_mm float64) Scheme {
	s.Pleat.TuckTop, s.Pleat.TuckBottom = top_mm, bottom_mm
	return s
}

// Marked gives s with each of its own marks as change makes it; planned marks stay.
func (s Scheme) Marked(change func(i int, m Mark) Mark) Scheme {
	s.Pleat.Marks = slices.Clone(s.Pleat.Marks)
	for i, m := range s.Pleat.Marks {
		s.Pleat.Marks[i] = change(i, m)
	}
	return s
}

// EndsOn gives s without those of its own end marks that are not of the kind f.
// Places begin at the first mark that is left.
func (s Scheme) EndsOn(f Fold) Scheme {
	marks := s.Pleat.Marks
	if len(marks) > 0 && marks[0].Fold != f {
		marks = marks[1:]
	}
	if n := len(marks); n > 0 && marks[n-1].Fold != f {
		marks = marks[:n-1]
	}
	s.Pleat.Marks = marks
	return s.Marked(func(_ int, m Mark) Mark {
		m.Place -= marks[0].Place
		return m
	})
}

// Planned gives s with planned marks in the place of its own.
func (s Scheme) Planned() Scheme {
	s.Pleat.Marks = nil
	return s
}

// OwnMarks is how many marks of the maker's own there are; 0 with planned ones.
func (s Scheme) OwnMarks() int { return len(s.Pleat.Marks) }
