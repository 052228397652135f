package scheme

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

func TestLook(t *testing.T) {
	s := with(t, "wearer.face", "118", "look.depth_ratio", "0.6", "look.height_ratio", "0.4", "look.quarter", "11")
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	f := s.Filled()
	if math.Abs(f.Ruff.Depth-70.8) > 1e-12 || math.Abs(f.Ruff.Height-47.2) > 1e-12 || f.Ruff.Sets != 44 {
		t.Errorf("%+v", f.Ruff)
	}
	e := FaceError(s)
	if math.Abs(e.Depth_mm-70.8*0.054) > 1e-9 || math.Abs(e.Height_mm-47.2*0.054) > 1e-9 || e.Relative != 0.054 {
		t.Errorf("%+v", e)
	}
	if e := FaceError(Default()); e.Relative != 0 || e.Depth_mm != 0 || e.Height_mm != 0 {
		t.Errorf("no look, but %+v", e)
	}
	if e := FaceError(with(t, "wearer.face", "118", "look.height_ratio", "0.4")); e.Depth_mm != 0 || e.Height_mm == 0 {
		t.Errorf("%+v", e)
	}
	s.Wearer.Face = math.NaN() // not valid; the error of it is still a number
	if e := FaceError(s); math.IsNaN(e.Depth_mm) || math.IsNaN(e.Height_mm) {
		t.Errorf("%+v", e)
	}
}

// The spread of one face measure and the neck's range, against figures
// computed from the public ANSUR II records.
func TestAnsur(t *testing.T) {
	file, err := os.Open("testdata/anthropometry_ansur2.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := func(row []string, col string) float64 {
		for i, name := range rows[0] {
			if name == col {
				v, err := strconv.ParseFloat(row[i], 64)
				if err != nil {
					t.Fatal(err)
				}
				return v
			}
		}
		t.Fatalf("no column %s", col)
		return 0
	}
	girth, _ := Lookup("wearer.girth")
	face, _ := Lookup("wearer.face")
	seen := 0
	for _, row := range rows[1:] {
		switch row[0] {
		case "mentonsellionlength":
			seen++
			if cv := at(row, "sd") / at(row, "mean"); math.Abs(cv-faceError) > 0.001 {
				t.Errorf("face height %s: %.4f, want %.3f", row[1], cv, faceError)
			}
			if !face.InRange(at(row, "min")) || !face.InRange(at(row, "max")) {
				t.Errorf("faces %s run out of the range", row[1])
			}
		case "neckcircumference":
			seen++
			if g := girth.For(Default()); !g.InRange(at(row, "min")) || !g.InRange(at(row, "max")) {
				t.Errorf("necks %s run out of the range", row[1])
			}
		}
	}
	if seen != 4 {
		t.Errorf("%d rows read, want 4", seen)
	}
}

// Each cloth's figures are in the fields' ranges and in the ranges gathered for
// it (least and most of mass, thickness, bending length warp and weft),
// transcribed here apart from the table.
func TestCloths(t *testing.T) {
	gathered := map[string][8]float64{
		"linen lawn": {90, 120, .18, .28, 22, 32, 20, 28}, "cotton cambric": {80, 120, .15, .22, 17, 25, 15, 22},
		"holland": {120, 160, .25, .35, 25, 35, 22, 30}, "cotton batiste": {55, 80, .10, .16, 15, 22, 13, 20},
		"cotton lawn": {60, 85, .12, .18, 15, 24, 14, 20}, "cotton voile": {50, 80, .12, .20, 13, 20, 12, 18},
		"cotton muslin": {0, 68, .12, .22, 12, 20, 11, 18}, "cotton organdie": {40, 60, .08, .14, 35, 55, 30, 50},
		"silk organza": {12, 35, .05, .12, 28, 45, 25, 40}, "medium linen": {150, 190, .30, .45, 27, 40, 25, 35},
	}
	for _, c := range cloths {
		r, ok := gathered[c.Name]
		if !ok {
			t.Errorf("%s: is not gathered", c.Name)
			continue
		}
		for i, v := range []float64{c.Mass, c.Thickness, c.BendWarp, c.BendWeft} {
			if mid := (r[2*i] + r[2*i+1]) / 2; math.Abs(v-mid) > 1e-9 && c.Name != "cotton muslin" || v < r[2*i] || v > r[2*i+1] {
				t.Errorf("%s: figure %d is %g, gathered %g to %g", c.Name, i, v, r[2*i], r[2*i+1])
			}
		}
		for key, v := range map[string]float64{"cloth.mass": c.Mass, "cloth.thickness": c.Thickness, "cloth.bend_warp": c.BendWarp, "cloth.bend_weft": c.BendWeft} {
			if f, _ := Lookup(key); !f.InRange(v) {
				t.Errorf("%s: %g is outside %s", c.Name, v, key)
			}
		}
		s := with(t, "cloth.name", c.Name, "cloth.mass", "99")
		if f := s.Filled(); f.Cloth.Mass != 99 || f.Cloth.BendWeft != c.BendWeft {
			t.Errorf("%s: measured mass became %+v", c.Name, f.Cloth)
		}
	}
	if len(cloths) != len(gathered) {
		t.Errorf("%d cloths, want %d", len(cloths), len(gathered))
	}
	if _, ok := ClothNamed("sailcloth"); ok {
		t.Error("sailcloth found")
	}
}
