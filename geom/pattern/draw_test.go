package pattern

import (
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// drawPlan draws the plan of a valid scheme: every field that cutting, marking or
// sewing hangs on is changed or left, and a change that does not fit is taken back.
func drawPlan(t *rapid.T) pleat.Plan {
	s := scheme.Default()
	p, err := pleat.NewPlan(s)
	if err != nil {
		t.Fatalf("default: %v", err)
	}
	for _, f := range scheme.Fields() {
		if f.Kind == scheme.KindText || f.Group == "look" || f.Group == "cloth" || f.Group == "support" || f.Key == "pleat.marks" {
			continue
		}
		if !rapid.Bool().Draw(t, f.Key+"?") {
			continue
		}
		was := s
		var text string
		switch f.Kind {
		case scheme.KindChoice:
			text = rapid.SampledFrom(f.Choices).Draw(t, f.Key).Value
		case scheme.KindCount:
			text = decimal(float64(rapid.IntRange(int(f.Min), int(f.Max)).Draw(t, f.Key)))
		default:
			text = decimal(rapid.OneOf(
				rapid.SampledFrom([]float64{f.Min, f.Max}),
				rapid.Float64Range(f.Min, f.Max),
			).Draw(t, f.Key))
		}
		if s.Set(f.Key, text) != nil {
			s = was
			continue
		}
		if q, err := pleat.NewPlan(s); err != nil {
			s = was
		} else {
			p = q
		}
	}
	if rapid.Bool().Draw(t, "own marks") {
		own := s
		own.Pleat.Marks = drawMarks(t)
		own.Pleat.TuckTop, own.Pleat.TuckBottom = 2, 2
		if q, err := pleat.NewPlan(own); err == nil {
			p = q
		}
	}
	return p
}

func drawMarks(t *rapid.T) []scheme.Mark {
	marks := make([]scheme.Mark, rapid.IntRange(16, 90).Draw(t, "marks"))
	fold := rapid.SampledFrom([]scheme.Fold{scheme.Crest, scheme.Trough}).Draw(t, "first fold")
	for i := range marks {
		if i > 0 {
			marks[i].Place = marks[i-1].Place + rapid.Float64Range(5, 120).Draw(t, "step")
		}
		marks[i].Fold, marks[i].Sewn = fold, rapid.SampledFrom([]scheme.Edge{scheme.EdgeTop, scheme.EdgeBottom, scheme.EdgeNone}).Draw(t, "sewn")
		if fold == scheme.Crest {
			fold = scheme.Trough
		} else {
			fold = scheme.Crest
		}
	}
	return marks
}

// planned gives the plan of the default scheme with changes.
func planned(t testing.TB, sets ...[2]string) pleat.Plan {
	t.Helper()
	s := scheme.Default()
	for _, kv := range sets {
		if err := s.Set(kv[0], kv[1]); err != nil {
			t.Fatal(err)
		}
	}
	p, err := pleat.NewPlan(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// made gives its pattern.
func made(t testing.TB, sets ...[2]string) Pattern {
	t.Helper()
	p, err := New(planned(t, sets...))
	if err != nil {
		t.Fatal(err)
	}
	return p
}
