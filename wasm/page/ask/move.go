package ask

import "ruffwright/wasm/doc"

const (
	rest_ms  = 400 // without typing: the control is still
	still_ms = 32  // without a move of a handle: two frames, the hand has stopped
)

// Move notes whether a control is being moved.
func (s *Ask) Move(moves bool, now_ms float64) []doc.Patch {
	was := s.moving
	s.moving, s.pulled = moves, false
	if !moves {
		return nil
	}
	s.moved_ms = now_ms
	if was {
		return nil
	}
	return []doc.Patch{{Op: doc.OpTimer, Name: "rest", MS: rest_ms}}
}

// Pull is Move for a handle that is pulled: while the hand moves nothing is asked, so that
// the picture has the device.
func (s *Ask) Pull(now_ms float64) []doc.Patch {
	was := s.pulled
	out := s.Move(true, now_ms)
	s.pulled = true
	if !was {
		out = append(out, doc.Patch{Op: doc.OpTimer, Name: "still", MS: still_ms})
	}
	return out
}

// Still is due when the hand may have stopped: then what is wanted is asked for.
func (s *Ask) Still(now_ms float64) []doc.Patch {
	if wait := s.moved_ms + still_ms - now_ms; s.pulled && wait > 1 {
		return []doc.Patch{{Op: doc.OpTimer, Name: "still", MS: wait}}
	}
	s.pulled = false
	return nil
}

// Rest ends a control's move when it has been still for a while.
func (s *Ask) Rest(now_ms float64) []doc.Patch {
	if !s.moving {
		return nil
	}
	if wait := s.moved_ms + rest_ms - now_ms; wait > 1 {
		return []doc.Patch{{Op: doc.OpTimer, Name: "rest", MS: wait}}
	}
	s.moving = false
	return nil
}

// Moving reports that a control moves: what comes is coarse.
func (s *Ask) Moving() bool { return s.moving }
