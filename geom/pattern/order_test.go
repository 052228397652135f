package pattern

import (
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// TestOrder: three ruffs on two bolts, summed by hand from their own patterns.
func TestOrder(t *testing.T) {
	ps := []Pattern{made(t), made(t, [2]string{"strip.bolt", "900"}), made(t, [2]string{"ruff.sets", "44"})}
	o := NewOrder(ps)
	if len(o.Lines) != 2 || o.Lines[0].Bolt_mm != 900 || !reflect.DeepEqual(o.Lines[1].Of, []int{0, 2}) {
		t.Fatalf("%+v", o.Lines)
	}
	l := o.Lines[1]
	need := ps[0].Cut.Buy.Need_mm + ps[2].Cut.Buy.Need_mm
	if math.Abs(l.Together.Need_mm-need) > 1e-9 || l.Together.Metric_mm != 100*math.Ceil(need/100) {
		t.Errorf("together %+v, want %.3f mm", l.Together, need)
	}
	if l.Apart_mm != ps[0].Cut.Buy.Metric_mm+ps[2].Cut.Buy.Metric_mm || l.ApartEighths != ps[0].Cut.Buy.Eighths+ps[2].Cut.Buy.Eighths {
		t.Errorf("apart %g mm, %d eighths", l.Apart_mm, l.ApartEighths)
	}
	thread := 0.0
	for _, p := range ps {
		thread += p.Work().Thread_mm
	}
	if math.Abs(o.Thread_mm-thread) > 1e-6 {
		t.Errorf("thread %g, want %g", o.Thread_mm, thread)
	}
	if none := NewOrder(nil); len(none.Lines) != 0 || none.Thread_mm != 0 {
		t.Errorf("nothing orders %+v", none)
	}
}

// TestOrderSums: whatever the ruffs and their sequence, buying together is never
// short, never more than buying apart, and loses no ruff.
func TestOrderSums(t *testing.T) {
	kinds := []Pattern{
		made(t), made(t, [2]string{"ruff.sets", "60"}, [2]string{"pleat.tuck_top", "5"}, [2]string{"pleat.tuck_bottom", "5"}),
		made(t, [2]string{"strip.along", "warp"}), made(t, [2]string{"strip.bolt", "900"}),
		made(t, [2]string{"cloth.mass", "90"}), made(t, [2]string{"strip.shrink_warp", "7"}),
		made(t, [2]string{"ruff.depth", "40"}, [2]string{"wearer.girth", "420"}),
	}
	rapid.Check(t, func(t *rapid.T) {
		ps := rapid.SliceOfN(rapid.SampledFrom(kinds), 0, 40).Draw(t, "patterns")
		o := NewOrder(ps)
		seen := make([]int, len(ps))
		for _, l := range o.Lines {
			need, apart := 0.0, 0.0
			for _, i := range l.Of {
				seen[i]++
				need += ps[i].Cut.Buy.Need_mm
				apart += ps[i].Cut.Buy.Metric_mm
				s := ps[i].Plan.Scheme
				if s.Cloth != l.Cloth || s.Strip.Bolt != l.Bolt_mm {
					t.Fatalf("pattern %d lies on a cloth that is not its own", i)
				}
			}
			if l.Together.Metric_mm < need-1e-6 || float64(l.Together.Eighths)*eighthYard < need-1e-6 {
				t.Fatalf("short: %+v for %g mm", l.Together, need)
			}
			if l.Together.Metric_mm > apart+1e-6 || l.Together.Eighths > l.ApartEighths || math.Abs(l.Apart_mm-apart) > 1e-6 {
				t.Fatalf("together %+v is more than apart %g mm, %d", l.Together, l.Apart_mm, l.ApartEighths)
			}
		}
		for i, n := range seen {
			if n != 1 {
				t.Fatalf("pattern %d stands in %d lines", i, n)
			}
		}
	})
}
