package tell

import (
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// ClassNodes are what a class reads beside the picture, from the back of a room: of the
// ruff, or of both that are compared, how it stands and three figures.
func (t Tell) ClassNodes() []doc.Node {
	sides := []classSide{{"A", "", t.short(t.Findings), t.Ruff}}
	if t.Compares() {
		t.Comparison() // B's findings come with it
		a, b := t.Apart()
		sides[0].differs = a
		sides = append(sides, classSide{"B", b, t.short(t.B.Findings), t.B.Side.Ruff})
	}
	row := func(label string, class string, value func(classSide) string) []doc.Node {
		cells := doc.El("tr", "role=row")
		for _, s := range sides {
			cells = cells.WithNodes(doc.El("td", "role=cell class="+class).With("data-of", s.letter).Say(value(s)))
		}
		return []doc.Node{doc.El("tr", "role=row class=part", doc.El("th", "scope=row role=rowheader").With("colspan", count(sides)).Say(label)), cells}
	}
	table := doc.El("table", "class=large role=table", doc.El("caption", "class=hidden").Say(say.Text("How it stands, and three figures")))
	if len(sides) > 1 {
		head := doc.El("tr", "role=row")
		for _, s := range sides {
			head = head.WithNodes(doc.El("th", "scope=col role=columnheader").With("data-of", s.letter).Say(s.letter).
				WithNodes(doc.El("span", "class=remark").Say(" " + s.differs)))
		}
		table = table.WithNodes(doc.El("thead", "role=rowgroup", head))
	}
	stands := doc.El("tr", "role=row")
	for _, s := range sides {
		stands = stands.WithNodes(doc.El("td", "role=cell class=short-verdict").With("data-of", s.letter).Say(s.verdict))
	}
	body := doc.El("tbody", "role=rowgroup", stands)
	body = body.WithNodes(row(say.Text("Height, hanging"), "figure", t.height)...)
	body = body.WithNodes(row(say.Text("Moves when the wearer bows"), "figure", t.bow)...)
	body = body.WithNodes(row(say.Text("Stands from the neck"), "figure", t.reach)...)
	return []doc.Node{table.WithNodes(body)}
}

// classSide is one of the ruffs that a class looks at.
type classSide struct {
	letter, differs, verdict string
	ruff                     sim.Ruff
}

func count(sides []classSide) string {
	if len(sides) > 1 {
		return "2"
	}
	return "1"
}

// height is how high the ruff stands as it hangs.
func (t Tell) height(s classSide) string {
	if s.ruff.Solved == nil {
		return say.Text("not solved yet")
	}
	return say.Length(s.ruff.Solved.Ruff.HeightOuter_mm, t.Units)
}

// reach is how far the outer edge stands from the neck.
func (t Tell) reach(s classSide) string {
	if s.ruff.Solved == nil {
		return say.Text("not solved yet")
	}
	return say.Length(s.ruff.Solved.Ruff.Reach_mm, t.Units)
}

// bow is how far its outer edge moves when the wearer bows.
func (t Tell) bow(s classSide) string {
	if s.ruff.Solved == nil || !s.ruff.Solved.Ruff.BowDone {
		return say.Text("not solved yet")
	}
	return say.Length(s.ruff.Solved.Ruff.Bow_mm, t.Units)
}

// short is the verdict on findings in a few words.
func (t Tell) short(findings []check.Finding) string {
	if t.Veiled {
		return say.Text("What is wrong here?")
	}
	pending := false
	for _, severity := range []check.Severity{check.Stop, check.Mend} {
		for _, f := range findings {
			switch {
			case f.Pending:
				pending = true
			case f.Severity == severity && severity == check.Stop:
				return say.Text("Not so: %s.", say.Inside(say.Title(f.ID)))
			case f.Severity == severity:
				return say.Text("To mend: %s.", say.Inside(say.Title(f.ID)))
			}
		}
	}
	if pending {
		return say.Text("Not solved yet.")
	}
	return say.Text("It will stand.")
}
