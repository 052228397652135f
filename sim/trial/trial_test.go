package trial

import (
	"context"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"sync"
	"testing"

	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
	"ruffwright/sim/window"
)

var full = flag.Bool("full", false, "300 trials, each solved afresh on the grid of results: minutes")

// starched is the scheme of these tests.
func starched() scheme.Scheme {
	s := scheme.Default()
	s.Starch.Bend = 55
	return s
}

// coarse is the table of starched on the Coarse grid, made once.
var coarse = sync.OnceValues(func() (*Table, error) {
	c, err := New(starched())
	if err != nil {
		return nil, err
	}
	return Tabulate(context.Background(), c, Options{Grid: window.Coarse, Together: true})
})

func table(t *testing.T) *Table {
	t.Helper()
	tab, err := coarse()
	if err != nil {
		t.Fatal(err)
	}
	return tab
}

// drawn is a truth drawn from what is taken for granted.
func drawn(t *Table, g *rand.Rand) Values {
	v := Values{
		Bend_mm:   t.Card.Bend_mm * math.Exp(math.Max(t.lnB[0], math.Min(priorB*g.NormFloat64(), far))/3),
		Quality:   qualities[0] + (1-qualities[0])*g.Float64(),
		Formed_mm: priorFormed * g.NormFloat64(),
		Shear:     math.Exp(t.shear() * g.NormFloat64()),
	}
	if g.Float64() > turns {
		v.Catch_mm = catches[1] * math.Pow(catches[len(catches)-1]/catches[1], g.Float64())
	}
	for r := Tipped; r < Readings; r++ {
		v.Tilt_deg[r] = tilt_deg * g.NormFloat64()
	}
	return v
}

// taller is how much taller sets are formed whose panels are a mm longer, by the closed form.
func taller(c *Card) float64 {
	h := func(panel_mm float64) float64 {
		e, err := curve.NewElastica(panel_mm, c.room_mm())
		if err != nil {
			panic(err)
		}
		return e.Height()
	}
	return (h(c.Panel_mm+1) - h(c.Panel_mm-1)) / 2
}

// solved is what the ruler would read, each pose solved by itself, without the table.
func (t *Table) solved(v Values) (y [Readings]float64, err error) {
	p, err := t.Card.keep(context.Background(), v.Catch_mm, t.Card.Panel_mm+v.Formed_mm/taller(&t.Card), t.grid)
	if err != nil {
		return
	}
	at := point{lnB: t.lnBOf(v.Bend_mm), quality: v.Quality, lnShear: math.Log(v.Shear)}
	for r := range Readings {
		at.tilt = v.Tilt_deg[r]
		if _, y[r], err = p.pose(r, at, nil); err != nil {
			return
		}
	}
	return
}

// tally counts how often truths lie in their intervals.
type tally map[string]*struct {
	in, of int
	wide   float64
}

func (y tally) hit(name string, b Bounds, truth float64) {
	c := y[name]
	if c == nil {
		c = new(struct {
			in, of int
			wide   float64
		})
		y[name] = c
	}
	c.of++
	if truth >= b.Low-1e-9 && truth <= b.High+1e-9 {
		c.in++
	}
	c.wide += math.Log(math.Max(b.High, 1e-3) / math.Max(b.Low, 1e-3))
}

// told adds what an answer says of the truth.
func (y tally) told(a *Answer, v *Values, c *Card) {
	y.hit("stiffness", a.Bend_mm, v.Bend_mm)
	y.hit("quality", a.Quality, v.Quality)
	y.hit("formed", a.Formed_mm, v.Formed_mm)
	y.hit("mass", a.Mass_gm2, c.Cloth_gm2)
	if v.Catch_mm == 0 {
		y.hit("stiffness, folds turn", a.Bend_mm, v.Bend_mm)
		y.hit("quality, folds turn", a.Quality, v.Quality)
	} else {
		y.hit("stiffness, folds held", a.Bend_mm, v.Bend_mm)
		y.hit("stitch, folds held", a.Catch_mm, v.Catch_mm)
	}
}

// misread is what a ruler reads of y, in trial after trial; more is added to its miss.
func misread(t *Table, y [Readings]float64, more_mm float64, g *rand.Rand) Read {
	q := Read{Weight_g: t.Card.CutLong_mm*t.Card.CutWide_mm*1e-6*t.Card.Cloth_gm2 + scales_g*g.NormFloat64()}
	for r := range Readings {
		q.At[r], q.Has[r] = y[r]+math.Hypot(ruler_mm, more_mm)*g.NormFloat64(), true
	}
	return q
}

