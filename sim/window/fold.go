package window

import "fmt"

// Fold is one fold of a window.
type Fold struct {
	Crest bool // a crest; else a trough
	// Sewn says that the fold is sewn to the band, Height_mm above its bottom edge.
	// Of a fold that is not sewn Height_mm is where a cold solve begins.
	Sewn      bool
	Height_mm float64
	// Tuck_mm is the tuck's depth: the points so far from the fold along the strip
	// are brought together at the stitch, the cloth between folds inward. 0 for
	// none; a tuck at a fold that is not sewn is ignored.
	Tuck_mm float64
	// Station_mm is where the fold is along the neckline.
	Station_mm float64
}

// tuck is the tuck's depth that counts, mm.
func (q *Fold) tuck() float64 {
	if q.Sewn {
		return q.Tuck_mm
	}
	return 0
}

// End says how a window goes on beyond its first or its last fold.
type End uint8

const (
	// Mirrored: in its mirror image, the fold's radial plane between the two.
	Mirrored End = iota
	// Closed: the last fold is the first one again, turned about the neck's axis.
	// Both ends of a window are closed, or none.
	Closed
	// Free: not at all. The strip ends where the fold would be.
	Free
)

// Run is a row of folds, crests and troughs in turn, with a panel of cloth from
// each to the next.
type Run struct {
	Folds     []Fold
	Panels_mm []float64 // one fewer: panel k goes from fold k to fold k + 1
	// Start and End are how it ends. Of a closed run the last fold stands for the
	// first one's image: it is the same but for its station.
	Start, End End
}

// repeated is the run that a half set's mirrors make of it: n panels, all alike.
func (d *Design) repeated(n int, start, end End) Run {
	half := d.Run()
	r := Run{Start: start, End: end}
	for k := range n + 1 {
		q := half.Folds[k%2]
		q.Station_mm = float64(k) * half.Folds[1].Station_mm
		r.Folds = append(r.Folds, q)
	}
	for range n {
		r.Panels_mm = append(r.Panels_mm, d.Panel_mm)
	}
	return r
}

// validate reports the first thing that is wrong with the run.
func (r *Run) validate() error {
	n := len(r.Folds)
	if n < 2 || len(r.Panels_mm) != n-1 {
		return fmt.Errorf("window: %d Folds and %d Panels_mm; at least 2 folds are needed, and one panel fewer", n, len(r.Panels_mm))
	}
	if r.Start > Free || r.End > Free || (r.Start == Closed) != (r.End == Closed) {
		return fmt.Errorf("window: Start = %d, End = %d; each is Mirrored, Closed or Free, and both closed or none", r.Start, r.End)
	}
	sewn := false
	for k := range r.Folds {
		q := &r.Folds[k]
		if err := q.validate(); err != nil {
			return fmt.Errorf("window: Folds[%d].%w", k, err)
		}
		if k > 0 && q.Crest == r.Folds[k-1].Crest {
			return fmt.Errorf("window: Folds[%d].Crest = %v, as of the fold before; crests and troughs take turns", k, q.Crest)
		}
		sewn = sewn || q.Sewn
	}
	if !sewn {
		return fmt.Errorf("window: none of %d Folds is Sewn; nothing would hold them", n)
	}
	if a, b := r.Folds[0], r.Folds[n-1]; r.Start == Closed {
		if b.Station_mm = a.Station_mm; a != b {
			return fmt.Errorf("window: Folds[%d] is not Folds[0] again; a closed run ends with the fold it begins with", n-1)
		}
	}
	return r.fit()
}

// longest_mm is more than any length in a run may be.
const longest_mm = 1e5

func (q *Fold) validate() error {
	for _, f := range []struct {
		name   string
		v, low float64
	}{{"Height_mm", q.Height_mm, -longest_mm}, {"Tuck_mm", q.Tuck_mm, 0}, {"Station_mm", q.Station_mm, -longest_mm}} {
		if !(f.v >= f.low && f.v <= longest_mm) {
			return fmt.Errorf("%s = %v; allowed is %g to %g", f.name, f.v, f.low, longest_mm)
		}
	}
	return nil
}

// fit reports the first panel that does not fit between its folds.
func (r *Run) fit() error {
	for k, p := range r.Panels_mm {
		a, b := &r.Folds[k], &r.Folds[k+1]
		room, cloth := b.Station_mm-a.Station_mm, p-a.tuck()-b.tuck()
		if !(p > 0 && p <= longest_mm) || !(room > 0 && room < cloth) {
			return fmt.Errorf("window: Panels_mm[%d] = %v, %v of it between the tucks, over %v mm of the neckline; stations must rise, and the cloth must be longer than its room", k, p, cloth, room)
		}
	}
	return nil
}
