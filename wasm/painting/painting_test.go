package painting

import (
	"context"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"ruffwright/geom"
	"ruffwright/geom/draw"
	"ruffwright/geom/light"
	"ruffwright/wasm/frame"
	"ruffwright/wasm/page/screen"
)

// fill puts something into every field that a value has, numbers that a float32 holds.
func fill(v reflect.Value, dice *rand.Rand) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				fill(v.Field(i), dice)
			}
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fallthrough
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i), dice)
		}
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Float32, reflect.Float64:
		v.SetFloat(float64(1+dice.IntN(1000)) / 8)
	case reflect.Uint8:
		v.SetUint(uint64(1 + dice.IntN(255)))
	case reflect.Int:
		v.SetInt(int64(1 + dice.IntN(9)))
	}
}

// filled is a scene with something in every field of light.Scene.
func filled() *light.Scene {
	s := &light.Scene{}
	fill(reflect.ValueOf(s).Elem(), rand.New(rand.NewPCG(5, 5)))
	for i := range s.Sheets {
		t := &s.Sheets[i]
		t.Cols, t.Rows, t.V = 2, 3, make([]geom.Vec3, 6)
		t.Pick, t.Tone = make([]float32, 6), make([]float32, 6)
		for k := range t.V {
			t.V[k] = geom.Vec3{X: float64(k), Y: 0.5, Z: -float64(k * i)}
			t.Pick[k], t.Tone[k] = float32(k)/4, 1
		}
	}
	return s
}

// TestScene: nothing of a scene is lost on the way; what is cut off or goes on is none.
func TestScene(t *testing.T) {
	want := filled()
	b := appendScene(nil, want)
	got, err := readScene(b)
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("%v: read %+v, want %+v", err, got.Threads, want.Threads)
	}
	for n := 0; n < len(b); n += 37 {
		if _, err := readScene(b[:n]); err == nil {
			t.Fatalf("cut off after %d of %d bytes it is read", n, len(b))
		}
	}
	if _, err := readScene(append(b, 0, 0, 0, 0)); err == nil {
		t.Error("read with bytes left over")
	}
}

// heard keeps the painter's answers.
func heard(t *testing.T) (*Painter, *[]Painted, *[][]byte) {
	var all []Painted
	var bodies [][]byte
	p := New(func(head string, body []byte) {
		of, err := ReadPainted(head, body)
		if err != nil {
			t.Fatal(err)
		}
		all, bodies = append(all, of), append(bodies, body)
	})
	return p, &all, &bodies
}

// TestPainter: it says that it is alive, paints what the page's own thread paints of the
// same solid, knows a scene by its key until it is told to drop it, and answers what it
// cannot paint.
func TestPainter(t *testing.T) {
	p, said, bodies := heard(t)
	eye := draw.NewEye(10, 20)
	eye.X, eye.Y, eye.Scale = 40, 40, 1
	scene := filled()
	wish := Wish{
		Width_mm: 80, Height_mm: 80, Place: screen.On(160, 160, 2, draw.Point{X: 40, Y: 40}),
		New: []*light.Scene{scene}, Keys: []int{4},
		Solids: []Solid{{Scene: 4, Camera: eye.Camera, Faint: 0.25, Plain: true}},
	}
	ask := func(w Wish) {
		head, body, err := w.Encode()
		if err != nil {
			t.Fatal(err)
		}
		p.Take(head, body)
	}
	ask(wish)
	wish.New, wish.Keys = nil, nil
	ask(wish)
	wish.Drop = []int{4}
	ask(wish)
	p.Take("{", nil)
	wish.Place.Width = 1 << 20
	ask(wish)
	if len(*said) != 6 || !(*said)[0].Alive {
		t.Fatalf("%d answers: %+v", len(*said), *said)
	}
	items, pixels := screen.Solid(draw.Solid{Scene: scene, Eye: eye, Faint: 0.25, Plain: true}, 80, 80, screen.On(160, 160, 2, draw.Point{X: 40, Y: 40}))
	want := string(frame.AppendItems(nil, items)) + string(pixels)
	for _, i := range []int{1, 2} {
		if got := (*said)[i]; got.Counts[0] != len(items) || got.Pixels != len(pixels) || string((*bodies)[i]) != want {
			t.Errorf("answer %d has %v items, %d bytes of pixels; here there are %d and %d", i, got.Counts, got.Pixels, len(items), len(pixels))
		}
	}
	if (*said)[3].Why == "" || !strings.Contains((*said)[3].Why, "no scene 4") || (*said)[4].Why == "" || (*said)[5].Why == "" {
		t.Errorf("what cannot be painted is answered %+v", (*said)[3:])
	}
}

