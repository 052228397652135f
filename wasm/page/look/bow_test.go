package look

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/window"
	"ruffwright/wasm/doc"
)

// bowing looks at a ruff whose bow is solved.
func bowing(t *testing.T) *Look {
	t.Helper()
	l := newLook(t)
	r, err := sim.Settle(context.Background(), *l.A, sim.Options{Grid: window.Coarse, SkipTangents: true, SkipOther: true, SkipFiner: true})
	if err != nil || r.Solved.Bowed == nil {
		t.Fatal("no bow", err)
	}
	l.A.Solved = r.Solved
	return l
}

func solids(t *testing.T, l *Look) (all []draw.Solid) {
	t.Helper()
	d, _, _, err := l.Picture()
	if err != nil {
		t.Fatal(err)
	}
	for _, it := range d.Items {
		if s, ok := it.(draw.Solid); ok {
			all = append(all, s)
		}
	}
	return all
}

// The wearer bows in half a second, over a ghost that stays, and the reader is led
// aside; standing up leads back. Under reduced motion both are at once.
func TestBows(t *testing.T) {
	for _, calm := range []bool{false, true} {
		l := bowing(t)
		l.Calm = calm
		was := l.camera
		if n := len(solids(t, l)); n != 1 {
			t.Fatalf("upright %d solid things", n)
		}
		l.At_ms = 1000
		patches, _ := l.Do("pose", "bow", 1000)
		if !calm {
			if len(patches) != 1 || patches[0].Op != doc.OpTimer || l.bow(l.A) != 0 || l.led() != was {
				t.Fatalf("it begins with %v, bowed by %g", patches, l.bow(l.A))
			}
			last := 0.0
			for at := 1016.0; at < 1000+bow_ms; at += 60 {
				l.At_ms = at
				if l.Frame(at); l.bow(l.A) <= last || l.bow(l.A) >= sim.Bow_deg {
					t.Fatalf("after %g ms it bows by %g, before by %g", at-1000, l.bow(l.A), last)
				}
				last = l.bow(l.A)
				if len(solids(t, l)) != 2 {
					t.Fatal("no ghost on the way")
				}
			}
			l.At_ms = 1000 + bow_ms
			l.Frame(l.At_ms)
		}
		if l.bow(l.A) != sim.Bow_deg || l.settling.going || len(solids(t, l)) != 2 {
			t.Fatalf("calm %v: in the end it bows by %g", calm, l.bow(l.A))
		}
		if c := l.led(); c.Turn_deg != asideTurn_deg || c.Tilt_deg != asideTilt_deg || c.Zoom != was.Zoom {
			t.Errorf("calm %v: seen from %+v", calm, c)
		}
		l.Do("pose", "rest", 9000)
		l.Frame(9000 + bow_ms)
		if l.At_ms = 9000 + bow_ms; l.bow(l.A) != 0 || l.led() != was {
			t.Errorf("calm %v: upright again it is seen from %+v, before from %+v", calm, l.led(), was)
		}
	}
}

// Who turns the ruff while its wearer bows is not led back; and the ruff bows to the side
// that the reader is nearer to.
func TestBowLeavesTheReader(t *testing.T) {
	l := bowing(t)
	l.Calm = true
	l.camera.Turn_deg = 200
	l.Do("pose", "bow", 0)
	if l.camera.Turn_deg != 360-asideTurn_deg {
		t.Errorf("from 200 degrees it is seen from %g", l.camera.Turn_deg)
	}
	l.Key("ArrowRight", false)
	turned := l.camera
	if l.Key("Home", false); l.camera.Tilt_deg != asideTilt_deg {
		t.Errorf("Home shows a bow from %g degrees above", l.camera.Tilt_deg)
	}
	l.camera = turned
	l.Do("pose", "rest", 0)
	if l.camera != turned {
		t.Error("it was turned back")
	}
}

// The scene of a still ruff is the same however it is turned, and on the way another.
func TestSceneIsKept(t *testing.T) {
	l := bowing(t)
	first := solids(t, l)[0].Scene
	l.Key("ArrowRight", false)
	l.Key("ArrowUp", true)
	l.Key("+", false)
	if solids(t, l)[0].Scene != first {
		t.Error("turned, it is another scene")
	}
	l.At_ms = 10
	l.Do("pose", "bow", 10)
	l.At_ms = 100
	if solids(t, l)[1].Scene == first {
		t.Error("bowing, it is the same scene")
	}
	l.B = l.A
	l.Do("pose", "rest", 2000)
	l.settling.going = false
	a := solids(t, l)
	if l.Key("ArrowLeft", false); len(a) != 2 || solids(t, l)[0].Scene != a[0].Scene || solids(t, l)[1].Scene != a[1].Scene {
		t.Error("of two side by side, turned, the scenes are others")
	}
}

