package pattern

import (
	"bytes"
	"encoding/csv"
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom/scheme"
)

var allUnits = []scheme.Units{scheme.Millimetres, scheme.Centimetres, scheme.Inches}

// Marks strictly increase, crests and troughs in turn; every rounded place is
// within half a step of its exact one, however far along; the last mark and the
// ends are the strip.
func TestMarksIncrease(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, err := New(drawPlan(t))
		if err != nil {
			t.Fatal(err)
		}
		for _, u := range allUnits {
			m := p.Marks(u)
			var last *Row
			marks, joins, quarters := 0, 0, 0
			before := math.Inf(-1)
			for i := range m.Rows {
				r := &m.Rows[i]
				for _, at := range []Place{r.Place, r.Raw, r.TuckA, r.TuckB} {
					// Half a step, and the 1e-9 of a step by which halves go up.
					if d := math.Abs(m.Rounded_mm(at) - at.Exact_mm); d > m.Step_mm*(0.5+1e-8) {
						t.Fatalf("%v: %+v is rounded by %v", u, at, d)
					}
				}
				if d := r.Raw.Exact_mm - r.Place.Exact_mm - m.Hem_mm; math.Abs(d) > 1e-9 {
					t.Fatalf("raw place %v of %v with a hem of %v", r.Raw.Exact_mm, r.Place.Exact_mm, m.Hem_mm)
				}
				if r.Place.Exact_mm < before {
					t.Fatalf("row %d at %v after %v", i, r.Place.Exact_mm, before)
				}
				before = r.Place.Exact_mm
				if r.Join {
					joins++
				}
				if r.Mark < 0 {
					if !r.Join || r.Fold != "" {
						t.Fatalf("row %+v is neither mark nor join", r)
					}
					continue
				}
				if r.Mark != marks {
					t.Fatalf("mark %d follows %d", r.Mark, marks-1)
				}
				marks++
				if r.Quarter {
					quarters++
				}
				if last != nil {
					if !(r.Place.Exact_mm > last.Place.Exact_mm) || r.Place.Steps < last.Place.Steps {
						t.Fatalf("mark %d at %+v after %+v", r.Mark, r.Place, last.Place)
					}
					if r.Place.Exact_mm-last.Place.Exact_mm > 1.01*m.Step_mm && r.Place.Steps <= last.Place.Steps {
						t.Fatalf("rounded mark %d at %+v after %+v", r.Mark, r.Place, last.Place)
					}
					if r.Fold == last.Fold {
						t.Fatalf("marks %d and %d are both %s", last.Mark, r.Mark, r.Fold)
					}
					if r.Tucked && last.Tucked && r.TuckA.Exact_mm < last.TuckB.Exact_mm {
						t.Fatalf("tucks of marks %d and %d overlap", last.Mark, r.Mark)
					}
				}
				if r.Tucked && !(r.TuckA.Exact_mm <= r.Place.Exact_mm && r.Place.Exact_mm <= r.TuckB.Exact_mm && r.TuckA.Exact_mm < r.TuckB.Exact_mm) {
					t.Fatalf("tuck of %+v", r)
				}
				last = r
			}
			if marks != len(p.Plan.Row) || joins != len(p.Cut.Joins) || quarters != len(p.Band.Pins) {
				t.Fatalf("%d marks, %d joins, %d quarters; want %d, %d, %d", marks, joins, quarters, len(p.Plan.Row), len(p.Cut.Joins), len(p.Band.Pins))
			}
			if last.Set != p.Plan.Sets {
				t.Fatalf("last set %d of %d", last.Set, p.Plan.Sets)
			}
			if got := last.Raw.Exact_mm + m.Hem_mm + p.Strip.Spare_mm; math.Abs(got-p.Strip.Length_mm) > 1e-9*got {
				t.Fatalf("last mark and ends give %v, the strip is %v", got, p.Strip.Length_mm)
			}
		}
	})
}

// The tables in mm, cm and inches say the same places: mm and cm exactly, inches
// within half a step of each, 0.25 mm + 1/64 in.
func TestTablesAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, err := New(drawPlan(t))
		if err != nil {
			t.Fatal(err)
		}
		mm, cm, in := csvOf(t, p, scheme.Millimetres), csvOf(t, p, scheme.Centimetres), csvOf(t, p, scheme.Inches)
		for i := 1; i < len(mm); i++ {
			for c := range mm[i] {
				if c < 4 || c > 7 {
					if mm[i][c] != cm[i][c] || mm[i][c] != in[i][c] {
						t.Fatalf("row %d column %s: %q, %q, %q", i, mm[0][c], mm[i][c], cm[i][c], in[i][c])
					}
					continue
				}
				if mm[i][c] == "" && cm[i][c] == "" && in[i][c] == "" {
					continue
				}
				a, b, d := number(t, mm[i][c]), 10*number(t, cm[i][c]), 25.4*number(t, in[i][c])
				if math.Abs(a-b) > 1e-9 {
					t.Fatalf("row %d: %v mm and %v cm", i, mm[i][c], cm[i][c])
				}
				if math.Abs(a-d) > 0.25+25.4/64+1e-6 {
					t.Fatalf("row %d: %v mm and %v in", i, mm[i][c], in[i][c])
				}
			}
		}
	})
}

