package solving

import (
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim/trial"
	"ruffwright/wasm/wire"
)

// gauged is the model of the trial of one scheme: other readings of it are told at once.
type gauged struct {
	scheme string
	table  *trial.Table
}

// gauge tells what the readings of a trial say.
func (j *job) gauge() {
	s, err := scheme.Parse([]byte(j.r.Scheme))
	if err != nil {
		j.refuse(err)
		return
	}
	card, err := trial.New(s)
	if err != nil {
		j.refuse(err)
		return
	}
	read := trial.Read{Weight_g: j.r.Read.Weight_g, At: j.r.Read.At_mm, Has: j.r.Read.Has}
	if err := card.Check(&read); err != nil {
		j.refuse(err)
		return
	}
	g := &j.b.gauged
	if g.table == nil || g.scheme != j.r.Scheme {
		const steps = 100
		table, err := trial.Tabulate(j.ctx, card, trial.Options{Progress: func(done float64) {
			j.at(wire.Progress{Phase: "the trial's model", Cell: int(done * steps), Cells: steps})
		}})
		if err != nil {
			j.refuse(err)
			return
		}
		*g = gauged{j.r.Scheme, table}
	}
	a, err := g.table.Answer(read)
	if err != nil {
		j.refuse(err)
		return
	}
	j.say(wire.Reply{Last: true, Told: toldOf(&a, &g.table.Card)})
}

// toldOf is an answer as it goes to the page.
func toldOf(a *trial.Answer, c *trial.Card) *wire.Told {
	three := func(b trial.Bounds) [3]float64 { return [3]float64{b.Value, b.Low, b.High} }
	pack := func(list []word.Text) []word.Packed {
		out := []word.Packed{}
		for _, t := range list {
			out = append(out, word.Packed{Text: t})
		}
		return out
	}
	return &wire.Told{
		Bend_mm: three(a.Bend_mm), Quality: three(a.Quality), Catch_mm: three(a.Catch_mm), Formed_mm: three(a.Formed_mm), Mass_gm2: three(a.Mass_gm2),
		Wrong: pack(a.Contradictions()), Notes: pack(a.Notes(c)), Changes: a.Changes(c),
	}
}
