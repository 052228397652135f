package trial

import "math"

// place is where a value lies among n places spaced evenly from low by step: the place
// below it, and how far on it is, 0 to 1. What lies outside is moved to the end.
func place(x, low, step float64, n int) (i int, f float64) {
	at := math.Max(0, math.Min((x-low)/step, float64(n-1)))
	i = min(int(at), n-2)
	return i, at - float64(i)
}

// cubic goes smoothly through values spaced evenly: between i and i + 1 the cubic that
// has there the slopes of the parabolas through three neighbours, and never more than three times a neighbouring
// chord's, so that it makes no wave of its own (Fritsch and Carlson, SIAM Journal on
// Numerical Analysis 17, 1980).
func cubic(y []float64, i int, f float64) float64 {
	slope := func(k int) float64 {
		switch {
		case len(y) == 2:
			return y[1] - y[0]
		case k == 0:
			return calm((4*y[1]-3*y[0]-y[2])/2, y[1]-y[0], y[1]-y[0])
		case k == len(y)-1:
			return calm((3*y[k]-4*y[k-1]+y[k-2])/2, y[k]-y[k-1], y[k]-y[k-1])
		}
		return calm((y[k+1]-y[k-1])/2, y[k]-y[k-1], y[k+1]-y[k])
	}
	a, b, d := slope(i), slope(i+1), y[i+1]-y[i]
	return y[i] + f*(a+f*((3*d-2*a-b)+f*(a+b-2*d)))
}

// calm keeps a slope between two chords from overshooting.
func calm(slope, before, after float64) float64 {
	if before*after <= 0 {
		return slope / 2 // a turning point: half of it does not harm
	}
	most := 3 * math.Min(math.Abs(before), math.Abs(after))
	return math.Max(-most, math.Min(slope, most))
}

// parabolic goes through values at the qualities of the table.
func parabolic(y *[len(qualities)]float64, q float64) (sum float64) {
	for i, v := range y {
		w := 1.0
		for j := range qualities {
			if j != i {
				w *= (q - qualities[j]) / (qualities[i] - qualities[j])
			}
		}
		sum += w * v
	}
	return
}

// leafAt is a reading with one of the table's catches.
func (t *Table) leafAt(k int, r Reading, lnB, quality float64) float64 {
	i, f := place(lnB, t.lnB[0], t.lnB[1]-t.lnB[0], stiffness)
	var y [stiffness]float64
	for n := range y {
		y[n] = parabolic(&t.at[k].y[r][n], quality)
	}
	return cubic(y[:], i, f)
}

// slope is a slope with one of the table's catches.
func (t *Table) slope(of *[slopesAt]float64, lnB float64) float64 {
	i, f := place(lnB, t.lnB[0], 2*(t.lnB[1]-t.lnB[0]), slopesAt)
	return of[i] + f*(of[i+1]-of[i])
}

// model is what a reading is at one place: its mean and how it moves with what is not
// known beside it.
type model struct {
	y, shear, form, tilt float64
	off                  float64 // how far the table may be off, one standard deviation
}

// TableOff_mm is how far a reading off the table differs from the solved one, root mean
// square, at the table's catches; catchOff what of the difference between two catches is
// added half way between them. Both measured on the first ruff: at the table's catches
// 0.26 mm or less, half way between 16 % of the difference or less (TestTableOff).
const TableOff_mm, catchOff = 0.25, 0.08

// model gives a reading with a stitch that holds so far out.
func (t *Table) model(r Reading, lnB, quality, catch_mm float64) model {
	if catch_mm < catches[1] {
		return t.leafModel(0, r, lnB, quality)
	}
	n := len(catches) - 1
	k := 1
	for k < n-1 && catch_mm > catches[k+1] {
		k++
	}
	f := math.Min(math.Log(catch_mm/catches[k])/math.Log(catches[k+1]/catches[k]), 1)
	a, b := t.leafModel(k, r, lnB, quality), t.leafModel(k+1, r, lnB, quality)
	var y [len(catches) - 1]float64
	for q := range y {
		y[q] = t.leafAt(q+1, r, lnB, quality)
	}
	mix := func(a, b float64) float64 { return a + f*(b-a) }
	return model{
		y: cubic(y[:], k-1, f), shear: mix(a.shear, b.shear), form: mix(a.form, b.form), tilt: mix(a.tilt, b.tilt),
		off: math.Hypot(TableOff_mm, catchOff*4*f*(1-f)*(b.y-a.y)),
	}
}

func (t *Table) leafModel(k int, r Reading, lnB, quality float64) model {
	l := &t.at[k]
	return model{
		y: t.leafAt(k, r, lnB, quality), shear: t.slope(&l.shear[r], lnB), form: l.form[r], tilt: t.slope(&l.tilt[r], lnB),
		off: TableOff_mm,
	}
}

// At is what the ruler would read with these values, in mm, by the table. Values beyond the
// table count as its ends.
func (t *Table) At(v Values) (y [Readings]float64) {
	shear := 0.0
	if v.Shear > 0 {
		shear = math.Log(v.Shear)
	}
	for r := range Readings {
		m := t.model(r, t.lnBOf(v.Bend_mm), math.Max(qualities[0], math.Min(v.Quality, 1)), math.Min(v.Catch_mm, catches[len(catches)-1]))
		y[r] = m.y + m.shear*shear + m.form*v.Formed_mm + m.tilt*v.Tilt_deg[r]
	}
	return
}

// Expected are what a reading would be, in mm: as the values have it, with cloth half and
// twice as stiff, set worse, and with a stitch that holds the folds.
type Expected struct{ Expected_mm, Soft_mm, Stiff_mm, Worse_mm, Held_mm float64 }

// Expect gives the readings about some values.
func (t *Table) Expect(v Values) (list [Readings]Expected) {
	const worse, held_mm = 0.9, 2
	soft, stiff, set, held := v, v, v, v
	soft.Bend_mm /= math.Cbrt(2)
	stiff.Bend_mm *= math.Cbrt(2)
	set.Quality *= worse
	held.Catch_mm = held_mm
	a, b, c, d, e := t.At(v), t.At(soft), t.At(stiff), t.At(set), t.At(held)
	for r := range list {
		list[r] = Expected{a[r], b[r], c[r], d[r], e[r]}
	}
	return
}

func (t *Table) lnBOf(bend_mm float64) float64 { return 3 * math.Log(bend_mm/t.Card.Bend_mm) }