// TestTrials draws trials from what is taken for granted, reads them with errors of 0.5 mm,
// 0.5 g and 2°, and asks how often the truth lies in the interval of nine in ten.
func TestTrials(t *testing.T) {
	n, tab, least, most := 60, table(t), 80.0, 100.0 // of 60, 48 are 2.6 standard deviations off 54
	if *full {
		c, err := New(starched())
		if err != nil {
			t.Fatal(err)
		}
		if tab, err = Tabulate(context.Background(), c, Options{Together: true}); err != nil {
			t.Fatal(err)
		}
		n, least, most = 300, 85, 95
	}
	g, y := rand.New(rand.NewPCG(15, 6)), tally{}
	wrong, turned := 0, 0
	for range n {
		v := drawn(tab, g)
		read, more := tab.At(v), TableOff_mm
		if *full {
			var err error
			if read, err = tab.solved(v); err != nil {
				t.Fatal(err)
			}
			more = 0
		}
		q := misread(tab, read, more, g)
		a, err := tab.Answer(q)
		if err != nil {
			t.Fatalf("%+v: %v", q, err)
		}
		y.told(&a, &v, &tab.Card)
		if (a.Turns > 0.5) == (v.Catch_mm == 0) {
			turned++
		}
		if len(a.Wrong) > 0 {
			wrong++
		}
	}
	for name, c := range y {
		share := 100 * float64(c.in) / float64(c.of)
		t.Logf("%s: %d of %d (%.0f %%), mean ratio of the ends %.3f", name, c.in, c.of, share, math.Exp(c.wide/float64(c.of)))
		if c.of == n && (share < least || share > most) {
			t.Errorf("%s: %.0f %% of the truths in the interval of 90 %%", name, share)
		}
	}
	t.Logf("stitch told right in %d of %d; contradictions named in %d", turned, n, wrong)
	if turned < n*9/10 || wrong > n/20 {
		t.Errorf("stitch told right in %d of %d; contradictions named in %d", turned, n, wrong)
	}
}

// TestReadingsRise holds each reading to what it is read for: stiffer cloth stands off less
// upside down, worse setting more when it is tipped, a firmer stitch less when they hang.
func TestReadingsRise(t *testing.T) {
	tab := table(t)
	b := tab.Card.Bend_mm
	last := math.Inf(1)
	for x := -1.6; x <= 1.6; x += 0.2 {
		y := tab.At(Values{Bend_mm: b * math.Exp(x/3), Quality: 0.95})[Over]
		if y >= last {
			t.Errorf("upside down at ln B = %.1f: %.2f mm, not less than %.2f", x, y, last)
		}
		last = y
	}
	last = math.Inf(1)
	for q := 0.6; q <= 1; q += 0.05 {
		y := tab.At(Values{Bend_mm: b, Quality: q})[Tipped]
		if y >= last {
			t.Errorf("tipped at quality %.2f: %.2f mm, not less than %.2f", q, y, last)
		}
		last = y
	}
	last = math.Inf(1)
	for _, c := range []float64{0, 0.5, 1, 2, 4, 7} {
		y := tab.At(Values{Bend_mm: b, Quality: 0.95, Catch_mm: c})[Hanging]
		if y >= last {
			t.Errorf("hanging with a stitch of %g mm: %.2f mm, not less than %.2f", c, y, last)
		}
		last = y
	}
	last = 0
	for f := -4.0; f <= 4; f++ {
		y := tab.At(Values{Bend_mm: b, Quality: 0.95, Formed_mm: f})[Height]
		if y <= last {
			t.Errorf("height of sets formed %g mm taller: %.2f mm, not more than %.2f", f, y, last)
		}
		last = y
	}
}

// TestStiffLimit: cloth a thousand times as stiff, whose stitch holds it, stands in every pose as it
// was formed, and that is the free elastica of its panel at the outer edge (curve.NewElastica,
// held to elliptic integrals there).
func TestStiffLimit(t *testing.T) {
	c, err := New(starched())
	if err != nil {
		t.Fatal(err)
	}
	p, err := c.keep(context.Background(), 7, c.Panel_mm, window.Fine)
	if err != nil {
		t.Fatal(err)
	}
	e, err := curve.NewElastica(c.Panel_mm, window.Room_mm(c.Pitch_mm/2, 1/c.Radius_mm, c.Depth_mm))
	if err != nil {
		t.Fatal(err)
	}
	d := c.design
	z := window.Starched{FrozenU_uNm: 1000 * d.FrozenU_uNm, FrozenV_uNm: 1000 * d.FrozenV_uNm, FrozenShear_Npm: 50000, Quality: 1}
	var first float64
	for r := range Readings {
		q, err := p.kept.Hang(z, slopes[r], nil)
		if err != nil || !q.Done {
			t.Fatal(err, q)
		}
		y := c.read(q, r)
		switch {
		case r == Height && math.Abs(y-e.Height()) > 0.02*e.Height():
			t.Errorf("height %.2f mm, the elastica's %.2f", y, e.Height())
		case r == Tipped:
			first = y
		case r > Tipped && math.Abs(y-first) > 0.5:
			t.Errorf("%s: %.2f mm, tipped %.2f", Keys[r], y, first)
		}
	}
}

