package frame

import (
	"bytes"
	"image/color"
	"math"
	"reflect"
	"testing"
)

// sample holds one of every item.
func sample() Frame {
	ink := color.NRGBA{1, 2, 3, 200}
	return Frame{
		Ground: color.NRGBA{250, 240, 230, 255},
		Items: []Item{
			Path{Lines: [][]Point{{{1, 2}, {-3.5, 4}}, {}, {{0, 0}}}, Closed: true, Fill: ink, Stroke: color.NRGBA{A: 255}, Width: 1.25, Dash: []float32{4, 2}},
			Path{Lines: [][]Point{{{9, 9}, {8, 8}, {7, 7}}}, Stroke: ink, Width: 2},
			Stamp{ID: 7, At: Point{-10, 20}, Width: 3, Height: 3, Ink: ink, Cover: []byte{0, 1, 2, 3, 4, 5, 6, 7, 255}},
			Picture{At: Point{-40, -30}, Width: 80, Height: 60},
		},
	}
}

// TestRead: what was written is read again, wherever the bytes stand.
func TestRead(t *testing.T) {
	want := sample()
	b := want.Append(nil)
	if len(b)%4 != 0 {
		t.Errorf("%d bytes: no whole words", len(b))
	}
	got, err := Read(b)
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("read %+v, %v; want %+v", got, err, want)
	}
	if n := got.Pixels(); n != 80*60*4 {
		t.Errorf("%d bytes of pixels", n)
	}
	ready := Frame{Ground: want.Ground, Items: []Item{want.Items[0], Ready{2, AppendItems(nil, want.Items[1:3])}, want.Items[3]}}
	if !bytes.Equal(ready.Append(nil), b) {
		t.Error("with items that were written elsewhere it is another frame")
	}
	if again := want.Append([]byte("abcd"))[4:]; !bytes.Equal(again, b) {
		t.Error("behind other bytes it is written otherwise")
	}
}

// TestReadRefuses: bytes that are cut off anywhere, that go on, that name what is not
// there or that cannot be drawn are no frame.
func TestReadRefuses(t *testing.T) {
	b := sample().Append(nil)
	for n := range len(b) {
		if _, err := Read(b[:n]); err == nil {
			t.Fatalf("cut off after %d of %d bytes it is read", n, len(b))
		}
	}
	if _, err := Read(append(bytes.Clone(b), 0, 0, 0, 0)); err == nil {
		t.Error("read with bytes left over")
	}
	nan := float32(math.NaN())
	for name, f := range map[string]Frame{
		"not a number":   {Items: []Item{Path{Lines: [][]Point{{{nan, 0}}}}}},
		"infinite":       {Items: []Item{Path{Width: float32(math.Inf(1))}}},
		"a stamp of 0":   {Items: []Item{Stamp{ID: 0, Width: 1, Height: 1, Cover: []byte{1}}}},
		"no width":       {Items: []Item{Picture{Height: 4}}},
		"a huge picture": {Items: []Item{Picture{Width: 1 << 15, Height: 1}}},
	} {
		if _, err := Read(f.Append(nil)); err == nil {
			t.Errorf("%s: read", name)
		}
	}
}

// FuzzRead: no bytes make it panic, or take more memory than they are; what is read is
// written as it was.
func FuzzRead(f *testing.F) {
	f.Add(sample().Append(nil))
	f.Add(Frame{}.Append(nil))
	f.Fuzz(func(t *testing.T, b []byte) {
		got, err := Read(b)
		if err != nil {
			return
		}
		again, err := Read(got.Append(nil))
		if err != nil || len(again.Items) != len(got.Items) {
			t.Errorf("read, written and read: %v, %d items for %d", err, len(again.Items), len(got.Items))
		}
	})
}
