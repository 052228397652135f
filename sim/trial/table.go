package trial

import (
	"context"
	"errors"
	"math"
	"sync"

	"ruffwright/sim/window"
)

// Reading is one place where the ruler is held.
type Reading uint8

const (
	Height  Reading = iota // upright: from the sewn to the free folds at the outer edge
	Tipped                 // tipped outward by 60°: how far the free folds stand off the sewn edge
	Hanging                // tipped by 90°, the sets hanging down from the card: the same
	Over                   // upside down: the same
	Readings
)

// Slope_deg is how far the card is tipped outward for a reading.
func Slope_deg(r Reading) float64 { return slopes[r] }

var slopes = [Readings]float64{Height: 0, Tipped: 60, Hanging: 90, Over: 180}

// Values are what a trial is to find out.
type Values struct {
	Bend_mm  float64 // bending length of the starched cloth, along the strip: starch.bend
	Quality  float64 // of the setting: starch.quality
	Catch_mm float64 // how far out the stitch holds: pleat.catch; 0: a fold turns about its stitch
	// Formed_mm is how much taller the sets were formed than the card says.
	Formed_mm float64
	// Shear is how many times as stiff in shear the starched cloth is as taken.
	Shear float64
	// Tilt_deg is how much farther the card was tipped than slopes.
	Tilt_deg [Readings]float64
}

// The table's axes. The stiffness, B = bending length³, is spaced evenly in its
// logarithm about the one expected; so is the catch from its shortest on, and a stitch
// about which a fold turns stands by itself.
const (
	far       = 1.8 // in ln B either side: six times as stiff, or a sixth
	stiffness = 7
	shearStep = 0.8  // ln of the shear at which the slope is taken
	tiltStep  = 4    // degrees at which the slope by the tilt is taken
	formStep  = 0.04 // of the panel's length, by which the slope by the formed height is taken
)

var (
	qualities = [...]float64{0.6, 0.8, 0.9, 1}
	catches   = [...]float64{0, 0.5, 1.2, 3, 7}
)

// Table is the model of one trial: what each reading would be, tabulated.
type Table struct {
	Card   Card
	Solves int // factorisations that it took
	Failed int

	grid window.Grid
	lnB  []float64 // of (bending length ÷ expected)³
	at   [len(catches)]leaf

	once  sync.Once
	cells []cell // of the lattice
}

// leaf is the table for one catch.
type leaf struct {
	y     [Readings][stiffness][len(qualities)]float64
	shear [Readings][slopesAt]float64 // by ln of the shear
	tilt  [Readings][slopesAt]float64 // by a degree
	form  [Readings]float64           // by a mm of formed height
	fails int
	count int
}

// errRest is wrapped where the sets of a trial do not come to rest.
var errRest = errors.New("the sets of this trial do not come to rest by the model")

// Options steer Tabulate. The zero value solves on the fine grid, one pose after the other.
type Options struct {
	Grid     window.Grid        // zero: window.Fine, as ruffs are solved; the answer is for a ruff solved on the same
	Together bool               // on as many threads as there are
	Progress func(done float64) // told how much is done, from 0 to 1, one call at a time; nil: no calls
}

// Tabulate solves the table of a card: some 600 poses, each started from its neighbour.
// An error means bad input or a cancelled context, or that the sets do not come to rest.
func Tabulate(ctx context.Context, c Card, opt Options) (*Table, error) {
	if opt.Grid == (window.Grid{}) {
		opt.Grid = window.Fine
	}
	t := &Table{Card: c, grid: opt.Grid}
	low := math.Max(-far, 3*math.Log(1.05*c.own_mm/c.Bend_mm))
	for i := range stiffness {
		t.lnB = append(t.lnB, low+(far-low)*float64(i)/(stiffness-1))
	}
	var lock sync.Mutex
	done := 0
	tell := func() {
		lock.Lock()
		defer lock.Unlock()
		done++
		if opt.Progress != nil {
			opt.Progress(float64(done) / float64(len(catches)*len(qualities)*int(Readings)))
		}
	}
	var errs [len(catches)]error
	var all sync.WaitGroup
	for k := range catches {
		one := func() { errs[k] = t.leaf(ctx, k, tell) }
		if opt.Together {
			all.Go(one)
		} else {
			one()
		}
	}
	all.Wait()
	if err := errors.Join(errs[:]...); err != nil {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		return nil, err
	}
	for k := range t.at {
		t.Solves += t.at[k].count
		t.Failed += t.at[k].fails
	}
	return t, nil
}