// TestSoftLimit: limp sets that turn about their stitches hang straight: upside down their
// sewn folds stand off by the depth.
func TestSoftLimit(t *testing.T) {
	c, err := New(starched())
	if err != nil {
		t.Fatal(err)
	}
	p, err := c.keep(context.Background(), 0, c.Panel_mm, window.Coarse)
	if err != nil {
		t.Fatal(err)
	}
	d := c.design
	limp := window.Starched{FrozenU_uNm: 0.02 * d.BendU_uNm, FrozenV_uNm: 0.02 * d.BendV_uNm, FrozenShear_Npm: 1, Quality: 0.5}
	q, err := p.kept.Hang(limp, 180, nil)
	if err != nil {
		t.Fatal(err)
	}
	crest, _ := q.Outer()
	if off := crest[2] - c.design.BandHeight_mm; math.Abs(off-c.Depth_mm) > 0.03*c.Depth_mm {
		t.Errorf("upside down the sewn folds stand off %.2f mm, the depth is %g", off, c.Depth_mm)
	}
}

// TestTableOff holds the table to poses solved by themselves.
func TestTableOff(t *testing.T) {
	tab := table(t)
	g := rand.New(rand.NewPCG(1, 2))
	for _, k := range []int{0, 2} {
		p, err := tab.Card.keep(context.Background(), catches[k], tab.Card.Panel_mm, tab.grid)
		if err != nil {
			t.Fatal(err)
		}
		var square float64
		const n = 8
		for range n {
			at := point{lnB: -1.2 + 2.4*g.Float64(), quality: 0.65 + 0.35*g.Float64()}
			for r := range Readings {
				_, y, err := p.pose(r, at, nil)
				if err != nil {
					t.Fatal(err)
				}
				off := y - tab.leafAt(k, r, at.lnB, at.quality)
				square += off * off
			}
		}
		if off := math.Sqrt(square / (n * float64(Readings))); off > TableOff_mm {
			t.Errorf("catch %g: the table is off by %.2f mm, it says %.2f", catches[k], off, TableOff_mm)
		}
	}
}

// TestContradiction: a reading that goes with none of the others is named.
func TestContradiction(t *testing.T) {
	tab := table(t)
	y := tab.At(Values{Bend_mm: tab.Card.Bend_mm, Quality: 0.9})
	q := Read{At: y, Has: [Readings]bool{true, true, true, true}}
	if a, err := tab.Answer(q); err != nil || len(a.Wrong) > 0 {
		t.Fatalf("%v, %v are said to contradict", err, a.Wrong)
	}
	q.At[Hanging] += 40
	a, err := tab.Answer(q)
	if err != nil || len(a.Wrong) == 0 {
		t.Fatalf("hanging 40 mm off: %v, nothing is named", err)
	}
	named := false
	for _, r := range a.Wrong {
		named = named || r == Hanging
	}
	if !named {
		t.Errorf("hanging 40 mm off: %v are named", a.Wrong)
	}
}

// TestRefused: bad input names its field, value and range.
func TestRefused(t *testing.T) {
	s := starched()
	s.Starch.Bend = 0
	if _, err := New(s); err == nil || !strings.Contains(err.Error(), "starch.bend") {
		t.Errorf("no starch: %v", err)
	}
	tab := table(t)
	good := Read{At: [Readings]float64{44, -35, 0, 45}, Has: [Readings]bool{true, true, true, true}}
	for name, bad := range map[string]func(*Read){
		"height":  func(q *Read) { q.At[Height] = -3 },
		"tipped":  func(q *Read) { q.At[Tipped] = math.NaN() },
		"hanging": func(q *Read) { q.At[Hanging] = math.Inf(1) },
		"over":    func(q *Read) { q.Has[Over] = false },
		"ruler":   func(q *Read) { q.Ruler_mm = -1 },
		"tilt":    func(q *Read) { q.Tilt_deg = 90 },
		"weight":  func(q *Read) { q.Weight_g = math.NaN() },
		"scales":  func(q *Read) { q.Scales_g = 1e9 },
	} {
		q := good
		bad(&q)
		a, err := tab.Answer(q)
		if err == nil || !strings.Contains(err.Error(), name) || !strings.Contains(err.Error(), "allowed") {
			t.Errorf("%s: %v", name, err)
		}
		if text := fmt.Sprint(a); strings.Contains(text, "NaN") {
			t.Errorf("%s: %s", name, text)
		}
	}
}
