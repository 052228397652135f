package figure

import (
	"reflect"
	"testing"

	"ruffwright/geom/draw"
)

// A drawing made of an earlier one's memory is the drawing made afresh.
func TestAgain(t *testing.T) {
	plan, shape := designs()[1].make(t)
	old, err := Named("hand").Draw(plan, shape, Options{Turn_deg: 70, Tilt_deg: -30})
	if err != nil {
		t.Fatal(err)
	}
	opt := Options{Turn_deg: 20, Tilt_deg: 30}
	want, err := Named("hand").Draw(plan, shape, opt)
	if err != nil {
		t.Fatal(err)
	}
	opt.Again = &old
	got, err := Named("hand").Draw(plan, shape, opt)
	if err != nil {
		t.Fatal(err)
	}
	a, b := got.Items[0].(draw.Surface), want.Items[0].(draw.Surface)
	if !reflect.DeepEqual(a.Vertices, b.Vertices) || !reflect.DeepEqual(a.Triangles, b.Triangles) {
		t.Error("it differs")
	}
	if len(old.Items[0].(draw.Surface).Triangles) != 0 {
		t.Error("the old drawing still holds its surface")
	}
}

func BenchmarkInHand(b *testing.B)     { benchInHand(b, 0) }     // as the page turns it
func BenchmarkInHandFull(b *testing.B) { benchInHand(b, 30000) } // all of 40 sets × 24 × 12

func benchInHand(b *testing.B, cells int) {
	d := design{"bench", "sound", nil, 24, 12}
	plan, shape := d.make(b)
	var last draw.Drawing
	for b.Loop() {
		next, err := Named("hand").Draw(plan, shape, Options{Turn_deg: 20, Tilt_deg: 30, Again: &last, Cells: cells})
		if err != nil {
			b.Fatal(err)
		}
		last = next
	}
	f := last.Items[0].(draw.Surface)
	b.ReportMetric(float64(len(f.Triangles)/3), "triangles")
	b.ReportMetric(float64(len(f.Vertices)), "vertices")
}

func BenchmarkAbove(b *testing.B) {
	plan, shape := designs()[0].make(b)
	var last draw.Drawing
	for b.Loop() {
		next, err := Named("above").Draw(plan, shape, Options{Again: &last})
		if err != nil {
			b.Fatal(err)
		}
		last = next
	}
}

func BenchmarkImage(b *testing.B) {
	plan, shape := designs()[0].make(b)
	d, err := Named("hand").Draw(plan, shape, Options{Width_mm: 92, Height_mm: 120, Tilt_deg: 30})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		d.Image(3.8)
	}
}
