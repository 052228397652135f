package portrait

import (
	"math"
	"slices"

	"ruffwright/geom/word"
)

// measure is one measure of a face: of women and of men, mm, with standard deviations.
//
// Height, breadth and pupils are ANSUR II (US Army, 2010 to 2012; 1,986 women and 4,082
// men), from its public records. The nose is one small study of nasion to subnasale, 47.6
// (3.1) and 51.0 (1.9) mm; its wider spread is taken for both.
type measure struct {
	kind        Kind
	label       word.Text
	women, men  [2]float64 // middle, standard deviation
	least, most float64    // what a wearer may measure, mm
	behind      float64    // how far it lies behind the nose's root, mm; common practice, no source
	across      bool       // the head's turn shortens it; otherwise its nod
}

var faces = []measure{
	{FaceHeight, word.Say("face height"), [2]float64{113.1, 6.09}, [2]float64{122.6, 6.67}, 60, 200, 0, false},
	{FaceBreadth, word.Say("face breadth"), [2]float64{133.8, 5.56}, [2]float64{142.6, 6.22}, 70, 220, 50, true},
	{Pupils, word.Say("distance of the pupils"), [2]float64{61.7, 3.62}, [2]float64{64.0, 3.42}, 30, 90, 15, true},
	{Nose, word.Say("height of the nose"), [2]float64{47.6, 3.1}, [2]float64{51.0, 3.32}, 25, 80, 0, false},
}

// alike is how the measures of faces go together within women and within men. That of
// height and breadth, 0.16, and of both with the pupils, 0.35, follow from how the mean of
// two and of three spreads in ANSUR II (3.75 and 3.7 %). A nose is part of a face's
// height: 0.5, and 0.2 with the rest, are our choice, no source.
var alike = [4][4]float64{
	{1, 0.16, 0.35, 0.5},
	{0.16, 1, 0.35, 0.2},
	{0.35, 0.35, 1, 0.2},
	{0.5, 0.2, 0.2, 1},
}

// face is the place of a kind in the tables; −1 for none.
func face(k Kind) int {
	return slices.IndexFunc(faces, func(m measure) bool { return m.kind == k })
}

// people gives the middle of the measures' logarithms (of mm), and how they spread: by
// four numbers that vary by themselves within a people, and by one that says whose face
// it is.
func people(whose string) (middle [4]float64, within [4][4]float64, between [4]float64) {
	var spread [4]float64
	for i, m := range faces {
		w, v := math.Log(m.women[0]), math.Log(m.men[0])
		ws, vs := m.women[1]/m.women[0], m.men[1]/m.men[0]
		switch whose {
		case "women":
			middle[i], spread[i] = w, ws
		case "men":
			middle[i], spread[i] = v, vs
		default:
			middle[i], spread[i], between[i] = (w+v)/2, math.Hypot(ws, vs)/math.Sqrt2, (v-w)/2
		}
	}
	// The Cholesky factor of alike, each row times its spread.
	for i := range 4 {
		for j := range i + 1 {
			sum := alike[i][j]
			for k := range j {
				sum -= within[i][k] * within[j][k]
			}
			if i == j {
				within[i][i] = math.Sqrt(sum)
			} else {
				within[i][j] = sum / within[j][j]
			}
		}
	}
	for i := range 4 {
		for j := range i + 1 {
			within[i][j] *= spread[i]
		}
	}
	return middle, within, between
}
