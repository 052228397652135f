package compare

import (
	"fmt"
	"math"
	"strings"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/check"
)

// onlyGeometry says what can be told before the mechanics are there.
const onlyGeometry = "What geometry tells is in the table; which holds better, only the solved cloth can tell."

// judge says which of the two is better, and why. What is to be compared first is
// whether it can be sewn and will hold (what stops, what is to be mended, how it
// moves), only then what it costs. Nothing is claimed while mechanics are to come,
// where the cloth did not come to rest, and where measures contradict each other.
func judge(x, y *contender, all []Measured) (Which, string) {
	if who, verb := which(x.pending(), y.pending()); who != "" {
		return Neither, fmt.Sprintf("%s %s not solved yet. %s", who, verb, onlyGeometry)
	}
	if who, _ := which(x.unrest, y.unrest); who != "" {
		return Neither, fmt.Sprintf("The cloth of %s did not come to rest in the solver: compare them by their geometry alone.", who)
	}
	by := map[string]Measured{}
	for _, m := range all {
		by[m.Key] = m
	}
	better, why := byFindings(x, y)
	if better == Neither {
		better, why = byMeasures(by)
	}
	wish := wished(by[heightOff])
	if strings.Contains(why, "height wanted") {
		wish = ""
	}
	parts := []string{why}
	if m := by[bow.Key]; m.A.Known && m.B.Known && (!m.Same || sewnAt(x.r.Plan.Row) != sewnAt(y.r.Plan.Row)) {
		parts = append(parts, fmt.Sprintf("When the wearer bows, the outer edge of A%s moves by %s, of B%s by %s.", sewnIn(x, y), m.A.Text, sewnIn(y, x), m.B.Text))
	}
	if m := by[height.Key]; m.A.Known && m.B.Known && !m.Same {
		parts = append(parts, fmt.Sprintf("B stands %s %s%s.", x.about(math.Abs(m.B.Value-m.A.Value)), way(m, "taller", "lower"), wish))
	}
	if words := costs(by); words != "" {
		parts = append(parts, words)
	}
	return better, strings.Join(parts, " ")
}

// which names those of the two for which something is so, and the verb that they
// take; "" where it is so for neither.
func which(a, b bool) (who, verb string) {
	switch {
	case a && b:
		return "A and B", "are"
	case a:
		return "A", "is"
	case b:
		return "B", "is"
	}
	return "", ""
}

// byFindings weighs the two by what stops, and where that is as much in both by what
// is to be mended.
func byFindings(x, y *contender) (Which, string) {
	for _, severity := range []check.Severity{check.Stop, check.Mend} {
		good, bad := x, y
		if y.count(severity) < x.count(severity) {
			good, bad = y, x
		}
		few, many := good.count(severity), bad.count(severity)
		switch {
		case few == many:
			continue
		case severity == check.Mend:
			return good.name, fmt.Sprintf("%s is better: %s to mend in %s (%s), in %s %s.", good.name, word.Count(many, "%d thing is", "%d things are", many), bad.name, bad.titles(severity), good.name, none(few))
		case few > 0:
			return good.name, fmt.Sprintf("%s is better, but neither is to be sewn so: %s %s, in %s %d (%s).", good.name, word.Count(few, "%d finding stops", "%d findings stop", few), good.name, bad.name, many, bad.titles(severity))
		}
		return good.name, fmt.Sprintf("%s is better: %s is not to be sewn so (%s).", good.name, bad.name, bad.titles(severity))
	}
	return Neither, ""
}

// titles names the first two findings of a severity.
func (c *contender) titles(severity check.Severity) string {
	var titles []string
	for _, f := range c.found {
		if f.Severity == severity && !f.Pending {
			titles = append(titles, "“"+titleOf(f.ID)+"”")
		}
	}
	if len(titles) > 2 {
		return strings.Join(titles[:2], " and ") + " and more"
	}
	return strings.Join(titles, " and ")
}

// byMeasures weighs two ruffs in which as much is found: by how firm they are, then by
// which comes nearer to its height wanted, then by what they take.
func byMeasures(by map[string]Measured) (Which, string) {
	const both = "No finding parts the two"
	switch firmer, mixed := side(by, firm); {
	case firmer != Neither:
		return firmer, fmt.Sprintf("%s, and %s holds firmer.", both, firmer)
	case mixed:
		return Neither, both + ", and each is firmer in its own way: the table tells how."
	}
	if nearer, _ := side(by, wish); nearer != Neither {
		return nearer, fmt.Sprintf("%s, and they hold alike; %s comes nearer to its height wanted.", both, nearer)
	}
	switch cheaper, mixed := side(by, cost); {
	case cheaper != Neither:
		return cheaper, fmt.Sprintf("%s, and they hold alike; %s takes less.", both, cheaper)
	case mixed:
		return Neither, both + ", and they hold alike; in what they take, each saves something."
	}
	return Neither, "A and B come to the same, as far as the model can tell."
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
	switch {
	case speak[0] && speak[1]:
		return Neither, true
	case speak[0]:
		return First, false
	case speak[1]:
		return Second, false
	}
	return Neither, false
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

// sewnIn says how one is sewn, if that parts the two.
func sewnIn(x, y *contender) string {
	if sewnAt(x.r.Plan.Row) == sewnAt(y.r.Plan.Row) {
		return ""
	}
	return " (sewn at the " + sewnAt(x.r.Plan.Row) + ")"
}

func way(m Measured, up, down string) string {
	if m.B.Value > m.A.Value {
		return up
	}
	return down
}

// wished says which comes nearer to the height wanted.
func wished(m Measured) string {
	if m.Better == Neither {
		return ""
	}
	return fmt.Sprintf("; %s is nearer to its height wanted", m.Better)
}

// costs says what B takes more or less than A.
func costs(by map[string]Measured) string {
	var more, less []string
	for _, c := range []struct{ key, what string }{{buy, "of cloth"}, {hours, "of work"}} {
		m := by[c.key]
		if !m.A.Known || !m.B.Known || m.Same {
			continue
		}
		words := strings.TrimLeft(m.Difference, "+−") + " " + c.what
		if m.B.Value > m.A.Value {
			more = append(more, words)
		} else {
			less = append(less, words)
		}
	}
	var parts []string
	for _, p := range []struct {
		words []string
		end   string
	}{{more, "more"}, {less, "less"}} {
		if len(p.words) > 0 {
			parts = append(parts, strings.Join(p.words, " and ")+" "+p.end)
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "B takes " + strings.Join(parts, ", but ") + "."
}

func none(n int) string {
	if n == 0 {
		return "nothing"
	}
	return fmt.Sprint(n)
}

func titleOf(id string) string {
	for _, r := range check.Table() {
		if r.ID == id {
			return r.Title
		}
	}
	return id
}
