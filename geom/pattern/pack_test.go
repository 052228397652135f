package pattern

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// Buying is never short. Checked without the packer's own sums: every piece that
// the pattern asks for is on the cloth once at its washed size, nothing overlaps
// (all pairs, by a sweep of its own), nothing lies on a selvedge or beyond either
// straightened end, and what is sold is no less.
func TestBuyingIsNeverShort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first, err := New(drawPlan(t))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range everyCut(first) {
			checkLayout(t, p)
		}
	})
}

// TestNoPieceMore: five pieces came out where four go side by side, the last of
// them 4 mm long and over the selvedge. Found by TestBuyingIsNeverShort.
func TestNoPieceMore(t *testing.T) {
	s := scheme.Default()
	s.Ruff.Depth, s.Pleat.Pitch = 22.25, 1
	s.Strip.Bolt, s.Strip.Selvedge, s.Strip.Takeup, s.Strip.Join = 200, 30, 1, 0.1250000000001421
	plan, err := pleat.NewPlan(s)
	if err != nil {
		t.Fatal(err)
	}
	p, err := New(plan)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range p.Ways {
		if w.Along == scheme.Warp && w.Pieces > w.Side {
			t.Errorf("%d pieces where %d go side by side", w.Pieces, w.Side)
		}
	}
	for _, p := range everyCut(p) {
		checkLayout(t, p)
	}
}

func checkLayout(t interface{ Fatalf(string, ...any) }, p Pattern) {
	const eps = 1e-5 // 10 nm: sums of some hundred sizes, and the packer's own 1e-6
	l, b := p.Cut.Layout, p.Cut.Buy
	if b.Need_mm != l.Length_mm || b.Metric_mm < b.Need_mm || float64(b.Eighths)*eighthYard < b.Need_mm {
		t.Fatalf("needs %v, buys %+v", l.Length_mm, b)
	}
	if b.Metric_mm >= b.Need_mm+100 || float64(b.Eighths)*eighthYard >= b.Need_mm+114.3+1e-9 || math.Mod(b.Metric_mm, 100) != 0 {
		t.Fatalf("needs %v, buys more than a step above: %+v", b.Need_mm, b)
	}
	s := p.Plan.Scheme.Strip
	for i, q := range l.Placed {
		if q.X_mm < s.Selvedge-eps || q.X_mm+q.Wide_mm > s.Bolt-s.Selvedge+eps ||
			q.Y_mm < l.Square_mm-eps || q.Y_mm+q.Long_mm > l.Length_mm-l.Square_mm+eps {
			t.Fatalf("%+v lies outside a cloth of %v × %v", q, s.Bolt, l.Length_mm)
		}
		for _, r := range l.Placed[i+1:] {
			if q.X_mm < r.X_mm+r.Wide_mm-eps && r.X_mm < q.X_mm+q.Wide_mm-eps &&
				q.Y_mm < r.Y_mm+r.Long_mm-eps && r.Y_mm < q.Y_mm+q.Long_mm-eps {
				t.Fatalf("%+v lies on %+v", q, r)
			}
		}
	}
	// What is wanted, washed: long, wide, thread along the length.
	type want struct {
		long, wide float64
		along      scheme.Along
	}
	wanted := map[string]want{}
	for _, c := range p.Cut.Pieces {
		if !c.AtHand {
			wanted["strip "+decimal(float64(c.Number))] = want{c.Length_mm, c.Width_mm, p.Cut.Along}
		}
	}
	left := map[Kind]bool{}
	for _, w := range l.Left {
		left[w.Kind] = true
	}
	if !p.Band.AtHand && !left[KindBand] {
		wanted["band"] = want{p.Band.CutLong_mm, p.Band.CutWide_mm, ""}
	}
	strips := 0
	for _, w := range p.Swatches() {
		if left[w.Kind] {
			t.Fatalf("%s does not fit though swatches are cut to the cloth", w.Name())
		}
		strips += w.Count
	}
	washed := l.Washed()
	for _, q := range washed.Placed {
		long, wide := q.Wide_mm, q.Long_mm
		if q.Along == scheme.Warp {
			long, wide = wide, long
		}
		if q.Kind.Swatch() {
			strips--
			if q.Kind == KindSquare && math.Abs(long-wide) > 1e-9 {
				t.Fatalf("square %+v", q)
			}
			continue
		}
		w, ok := wanted[q.Name().String()]
		if !ok || math.Abs(w.long-long) > 1e-9 || math.Abs(w.wide-wide) > 1e-9 || w.along != "" && w.along != q.Along {
			t.Fatalf("%+v washes to %v × %v, want %+v", q, long, wide, w)
		}
		delete(wanted, q.Name().String())
	}
	if len(wanted) > 0 || strips != 0 {
		t.Fatalf("not on the cloth: %v, and %d swatches", wanted, strips)
	}
	// The cloth washes to itself less s: washed ÷ (1 − s) is bought.
	if got := washed.Length_mm / (1 - s.ShrinkWarp/100); math.Abs(got-l.Length_mm) > 1e-9*l.Length_mm {
		t.Fatalf("length %v washes to %v", l.Length_mm, washed.Length_mm)
	}
	if !(l.Used > 0 && l.Used <= 1+1e-9) {
		t.Fatalf("uses %v of the cloth", l.Used)
	}
}

