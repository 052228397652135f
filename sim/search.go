package sim

import "math"

const (
	// needStep is the factor from one bending length tried to the next: the rigidity
	// grows by 1.5. The step is small because more starch is not always firmer. On a
	// neck of ratio 1.3, a tucked ruff sewn at the top edge keeps its bow within 2 mm
	// from 73 to 82 mm only.
	needStep = 1.15
	// needBend_mm is how exact the answer is: half of what a swatch can be read to. A
	// maker whose cloth is off by so much either way must still keep the limits.
	needBend_mm = 0.5
	// needLess is what share of an answer is tried to see that less does not do.
	needLess = 0.95
	// sureStep is how exact the starch is that makes tucked sets sure: what that hangs on
	// is no more exact.
	sureStep = 1.15
	// needRounds is how many answers are tried from a cold start at most.
	needRounds = 6
)

// search looks for the least bending length that holds. quick and cold both tell
// whether one holds: quick from where the cloth lay before, cold from a cold start,
// which is slower and decides.
type search struct {
	quick, cold func(bend_mm float64) (bool, error)
}

// least gives the least bending length above the cloth's own that holds, and
// needBend_mm more. quick finds it and cold tries it. Where it does not hold there,
// the search goes on above it with cold alone. bend_mm is 0 where none is found;
// broken_mm is then the last length that quick found and cold did not, or 0 where
// nothing held up to the stiffest.
func (s search) least(own_mm float64) (bend_mm, broken_mm float64, err error) {
	low, from := own_mm, own_mm*1.1
	for range needRounds {
		high := 0.0
		if low, high, err = s.up(low, from); err != nil || high == 0 {
			return 0, 0, err
		}
		for high-low > needBend_mm {
			m := (low + high) / 2
			holds, err := s.quick(m)
			if err != nil {
				return 0, 0, err
			}
			if holds {
				high = m
			} else {
				low = m
			}
		}
		bend_mm = math.Min(high+needBend_mm, stiffest_mm)
		if broken_mm, err = s.broken(bend_mm); err != nil || broken_mm == 0 {
			return bend_mm, 0, err
		}
		s.quick = s.cold
		low, from = broken_mm, math.Min(broken_mm*needStep, stiffest_mm)
	}
	return 0, broken_mm, nil
}

// up steps upward from a length. high is the first that holds, 0 where none does;
// low is the last before it, which does not.
func (s search) up(below, from float64) (low, high float64, err error) {
	low = below
	for c := from; ; c = math.Min(stiffest_mm, c*needStep) {
		switch holds, err := s.quick(c); {
		case err != nil:
			return low, 0, err
		case holds:
			return low, c, nil
		case c >= stiffest_mm:
			return c, 0, nil
		}
		low = c
	}
}

// broken tries three lengths from a cold start: needBend_mm more than a bending
// length, needBend_mm less, and the length itself. It returns the first that does
// not hold, 0 if all hold.
func (s search) broken(bend_mm float64) (float64, error) {
	for _, b := range []float64{bend_mm + needBend_mm, bend_mm - needBend_mm, bend_mm} {
		if b > stiffest_mm {
			continue
		}
		if holds, err := s.cold(b); err != nil || !holds {
			return b, err
		}
	}
	return 0, nil
}

// above tries a step more than an answer. Where that does not hold, broken_mm, answer_mm
// is the least found above it from which all that is tried holds; the given one if
// nothing is found.
func (s search) above(bend_mm float64) (answer_mm, broken_mm float64, err error) {
	answer_mm = bend_mm
	for range needRounds {
		more := answer_mm * needStep
		if more > stiffest_mm {
			return answer_mm, broken_mm, nil
		}
		if holds, err := s.cold(more); err != nil || holds {
			return answer_mm, broken_mm, err
		}
		broken_mm = more
		next, _, err := s.least(more)
		if err != nil || next == 0 {
			return bend_mm, broken_mm, err
		}
		answer_mm = next
	}
	return bend_mm, broken_mm, nil
}

// below tries a little less than an answer and returns it if that holds too, else 0.
func (s search) below(bend_mm, own_mm float64) (float64, error) {
	less := needLess * bend_mm
	if less <= own_mm {
		return 0, nil
	}
	if holds, err := s.cold(less); err != nil || !holds {
		return 0, err
	}
	return less, nil
}