// FuzzTake: whatever comes, the painter answers once and goes on.
func FuzzTake(f *testing.F) {
	head, body, err := Wish{
		Width_mm: 80, Height_mm: 80, Place: screen.On(16, 16, 0.2, draw.Point{X: 40, Y: 40}),
		New: []*light.Scene{{}}, Keys: []int{4}, Solids: []Solid{{Scene: 4, Camera: light.NewCamera(1, 2), Plain: true}},
	}.Encode()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(head, body)
	f.Add(`{"Keys":[1],"Size":[-1]}`, []byte{1})
	f.Fuzz(func(t *testing.T, head string, body []byte) {
		answers := 0
		p := New(func(string, []byte) { answers++ })
		p.Take(head, body)
		if answers != 2 {
			t.Errorf("%d answers", answers)
		}
	})
}

// FuzzReadPainted: no answer makes it panic; what is read lies within the body.
func FuzzReadPainted(f *testing.F) {
	f.Add(`{"Counts":[1],"Bytes":[2],"Pixels":1}`, []byte{1, 2, 3})
	f.Fuzz(func(t *testing.T, head string, body []byte) {
		if p, err := ReadPainted(head, body); err == nil && (p.Pixels < 0 || p.Pixels > len(body)) {
			t.Errorf("%d bytes of pixels in %d", p.Pixels, len(body))
		}
	})
}

// TestServe: a full picture is left when another wish comes, a plain one is not; wishes
// are answered in their order, each once.
func TestServe(t *testing.T) {
	var said []Painted
	done := make(chan struct{}, 9)
	p := New(func(head string, body []byte) {
		of, err := ReadPainted(head, body)
		if err != nil {
			t.Error(err)
		}
		said = append(said, of)
		done <- struct{}{}
	})
	<-done
	eye := draw.NewEye(10, 20)
	eye.X, eye.Y, eye.Scale = 40, 40, 1
	wish := func(plain bool, scenes ...*light.Scene) (string, []byte) {
		w := Wish{
			Width_mm: 80, Height_mm: 80, Place: screen.On(160, 160, 2, draw.Point{X: 40, Y: 40}), New: scenes,
			Solids: []Solid{{Scene: 4, Camera: eye.Camera, Plain: plain}},
		}
		if scenes != nil {
			w.Keys = []int{4}
		}
		head, body, err := w.Encode()
		if err != nil {
			t.Fatal(err)
		}
		return head, body
	}
	yields := 0
	yield := func() {
		if yields++; yields == 3 { // in the midst of the full picture
			p.Hear(wish(true))
			p.Hear(wish(true))
		}
	}
	ctx, end := context.WithCancel(context.Background())
	p.Hear(wish(false, filled()))
	go p.Serve(ctx, yield)
	for range 3 {
		<-done
	}
	p.Hear(wish(false))
	<-done
	end()
	for i, late := range []bool{false, true, false, false, false} {
		if said[i].Late != late || said[i].Why != "" || i > 1 && said[i].Counts == nil {
			t.Errorf("answer %d: %+v, want late %v", i, said[i], late)
		}
	}
}