// Two fingers that go the same way move the ruff by as much, Shift and an arrow by a
// step, Shift and a drag as well; Home brings it back.
func TestPan(t *testing.T) {
	l := newLook(t)
	at := func() draw.Point { e := solids(t, l)[0].Eye; return draw.Pt(e.X, e.Y) }
	start := at()
	l.Move(doc.Pointer, "down", "1 100 100")
	l.Move(doc.Pointer, "down", "2 200 100")
	for i := 1.0; i <= 30; i++ {
		for id := 1.0; id <= 2; id++ {
			l.Move(doc.Pointer, "move", fmt.Sprint(id, " ", 100*id+i, " ", 100+i*2/3))
		}
	}
	l.Move(doc.Pointer, "up", "1 0 0")
	l.Move(doc.Pointer, "up", "2 0 0")
	k := l.pixels()
	if p := at(); math.Abs((p.X-start.X)*k-30) > 1 || math.Abs((p.Y-start.Y)*k-20) > 1 || math.Abs(l.camera.Zoom-1) > 0.1 {
		t.Errorf("two fingers by 30, 20 px move it by %.1f, %.1f px, zoom %g", (p.X-start.X)*k, (p.Y-start.Y)*k, l.camera.Zoom)
	}
	l.Key("Home", false)
	l.Move(doc.Pointer, "down", "1 100 100")
	turn := l.camera.Turn_deg
	l.Move(doc.Pointer, "move", "1 140 90 shift")
	if p := at(); math.Abs((p.X-start.X)*k-40) > 0.5 || math.Abs((p.Y-start.Y)*k+10) > 0.5 || l.camera.Turn_deg != turn {
		t.Errorf("with Shift a drag by 40, -10 px moves it by %.1f, %.1f px", (p.X-start.X)*k, (p.Y-start.Y)*k)
	}
	l.Key("Home", false)
	l.Key("ArrowUp", true)
	if p := at(); p.X != start.X || math.Abs((start.Y-p.Y)*k-600*shareOfSheetPerKey) > 0.5 {
		t.Errorf("Shift and an arrow up move it by %.1f px", (start.Y-p.Y)*k)
	}
	for range 100 {
		l.Key("ArrowLeft", true)
	}
	if l.camera.PanX_mm != -farthestPan_mm {
		t.Errorf("it goes %g mm away", l.camera.PanX_mm)
	}
	if l.Key("Home", false); at() != start {
		t.Error("Home does not bring it back")
	}
}

// A place that a finding speaks of is brought before the reader: its mark, or where its
// kind of place is seen; the ruff stays as large as it is.
func TestShowsWhere(t *testing.T) {
	l := newLook(t)
	m := len(l.A.Plan.Row) / 3
	l.Findings[0] = []check.Finding{
		{ID: "x", Severity: check.Stop, Where: check.WhereOuter, At: []int{m + 1}},
		{ID: "y", Severity: check.Stop, Where: check.WhereSupport},
		{ID: "z", Severity: check.Stop, Where: check.WhereChin},
	}
	big := solids(t, l)[0].Eye.Scale
	l.camera.PanX_mm, l.camera.Tilt_deg = 200, -60
	l.Do("hand", "x", 0)
	e := solids(t, l)[0].Eye
	v := l.posed().Panels[m].V[l.posed().NV]
	if way := e.Toward.XY().Unit().Dot(v.XY().Unit()); way < 0.999 || l.camera.PanX_mm != 0 || e.Scale != big {
		t.Errorf("mark %d lies at %.3f of the way to the eye, panned %g, scale %g for %g", m+1, way, l.camera.PanX_mm, e.Scale, big)
	}
	if l.Do("hand", "y", 0); l.camera.Tilt_deg >= 0 {
		t.Error("what the ruff rests on is not seen from above")
	}
	l.camera.Turn_deg, l.View = 150, figure.Named("above")
	if l.Do("hand", "z", 0); l.View.Name != "hand" || l.camera.Turn_deg != home.Turn_deg {
		t.Errorf("the chin is shown %s, turned by %g", l.View.Name, l.camera.Turn_deg)
	}
	if scheme.Default().Wearer.Part != scheme.Neck {
		t.Error("the default has no neck")
	}
}

// On the page notes are signs alone; a picture that is saved says what they say as well,
// on a sheet that is higher by it.
func TestSavedNotes(t *testing.T) {
	l := newLook(t)
	l.Findings[0] = []check.Finding{{ID: "x", Severity: check.Stop, Where: check.WhereOuter, Sentence: word.Name("what stops it")}}
	d, _, _, err := l.Picture()
	if err != nil {
		t.Fatal(err)
	}
	for _, label := range d.Labels() {
		if strings.Contains(label.Text, "stops") {
			t.Errorf("on the page the drawing says %q", label.Text)
		}
	}
	saved, err := l.Export("svg")
	if err != nil || !strings.Contains(string(saved), "what stops it") {
		t.Errorf("saved it does not say what stops: %v", err)
	}
	l.shows(figure.Named("above"))
	l.camera.zoom(false, 2, 0.5, 0.5)
	if saved, err := l.Export("svg"); err != nil || strings.Contains(string(saved), "what stops it") {
		t.Errorf("enlarged, words hang in it: %v", err)
	}
}
