package figure

import (
	"os"
	"path/filepath"
	"sync"
	"testing"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// design is a ruff to draw: a demo scheme with changes.
type design struct {
	name, demo string
	set        []string // key, value, key, value ...
	nu, nv     int
}

func designs() []design {
	return []design{
		{"sound", "sound", nil, 24, 12},
		{"cuff", "cuff", nil, 16, 8},
		{"wide", "wide", []string{"ruff.sets", "200"}, 10, 8},
		{"floppy", "floppy", nil, 16, 8},
		{"endsup", "ends-up", nil, 16, 8},
		{"uneven", "uneven", nil, 12, 6},
		{"few", "sound", []string{"ruff.sets", "8", "pleat.panel", "60"}, 16, 8},
	}
}

type made struct {
	plan  pleat.Plan
	shape pleat.Shape
}

var madeOnce sync.Map // name -> func() (made, error); the same ruffs serve many tests

// make gives the plan and its closed form.
func (d design) make(t testing.TB) (pleat.Plan, pleat.Shape) {
	t.Helper()
	f, _ := madeOnce.LoadOrStore(d.name, sync.OnceValues(func() (made, error) {
		text, err := os.ReadFile(filepath.Join("..", "..", "assets", "demos", d.demo+".json"))
		if err != nil {
			return made{}, err
		}
		s, err := scheme.Parse(text)
		if err != nil {
			return made{}, err
		}
		for i := 0; i < len(d.set); i += 2 {
			if err := s.Set(d.set[i], d.set[i+1]); err != nil {
				return made{}, err
			}
		}
		p, err := pleat.NewPlan(s)
		if err != nil {
			return made{}, err
		}
		folded, err := p.Fold(d.nu, d.nv)
		return made{p, folded.Shape}, err
	}))
	m, err := f.(func() (made, error))()
	if err != nil {
		t.Fatalf("%s: %v", d.name, err)
	}
	return m.plan, m.shape
}
