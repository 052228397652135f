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
	"slices"
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
	for _, stroke := range append(overLines(s, nil), overDots(s)...) {
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
	wide := max(math.Round(float64(m.Rect.Dx()+m.Rect.Dy())/1000), 2)
	picture.Draw(m, overLines(s, outline), wide)
	picture.Draw(m, overDots(s), 4*wide)
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		return err
	}
	return disk.Write(o.out, b.Bytes())
}

// What is drawn: the face's lines blue, the ruff's red, its outline yellow.
var blue, red, yellow = color.NRGBA{40, 90, 170, 255}, color.NRGBA{180, 40, 50, 255}, color.NRGBA{225, 180, 40, 255}

// overLines are the source's lines and the outline of the edge.
func overLines(s portrait.Source, outline []portrait.Point) []picture.Stroke {
	all := []picture.Stroke{stroke(yellow, outline...)}
	for _, r := range s.References {
		all = append(all, stroke(blue, r.From, r.To))
	}
	for _, l := range slices.Concat(s.Depths, s.Heights) {
		all = append(all, stroke(red, l.From, l.To))
	}
	return all
}

// overDots are the points that were placed on the edge.
func overDots(s portrait.Source) (all []picture.Stroke) {
	for _, p := range s.Edge {
		all = append(all, stroke(red, p, p))
	}
	return all
}

func stroke(c color.NRGBA, points ...portrait.Point) picture.Stroke {
	s := picture.Stroke{Colour: c}
	for _, p := range points {
		s.Through = append(s.Through, p)
	}
	return s
}
