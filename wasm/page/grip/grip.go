// Package grip is the handles of the measures on the stage: where they stand, what they
// say, and what a reader wants who pulls one or presses a key on it. A drawing says where
// its measures are taken hold of; what becomes of a field is for the page.
package grip

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/wasm/page/screen"
)

// Grips are the handles. The zero Grips are ready.
type Grips struct {
	next, shown seen // of the picture that is asked for, and of the one on the stage

	held  string      // key of the field that is being pulled; "" none
	of    seen        // as it was when it was taken hold of
	base  draw.Handle // likewise
	hand  draw.Point  // where the pointer is, on the sheet
	value float64     // that the field would have if nothing kept it from it

	typing string // key of the field whose number is being typed; "" none
	wrong  string // why what was typed cannot be used
	limit  limit
}

// limit is what the last pull met.
type limit struct{ key, why string }

// seen is the handles of a picture, and how it lies on a stage.
type seen struct {
	handles []draw.Handle
	place   screen.Place
	ratio   float64 // device pixels of a CSS pixel
}

func (s *seen) handle(key string) (draw.Handle, bool) {
	if i := slices.IndexFunc(s.handles, func(h draw.Handle) bool { return h.Field == key }); i >= 0 {
		return s.handles[i], true
	}
	return draw.Handle{}, false
}

// on is a place of the sheet on the stage, CSS pixels.
func (s *seen) on(q draw.Point) (x, y float64) {
	x, y = s.place.Stage(q)
	return x / s.ratio, y / s.ratio
}

// size is the stage's, CSS pixels.
func (s *seen) size() (width, height float64) {
	return float64(s.place.Width) / s.ratio, float64(s.place.Height) / s.ratio
}

// Wish is what a reader wants of a field: from the value at which it stands to another,
// in its unit, by steps.
type Wish struct {
	Key            string
	From, To, Step float64
}

// See takes the handles of the picture that is asked for.
func (g *Grips) See(handles []draw.Handle, place screen.Place, ratio float64) {
	g.next = seen{handles, place, max(ratio, 1e-3)}
}

// Show notes that it is on the stage.
func (g *Grips) Show() { g.shown = g.next }

// Take takes hold of a field's handle at a place of the stage, "x y" in CSS pixels.
func (g *Grips) Take(key, at string) bool {
	base, ok := g.shown.handle(key)
	x, y, is := twoOf(at)
	if !ok || !is || g.held != "" {
		return false
	}
	g.held, g.of, g.base, g.value, g.limit = key, g.shown, base, base.Value, limit{}
	g.hand = g.sheet(x, y)
	return true
}

// Held is the key of the field that is being pulled; "" none.
func (g *Grips) Held() string { return g.held }

// Move takes where the pointer is now.
func (g *Grips) Move(at string, plan *pleat.Plan, units scheme.Units) (w Wish, ok bool) {
	x, y, is := twoOf(at)
	if g.held == "" || !is {
		return w, false
	}
	now := g.sheet(x, y)
	g.value += g.base.By(g.hand, now)
	g.hand = now
	return g.wish(g.held, func(_, step float64) float64 { return math.Round(g.value/step) * step }, plan, units)
}

// Release lets go.
func (g *Grips) Release() { g.held = "" }

// sheet is the place of the sheet under a place of the stage, as when it was taken.
func (g *Grips) sheet(x, y float64) draw.Point { return g.of.place.Sheet(x*g.of.ratio, y*g.of.ratio) }

// Key takes a key that is pressed on a handle.
func (g *Grips) Key(key, name string, plan *pleat.Plan, units scheme.Units) (w Wish, ok bool) {
	f, ok := scheme.Lookup(key)
	if !ok {
		return w, false
	}
	f = f.For(plan.Given)
	many := float64(5)
	switch {
	case f.Kind == scheme.KindCount, units == scheme.Inches && f.Kind == scheme.KindLength:
		many = 4 // quarters of the ruff, and of an inch
	}
	const near = 1e-6 // of a step: what floats lose
	return g.wish(key, func(v, step float64) float64 {
		switch name {
		case "ArrowUp", "ArrowRight":
			return (math.Floor(v/step+near) + 1) * step
		case "ArrowDown", "ArrowLeft":
			return (math.Ceil(v/step-near) - 1) * step
		case "PageUp":
			return math.Round(v/step+many) * step
		case "PageDown":
			return math.Round(v/step-many) * step
		case "Home":
			return f.Min
		case "End":
			return f.Max
		}
		return v
	}, plan, units)
}

// wish is from where a field stands to where it shall; ok is false where that is the same.
func (g *Grips) wish(key string, to func(v, step float64) float64, plan *pleat.Plan, units scheme.Units) (w Wish, ok bool) {
	f, known := scheme.Lookup(key)
	v, stands := figure.Stands(*plan, key)
	if !known || !stands {
		return w, false
	}
	w = Wish{key, v, 0, Step(f, units)}
	w.To = to(v, w.Step)
	return w, w.To != v
}

// Step is the least by which a field is pulled, in its unit.
func Step(f scheme.Field, units scheme.Units) float64 {
	switch {
	case f.Kind != scheme.KindLength:
		return 1
	case units == scheme.Inches:
		return 25.4 / 16
	case f.Max <= 40:
		return 0.5
	}
	return 1
}

// Meet notes why a field does not go where it was pulled; "" where it went.
func (g *Grips) Meet(key, why string) { g.limit = limit{key, why} }

// twoOf reads two numbers, which a document may send anything for.
func twoOf(text string) (x, y float64, ok bool) {
	a, b, _ := strings.Cut(text, " ")
	x, err := strconv.ParseFloat(a, 64)
	y, err2 := strconv.ParseFloat(b, 64)
	return x, y, err == nil && err2 == nil && math.Abs(x)+math.Abs(y) < 1e6
}

// Where is where the handle of a field stands on the stage, CSS pixels.
func (g *Grips) Where(key string) (x, y float64) {
	h, _ := g.shown.handle(key)
	return g.shown.on(h.At)
}
