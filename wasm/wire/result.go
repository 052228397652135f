package wire

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"slices"

	"ruffwright/geom"
	"ruffwright/geom/pleat"
	"ruffwright/sim"
	"ruffwright/sim/measure"
)

// result is the head of a Result. The body holds the surfaces one after the
// other, each panel by panel, each node's x, y, z in mm as float32: at 200 mm
// from the middle a number is then right to 1e-5 mm. The droop of the distinct
// half sets follows, node by node, if it is told.
type result struct {
	NU     int              `json:"nu"`
	NV     int              `json:"nv"`
	Panels int              `json:"panels"`
	Bowed  bool             `json:"bowed,omitempty"` // a second surface
	Other  bool             `json:"other,omitempty"` // and one more
	Droop  bool             `json:"droop,omitempty"`
	Ruff   measure.Values   `json:"ruff"`
	Sets   []measure.Values `json:"sets"`
	Of     []int            `json:"of"`
	Alike  bool             `json:"alike,omitempty"`
	Awaits []string         `json:"awaits,omitempty"`
	Took   float64          `json:"took_ms"`
}

// parts are what a result may still await.
var parts = []string{"fine", "bow", "other"}

func (r *Result) encode() (*result, []byte, error) {
	s := r.Solved
	if s == nil {
		return nil, nil, errors.New("wire: a result without a ruff")
	}
	h := &result{
		NU: s.Shape.NU, NV: s.Shape.NV, Panels: len(s.Shape.Panels),
		Bowed: s.Bowed != nil, Other: s.Other != nil, Droop: s.Droop != nil,
		Ruff: s.Ruff, Sets: s.Sets, Of: s.Of, Alike: s.Alike, Awaits: r.Awaits, Took: r.Took,
	}
	if err := h.validate(); err != nil {
		return nil, nil, err
	}
	body := make([]byte, 0, h.size())
	for _, shape := range []*pleat.Shape{&s.Shape, s.Bowed, s.Other} {
		if shape == nil {
			continue
		}
		if shape.NU != h.NU || shape.NV != h.NV || len(shape.Panels) != h.Panels {
			return nil, nil, fmt.Errorf("wire: surfaces of %d × %d × %d and %d × %d × %d in one result",
				h.Panels, h.NU, h.NV, len(shape.Panels), shape.NU, shape.NV)
		}
		for i, p := range shape.Panels {
			if len(p.V) != (h.NU+1)*(h.NV+1) {
				return nil, nil, fmt.Errorf("wire: panel %d has %d nodes on a grid of %d × %d", i, len(p.V), h.NU, h.NV)
			}
			for _, v := range p.V {
				for _, x := range [3]float64{v.X, v.Y, v.Z} {
					x32 := float32(x)
					if !finite(x32) {
						return nil, nil, fmt.Errorf("wire: panel %d has a node at %v", i, v)
					}
					body = binary.LittleEndian.AppendUint32(body, math.Float32bits(x32))
				}
			}
		}
	}
	if s.Droop != nil && len(s.Droop) != len(s.Sets) {
		return nil, nil, fmt.Errorf("wire: the droop of %d half sets of %d", len(s.Droop), len(s.Sets))
	}
	for k, droop := range s.Droop {
		if len(droop) != (h.NU+1)*(h.NV+1) {
			return nil, nil, fmt.Errorf("wire: half set %d droops at %d nodes on a grid of %d × %d", k, len(droop), h.NU, h.NV)
		}
		for _, x := range droop {
			x32 := float32(x)
			if !finite(x32) {
				return nil, nil, fmt.Errorf("wire: half set %d droops by %v", k, x)
			}
			body = binary.LittleEndian.AppendUint32(body, math.Float32bits(x32))
		}
	}
	return h, body, nil
}

func (h *result) decode(body []byte) (*Result, error) {
	if err := h.validate(); err != nil {
		return nil, err
	}
	if len(body) != h.size() {
		return nil, fmt.Errorf("wire: a body of %d bytes; the head tells of %d", len(body), h.size())
	}
	s := &sim.Solved{Ruff: h.Ruff, Sets: h.Sets, Of: h.Of, Alike: h.Alike}
	s.Grid.NU, s.Grid.NV = h.NU, h.NV
	row := (h.NU + 1) * (h.NV + 1)
	take := func() (*pleat.Shape, error) {
		nodes := make([]geom.Vec3, h.Panels*row)
		for i := range nodes {
			var v [3]float64
			for c := range v {
				x := math.Float32frombits(binary.LittleEndian.Uint32(body[12*i+4*c:]))
				if !finite(x) {
					return nil, fmt.Errorf("wire: node %d is not finite", i)
				}
				v[c] = float64(x)
			}
			nodes[i] = geom.Vec3{X: v[0], Y: v[1], Z: v[2]}
		}
		body = body[12*len(nodes):]
		shape := &pleat.Shape{NU: h.NU, NV: h.NV, Panels: make([]pleat.Panel, h.Panels)}
		for i := range shape.Panels {
			shape.Panels[i].V = nodes[i*row : (i+1)*row : (i+1)*row]
		}
		return shape, nil
	}
	shape, err := take()
	if err != nil {
		return nil, err
	}
	s.Shape = *shape
	if h.Bowed {
		if s.Bowed, err = take(); err != nil {
			return nil, err
		}
	}
	if h.Other {
		if s.Other, err = take(); err != nil {
			return nil, err
		}
	}
	if h.Droop {
		s.Droop = make([][]float64, len(h.Sets))
		for k := range s.Droop {
			s.Droop[k] = make([]float64, row)
			for i := range row {
				x := math.Float32frombits(binary.LittleEndian.Uint32(body[4*i:]))
				if !finite(x) {
					return nil, fmt.Errorf("wire: droop of half set %d is not finite", k)
				}
				s.Droop[k][i] = float64(x)
			}
			body = body[4*row:]
		}
	}
	return &Result{Solved: s, Awaits: h.Awaits, Took: h.Took}, nil
}

// size is how many bytes the body has.
func (h *result) size() int {
	n := 1
	for _, more := range []bool{h.Bowed, h.Other} {
		if more {
			n++
		}
	}
	n *= 3 * h.Panels
	if h.Droop {
		n += len(h.Sets)
	}
	return n * (h.NU + 1) * (h.NV + 1) * 4
}

func (h *result) validate() error {
	switch {
	case h.NU < leastCells || h.NU > mostCells || h.NV < leastCells || h.NV > mostCells:
		return fmt.Errorf("wire: a grid of %d × %d; allowed are %d to %d", h.NU, h.NV, leastCells, mostCells)
	case h.Panels < 1 || h.Panels > mostPanels:
		return fmt.Errorf("wire: %d panels; allowed are 1 to %d", h.Panels, mostPanels)
	case len(h.Of) != h.Panels:
		return fmt.Errorf("wire: %d panels and the sets of %d", h.Panels, len(h.Of))
	case len(h.Sets) < 1 || len(h.Sets) > h.Panels:
		return fmt.Errorf("wire: %d distinct half sets of %d panels", len(h.Sets), h.Panels)
	case slices.ContainsFunc(h.Of, func(k int) bool { return k < 0 || k >= len(h.Sets) }):
		return errors.New("wire: a panel of no half set")
	case slices.ContainsFunc(h.Awaits, func(a string) bool { return !slices.Contains(parts, a) }):
		return fmt.Errorf("wire: awaits %q; known are %q", h.Awaits, parts)
	case !(h.Took >= 0):
		return fmt.Errorf("wire: took %v ms", h.Took)
	}
	return nil
}

func finite(x float32) bool { return x-x == 0 }
