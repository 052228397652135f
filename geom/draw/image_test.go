package draw

import (
	"image"
	"testing"
)

// Two crossing triangles: nearer wins on either side of where they cross, and
// the edge's pixels are covered in part.
func TestRasterDepth(t *testing.T) {
	red, blue := rgb(0xff0000), rgb(0x0000ff)
	f := Surface{
		Vertices: []Vertex{
			{0, 0, 0, red}, {20, 0, 10, red}, {20, 10, 10, red}, {0, 10, 0, red},
			{0, 0, 10, blue}, {20, 0, 0, blue}, {20, 10, 0, blue}, {0, 10, 10, blue},
		},
		Triangles: []uint32{0, 1, 2, 0, 2, 3, 4, 5, 6, 4, 6, 7},
	}
	img, at := f.raster(1, 40, 40)
	if at != (image.Point{}) {
		t.Fatalf("lies at %v", at)
	}
	if c := img.RGBAAt(2, 5); c.B != 255 || c.R != 0 {
		t.Errorf("on the left the blue one is nearer, got %v", c)
	}
	if c := img.RGBAAt(17, 5); c.R != 255 || c.B != 0 {
		t.Errorf("on the right the red one is nearer, got %v", c)
	}
	if img, _ := (Surface{}).raster(1, 40, 40); img != nil {
		t.Error("nothing was painted, and a picture came")
	}
	beyond := Surface{Vertices: []Vertex{{50, 0, 0, red}, {60, 0, 0, red}, {60, 10, 0, red}}, Triangles: []uint32{0, 1, 2}}
	if img, _ := beyond.raster(1, 40, 40); img != nil {
		t.Error("what lies beyond the sheet was painted")
	}
	half, _ := Surface{Vertices: []Vertex{{0, 0, 0, red}, {10.5, 0, 0, red}, {10.5, 10, 0, red}, {0, 10, 0, red}}, Triangles: []uint32{0, 1, 2, 0, 2, 3}}.raster(1, 40, 40)
	if a := half.RGBAAt(10, 5).A; a < 100 || a > 155 {
		t.Errorf("half a pixel is covered with alpha %d, want about 127", a)
	}
}
