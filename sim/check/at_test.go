package check

import (
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/measure"
)

// TestAt: findings that know their place along the strip name its marks, and
// those that speak of the whole name none.
func TestAt(t *testing.T) {
	marks := func(off float64) string {
		var b strings.Builder
		for i := range 33 {
			place := 55 * float64(i)
			if i == 7 {
				place += off
			}
			fold, edge := "trough", "bottom"
			if i%2 == 1 {
				fold, edge = "crest", "top"
			}
			if i == 20 {
				edge = "no"
			}
			if i > 0 {
				b.WriteString("; ")
			}
			b.WriteString(scheme.BareLength(place, scheme.Millimetres) + " " + fold + " " + edge)
		}
		return b.String()
	}
	for _, c := range []struct {
		id   string
		set  []string
		want []int
	}{
		{"ends", []string{"pleat.first", "crest"}, []int{1}},
		{"ends", []string{"pleat.last", "crest"}, []int{80}},
		{"marks-step", []string{"pleat.marks", marks(6)}, []int{8}},
		{"marks-sewn", []string{"pleat.marks", marks(0)}, []int{21}},
		{"quarters", []string{"ruff.sets", "42"}, []int{22, 43, 64}},
		{"drift", []string{"hand.drift", "3"}, []int{81}},
		{"neck-full", []string{"cloth.thickness", "1.5", "ruff.sets", "200"}, nil},
	} {
		s := scheme.Default()
		for i := 0; i < len(c.set); i += 2 {
			if err := s.Set(c.set[i], c.set[i+1]); err != nil {
				t.Fatal(err)
			}
		}
		r, err := sim.Draw(s)
		if err != nil {
			t.Errorf("%s %.30s: %v", c.id, c.set, err)
			continue
		}
		found := Find(r, scheme.Millimetres)
		i := slices.IndexFunc(found, func(f Finding) bool { return f.ID == c.id })
		if i < 0 {
			t.Errorf("%s is not found with %.30s", c.id, c.set)
			continue
		}
		if !slices.Equal(found[i].At, c.want) {
			t.Errorf("%s %.30s: at %v of %d marks, want %v", c.id, c.set, found[i].At, len(r.Plan.Row), c.want)
		}
		for _, f := range found {
			for _, m := range f.At {
				if m < 1 || m > len(r.Plan.Row) {
					t.Errorf("%s: mark %d of %d", f.ID, m, len(r.Plan.Row))
				}
			}
		}
	}
}

// TestAtStrip: a strip that is too short is pointed at where it runs out.
func TestAtStrip(t *testing.T) {
	s := scheme.Default()
	if err := s.Set("strip.have", "2000"); err != nil {
		t.Fatal(err)
	}
	r, err := sim.Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range Find(r, scheme.Millimetres) {
		if f.ID != "strip-short" {
			continue
		}
		if len(f.At) != 1 {
			t.Fatalf("at %v", f.At)
		}
		if mm := r.Plan.Row[f.At[0]-1].Place_mm; mm < 2000-r.Plan.Panel_mm || mm > 2000+r.Plan.Panel_mm/2 {
			t.Errorf("pointed at %g mm", mm)
		}
		return
	}
	t.Error("a short strip is not found")
}

// TestWhere: what speaks of a supporter or a collar is pointed at there, of a ruff that
// rests on nothing elsewhere; one that turns up is pointed at where it comes to the chin,
// and a cuff has none.
func TestWhere(t *testing.T) {
	for _, c := range []struct {
		id, demo string
		set      []string
		measured func(*measure.Values)
		want     Where
	}{
		{"bow", "floppy", nil, nil, WhereOuter},
		{"bow", "floppy", []string{"support.kind collar"}, nil, WhereSupport},
		{"bow", "floppy", []string{"support.kind supporter"}, nil, WhereSupport},
		{"bow", "sound", []string{"support.kind supporter"}, nil, WhereOuter}, // both edges are sewn
		{"sinks", "sound", nil, func(m *measure.Values) { m.Tilt_deg = -40 }, WhereWhole},
		{"sinks", "sound", []string{"support.kind supporter"}, func(m *measure.Values) { m.Tilt_deg = -40 }, WhereSupport},
		{"sinks", "sound", []string{"support.kind supporter"}, func(m *measure.Values) { m.Tilt_deg = 40 }, WhereChin},
		{"sinks", "cuff", nil, func(m *measure.Values) { m.Tilt_deg = 40 }, WhereWhole},
	} {
		r, err := sim.Draw(demo(t, c.demo, c.set...))
		if err != nil {
			t.Fatal(err)
		}
		m := measure.Values{Panels: 1, Converged: true, BowDone: true, Bow_mm: 30, Reach_mm: 80, HeightOuter_mm: 40}
		if c.measured != nil {
			c.measured(&m)
		}
		r.Solved = &sim.Solved{Ruff: m, Sets: []measure.Values{m}, Of: make([]int, r.Plan.Panels)}
		found := Find(r, scheme.Millimetres)
		i := slices.IndexFunc(found, func(f Finding) bool { return f.ID == c.id })
		if i < 0 {
			t.Errorf("%s is not found of %s %s", c.id, c.demo, c.set)
			continue
		}
		if found[i].Where != c.want {
			t.Errorf("%s of %s %s is at the %s, want the %s", c.id, c.demo, c.set, found[i].Where, c.want)
		}
	}
}
