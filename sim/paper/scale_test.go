package paper

import (
	"bytes"
	"fmt"
	"math"
	"runtime"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
	"ruffwright/geom/draw"
	"ruffwright/geom/scheme"
	"ruffwright/sim/paper/sheet"
)

// printed is a sheet as it comes out of a printer that stretches by the given
// factors about the paper's middle, in the live area's mm.
type printed struct {
	painted
	px, py float64
}

func (p printed) at(q draw.Point) draw.Point {
	return draw.Point{
		X: (q.X-p.wide/2)*p.px + sheet.Live_mm/2,
		Y: (q.Y-p.high/2)*p.py + sheet.LiveHigh_mm/2,
	}
}

// read holds what prints has read already, since every test looks at the same
// sheets.
var read = map[string]*printing{}

type printing struct {
	in     Input
	sheets []printed
	pages  []sheet.Page
}

// prints gives every case, on one paper or the other, and on a printer that is off.
func prints(t *testing.T, f func(t *testing.T, in Input, sheets []printed, pages []sheet.Page)) {
	all := cases()
	for _, v := range []struct {
		of      int
		paper   Paper
		printer Printer
	}{{0, A4, Printer{}}, {1, Letter, Printer{}}, {2, A4, Printer{}}, {0, Letter, Printer{Wide_mm: 95, High_mm: 104.5}}} {
		if runtime.GOOS == "js" && (v.of != 0 || v.paper != A4) {
			continue // read back natively; here one run shows that the target makes the same sheets
		}
		c := all[v.of]
		name := fmt.Sprintf("%s/%s/%g", c.name, v.paper, v.printer.Wide_mm)
		if read[name] == nil {
			in := input(t, c.set, c.u)
			in.Paper, in.Printer = v.paper, v.printer
			fx, fy, err := in.Printer.factors()
			if err != nil {
				t.Fatal(err)
			}
			raw, _ := readPDF(t, pdfOf(t, in))
			pages, err := Pages(in)
			if err != nil {
				t.Fatal(err)
			}
			sheets := make([]printed, len(raw))
			for i, s := range raw {
				sheets[i] = printed{s, 1 / fx, 1 / fy}
			}
			read[name] = &printing{in, sheets, pages}
		}
		t.Run(name, func(t *testing.T) {
			p := read[name]
			if len(p.sheets) != len(p.pages) || len(p.pages) == 0 {
				t.Fatalf("%d pages in the PDF, %d laid out", len(p.sheets), len(p.pages))
			}
			f(t, p.in, p.sheets, p.pages)
		})
	}
}

// TestScale measures the square and the bars as they lie in the PDF: 1 mm is
// 72/25.4 pt within 0.02 %, on every sheet, each way, and on a printer that is off
// they come out true.
func TestScale(t *testing.T) {
	prints(t, func(t *testing.T, in Input, sheets []printed, pages []sheet.Page) {
		want := func(page int, what string, wide, high float64) {
			t.Helper()
			s := sheets[page]
			for _, q := range s.strokes {
				x0, y0, x1, y1 := q.box()
				w, h := (x1-x0)*s.px, (y1-y0)*s.py
				near := func(a, b float64) bool { return math.Abs(a-b) <= math.Max(2e-4*b, 1e-9) }
				if near(w, wide) && near(h, high) {
					return
				}
			}
			t.Errorf("sheet %d: no %s of %g × %g mm within 0.02 %%", page+1, what, wide, high)
		}
		wide, high := papers[in.Paper].wide, papers[in.Paper].high
		for i, s := range sheets {
			if math.Abs(s.wide-wide) > 0.005 || math.Abs(s.high-high) > 0.005 { // MediaBox is written to 0.01 pt
				t.Errorf("sheet %d is %g × %g mm, want %g × %g", i+1, s.wide, s.high, wide, high)
			}
			across, up := 50.0, 15.0
			if in.Units == scheme.Inches {
				across, up = 50.8, 12.7
			}
			want(i, "check bar across", across, 0)
			want(i, "check bar up", 0, up)
		}
		want(0, "square", 100, 100)
		want(0, "4 in bar", 101.6, 0)
		want(0, "long bar across", 180, 0)
		want(0, "long bar up", 0, 220)
	})
}

