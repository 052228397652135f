package paper

import (
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/paper/sheet"
)

// set is how the damp sets are shaped: over which sticks, or hung up without any.
func (j *job) set(f *sheet.Flow) {
	f.Head(word.Say("Set"), 30)
	q, on := sim.NewSticks(j.Ruff.Plan)
	damp := word.Say("Damp it again, evenly, until it is leathery, and keep it so under a damp cloth: set a quarter at a time and do not stop, or it dries out of shape and must be done again.")
	if !on {
		f.Para(word.Say("**No stick:** the scheme has the loops dry as they hang from the band, and so they are solved."))
		f.Tick(word.Say("Damp it again, evenly, until it is leathery."))
		f.Tick(word.Say("Hang it by the band, level, as it sits when worn, so that nothing touches the loops. Open them with a finger, all alike, and leave them until they are dry and hard."))
		return
	}
	thick := j.sticks(f, q)
	f.Tick(damp)
	first := when(j.s.Ruff.Flaps == scheme.Stand, word.Say("the lower row first, then the upper"), word.Say("the upper row first, then the lower"))
	into := when(thick == 0, word.Text{}, word.Say("so far in as said above, "))
	f.Tick(word.Say("Mount it on a round block or ring of the band's size. Put the stick into each loop from the outer edge, %s%s, and draw the cloth snug over it. Hold until it keeps its shape, then draw the stick out turning. Whoever has sticks for all loops leaves them in until the cloth is dry.", into, first))
	f.Tick(word.Say("Until it is cold and dry hold the loops apart with **smooth props that do not stick**: polished metal, glass, glazed or waxed rods, smooth plastic. Not card, wood, paper, straw or cloth: paste draws into them and glues them in. Try one on a swatch."))
	f.Tick(word.Say("Setting takes a learner %s, a practised hand %s.", hours(j.work.Setting.Learner), hours(j.work.Setting.Practised)))
}

// sticks says which stick to take and how tall thinner ones make the sets; it returns how
// thick that stick is, 0 where none is thin enough.
func (j *job) sticks(f *sheet.Flow, q sim.Sticks) float64 {
	loop := word.Say("The loops are %s wide inside at the outer edge (%s).", j.near(j.loop()), when(j.Ruff.Solved != nil, word.Say("as solved"), word.Say("drawn, not solved")))
	thick := q.Given_mm
	if thick == 0 {
		thick = rod(q.Own_mm, j.Units)
	}
	if thick == 0 {
		f.Para(word.Say("**Stick:** the loops' own stick would be %s thick: none to be had is so thin. Shape them with a blunt needle or over fine straw. %s", j.near(q.Own_mm), loop))
		return 0
	}
	from := when(q.Given_mm > 0, word.Say("as the scheme says"), word.Say("the next rod to be had below %s, on which the loops stand as tall as they do by themselves", j.near(q.Own_mm)))
	tip := when(q.Tip_mm > 0, word.Say(", at its inner end %s", j.len(q.Tip_mm)), word.Text{})
	f.Para(word.Say("**Stick: %s thick%s, %s in from the outer edge** (%s). %s Smooth metal, round, longer than the %s is deep (%s); warm, not scorching: it must not brown a scrap of white paper.", j.len(thick), tip, j.len(q.Reach_mm), from, loop, j.thing(), j.len(j.s.Ruff.Depth)))
	var rows [][]word.Text
	row := func(d float64, note word.Text) {
		if h, err := q.Height_mm(d); err == nil {
			rows = append(rows, []word.Text{j.near(d), j.near(h), note})
		}
	}
	if q.Given_mm == 0 {
		row(q.Own_mm, word.Say("the loops' own"))
	}
	for d := thick; d > 0 && len(rows) < 3; d = rod(0.999*d, j.Units) {
		row(d, when(d == thick, word.Say("this one"), word.Text{}))
	}
	if len(rows) < 2 {
		return thick
	}
	f.Para(word.Say("**A thinner stick draws the sets taller.** They then stand so tall at the outer edge, before the sticks come out, by plane geometry: a strip drawn snugly round two rods. Enter the rod that you take in the scheme, under starch as ‘%s’, and the %s is solved on it.", label("starch.stick"), j.thing()))
	f.Table(sheet.Body, []sheet.Col{sheet.Numbers(word.Say("stick"), 24), sheet.Numbers(word.Say("height on it"), 24), sheet.Words(word.Text{}, 68)}, rows)
	return thick
}

// rod is the thickest round rod to be had that is no thicker than the stick given; 0 where
// there is none.
func rod(stick_mm float64, u scheme.Units) float64 {
	rods := []float64{3, 4, 5, 6, 8, 10, 12, 15, 18, 20, 22, 25, 28, 30, 35, 40, 45, 50}
	if u == scheme.Inches {
		rods = nil
		for n := 1.0; n <= 16; n++ { // eighths of an inch
			rods = append(rods, n*25.4/8)
		}
	}
	best := 0.0
	for _, r := range rods {
		if r <= stick_mm {
			best = r
		}
	}
	return best
}

// label is the name of a field in the form.
func label(key string) word.Text {
	f, _ := scheme.Lookup(key)
	return word.Say(f.Label)
}
