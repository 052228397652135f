package shell

import (
	"errors"
	"fmt"
	"math"
)

// Contact is an obstacle that every node with a weight keeps clear of, without
// friction. Its gap, in mm, is
//
//	gap = Normal·x + Radial·(r − Radius) − Clear,  r = |(x, y) − Axis|
//
// A plane has Radial 0 and a unit Normal. A cylinder about the z axis through
// Axis has Normal 0 and Radial 1 (stay outside) or −1 (stay inside). A cone
// has Normal (0, 0, cos β) and Radial −sin β: above a supporter that rises
// outward by β.
type Contact struct {
	Normal [3]float64
	Radial float64
	Axis   [2]float64
	Radius float64
	// Clear moves the surface out by so many mm: half the sheet's thickness, and
	// minus the plane's own offset.
	Clear float64
	// Stiffness is k of doc.go in mN/mm per node of weight 1; > 0.
	Stiffness float64
	// Skin is w of doc.go in mm; > 0. Force begins at a gap of w.
	Skin float64
	// Tie makes it a two-sided spring of energy ½ k gap² instead: nodes held on
	// the surface. Skin is then not used.
	Tie bool
	// Weight multiplies Stiffness node by node, 0 for no contact; nil means 1 at
	// every node. Nodes held on every axis never feel contact.
	Weight []float64
	// Back moves the surface back by so many mm at each node; nil means 0.
	Back []float64
	// Between makes the obstacle felt at the sheet's Spots, not at its nodes; with
	// weights in proportion to Spot.Area its stiffness does not depend on the mesh.
	// Weight and Back are given spot by spot. No Tie.
	Between bool
	// Image says that the surface is one of the sheet's own mirror planes: in an
	// antisymmetric movement the image goes along, and the plane does not press.
	Image bool
}

// Plane returns an obstacle that keeps normal·x ≥ offset, normal of length 1.
func Plane(normal [3]float64, offset float64) Contact {
	return Contact{Normal: normal, Clear: offset}
}

// Outside returns an obstacle that keeps nodes at least radius mm from the
// vertical line through axis (mm).
func Outside(axis [2]float64, radius float64) Contact {
	return Contact{Radial: 1, Axis: axis, Radius: radius}
}

// Above returns a cone about the vertical line through axis: nodes stay above
// z = height + tan(slope)·(r − radius); slope in radians, −π/2 < slope < π/2.
// With radius 0 and a far axis it is nearly a plane.
func Above(axis [2]float64, radius, height, slope float64) Contact {
	c, s := math.Cos(slope), math.Sin(slope)
	return Contact{Normal: [3]float64{0, 0, c}, Radial: -s, Axis: axis, Radius: radius, Clear: height * c}
}

func (c *Contact) validate(nodes, spots int) error {
	if c.Between {
		if nodes = spots; c.Tie {
			return errors.New("Between and Tie; at most one is allowed")
		}
	}
	for _, v := range []float64{c.Normal[0], c.Normal[1], c.Normal[2], c.Radial, c.Axis[0], c.Axis[1], c.Radius, c.Clear} {
		if !finite(v) {
			return errors.New("geometry must be finite")
		}
	}
	if g := math.Hypot(norm(c.Normal), c.Radial); math.Abs(g-1) > 1e-6 {
		return fmt.Errorf("the gap's gradient has length %v; allowed is 1", g)
	}
	if !finite(c.Stiffness) || c.Stiffness <= 0 {
		return fmt.Errorf("Stiffness = %v mN/mm; it must be > 0", c.Stiffness)
	}
	if !c.Tie && !(c.Skin > 0 && finite(c.Skin)) {
		return fmt.Errorf("Skin = %v mm; it must be > 0", c.Skin)
	}
	if c.Weight != nil && len(c.Weight) != nodes {
		return fmt.Errorf("Weight has %d entries; nil or %d", len(c.Weight), nodes)
	}
	if c.Back != nil && len(c.Back) != nodes {
		return fmt.Errorf("Back has %d entries; nil or %d", len(c.Back), nodes)
	}
	for _, v := range c.Back {
		if !finite(v) {
			return fmt.Errorf("Back %v; it must be finite", v)
		}
	}
	for _, w := range c.Weight {
		if !finite(w) || w < 0 {
			return fmt.Errorf("Weight %v; it must be ≥ 0", w)
		}
	}
	return nil
}

// Gap returns the gap at p in mm, negative inside the obstacle, before Back.
func (c *Contact) Gap(p [3]float64) float64 {
	g := dot3(c.Normal, p) - c.Clear
	if c.Radial != 0 {
		g += c.Radial * (round(p[0]-c.Axis[0], p[1]-c.Axis[1]) - c.Radius)
	}
	return g
}

// at returns the weight and Back of a node or spot.
func (c *Contact) at(n int) (weight, back float64) {
	weight = 1
	if c.Weight != nil {
		weight = c.Weight[n]
	}
	if c.Back != nil {
		back = c.Back[n]
	}
	return
}

// gradient returns the gap's gradient and, for round surfaces, r.
func (c *Contact) gradient(p [3]float64) (n [3]float64, rx, ry, r float64) {
	n = c.Normal
	if c.Radial != 0 {
		rx, ry = p[0]-c.Axis[0], p[1]-c.Axis[1]
		r = round(rx, ry)
		if r > 0 {
			rx, ry = rx/r, ry/r
		}
		n[0] += c.Radial * rx
		n[1] += c.Radial * ry
	}
	return
}

// Press returns the force in mN with which the surface pushes a node of weight
// 1 at a gap in mm.
func (c *Contact) Press(gap float64) float64 {
	_, d, _ := c.force(gap)
	return -d
}

// force returns φ, φ′ and φ″ at a gap.
func (c *Contact) force(gap float64) (phi, d1, d2 float64) {
	k, w := c.Stiffness, c.Skin
	if c.Tie {
		return 0.5 * k * gap * gap, k * gap, k
	}
	s := w - gap
	switch {
	case s <= 0:
		return 0, 0, 0
	case s <= 2*w:
		return k * s * s * s / (6 * w), -k * s * s / (2 * w), k * s / w
	}
	// at s = 2w: φ = 4kw²/3, −φ′ = 2kw, φ″ = 2k
	t := s - 2*w
	return k * (4*w*w/3 + 2*w*t + t*t), -k * (2*w + 2*t), 2 * k
}

// round is the distance from an axis: lengths in mm are far from where Hypot's
// care is needed, and it is no instruction in wasm.
func round(x, y float64) float64 { return math.Sqrt(x*x + y*y) }
