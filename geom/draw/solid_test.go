package draw

import (
	"image"
	"image/color"
	"math"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/light"
)

// board is a flat solid of one colour whatever the light, seen where the box is.
func board(c color.NRGBA, box Rect) Solid {
	var tint light.Tint
	for i := range tint {
		tint[i] = c
	}
	s := Solid{Eye: NewEye(0, 0), Scene: &light.Scene{Sheets: []light.Sheet{{
		Cols: 2, Rows: 2, Tints: []light.Tint{tint}, Ink: c,
		V: []geom.Vec3{{}, {Z: box.Min.Y - box.Max.Y}, {X: box.Max.X - box.Min.X}, {X: box.Max.X - box.Min.X, Z: box.Min.Y - box.Max.Y}},
	}}}}
	s.Eye.X, s.Eye.Y = box.Min.X, box.Min.Y
	return s
}

// A solid under a lens is seen larger at the place where the lens has it, and cut off at
// the pane's edge and its own clip, whichever is nearer.
func TestSolidUnderLens(t *testing.T) {
	s := Solid{Eye: NewEye(0, 0), Clip: Rect{Max: Point{30, 30}}}
	s.Eye.X, s.Eye.Y, s.Eye.Scale = 20, 10, 1.5
	got := move{k: 2, x: 1, y: -4}.solid(s, Rect{Max: Point{50, 80}})
	if got.Eye.X != 41 || got.Eye.Y != 16 || got.Eye.Scale != 3 {
		t.Errorf("seen at %g, %g, %g times as large, want 41, 16, 3", got.Eye.X, got.Eye.Y, got.Eye.Scale)
	}
	if want := (Rect{Point{1, 0}, Point{50, 56}}); got.Clip != want {
		t.Errorf("cut off at %v, want %v", got.Clip, want)
	}
	if img, _, lines := (Solid{Faint: 1}).Seen(40, 40, 2); img != nil || lines != nil {
		t.Error("what is wholly faint is painted")
	}
}

// While it moves a solid is painted in its place and size, by every second pixel where
// these are fine; halted it gives nothing.
func TestSolidPlain(t *testing.T) {
	for _, px := range []float64{2, 7} {
		s := board(rgb(0x102030), Rect{Point{3, 4}, Point{23, 14}})
		s.Plain = true
		img, at, _ := s.Seen(30.2, 20.1, px)
		if want := (image.Rect(0, 0, int(math.Ceil(30.2*px)), int(math.Ceil(20.1*px)))); img.Rect != want || at != (image.Point{}) {
			t.Fatalf("%g px/mm: it is %v, want %v", px, img.Rect, want)
		}
		for _, c := range []struct {
			x, y float64
			want uint8
		}{{3.6, 4.6, 255}, {22.4, 13.4, 255}, {2.4, 9, 0}, {23.6, 9, 0}, {13, 3.4, 0}, {13, 14.6, 0}} {
			if got := img.RGBAAt(int(c.x*px), int(c.y*px)).A; got != c.want {
				t.Errorf("%g px/mm: at %g, %g it covers %d, want %d", px, c.x, c.y, got, c.want)
			}
		}
		for _, plain := range []bool{false, true} {
			s.Plain, s.Halt = plain, func() bool { return true }
			if img, _, lines := s.Seen(30, 20, px); img != nil || lines != nil {
				t.Error("halted it is painted")
			}
		}
	}
}
