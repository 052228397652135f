package compare

import (
	"math"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/check"
)

// judge says which of the two is better, and why. What is to be compared first is
// whether it can be sewn and will hold (what stops, what is to be mended, how it
// moves), only then what it costs. Nothing is claimed while mechanics are to come,
// where the cloth did not come to rest, and where measures contradict each other.
func judge(x, y *contender, all []Measured) (Which, word.Text) {
	if n, who := which(x.pending(), y.pending()); n > 0 {
		return Neither, word.Count(n, "%s is not solved yet. What geometry tells is in the table; which holds better, only the solved cloth can tell.",
			"%s are not solved yet. What geometry tells is in the table; which holds better, only the solved cloth can tell.", who)
	}
	if n, who := which(x.unrest, y.unrest); n > 0 {
		return Neither, word.Say("The cloth of %s did not come to rest in the solver: compare them by their geometry alone.", who)
	}
	by := map[string]Measured{}
	for _, m := range all {
		by[m.Key] = m
	}
	better, why := byFindings(x, y)
	byWish := false
	if better == Neither {
		better, why, byWish = byMeasures(by)
	}
	parts := []word.Text{why}
	if m := by[bow.Key]; m.A.Known && m.B.Known {
		switch a, b := sewnAt(x.r.Plan.Row), sewnAt(y.r.Plan.Row); {
		case a != b:
			parts = append(parts, word.Say("When the wearer bows, the outer edge of A (sewn at the %s) moves by %s, of B (sewn at the %s) by %s.", word.Say(a), m.A.Text, word.Say(b), m.B.Text))
		case !m.Same:
			parts = append(parts, word.Say("When the wearer bows, the outer edge of A moves by %s, of B by %s.", m.A.Text, m.B.Text))
		}
	}
	if m := by[height.Key]; m.A.Known && m.B.Known && !m.Same {
		nearer := by[heightOff].Better
		if byWish {
			nearer = Neither // said already
		}
		stands := "B stands %s taller"
		if m.B.Value < m.A.Value {
			stands = "B stands %s lower"
		}
		d := x.about(math.Abs(m.B.Value - m.A.Value))
		if nearer == Neither {
			parts = append(parts, word.Say(stands+".", d))
		} else {
			parts = append(parts, word.Say(stands+"; %s is nearer to its height wanted.", d, nearer))
		}
	}
	return better, word.Join(" ", append(parts, costs(by))...)
}

// which names those of the two for which something is so, and counts them.
func which(a, b bool) (n int, who word.Text) {
	switch {
	case a && b:
		return 2, word.Say("A and B")
	case a:
		return 1, word.Name("A")
	case b:
		return 1, word.Name("B")
	}
	return 0, word.Text{}
}

// byFindings weighs the two by what stops, and where that is as much in both by what
// is to be mended.
func byFindings(x, y *contender) (Which, word.Text) {
	for _, severity := range []check.Severity{check.Stop, check.Mend} {
		good, bad := x, y
		if y.count(severity) < x.count(severity) {
			good, bad = y, x
		}
		few, many := good.count(severity), bad.count(severity)
		titles := bad.titles(severity)
		switch {
		case few == many:
			continue
		case severity == check.Mend && few == 0:
			return good.name, word.Count(many, "%s is better: %d thing is to mend in %s (%s), in %s nothing.", "%s is better: %d things are to mend in %s (%s), in %s nothing.", good.name, many, bad.name, titles, good.name)
		case severity == check.Mend:
			return good.name, word.Count(many, "%s is better: %d thing is to mend in %s (%s), in %s %d.", "%s is better: %d things are to mend in %s (%s), in %s %d.", good.name, many, bad.name, titles, good.name, few)
		case few > 0:
			return good.name, word.Count(few, "%s is better, but neither is to be sewn so: %d finding stops %s, in %s %d (%s).", "%s is better, but neither is to be sewn so: %d findings stop %s, in %s %d (%s).", good.name, few, good.name, bad.name, many, titles)
		}
		return good.name, word.Say("%s is better: %s is not to be sewn so (%s).", good.name, bad.name, titles)
	}
	return Neither, word.Text{}
}

// titles names the first two findings of a severity.
func (c *contender) titles(severity check.Severity) word.Text {
	var titles []word.Text
	for _, f := range c.found {
		if f.Severity == severity && !f.Pending {
			titles = append(titles, word.Say("“%s”", check.Title(f.ID)))
		}
	}
	switch len(titles) {
	case 0, 1:
		return word.Join("", titles...)
	case 2:
		return word.Say("%s and %s", titles[0], titles[1])
	}
	return word.Say("%s and %s and more", titles[0], titles[1])
}

// byMeasures weighs two ruffs in which as much is found: by how firm they are, then by
// which comes nearer to its height wanted (byWish), then by what they take.
func byMeasures(by map[string]Measured) (better Which, why word.Text, byWish bool) {
	switch firmer, mixed := side(by, firm); {
	case firmer != Neither:
		return firmer, word.Say("No finding parts the two, and %s holds firmer.", firmer), false
	case mixed:
		return Neither, word.Say("No finding parts the two, and each is firmer in its own way: the table tells how."), false
	}
	if nearer, _ := side(by, wish); nearer != Neither {
		return nearer, word.Say("No finding parts the two, and they hold alike; %s comes nearer to its height wanted.", nearer), true
	}
	switch cheaper, mixed := side(by, cost); {
	case cheaper != Neither:
		return cheaper, word.Say("No finding parts the two, and they hold alike; %s takes less.", cheaper), false
	case mixed:
		return Neither, word.Say("No finding parts the two, and they hold alike; in what they take, each saves something."), false
	}
	return Neither, word.Say("A and B come to the same, as far as the model can tell."), false
}

// side is the ruff for which the measures of a matter speak. Where they contradict
// each other they are mixed and speak for neither.
func side(by map[string]Measured, matter weight) (better Which, mixed bool) {
	var speak [2]bool
	for _, m := range by {
		if m.weighs == matter {
			speak[0] = speak[0] || m.Better == First
			speak[1] = speak[1] || m.Better == Second
		}
	}
	switch speak {
	case [2]bool{true, false}:
		return First, false
	case [2]bool{false, true}:
		return Second, false
	}
	return Neither, speak[0]
}

// sewnAt says which edges of the band the folds are sewn to.
func sewnAt(r pleat.Row) string {
	switch {
	case !r.OneEdge():
		return "top and bottom edge"
	case r.Edge() == scheme.EdgeBottom:
		return "bottom edge only"
	}
	return "top edge only"
}

// costs says what B takes more or less than A.
func costs(by map[string]Measured) word.Text {
	cloth, work := by[buy], by[hours]
	sign := func(m Measured) int {
		switch {
		case !m.A.Known || !m.B.Known || m.Same:
			return 0
		case m.B.Value > m.A.Value:
			return 1
		}
		return -1
	}
	// By what B takes of cloth and of work: less, as much, more.
	said := [3][3]string{
		{"B takes %[1]s of cloth and %[2]s of work less.", "B takes %[1]s of cloth less.", "B takes %[2]s of work more, but %[1]s of cloth less."},
		{"B takes %[2]s of work less.", "", "B takes %[2]s of work more."},
		{"B takes %[1]s of cloth more, but %[2]s of work less.", "B takes %[1]s of cloth more.", "B takes %[1]s of cloth and %[2]s of work more."},
	}
	return word.Say(said[sign(cloth)+1][sign(work)+1], cloth.apart, work.apart)
}
