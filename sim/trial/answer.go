package trial

import (
	"math"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// Read is what was read off a trial.
type Read struct {
	At  [Readings]float64 // mm
	Has [Readings]bool    // which of them were read; at least Over
	// Miss_mm is how far a reading may be off beside that, for instance the scatter of the
	// sets that it is the mean of, by the root of their number.
	Miss_mm [Readings]float64
	// Ruler_mm and Tilt_deg are the usual misses (standard deviations) of a reading and of
	// the card's slope; 0 means 0.5 mm and 2°.
	Ruler_mm, Tilt_deg float64
	// Weight_g is the weight of the strip as cut, before it is starched; 0: not weighed.
	// Scales_g is the scales' usual miss; 0 means 0.5 g.
	Weight_g, Scales_g float64
}

// The usual misses.
const ruler_mm, tilt_deg, scales_g = 0.5, 2, 0.5

// What is taken for granted before anything is read. Stiffness: half or twice the one
// expected, two times in three. Quality: anything from 0.6 to 1. Stitch: as likely one
// about which folds turn as one that holds them, any length of that as likely, ratio by ratio.
// Shear: a guess, off by a factor of 2.2 two times in three; measured, by a fifth.
// Forming: 2 mm. All are judgements, no source.
const (
	priorB        = math.Ln2
	priorShear    = 0.8
	measuredShear = 0.2
	priorFormed   = 2 // mm
	turns         = 0.5
)

// Bounds is a value with the interval that it lies in nine times in ten.
type Bounds struct{ Value, Low, High float64 }

// Answer is what a trial tells.
type Answer struct {
	Bend_mm   Bounds  // bending length of the starched cloth
	Quality   Bounds  // of the setting
	Catch_mm  Bounds  // how far out the stitch holds; 0: folds turn about it
	Turns     float64 // how likely it is that they do, 0 to 1
	Formed_mm Bounds  // how much taller the sets were formed than the card says
	Mass_gm2  Bounds  // of the cloth; 0 where it was not weighed

	// Wrong are the readings that no values explain, given the others; empty where all go
	// together. What else the answer says is then worth nothing.
	Wrong []Reading
	// MassOff says that the cloth does not weigh what the scheme says, beyond what the scales
	// may miss.
	MassOff bool
	// End is -1 or 1 where the stiffness reaches the soft or the stiff end of what was
	// tabulated: expect another one, and read again.
	End int
}

// The lattice on which the answer is added up.
const latticeB, latticeQ, latticeC = 49, 25, 13

// cell is one place of the lattice.
type cell struct {
	lnB, quality, catch float64
	ln                  float64 // of what is taken for granted
	of                  [Readings]model
}

// lattice lays the places out, once for a table.
func (t *Table) lattice() []cell {
	t.once.Do(func() {
		low, n := t.lnB[0], len(catches)-1
		for c := range latticeC + 1 {
			catch, ln := 0.0, math.Log(turns)
			if c > 0 {
				catch = catches[1] * math.Pow(catches[n]/catches[1], (float64(c)-0.5)/latticeC)
				ln = math.Log((1 - turns) / latticeC)
			}
			for b := range latticeB {
				lnB := low + (far-low)*(float64(b)+0.5)/latticeB
				for q := range latticeQ {
					p := cell{lnB: lnB, catch: catch, ln: ln - lnB*lnB/(2*priorB*priorB)}
					p.quality = qualities[0] + (1-qualities[0])*(float64(q)+0.5)/latticeQ
					for r := range Readings {
						p.of[r] = t.model(r, p.lnB, p.quality, p.catch)
					}
					t.cells = append(t.cells, p)
				}
			}
		}
	})
	return t.cells
}

// Answer gives the values that the readings speak for. An error names the reading that is
// out of its range.
func (t *Table) Answer(q Read) (Answer, error) {
	if err := t.Card.Check(&q); err != nil {
		return Answer{}, err
	}
	cells := t.lattice()
	w := t.weigh(&q, Readings)
	a := Answer{
		Bend_mm:  spread(cells, w, (far-t.lnB[0])/latticeB, func(c *cell) float64 { return c.lnB }),
		Quality:  spread(cells, w, (1-qualities[0])/latticeQ, func(c *cell) float64 { return c.quality }),
		Mass_gm2: q.mass(&t.Card),
	}
	a.stitch(cells, w)
	if q.Has[Height] {
		a.Formed_mm = t.formed(&q, w)
	}
	const near = 0.25 // of ln B
	switch {
	case a.Bend_mm.High > far-near:
		a.End = 1
	case a.Bend_mm.Low < t.lnB[0]+near:
		a.End = -1
	}
	for _, x := range [...]*float64{&a.Bend_mm.Value, &a.Bend_mm.Low, &a.Bend_mm.High} {
		*x = t.Card.Bend_mm * math.Exp(*x/3)
	}
	a.Wrong, a.MassOff = t.wrong(&q), q.massOff(&t.Card)
	return a, nil
}

// stitch adds up the catches: they are not spaced evenly.
func (a *Answer) stitch(cells []cell, w []float64) {
	for i := range cells {
		if cells[i].catch == 0 {
			a.Turns += w[i]
		}
	}
	half := math.Log(catches[len(catches)-1]/catches[1]) / latticeC
	caught := make([]float64, len(w))
	for i := range cells {
		if cells[i].catch > 0 && a.Turns < 1 {
			caught[i] = w[i] / (1 - a.Turns)
		}
	}
	// A share of the tails lies at 0, where folds turn.
	at := func(p float64) float64 {
		if p <= a.Turns || a.Turns > 1-1e-9 {
			return 0
		}
		return math.Exp(quantile(cells, caught, half, func(c *cell) float64 { return math.Log(math.Max(c.catch, catches[1])) }, (p-a.Turns)/(1-a.Turns)))
	}
	a.Catch_mm = Bounds{at(0.5), at(0.05), at(0.95)}
}

// spread gives the middle and the interval of what cells, wide step, weigh.
func spread(cells []cell, w []float64, step float64, of func(*cell) float64) Bounds {
	return Bounds{quantile(cells, w, step, of, 0.5), quantile(cells, w, step, of, 0.05), quantile(cells, w, step, of, 0.95)}
}

// quantile adds up weights along what of gives; within a cell they are spread evenly.
func quantile(cells []cell, w []float64, step float64, of func(*cell) float64, p float64) float64 {
	sum := map[int]float64{}
	low, high := math.MaxInt, math.MinInt
	first := of(&cells[0])
	for i := range cells {
		if w[i] == 0 {
			continue
		}
		k := int(math.Round((of(&cells[i]) - first) / step))
		sum[k] += w[i]
		low, high = min(low, k), max(high, k)
	}
	reached := 0.0
	for k := low; k <= high; k++ {
		if next := reached + sum[k]; next >= p && sum[k] > 0 {
			return first + step*(float64(k)-0.5+(p-reached)/sum[k])
		}
		reached += sum[k]
	}
	return first + step*float64(high)
}

// mass is what the scales tell of the cloth.
func (q *Read) mass(c *Card) (b Bounds) {
	if q.Weight_g == 0 {
		return
	}
	area_m2 := c.CutLong_mm * c.CutWide_mm * 1e-6
	half := normal90 * or(q.Scales_g, scales_g)
	return Bounds{q.Weight_g / area_m2, math.Max(0, q.Weight_g-half) / area_m2, (q.Weight_g + half) / area_m2}
}

// Contradictions name what goes with none of the values that the rest speaks for.
func (a *Answer) Contradictions() (list []word.Text) {
	for _, r := range a.Wrong {
		list = append(list, word.Say("No stiffness, setting and stitch explain this reading beside the rest: %s. Read it again.", Poses[r].Label))
	}
	if a.MassOff {
		list = append(list, word.Say("The strip does not weigh what the scheme says of its cloth. Weigh it again, or correct the mass."))
	}
	return list
}

// Notes are what else the readings say.
func (a *Answer) Notes(c *Card) (list []word.Text) {
	if len(a.Wrong) > 0 {
		return nil
	}
	switch {
	case a.Turns > 0.9:
		list = append(list, word.Say("The folds turn about their stitches."))
	case a.Turns < 0.1:
		list = append(list, word.Say("The stitch holds the folds still. A trial whose folds can turn tells the stiffness better."))
	default:
		list = append(list, word.Say("Whether the folds turn about their stitches is not told. Read the hanging card again."))
	}
	switch a.End {
	case 1:
		list = append(list, word.Say("The cloth may be stiffer than can be told here. Put a longer bending length into the scheme, and type the readings again."))
	case -1:
		list = append(list, word.Say("The cloth may be limper than can be told here. Put a shorter bending length into the scheme, and type the readings again."))
	}
	return list
}

// massOff reports that the scheme's own mass is more than three of the scales' misses off.
func (q *Read) massOff(c *Card) bool {
	off := math.Abs(q.Weight_g - c.given.Cloth.Mass*c.CutLong_mm*c.CutWide_mm*1e-6)
	return q.Weight_g > 0 && c.given.Cloth.Mass > 0 && off > 3*or(q.Scales_g, scales_g)
}

// normal90 is the normal distribution's 95 % quantile: half of a 90 % interval.
const normal90 = 1.6448536269514722

func or(x, usual float64) float64 {
	if x == 0 {
		return usual
	}
	return x
}

// Keys name the readings, in commands and errors.
var Keys = [Readings]string{Height: "height", Tipped: "tipped", Hanging: "hanging", Over: "over"}

// Ranges are what a reading may be: no fold stands off farther than the cloth reaches.
func (c *Card) Ranges(r Reading) (low, high float64) {
	if r == Height {
		return 1, c.Panel_mm + 5
	}
	far := math.Ceil(c.Panel_mm + c.Depth_mm)
	return -far, far
}

// Put gives a reading as the mean of some sets', with their scatter.
func (q *Read) Put(r Reading, list []float64) {
	n := float64(len(list))
	mean, square := 0.0, 0.0
	for _, y := range list {
		mean += y / n
	}
	for _, y := range list {
		square += (y - mean) * (y - mean)
	}
	q.At[r], q.Has[r] = mean, true
	if n > 1 {
		q.Miss_mm[r] = math.Sqrt(square / (n - 1) / n)
	}
}

// Check refuses what cannot be read off the trial: it names reading, value and range.
func (c *Card) Check(q *Read) error {
	for r := range Readings {
		low, high := c.Ranges(r)
		if err := ranged(Keys[r], q.At[r], low, high, "mm"); q.Has[r] && err != nil {
			return err
		}
		if err := ranged("scatter of "+Keys[r], q.Miss_mm[r], 0, 50, "mm"); err != nil {
			return err
		}
	}
	if !q.Has[Over] {
		return scheme.Error{Field: Keys[Over], Value: word.Say("nothing"), Why: word.Say("was read upside down, and without it nothing tells the stiffness"), Allowed: word.Say("a length")}
	}
	for _, f := range [...]struct {
		name      string
		v, lo, hi float64
		unit      string
	}{{"ruler", q.Ruler_mm, 0.1, 10, "mm"}, {"tilt", q.Tilt_deg, 0.1, 15, "°"}, {"weight", q.Weight_g, 0.1, 1000, "g"}, {"scales", q.Scales_g, 0.01, 50, "g"}} {
		if err := ranged(f.name, f.v, f.lo, f.hi, f.unit); f.v != 0 && err != nil {
			return err
		}
	}
	return nil
}

// ranged refuses what is not between low and high; not a number is not.
func ranged(name string, v, low, high float64, unit string) error {
	if v >= low && v <= high {
		return nil
	}
	n := func(x float64) word.Number { return word.Number{Value: x, Decimals: 2, Short: true} }
	return scheme.Error{
		Field: name, Value: word.Say("%s %s", n(v), word.Name(unit)), Why: word.Say("cannot be read off this trial"),
		Allowed: word.Say("%s to %s %s", n(low), n(high), word.Name(unit)),
	}
}
