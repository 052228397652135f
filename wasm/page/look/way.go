package look

import "ruffwright/geom/pleat"

// sameGrid reports that two shapes have the same nodes.
func sameGrid(a, b pleat.Shape) bool {
	return a.NU == b.NU && a.NV == b.NV && len(a.Panels) == len(b.Panels)
}

// ease runs evenly from 0 to 1, slow at either end.
func ease(t float64) float64 {
	t = min(1, max(0, t))
	return t * t * (3 - 2*t)
}

// between is the part t of the way from one shape to another, in into's memory if
// it fits.
func between(into, from, to pleat.Shape, t float64) pleat.Shape {
	if !sameGrid(into, to) {
		into = pleat.Shape{NU: to.NU, NV: to.NV, Panels: make([]pleat.Panel, len(to.Panels))}
		for i := range into.Panels {
			into.Panels[i].V = append(into.Panels[i].V, to.Panels[i].V...)
		}
	}
	for i, panel := range to.Panels {
		for k, v := range panel.V {
			into.Panels[i].V[k] = from.Panels[i].V[k].Lerp(v, t)
		}
	}
	return into
}