func number(t *rapid.T, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatalf("%q is no number", text)
	}
	return v
}

func csvOf(t *rapid.T, p Pattern, u scheme.Units) [][]string {
	var b bytes.Buffer
	if err := p.AsCSV(&b, u); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// RFC 4180: CRLF after every line, the same number of fields in each; the unit is
// in the header; the first lines by hand (marks every 30.25 mm, hem 2 × 2 mm,
// tucks of 5 mm; a half way place goes up).
func TestCSVByHand(t *testing.T) {
	sets := [][2]string{{"pleat.panel", "30.25"}, {"pleat.tuck_top", "5"}, {"pleat.tuck_bottom", "5"}}
	for _, c := range []struct {
		u    scheme.Units
		want string
	}{
		{scheme.Millimetres, "mark,set,fold,sewn to,from hemmed end (mm),from raw end (mm),tuck from (mm),tuck to (mm),quarter,join,piece\r\n" +
			"1,1,trough,bottom,0.0,4.0,0.0,5.0,yes,no,1\r\n" +
			"2,1,crest,top,30.5,34.5,25.5,35.5,no,no,1\r\n" +
			"3,2,trough,bottom,60.5,64.5,55.5,65.5,no,no,1\r\n"},
		{scheme.Centimetres, "mark,set,fold,sewn to,from hemmed end (cm),from raw end (cm),tuck from (cm),tuck to (cm),quarter,join,piece\r\n" +
			"1,1,trough,bottom,0.00,0.40,0.00,0.50,yes,no,1\r\n" +
			"2,1,crest,top,3.05,3.45,2.55,3.55,no,no,1\r\n"},
		// 30.25 mm = 38.11/32 in, 34.25 = 43.15, 25.25 = 31.81, 35.25 = 44.41
		{scheme.Inches, "mark,set,fold,sewn to,from hemmed end (in),from raw end (in),tuck from (in),tuck to (in),quarter,join,piece\r\n" +
			"1,1,trough,bottom,0.00000,0.15625,0.00000,0.18750,yes,no,1\r\n" +
			"2,1,crest,top,1.18750,1.34375,1.00000,1.37500,no,no,1\r\n"},
	} {
		var b bytes.Buffer
		if err := made(t, sets...).AsCSV(&b, c.u); err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(b.String(), c.want) {
			t.Errorf("%v:\n%s\nwant\n%s", c.u, b.String()[:min(len(c.want), b.Len())], c.want)
		}
		if lf, crlf := strings.Count(b.String(), "\n"), strings.Count(b.String(), "\r\n"); lf != crlf || lf != 82 {
			t.Errorf("%v: %d line ends, %d of them CRLF, want 82", c.u, lf, crlf)
		}
	}
	if err := made(t).AsCSV(full{}, scheme.Millimetres); !errors.Is(err, errFull) {
		t.Errorf("a full disk: %v", err)
	}
}

var errFull = errors.New("full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

// Text is for people: fractions of an inch in lowest terms, decimals otherwise.
func TestText(t *testing.T) {
	p := made(t)
	for _, c := range []struct {
		u     scheme.Units
		steps int
		want  string
	}{
		{scheme.Millimetres, 2469, "1234.5"}, {scheme.Centimetres, 2469, "123.45"},
		{scheme.Inches, 48*32 + 19, "48 19/32"}, {scheme.Inches, 48*32 + 16, "48 1/2"}, {scheme.Inches, 64, "2"}, {scheme.Inches, 0, "0"},
	} {
		if got := p.Marks(c.u).Text(Place{Steps: c.steps}); got != c.want {
			t.Errorf("%d steps in %v: %q, want %q", c.steps, c.u, got, c.want)
		}
	}
}

// Rounded one by one the last of 160 marks is within half a step; stepped off by
// a rounded panel it would be off by many. This is what the table is for.
func TestRoundingDoesNotDrift(t *testing.T) {
	p := made(t, [2]string{"ruff.sets", "80"}, [2]string{"pleat.panel", "40.2"})
	m := p.Marks(scheme.Millimetres)
	var last Row
	for _, r := range m.Rows {
		if r.Mark == 160 {
			last = r
		}
	}
	if d := math.Abs(m.Rounded_mm(last.Place) - 160*40.2); d > 0.25 {
		t.Errorf("last mark is off by %v mm", d)
	}
	stepped := float64(m.Rows[1].Place.Steps) * m.Step_mm * 160
	if d := math.Abs(stepped - 160*40.2); d < 30 {
		t.Errorf("stepped off, the last mark is off by only %v mm: this test shows nothing", d)
	}
}
