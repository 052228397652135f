package sim

import (
	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
)

// The grid of every closed-form ruff: cells along a panel and from neck to outer
// edge. It is the still grid of the half set, so that drawn and solved
// surfaces can be laid over each other node by node.
const (
	DrawNU = 24
	DrawNV = 12
)

// Draw gives the plan of s and its ruff in closed form on the grid DrawNU ×
// DrawNV, with nothing solved (Ruff.Solved is nil). Its errors are those of
// pleat.NewPlan: they name the field of s that is at fault.
func Draw(s scheme.Scheme) (Ruff, error) {
	plan, err := pleat.NewPlan(s)
	if err != nil {
		return Ruff{}, err
	}
	folded, err := plan.Fold(DrawNU, DrawNV)
	if err != nil {
		return Ruff{}, err
	}
	return Ruff{Plan: plan, Folded: folded}, nil
}
