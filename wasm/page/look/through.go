package look

import (
	"bytes"
	"slices"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/wasm/page/say"
)

// leastRatio is the least pixels of a saved picture for one CSS pixel of the stage.
const leastRatio = 2

// Export is the view as it is seen (turn, nearness, shape, units, what is pointed
// at) as an "svg" or a "png", on a sheet's white ground whatever the reader's
// colours: it goes to a printer or into notes. What notes say hangs below it, unless a
// part of the sheet is enlarged.
func (l *Look) Export(kind string) ([]byte, error) {
	light, choice, going, stays := l.Light, l.choice, l.settling.going, l.stays
	l.Light, l.settling.going, l.stays = "light", false, [2]figure.Held{} // on a sheet of its own
	solving := l.Solving
	l.Solving = false // what is not solved is drawn, not guessed
	if choice != Against {
		l.choice = ""
	}
	d, lens, pixelPerMM, err := l.picture(false, !l.View.Turned && l.camera.Lens.Scale > 1)
	l.Light, l.choice, l.settling.going, l.stays, l.Solving = light, choice, going, stays, solving
	if err != nil {
		return nil, err
	}
	d = through(d, lens)
	if kind == "svg" {
		return d.SVG(), nil
	}
	var file bytes.Buffer
	err = d.PNG(&file, pixelPerMM*max(leastRatio, l.size.ratio))
	return file.Bytes(), err
}

// Sketch draws the ruff in the hand as it is held at first, on a sheet of its own,
// by "light" or "dark".
func (l *Look) Sketch(light string, width_mm, height_mm float64) (draw.Drawing, error) {
	return l.paint(inHand, figure.Options{
		Language: say.Language(), Width_mm: width_mm, Height_mm: height_mm, Palette: palette(light),
		Turn_deg: home.Turn_deg, Tilt_deg: home.Tilt_deg, Zoom: home.Zoom, Signs: true,
	}, nil)
}

// through is the sheet as the lens shows it.
func through(d draw.Drawing, l Lens) draw.Drawing {
	if l.Scale == 1 {
		return d
	}
	x := func(x float64) float64 { return (x-l.X*d.Width_mm)*l.Scale + d.Width_mm/2 }
	y := func(y float64) float64 { return (y-l.Y*d.Height_mm)*l.Scale + d.Height_mm/2 }
	point := func(q draw.Point) draw.Point { return draw.Point{X: x(q.X), Y: y(q.Y)} }
	items := make([]draw.Item, 0, len(d.Items))
	for _, it := range d.Items {
		switch it := it.(type) {
		case draw.Path:
			lines := make([][]draw.Point, len(it.Lines))
			for i, line := range it.Lines {
				for _, q := range line {
					lines[i] = append(lines[i], point(q))
				}
			}
			it.Lines, it.Width_mm, it.Dash_mm = lines, it.Width_mm*l.Scale, slices.Clone(it.Dash_mm)
			for i := range it.Dash_mm {
				it.Dash_mm[i] *= l.Scale
			}
			items = append(items, it)
		case draw.Label:
			it.At, it.Size_mm = point(it.At), it.Size_mm*l.Scale
			items = append(items, it)
		case draw.Solid:
			it.Eye.X, it.Eye.Y, it.Eye.Scale = x(it.Eye.X), y(it.Eye.Y), it.Eye.Scale*l.Scale
			items = append(items, it)
		}
	}
	d.Items, d.Scale = items, d.Scale*l.Scale
	return d
}
