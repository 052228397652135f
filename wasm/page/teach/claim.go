package teach

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
	"ruffwright/wasm/page/say"
)

// Claim is what the reader first says of a lesson's ruff: what is wrong with it. Until
// then neither findings nor remedies are shown.
type Claim struct {
	Question string   `json:"question"`
	Of       string   `json:"of"` // what is chosen: finding, edge (that nothing is sewn to), sewn (folds), end (folds at the strip's ends) or figure
	Choices  []Choice `json:"choices"`
	Right    string   `json:"right"` // the one choice that is so; a test holds all of them against the ruff
}

// Choice is one of what can be said.
type Choice struct {
	Is    string `json:"is"`              // a finding's id, an edge, a fold, a figure's name; or both, or mixed
	Reply string `json:"reply,omitempty"` // to a wrong one: why it is not so, and not what is
}

// chosen are the words of edges and folds that can be chosen.
var chosen = map[string]map[string]string{
	"edge": {string(scheme.EdgeTop): "The top edge", string(scheme.EdgeBottom): "The bottom edge", "both": "Neither: both are sewn"},
	"sewn": {string(scheme.Crest): "The top folds", string(scheme.Trough): "The bottom folds", "both": "Top and bottom folds"},
	"end":  {string(scheme.Crest): "On top folds", string(scheme.Trough): "On bottom folds", "mixed": "One on a top fold, one on a bottom fold"},
}

// figures are what a lesson can have chosen beside the measures that it quotes.
var figures = map[string]func(l *Lesson) float64{
	"sets_wanted":    func(l *Lesson) float64 { return float64(l.Scheme.Ruff.Sets) },
	"panels_have":    func(l *Lesson) float64 { v, _ := l.quoted("sets_have"); return 2 * v },
	"height_want_mm": func(l *Lesson) float64 { return l.Scheme.Ruff.Height },
	"panel_half_mm":  func(l *Lesson) float64 { return l.Scheme.Pleat.Panel / 2 },
}

// quoted is a measure of the lesson's ruff as its text quotes it.
func (l *Lesson) quoted(name string) (float64, bool) {
	for _, f := range l.Figures {
		if f.Measure == name && f.At == "start" {
			return f.Quoted, true
		}
	}
	return 0, false
}

// figure is a figure that can be chosen.
func (l *Lesson) figure(name string) (float64, bool) {
	if of := figures[name]; of != nil {
		return of(l), true
	}
	return l.quoted(name)
}

// words is what a choice says.
func (l *Lesson) words(c Choice, units scheme.Units) string {
	switch l.Claim.Of {
	case "finding":
		return say.Title(c.Is)
	case "figure":
		v, _ := l.figure(c.Is)
		if strings.HasSuffix(c.Is, "_mm") {
			return say.Length(v, units)
		}
		return strconv.FormatFloat(v, 'g', 4, 64)
	}
	return say.Text(chosen[l.Claim.Of][c.Is])
}

// validate says what is wrong with a claim as it is read.
func (l *Lesson) validateClaim() error {
	c := l.Claim
	if c.Question == "" || len(c.Choices) < 3 || !slices.ContainsFunc(c.Choices, func(x Choice) bool { return x.Is == c.Right }) {
		return fmt.Errorf("claim: a question, three choices, and the right one among them")
	}
	for _, x := range c.Choices {
		known := chosen[c.Of][x.Is] != ""
		switch c.Of {
		case "finding":
			known = check.Title(x.Is).String() != ""
		case "figure":
			_, known = l.figure(x.Is)
		}
		if !known || (x.Reply == "") != (x.Is == c.Right) {
			return fmt.Errorf("claim: %q of %q, reply %q", x.Is, c.Of, x.Reply)
		}
	}
	return nil
}

// reply is what is said to a choice.
func (l *Lesson) reply(x Choice, units scheme.Units) string {
	if x.Is == l.Claim.Right {
		return say.Text("So it is: %s. Now mend it.", say.Inside(l.words(x, units)))
	}
	return say.Text("No. %s", x.Reply)
}
