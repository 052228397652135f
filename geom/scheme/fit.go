package scheme

import (
	"strconv"

	"ruffwright/geom/word"
)

// For gives the field with its range narrowed to what the rest of s allows: the
// wearer's part narrows the girth and the band. The form and what is said of a
// refused value show it; Validate holds to it.
//
// Necks 130 to 560 mm: the ANSUR II records (6,068 soldiers) run from 275 to
// 514; a child's neck is smaller, and a sample at half size half of that. Wrists
// 100 to 260 mm, a child's bare one and one over a sleeve: our choice, no source.
func (f Field) For(s Scheme) Field {
	r, ok := partRanges[f.Key]
	if !ok {
		return f
	}
	span := r.neck
	if s.Wearer.Part == Wrist {
		span = r.wrist
	}
	f.Min, f.Max = span[0], span[1]
	return f
}

var partRanges = map[string]struct{ neck, wrist [2]float64 }{
	"wearer.girth": {neck: [2]float64{130, 560}, wrist: [2]float64{100, 260}},
	"band.length":  {neck: [2]float64{120, 700}, wrist: [2]float64{80, 400}},
}

// fit says which fields, each in its own range, do not fit together. Values that
// look.* or own marks set are judged as they come out.
//
// Two fits need no check, as the ranges alone keep them (a test holds that): the
// overlap is shorter than any band, and two selvedges are narrower than any bolt.
func (s Scheme) fit() Errors {
	var errs Errors
	bad := func(key string, value, why, allowed word.Text) {
		errs = append(errs, Error{Field: key, Value: value, Why: why, Allowed: allowed})
	}

	for key := range partRanges {
		f, _ := Lookup(key)
		if v := f.Number(s); !f.For(s).InRange(v) {
			bad(key, mm(v), word.Say("is not possible with %s %s", word.Key("wearer.part"), s.Wearer.Part), f.For(s).Allowed(Millimetres))
		}
	}

	face := word.Key("wearer.face")
	for _, l := range []struct {
		ratio          float64
		from, to, what string
	}{
		{s.Look.DepthRatio, "look.depth_ratio", "ruff.depth", "depth"},
		{s.Look.HeightRatio, "look.height_ratio", "ruff.height", "height"},
	} {
		f, _ := Lookup(l.to)
		switch {
		case l.ratio == 0:
		case s.Wearer.Face == 0:
			bad(l.from, word.Name(exact(l.ratio)), word.Say("needs %s, the wearer's own face height, which is not given", face), word.Say("0 (not used), or %s given", face))
		case !f.InRange(l.ratio * s.Wearer.Face):
			bad(l.from, word.Name(exact(l.ratio)), word.Say("times %s %s makes %s %s", face, mm(s.Wearer.Face), word.Key(l.to), mm(l.ratio*s.Wearer.Face)), word.Say("%s %s", word.Key(l.to), f.Allowed(Millimetres)))
		}
	}
	sets, _ := Lookup("ruff.sets")
	makes := func(key string, value word.Text, verb string, n int) {
		bad(key, value, word.Say(verb, word.Key(sets.Key), n), word.Say("%s %s", word.Key(sets.Key), sets.Allowed(Millimetres)))
	}
	if q := s.Look.Quarter; q != 0 && !sets.InRange(float64(4*q)) {
		makes("look.quarter", word.Name(strconv.Itoa(q)), "makes %s %d", 4*q)
	}
	if n := len(s.Pleat.Marks); n > 0 && !sets.InRange(float64(setsOf(s.Pleat.Marks))) {
		makes("pleat.marks", word.Count(n, "%d mark", "%d marks", n), "make %s %d", setsOf(s.Pleat.Marks))
	}
	if len(errs) > 0 {
		return errs // the rest would be judged by values that are no good
	}

	s = s.Looked()
	depth := word.Key("ruff.depth")
	errs = append(errs, s.fitTucks()...)
	if s.Pleat.Lines == 2 && s.Pleat.LineGap >= s.Ruff.Depth {
		bad("pleat.line_gap", mm(s.Pleat.LineGap), word.Say("puts the second stitch line beyond %s %s", depth, mm(s.Ruff.Depth)), word.Say("less than %s", depth))
	}
	errs = append(errs, s.fitStick()...)
	if s.Strip.Hem >= s.Ruff.Depth {
		bad("strip.hem", mm(s.Strip.Hem), word.Say("is no narrower than %s %s", depth, mm(s.Ruff.Depth)), word.Say("less than %s", depth))
	}
	if s.Strip.Along == Warp {
		cut := (s.Ruff.Depth + s.Strip.Takeup + float64(s.Strip.HemTurns)*s.Strip.Hem) / (1 - s.Strip.ShrinkWeft/100)
		if usable := s.Strip.Bolt - 2*s.Strip.Selvedge; cut > usable {
			bad("strip.bolt", mm(s.Strip.Bolt), word.Say("less two selvedges leaves %s, but a strip along the warp for %s %s is cut %s wide", mm(usable), depth, mm(s.Ruff.Depth), mm(cut)), word.Say("a wider cloth, or %s %s", word.Key("strip.along"), Weft))
		}
	}
	full := s.Filled()
	key, unstarched := "cloth.bend_weft", full.Cloth.BendWeft
	if s.Strip.Along == Warp {
		key, unstarched = "cloth.bend_warp", full.Cloth.BendWarp
	}
	if b := s.Starch.Bend; b != 0 && b < unstarched {
		bad("starch.bend", mm(b), word.Say("is less than the unstarched %s %s along the strip; starch cannot soften", word.Key(key), mm(unstarched)), word.Say("0 (no starch), or %s and more", mm(unstarched)))
	}
	return errs
}

