package trial

import (
	"context"
	"fmt"
	"math"

	"ruffwright/sim/cloth"
	"ruffwright/sim/window"
)

// poser holds the sets of one catch.
type poser struct {
	card *Card
	kept *window.Kept
	fail int
}

// keep forms the sets of a card, for one catch.
func (c *Card) keep(ctx context.Context, catch_mm, panel_mm float64, grid window.Grid) (*poser, error) {
	d := c.design
	d.LineGap_mm, d.Panel_mm = catch_mm, panel_mm
	kept, ok, err := window.Keep(ctx, d, window.Settings{Grid: grid})
	if err == nil && !ok {
		err = errRest
	}
	if err != nil {
		return nil, fmt.Errorf("forming a trial whose stitch holds %g mm: %w", catch_mm, err)
	}
	return &poser{card: c, kept: kept}, nil
}

// point is a place of the table: ln B, quality, ln of the shear beside that taken, tilt in
// degrees.
type point struct{ lnB, quality, lnShear, tilt float64 }

// starched is the sets' starch there.
func (c *Card) starched(at point) (window.Starched, error) {
	s := c.scheme
	s.Starch.Bend = c.Bend_mm * math.Exp(at.lnB/3)
	sheet, err := cloth.FromScheme(s)
	return window.Starched{FrozenU_uNm: sheet.FrozenU_uNm, FrozenV_uNm: sheet.FrozenV_uNm, FrozenShear_Npm: sheet.FrozenShear_Npm * math.Exp(at.lnShear), Quality: at.quality}, err
}

// pose gives a reading's pose, with the card tipped farther by tilt degrees, from another
// one, which may be nil.
func (p *poser) pose(r Reading, at point, from *window.Pose) (*window.Pose, float64, error) {
	z, err := p.card.starched(at)
	if err != nil {
		return nil, 0, err
	}
	q, err := p.kept.Hang(z, slopes[r]+at.tilt, from)
	if err == nil && !q.Done && from != nil {
		q, err = p.kept.Hang(z, slopes[r]+at.tilt, nil)
	}
	if err != nil {
		return nil, 0, err
	}
	if !q.Done {
		p.fail++
	}
	return q, p.card.read(q, r), nil
}

// read takes a reading off a pose.
func (c *Card) read(p *window.Pose, r Reading) float64 {
	crest, trough := p.Outer()
	if r == Height {
		return crest[2] - trough[2]
	}
	return trough[2] - c.design.BandHeight_mm
}

// middling is the quality at which slopes are taken, and at how many places.
const (
	middling = 2
	slopesAt = (stiffness + 1) / 2
)

// leaf fills the table for one catch: quality by quality, each from the one before, and
// along the stiffness from where the last two lead on.
func (t *Table) leaf(ctx context.Context, k int, tell func()) error {
	p, err := t.Card.keep(ctx, catches[k], t.Card.Panel_mm, t.grid)
	if err != nil {
		return err
	}
	l := &t.at[k]
	for r := range Readings {
		var begin *window.Pose
		for m, quality := range qualities {
			before, last := (*window.Pose)(nil), begin
			for i, b := range t.lnB {
				at := point{lnB: b, quality: quality}
				q, y, err := p.pose(r, at, last.Onward(before))
				if err != nil {
					return err
				}
				l.y[r][i][m] = y
				if i == 0 {
					begin, last = q, nil
				}
				before, last = last, q
				if m == middling && i%2 == 0 {
					if err := l.slopes(p, r, i/2, at, q, y); err != nil {
						return err
					}
				}
			}
			tell()
		}
	}
	l.fails, l.count = p.fail, p.kept.Solves()
	return t.slopeForm(ctx, k)
}

// slopes takes the slopes by shear and tilt at one place, whose pose is q.
func (l *leaf) slopes(p *poser, r Reading, i int, at point, q *window.Pose, y float64) error {
	at.lnShear = shearStep
	_, other, err := p.pose(r, at, q)
	if err != nil {
		return err
	}
	l.shear[r][i] = (other - y) / shearStep
	if r == Height { // the tilt moves it by nothing that a ruler could read
		return nil
	}
	at.lnShear, at.tilt = 0, tiltStep
	_, other, err = p.pose(r, at, q)
	l.tilt[r][i] = (other - y) / tiltStep
	return err
}

// slopeForm takes the slopes by the formed height, on the coarse grid, at the stiffness
// expected: of two sets that differ in their panels' length.
func (t *Table) slopeForm(ctx context.Context, k int) error {
	l := &t.at[k]
	var y [2][Readings]float64
	for i := range y {
		p, err := t.Card.keep(ctx, catches[k], t.Card.Panel_mm*(1+float64(i)*formStep), window.Coarse)
		if err != nil {
			return err
		}
		for r := range Readings {
			if _, y[i][r], err = p.pose(r, point{quality: qualities[middling]}, nil); err != nil {
				return err
			}
		}
		l.count += p.kept.Solves()
	}
	for r := range Readings {
		l.form[r] = (y[1][r] - y[0][r]) / (y[1][Height] - y[0][Height])
	}
	return nil
}
