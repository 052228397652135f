package scheme

import (
	"fmt"
	"golang.org/x/text/unicode/norm"
	"math"

	"pgregory.net/rapid"
)

// drawScheme draws a valid scheme: fields are changed one after another, and a
// change that does not fit the rest is taken back.
func drawScheme(t *rapid.T) Scheme {
	s := Default()
	for _, f := range table {
		if !rapid.Bool().Draw(t, f.Key+"?") {
			continue
		}
		was := s
		switch p := f.at(&s).(type) {
		case *float64:
			*p = drawNumber(t, f)
		case *int:
			*p = rapid.IntRange(int(f.Min), int(f.Max)).Draw(t, f.Key)
		case *string:
			if f.Kind == KindChoice {
				*p = rapid.SampledFrom(f.Choices).Draw(t, f.Key).Value
			} else {
				*p = seen(norm.NFC.String(rapid.StringN(0, 30, -1).Draw(t, f.Key)))
			}
		case *[]Mark:
			*p = drawMarks(t)
		}
		if s.Validate() != nil {
			s = was
		}
	}
	return s
}

// drawNumber draws the ends of the range, 0 where it means something, tidy
// numbers and any float between.
func drawNumber(t *rapid.T, f Field) float64 {
	v := rapid.OneOf(
		rapid.SampledFrom([]float64{f.Min, f.Max}),
		rapid.Float64Range(f.Min, f.Max),
		rapid.Map(rapid.Float64Range(f.Min, f.Max), func(v float64) float64 { return math.Round(v*10) / 10 }),
	).Draw(t, f.Key)
	if f.Zero != "" && rapid.Bool().Draw(t, f.Key+" 0") {
		v = 0
	}
	if !f.InRange(v) { // rounded out of the range
		v = f.Max
	}
	return v
}

func drawMarks(t *rapid.T) []Mark {
	n := rapid.IntRange(16, 120).Draw(t, "marks")
	tidy := rapid.Bool().Draw(t, "tidy")
	fold := rapid.SampledFrom(codeFolds).Draw(t, "first")
	marks := make([]Mark, n)
	for i := range marks {
		if i > 0 {
			step := rapid.Float64Range(30, 60).Draw(t, fmt.Sprint("step ", i))
			if tidy {
				step = math.Round(step*2) / 2
			}
			marks[i].Place = marks[i-1].Place + step
		}
		marks[i].Fold = fold
		marks[i].Sewn = rapid.SampledFrom(codeEdges).Draw(t, fmt.Sprint("sewn ", i))
		fold = map[Fold]Fold{Crest: Trough, Trough: Crest}[fold]
	}
	return marks
}