// fitTucks says which tucks do not fit between the folds, where the folds' places
// are given: a tuck takes less than half a panel. Tucks at folds that are not
// sewn do not exist.
func (s Scheme) fitTucks() Errors {
	var errs Errors
	marks := s.Pleat.Marks
	for _, k := range []struct {
		key  string
		fold Fold
		t    float64
		sewn bool
	}{
		{"pleat.tuck_top", Crest, s.Pleat.TuckTop, s.Pleat.Anchor == AnchorBoth || s.Pleat.Sewn == Crests},
		{"pleat.tuck_bottom", Trough, s.Pleat.TuckBottom, s.Pleat.Anchor == AnchorBoth || s.Pleat.Sewn == Troughs},
	} {
		if p := s.Pleat.Panel; k.sewn && p > 0 && len(marks) == 0 && k.t >= p/2 {
			errs = append(errs, Error{Field: k.key, Value: mm(k.t), Why: word.Say("is no less than half of %s %s", word.Key("pleat.panel"), mm(p)), Allowed: word.Say("less than %s", mm(p/2))})
		}
		for i := 1; i < len(marks); i++ {
			gap := marks[i].Place - marks[i-1].Place
			near := marks[i-1]
			if marks[i].Fold == k.fold {
				near = marks[i]
			}
			if near.Sewn != EdgeNone && k.t >= gap/2 {
				errs = append(errs, Error{Field: k.key, Value: mm(k.t), Why: word.Say("is no less than half of the %s between marks %d and %d of %s", mm(gap), i, i+1, word.Key("pleat.marks")), Allowed: word.Say("less than %s", mm(gap/2))})
				break // one place is enough to name
			}
		}
	}
	return errs
}

// fitStick says whether the sticks, where sets dry on any, can be drawn out again and end
// within the ruff. Whether they go into the loops is for who knows the loops.
func (s Scheme) fitStick() Errors {
	var errs Errors
	q, stick, depth := s.Starch, word.Key("starch.stick"), word.Key("ruff.depth")
	switch {
	case q.Dry == Hung:
		return nil
	case q.Tip > 0 && q.Stick == 0:
		errs = append(errs, Error{Field: "starch.tip", Value: mm(q.Tip), Why: word.Say("needs %s, the same stick's thickness at the outer edge, which is not given", stick), Allowed: word.Say("0 (no thinner), or %s given", stick)})
	case q.Tip > q.Stick:
		errs = append(errs, Error{Field: "starch.tip", Value: mm(q.Tip), Why: word.Say("is thicker than %s %s; from a dry loop such a stick does not come out", stick, mm(q.Stick)), Allowed: word.Say("at most %s", mm(q.Stick))})
	}
	if q.Reach > s.Ruff.Depth {
		errs = append(errs, Error{Field: "starch.reach", Value: mm(q.Reach), Why: word.Say("is more than %s %s", depth, mm(s.Ruff.Depth)), Allowed: word.Say("at most %s", mm(s.Ruff.Depth))})
	}
	return errs
}

// mm is a length for an error, to a micrometre.
func mm(v float64) word.Text {
	return word.Say("%s mm", word.Number{Value: v, Decimals: 3, Short: true})
}
