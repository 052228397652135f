package figure

import (
	"ruffwright/geom/draw"
	"ruffwright/geom/pleat"
	"ruffwright/geom/word"
)

// View is a way to look at a ruff: a row of the table Views.
type View struct {
	Name  string    // as it is typed
	Label word.Text // on its button, and the title of its sheets
	Shows word.Text // what is to be seen, for a line of help
	Tells word.Text // the same in sentences, for who looks at it; empty where turning tells more

	Turned bool     // held in the hand: Options.Turn_deg, Tilt_deg, Zoom and Row are for it; the others lie on their sheet
	Strip  bool     // the strip laid flat: it takes no shape and no scale, but Options.Joins_mm
	Dyed   bool     // its cloth takes Options.Tone, with a legend
	Lacks  []string // places that it does not show: of a note about them the words are all

	draw func(*sheet) error
}

// Views are all views, in the order of their buttons.
var Views = []*View{
	{
		Name: "hand", Label: word.Say("In the hand"), Shows: word.Say("in the hand, shaded"),
		Turned: true, Dyed: true, draw: inHand,
	},
	{
		Name: "above", Label: word.Say("From above"), Shows: word.Say("the ruff from above"),
		Tells: word.Say("The neck in the middle, the opening at the front."),
		Dyed:  true, Lacks: []string{WhereChin}, draw: above,
	},
	{
		Name: "front", Label: word.Say("From the front"), Shows: word.Say("from the front, on its wearer"),
		Tells: word.Say("The ruff on its wearer, level with the eye, the opening in the middle."),
		Dyed:  true, draw: front,
	},
	{
		Name: "side", Label: word.Say("From the side"), Shows: word.Say("from the wearer's left, and a set cut through"),
		Tells: word.Say("The ruff on its wearer, level with the eye, and a set cut through from the neck outward."),
		Dyed:  true, Lacks: []string{WhereOpening}, draw: side,
	},
	{
		Name: "set", Label: word.Say("One set"), Shows: word.Say("one set: the outer edge's curve and the loop's clear width"),
		Tells: word.Say("The outer edge of one set and its loop’s clear width."),
		Dyed:  true, Lacks: []string{WhereOpening, WhereJoins, WhereNeck, WhereStrip, WhereChin, WhereSupport}, draw: oneSet,
	},
	{
		Name: "cut", Label: word.Say("Cut through"), Shows: word.Say("one set cut through: its edges' curves, tucks, slack, depth"),
		Tells: word.Say("One set as two clear sections: its edges’ curves seen end on, with loop, tucks and slack, and cut from the neck outward."),
		Lacks: []string{WhereOpening, WhereJoins, WhereStrip, WhereChin, WhereSupport}, draw: cut,
	},
	{
		Name: "flat", Label: word.Say("Laid flat"), Shows: word.Say("the strip laid flat, with top and bottom marks"),
		Tells: word.Say("The strip with its top and bottom marks."),
		Strip: true, Lacks: []string{WhereNeck, WhereChin, WhereSupport}, draw: flat,
	},
}

// Named is the view of a name; nil where there is none.
func Named(name string) *View {
	for _, v := range Views {
		if v.Name == name {
			return v
		}
	}
	return nil
}

// Draw draws the view of a ruff. The errors name what in the plan, the shape or
// the options cannot be drawn.
func (v *View) Draw(plan pleat.Plan, shape pleat.Shape, opt Options) (draw.Drawing, error) {
	opt, err := opt.filled()
	if err != nil {
		return draw.Drawing{}, err
	}
	s := &sheet{opt: opt, plan: plan, shape: shape, title: v.Label, lacks: v.Lacks, badged: map[draw.Point]bool{}}
	if v.Strip {
		err = checkPlan(plan)
	} else {
		err = checkShape(plan, shape)
		if err == nil && opt.Rest != nil {
			err = checkShape(plan, *opt.Rest)
		}
	}
	if err == nil && v.Dyed && opt.Tone != nil {
		s.tone, err = newToned(*opt.Tone, shape, opt.Palette, opt.Units)
	}
	if err == nil {
		opt.Kept.begin()
		err = v.draw(s)
	}
	if err != nil {
		return draw.Drawing{}, err
	}
	s.clear()
	s.key()
	return s.Drawing, nil
}

type sheet struct {
	*draw.Sheet // from head on
	opt         Options
	plan        pleat.Plan
	shape       pleat.Shape
	title       word.Text
	tone        *toned // of the cloth; nil: not dyed
	lacks       []string
	below       int // items below everything else: the rule under the title, then what is solid
	badges      []draw.Rect
	badged      map[draw.Point]bool // where letters of badges lie
}

// head begins the sheet with its title, a note beside it, and the legend.
func (s *sheet) head(note word.Text) {
	s.Sheet = draw.NewSheet(s.opt.Width_mm, s.opt.Height_mm, s.opt.Palette, s.opt.Units, s.opt.Language, s.opt.Letter, s.title, note)
	s.below = 1
	s.legend(s.tone)
}

func (s *sheet) numberWidth(number word.Text) float64 {
	return draw.TextWidth(s.Say(number), draw.TextSize, draw.Upright)
}
