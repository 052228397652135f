package light

import "ruffwright/geom"

// What is left of a sheet while it moves: about so many columns at most, of each two one
// at the most, and rows.
const (
	thinCols  = 1500
	thinRows  = 4
	thickFrom = 400 // columns: sheets of fewer stay as they are
)

// Thin is the scene as it is drawn while it moves: of a sheet of many nodes the fewer that
// still have its shape, without hatching and weave. It is made once.
func (s *Scene) Thin() *Scene {
	if s.thin != nil {
		return s.thin
	}
	t := &Scene{Sheets: make([]Sheet, len(s.Sheets)), Threads: s.Threads}
	for i := range s.Sheets {
		t.Sheets[i] = s.Sheets[i].thin()
	}
	s.thin = t
	return t
}

func (t Sheet) thin() Sheet {
	t.Hatch_mm, t.Weave_mm = 0, 0
	if t.Cols < thickFrom {
		return t
	}
	cols, rows := few(t.Cols, min(t.Cols/2, thinCols)), few(t.Rows, thinRows)
	v, pick, tone := t.V, t.Pick, t.Tone
	t.V, t.Pick, t.Tone = make([]geom.Vec3, 0, len(cols)*len(rows)), nil, nil
	for _, col := range cols {
		for _, r := range rows {
			k := col*t.Rows + r
			t.V = append(t.V, v[k])
			if pick != nil {
				t.Pick = append(t.Pick, pick[k])
			}
			if tone != nil {
				t.Tone = append(t.Tone, tone[k])
			}
		}
	}
	t.Cols, t.Rows = len(cols), len(rows)
	return t
}
