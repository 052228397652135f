package check

import (
	"fmt"
	"math"
	"strings"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// onlyGeometry says what can be told before the mechanics are there.
const onlyGeometry = "What geometry tells is in the table; which holds better, only the solved cloth can tell."

// judge says which of the two is better, and why. What is to be compared first is
// whether it can be sewn and will hold (what stops, what is to be mended, how it
// moves), only then what it costs. Nothing is claimed while mechanics are to come,
// where the cloth did not come to rest, and where measures contradict each other.
func judge(x, y *contender, all []Measured) (Which, string) {
	switch {
	case x.pending() && y.pending():
		return Neither, "A and B are not solved yet. " + onlyGeometry
	case x.pending():
		return Neither, "A is not solved yet. " + onlyGeometry
	case y.pending():
		return Neither, "B is not solved yet. " + onlyGeometry
	case x.unrest && y.unrest:
		return Neither, "The cloth of A and B did not come to rest in the solver: compare them by their geometry alone."
	case x.unrest:
		return Neither, "The cloth of A did not come to rest in the solver: compare them by their geometry alone."
	case y.unrest:
		return Neither, "The cloth of B did not come to rest in the solver: compare them by their geometry alone."
	}
	by := map[string]Measured{}
	for _, m := range all {
		by[m.Key] = m
	}
	better, why := x.against(y, by)
	wish := wished(by[heightOff])
	if strings.Contains(why, "height wanted") {
		wish = ""
	}
	parts := []string{why}
	if m := by[bow.Key]; m.A.Known && m.B.Known && (!m.Same || sewnAt(x.p.Row) != sewnAt(y.p.Row)) {
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

// against weighs x (A) and y (B).
func (x *contender) against(y *contender, by map[string]Measured) (Which, string) {
	for _, severity := range []Severity{Stop, Mend} {
		n, m := x.count(severity), y.count(severity)
		if n == m {
			continue
		}
		good, bad, few, many := x, y, n, m
		if m < n {
			good, bad, few, many = y, x, m, n
		}
		var ids []string
		for _, f := range bad.found {
			if f.Severity == severity && !f.Pending {
				ids = append(ids, "“"+titleOf(f.ID)+"”")
			}
		}
		listed := strings.Join(ids[:min(2, len(ids))], " and ")
		if len(ids) > 2 {
			listed += " and more"
		}
		if severity == Stop {
			if few == 0 {
				return good.name, fmt.Sprintf("%s is better: %s is not to be sewn so (%s).", good.name, bad.name, listed)
			}
			return good.name, fmt.Sprintf("%s is better, but neither is to be sewn so: %s %s, in %s %d (%s).", good.name, count(few, "finding stops", "findings stop"), good.name, bad.name, many, listed)
		}
		return good.name, fmt.Sprintf("%s is better: %s to mend in %s (%s), in %s %s.", good.name, count(many, "thing is", "things are"), bad.name, listed, good.name, none(few))
	}
	firmer, cheaper := votes(by, firm), votes(by, cost)
	both := "No finding parts the two"
	switch {
	case firmer[0] > 0 && firmer[1] == 0:
		return First, both + ", and A holds firmer."
	case firmer[1] > 0 && firmer[0] == 0:
		return Second, both + ", and B holds firmer."
	case firmer[0] > 0:
		return Neither, both + ", and each is firmer in its own way: the table tells how."
	}
	if off := by[heightOff]; off.Better != Neither {
		return off.Better, fmt.Sprintf("%s, and they hold alike; %s comes nearer to its height wanted.", both, off.Better)
	}
	switch {
	case cheaper[0] > 0 && cheaper[1] == 0:
		return First, both + ", and they hold alike; A takes less."
	case cheaper[1] > 0 && cheaper[0] == 0:
		return Second, both + ", and they hold alike; B takes less."
	case cheaper[0] > 0:
		return Neither, both + ", and they hold alike; in what they take, each saves something."
	}
	return Neither, "A and B come to the same, as far as the model can tell."
}

// votes counts the measures that speak for A and for B in a matter.
func votes(by map[string]Measured, matter weight) (n [2]int) {
	for _, m := range by {
		switch {
		case m.weighs != matter:
		case m.Better == First:
			n[0]++
		case m.Better == Second:
			n[1]++
		}
	}
	return n
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
	if sewnAt(x.p.Row) == sewnAt(y.p.Row) {
		return ""
	}
	return " (sewn at the " + sewnAt(x.p.Row) + ")"
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
	l, _ := lawOf(id)
	return l.Title
}