// TestLiveArea: no line, with half its width, no letter and no picture reaches out
// of the live area, as printed; and the live area keeps 10 mm from either paper's
// edge.
func TestLiveArea(t *testing.T) {
	for _, p := range papers {
		if (p.wide-sheet.Live_mm)/2 < 10 || (p.high-sheet.LiveHigh_mm)/2 < 10 {
			t.Errorf("%s: margins below 10 mm", p.name)
		}
	}
	prints(t, func(t *testing.T, in Input, sheets []printed, pages []sheet.Page) {
		for i, s := range sheets {
			for _, q := range s.strokes {
				for _, v := range q.pts {
					p, r := s.at(v), q.width/2
					if d := outside(p.X-r, p.Y-r, p.X+r, p.Y+r); d > 0.3 { // half a bold line on the edge itself
						t.Fatalf("sheet %d %s: a line reaches %.2f mm out, at %.1f, %.1f", i+1, pages[i].Title, d, p.X, p.Y)
					}
				}
			}
			for _, w := range s.words {
				p := s.at(w.at)
				size := w.size * s.py
				wide := math.Min(draw.TextWidth(w.text, size, draw.Upright), draw.TextWidth(w.text, size, draw.Italic))
				if d := outside(p.X, p.Y-0.75*size, p.X+wide*0.97, p.Y+0.21*size); d > 0.3 {
					t.Errorf("sheet %d %s: %q reaches %.2f mm out", i+1, pages[i].Title, w.text, d)
				}
			}
			for _, q := range s.pictures {
				a, b := s.at(draw.Point{X: q[0], Y: q[1]}), s.at(draw.Point{X: q[2], Y: q[3]})
				if d := outside(a.X, a.Y, b.X, b.Y); d > 0.125 { // the last dot of a picture is cut by its clip
					t.Errorf("sheet %d: a picture reaches %.2f mm out", i+1, d)
				}
			}
		}
	})
}

// TestTapePlaces reads the tapes back from the PDF: every mark lies within 0.1 mm
// of its place on the strip, on every tape that shows it; no mark is missing; the
// tapes less their overlaps are as long as the strip.
func TestTapePlaces(t *testing.T) {
	prints(t, func(t *testing.T, in Input, sheets []printed, pages []sheet.Page) {
		tiles := sheet.Tiles(in.Ruff.Plan.Marked_mm, in.Units)
		seen := map[int]bool{} // marks
		sum, next := 0.0, 0
		worst := 0.0
		for i, s := range sheets {
			if pages[i].Sheet != "tape" {
				continue
			}
			for _, w := range s.words {
				var n, of int
				if _, err := fmt.Sscanf(w.text, "tape %d of %d", &n, &of); err != nil || !strings.Contains(w.text, "lay this end at") {
					continue
				}
				if n != next+1 || of != len(tiles) {
					t.Fatalf("sheet %d: tape %d of %d, want %d of %d", i+1, n, of, next+1, len(tiles))
				}
				tile := tiles[next]
				next++
				top := s.at(w.at).Y - 3.2 + tapeHead_mm
				size := 0.0
				for _, q := range s.strokes {
					x0, y0, x1, y1 := q.box()
					a, b := s.at(draw.Point{X: x0, Y: y0}), s.at(draw.Point{X: x1, Y: y1})
					if math.Abs(a.Y-top) > 0.05 {
						continue
					}
					switch {
					case q.closed && math.Abs(b.Y-a.Y-tapeHigh_mm) < 0.02:
						size = b.X - a.X
					case len(q.pts) == 2 && b.X-a.X < 0.01 && math.Abs(b.Y-a.Y-5.7) < 0.02 && q.width > 0.4/s.px:
						place := tile.From_mm + a.X
						best, off := -1, math.Inf(1)
						for k, m := range in.Ruff.Plan.Row {
							if d := math.Abs(m.Place_mm - place); d < off {
								best, off = k, d
							}
						}
						worst = math.Max(worst, off)
						if off > 0.1 {
							t.Errorf("tape %d: a mark at %.2f mm, the nearest of the plan %.2f mm away", n, place, off)
						}
						seen[best] = true
					}
				}
				if math.Abs(size-(tile.To_mm-tile.From_mm)) > 0.05 {
					t.Fatalf("tape %d is %.2f mm long, want %.2f", n, size, tile.To_mm-tile.From_mm)
				}
				sum += size
			}
		}
		if next != len(tiles) {
			t.Fatalf("%d tapes, want %d", next, len(tiles))
		}
		if len(seen) != len(in.Ruff.Plan.Row) {
			t.Errorf("%d of %d marks are on the tapes", len(seen), len(in.Ruff.Plan.Row))
		}
		if whole := sum - sheet.TileOverlap(in.Units)*float64(len(tiles)-1); math.Abs(whole-in.Ruff.Plan.Marked_mm) > 0.01*float64(len(tiles)) {
			t.Errorf("the tapes make %.2f mm, the strip has %.2f", whole, in.Ruff.Plan.Marked_mm)
		}
		t.Logf("%d tapes, worst mark %.4f mm off", len(tiles), worst)
	})
}

