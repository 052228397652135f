package light

import (
	"math"
	"reflect"
	"testing"
)

// TestHalt: what is halted gives nothing; a bake that is halted goes on where it was, and
// ends with the same light to the last bit.
func TestHalt(t *testing.T) {
	c := NewCamera(20, 25)
	c.X, c.Y, c.Scale = 50, 50, 0.3
	s, whole := ruffle(40), ruffle(40)
	look := Look{Camera: c, W: 100, H: 100, PxPerMM: 1, Flat_px: 0.3}
	asked := 0
	look.Halt = func() bool { asked++; return false }
	if s.Draw(look) == nil {
		t.Fatal("wanted, it is not drawn")
	}
	for k := range asked {
		n := 0
		look.Halt = func() bool { n++; return n > k }
		if s.Draw(look) != nil || n != k+1 {
			t.Errorf("halted at the %d. time of %d it is drawn, or was asked %d times", k+1, asked, n)
		}
	}
	if asked < 4 {
		t.Errorf("asked %d times only", asked)
	}
	whole.Bake(nil)
	rounds := 0
	for n := 0; !s.Bake(func() bool { n++; return n > 5 }); n = 0 {
		if rounds++; s.baked != nil {
			t.Fatal("halted, it is baked")
		}
	}
	if rounds != axes/5 || !reflect.DeepEqual(*s.baked, *whole.baked) || s.baking != nil {
		t.Errorf("halted %d times the light is another", rounds)
	}
}

// TestThin: a thin scene has the nodes of the whole at its own, in fewer columns and
// rows, the ends among them; it covers what the whole does but for a few pixels at its
// edge; small sheets stay as they are.
func TestThin(t *testing.T) {
	s := ruffle(40)
	s.Sheets[0].Tone = make([]float32, len(s.Sheets[0].V))
	for k := range s.Sheets[0].Tone {
		s.Sheets[0].Tone[k] = float32(s.Sheets[0].V[k].X)
	}
	thin := s.Thin()
	if thin != s.Thin() {
		t.Error("it is made twice")
	}
	if err := thin.Check(); err != nil {
		t.Fatal(err)
	}
	was, now := s.Sheets[0], thin.Sheets[0]
	if 5*len(now.V) > len(was.V) || now.Hatch_mm != 0 || len(thin.Sheets[1].V) != len(s.Sheets[1].V) {
		t.Errorf("of %d nodes %d are left, of the small sheet's %d %d", len(was.V), len(now.V), len(s.Sheets[1].V), len(thin.Sheets[1].V))
	}
	for k, v := range now.V {
		if now.Tone[k] != float32(v.X) {
			t.Fatalf("node %d has another's tone", k)
		}
	}
	for _, r := range []int{0, 1} {
		for _, c := range []int{0, 1} {
			if was.V[c*(was.Cols-1)*was.Rows+r*(was.Rows-1)] != now.V[c*(now.Cols-1)*now.Rows+r*(now.Rows-1)] {
				t.Errorf("column %d, row %d end elsewhere", c, r)
			}
		}
	}
	c := NewCamera(20, 35)
	c.X, c.Y = 150, 150
	look := Look{Camera: c, W: 300, H: 300, PxPerMM: 1, WithoutLines: true}
	a, b := s.Draw(look), thin.Draw(look)
	covered, unlike := 0, 0
	for i := 3; i < len(a.Pix); i += 4 {
		covered += int(a.Pix[i]) / 255
		unlike += int(math.Abs(float64(a.Pix[i])-float64(b.Pix[i]))) / 255
	}
	if covered < 10000 || unlike > covered/50 {
		t.Errorf("of %d pixels %d are unlike", covered, unlike)
	}
}
