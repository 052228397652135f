package sim

import "math"

const (
	// needStep is the step of the way up in bending length: rigidity × 1.5. More
	// starch is not always firmer: of a tucked ruff on a neck of ratio 1.3, sewn at
	// the top edge, the bow keeps to 2 mm from 73 to 82 mm alone.
	needStep = 1.15
	// needBend_mm is what the answer is good to, half a swatch's reading: a maker
	// who is off by as much to either side must still be within the limits.
	needBend_mm = 0.5
	// needRounds is how many answers are tried from cold at most.
	needRounds = 6
)

// search looks for the least bending length in mm that holds, by a quick trial and
// one from cold.
type search struct {
	quick, cold func(bend_mm float64) (bool, error)
}

// least finds it above own, half a swatch's reading over where it begins to hold.
// Where that does not hold from cold it goes on above, from cold alone. It is 0
// where none is found; broken is then where the last found did not hold after all,
// 0 if nothing was found up to the stiffest.
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

// up steps upward from a length to the first that holds: high, 0 where none does.
// low is the last below it that does not.
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

// broken returns which of a bending length and those a swatch's reading above and
// below it does not hold from cold, 0 if all hold. The length itself comes last.
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