// TestBandTiles reads the band back: the quarter marks and the cut ends lie within
// 0.1 mm of their places.
func TestBandTiles(t *testing.T) {
	prints(t, func(t *testing.T, in Input, sheets []printed, pages []sheet.Page) {
		b := in.Pattern.Band
		tiles := sheet.Tiles(b.CutLong_mm, in.Units)
		found := map[int]int{}
		ends := 0
		n := 0
		for i, s := range sheets {
			if pages[i].Sheet != "band" {
				continue
			}
			for _, w := range s.words {
				if !strings.HasPrefix(w.text, "band, tile") {
					continue
				}
				tile := tiles[n]
				n++
				top := s.at(w.at).Y + 1.2
				for _, q := range s.strokes {
					x0, y0, x1, y1 := q.box()
					a, c := s.at(draw.Point{X: x0, Y: y0}), s.at(draw.Point{X: x1, Y: y1})
					if c.X-a.X > 0.01 || a.Y < top-0.05 || c.Y > top+b.CutWide_mm+0.05 {
						continue
					}
					place := tile.From_mm + a.X
					switch high := c.Y - a.Y; {
					case math.Abs(high-(b.CutWide_mm-2*b.Seam_mm)) < 0.02:
						for k, m := range b.Marks {
							if math.Abs(m.X_mm-place) < 0.1 {
								found[k]++
							}
						}
					case math.Abs(high-b.CutWide_mm) < 0.02 && q.width*s.px > 0.4:
						if math.Abs(place) < 0.1 || math.Abs(place-b.CutLong_mm) < 0.1 {
							ends++
						}
					}
				}
			}
		}
		if n != len(tiles) || len(found) != len(b.Marks) || ends < 2 {
			t.Errorf("%d of %d tiles, %d of %d quarter marks, %d cut ends", n, len(tiles), len(found), len(b.Marks), ends)
		}
	})
}

// TestPrintScaling: the PDF asks for no scaling, and says the same each time.
func TestPrintScaling(t *testing.T) {
	in := input(t, cases()[0].set, scheme.Centimetres)
	pdf := pdfOf(t, in)
	if again := pdfOf(t, in); !bytes.Equal(pdf, again) {
		t.Error("the same input gave other bytes")
	}
	_, ctx := readPDF(t, pdf)
	root, err := ctx.Catalog()
	if err != nil {
		t.Fatal(err)
	}
	prefs, ok := root.Find("ViewerPreferences")
	if !ok {
		t.Fatal("no viewer preferences")
	}
	d, err := ctx.DereferenceDict(prefs)
	if err != nil {
		t.Fatal(err)
	}
	if v, _ := d.Find("PrintScaling"); v != types.Name("None") {
		t.Errorf("PrintScaling is %v, want None", v)
	}
}