// The default's cloth, so that a change of the packer is seen: four pieces along
// the weft, two thirds of the cloth used; one long strip along the warp has no join
// and needs its whole length before the wash.
func TestDefaultCloth(t *testing.T) {
	p := made(t)
	if p.Cut.Buy.Metric_mm != 600 || p.Cut.Buy.Eighths != 5 || len(p.Cut.Pieces) != 4 {
		t.Errorf("default: %d pieces, %+v; want 4 and 60 cm, 5/8 yd", len(p.Cut.Pieces), p.Cut.Buy)
	}
	if p.Cut.Layout.Used < 0.65 {
		t.Errorf("uses %.0f %% of the cloth, want 65 at least", 100*p.Cut.Layout.Used)
	}
	if long := p.cuts()[1]; long.Along != scheme.Warp || long.Side != 1 || len(long.Joins) != 0 || long.Buy.Need_mm < p.Strip.Length_mm/(1-0.04) {
		t.Errorf("one strip along the warp: %d joins, %v", len(long.Joins), long.Buy)
	}
}

// 1/8 yd = 114.3 mm: yard 0.9144 m by the international agreement of 1959.
func TestEighthOfAYard(t *testing.T) {
	if got := 8 * eighthYard; math.Abs(got-914.4) > 1e-12 {
		t.Errorf("8/8 yd = %v mm, want 914.4", got)
	}
	for n, want := range map[int]string{1: "1/8 yd", 8: "1 yd", 11: "1 3/8 yd", 22: "2 3/4 yd"} {
		if got := Yards(n); got != want {
			t.Errorf("%d eighths: %q, want %q", n, got, want)
		}
	}
	for _, c := range []struct {
		need, metric float64
		eighths      int
	}{{100, 100, 1}, {100.001, 200, 1}, {114.3, 200, 1}, {114.301, 200, 2}, {1000, 1000, 9}} {
		if b := buy(c.need); b.Metric_mm != c.metric || b.Eighths != c.eighths {
			t.Errorf("buy(%v) = %+v, want %v and %d/8", c.need, b, c.metric, c.eighths)
		}
	}
}

// What cannot be cut is refused with the field's name; what the band is too wide
// for is left off the cloth and said.
func TestRefusals(t *testing.T) {
	p := planned(t)
	var e scheme.Error
	broken := p
	broken.Row = broken.Row[:5]
	if _, err := New(broken); !errors.As(err, &e) || e.Field != "plan" {
		t.Errorf("marks missing: %v", err)
	}
	broken = p
	broken.Scheme.Ruff.Depth = math.NaN()
	if _, err := New(broken); !errors.As(err, &e) {
		t.Errorf("depth NaN: %v", err)
	}
	wide := planned(t, [2]string{"ruff.depth", "250"}, [2]string{"strip.bolt", "240"})
	wide.Scheme.Strip.Along = scheme.Warp
	if _, err := New(wide); !errors.As(err, &e) || e.Field != "strip.bolt" {
		t.Errorf("strip wider than the cloth: %v", err)
	}
	narrow := made(t, [2]string{"band.height", "80"}, [2]string{"band.seam", "30"}, [2]string{"strip.bolt", "200"})
	if len(narrow.Cut.Layout.Left) != 1 || narrow.Cut.Layout.Left[0].Kind != KindBand {
		t.Errorf("a band wider than the cloth: left %+v", narrow.Cut.Layout.Left)
	}
}

// Both selvedges are lost: 200 mm of cloth with 8 each side take 184.
func TestFitsBetweenSelvedges(t *testing.T) {
	l := Layout{Bolt_mm: 200, Selvedge_mm: 8}
	for wide, want := range map[float64]bool{184: true, 185: false} {
		if got := l.fits(Swatch{Long_mm: wide, Wide_mm: 10, Along: scheme.Weft}); got != want {
			t.Errorf("%v mm fit: %v", wide, got)
		}
	}
}

// A starched strip lies 50 mm on the table and hangs over by twice the wanted
// bending length.
func TestStarchSwatchIsLongEnough(t *testing.T) {
	for bend, want := range map[string]float64{"40": 250, "150": 350} {
		for _, w := range made(t, [2]string{"starch.bend", bend}).Swatches() {
			if w.Kind == KindStarch && w.Long_mm != want {
				t.Errorf("for a bending length of %s mm it is %v mm long, want %v", bend, w.Long_mm, want)
			}
		}
	}
}

// Where the number of pieces is left open a join weighs as much as 10 cm of cloth:
// 1,000 mm with one join come before 850 with three, and after 750.
func TestJoinsAreWeighed(t *testing.T) {
	few := Way{Joins: 1, Buy: Buy{Metric_mm: 1000}}
	for metric, want := range map[float64]bool{850: true, 750: false} {
		if got := few.before(Way{Joins: 3, Buy: Buy{Metric_mm: metric}}); got != want {
			t.Errorf("before %v mm with three joins: %v", metric, got)
		}
	}
}
