package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"

	"ruffwright/cmd/disk"
	"ruffwright/geom/picture"
	"ruffwright/geom/portrait"
)

// overlaying is what look is told of the picture itself.
type overlaying struct {
	picture string
	out     string
	over    bool
}

// open reads the source's picture, and says which points lie outside it; nil where none is
// given.
func (o overlaying) open(s portrait.Source) (*image.NRGBA, error) {
	if o.picture == "" {
		if o.out != "" {
			return nil, usageError{"look", "--out draws on the picture: give that as --picture"}
		}
		return nil, nil
	}
	if o.out != "" {
		if !strings.EqualFold(filepath.Ext(o.out), ".png") {
			return nil, fmt.Errorf("--out %q: expected a name that ends in .png", o.out)
		}
		if err := mayWrite("--out", o.out, o.over); err != nil {
			return nil, err
		}
	}
	f, err := os.Open(o.picture)
	if err != nil {
		return nil, fmt.Errorf("--picture %w", err)
	}
	defer f.Close()
	file, err := io.ReadAll(io.LimitReader(f, picture.MostBytes+1))
	if err != nil {
		return nil, fmt.Errorf("--picture %w", err)
	}
	m, _, err := picture.Open(file)
	if err != nil {
		return nil, fmt.Errorf("--picture %s: %w", o.picture, err)
	}
	for _, stroke := range strokes(s, nil) {
		for _, p := range stroke.Through {
			if !(p[0] >= 0 && p[1] >= 0 && p[0] <= float64(m.Rect.Dx()) && p[1] <= float64(m.Rect.Dy())) {
				return nil, fmt.Errorf("a point at [%g, %g] lies outside the picture; allowed: 0 to %d and 0 to %d", p[0], p[1], m.Rect.Dx(), m.Rect.Dy())
			}
		}
	}
	return m, nil
}

// write draws the points' lines and the ellipse of the edge on the picture.
func (o overlaying) write(m *image.NRGBA, s portrait.Source, outline []portrait.Point) error {
	if o.out == "" {
		return nil
	}
	picture.Draw(m, strokes(s, outline), max(math.Round(float64(m.Rect.Dx()+m.Rect.Dy())/1000), 2))
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		return err
	}
	return disk.Write(o.out, b.Bytes())
}

// strokes are the source's lines: the face's blue, the ruff's red, its outline yellow,
// each point of the edge a dot.
func strokes(s portrait.Source, outline []portrait.Point) []picture.Stroke {
	blue, red, yellow := color.NRGBA{40, 90, 170, 255}, color.NRGBA{180, 40, 50, 255}, color.NRGBA{225, 180, 40, 255}
	var all []picture.Stroke
	add := func(c color.NRGBA, points ...portrait.Point) {
		stroke := picture.Stroke{Colour: c}
		for _, p := range points {
			stroke.Through = append(stroke.Through, p)
		}
		all = append(all, stroke)
	}
	add(yellow, outline...)
	for _, r := range s.References {
		add(blue, r.From, r.To)
	}
	for _, p := range s.Edge {
		add(red, p, p)
	}
	for _, l := range append(append([]portrait.Line(nil), s.Depths...), s.Heights...) {
		add(red, l.From, l.To)
	}
	return all
}
