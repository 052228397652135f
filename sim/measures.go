package sim

import (
	"fmt"
	"math"
	"slices"

	"ruffwright/sim/window"
)

// measured turns a solved half set into its numbers.
func measured(c *window.Window, set window.Settings) Measures {
	d := &c.Design
	m := Measures{
		Kappa_1pmm: d.Kappa_1pmm, Panel_mm: d.Panel_mm, Pitch_mm: d.Pitch_mm, PitchOuter_mm: c.PitchOuter_mm,
		HeightOuter_mm: c.HeightOuter_mm, HeightInner_mm: c.HeightInner_mm,
		TopOuter_mm: c.TopOuter_mm, BottomOuter_mm: c.BottomOuter_mm,
		Loop_mm: c.Loop_mm, LoopsMeet: c.LoopsMeet, Contact: c.Contact, Reach_mm: c.Reach_mm,
		Tilt_deg: c.Tilt_deg, Droop_mm: c.Droop_mm, FlapsFall: c.FlapsFall,
		BowDone: c.BowDone, Bow_mm: c.Bow_mm, BowReturn_mm: c.BowReturn_mm,
		TangentsDone:      !set.SkipTangents && c.Converged(),
		Vertical_mm_per_g: c.Vertical_mm_per_g, VerticalStable: c.VerticalStable,
		Lateral_mm_per_g: c.Lateral_mm_per_g, LateralStable: c.LateralStable,
		Leans: c.Leans.String(), Leans_mm: c.Leans_mm,
		MeshDone: c.MeshDone, Mesh_mm: c.Mesh_mm,
		OtherDone: !set.SkipOther && c.Converged(),
		Popped:    c.Popped, Thread_N: c.Thread_N, Strain: c.Strain,
		Converged:  c.Converged(),
		Status:     c.Release.Status.String(),
		Iterations: c.Iterations, Extra: c.Extra,
		Residual_mN: c.Release.Residual, Deepest_mm: c.Release.Deepest,
		Mesh: fmt.Sprintf("%d × %d", c.Grid.NU, c.Grid.NV),
	}
	if c.Form.Status.Early() {
		m.Status = "forming: " + c.Form.Status.String()
	}
	if o := c.Other; o != nil {
		m.OtherFound = true
		m.OtherShare = o.DeltaShare
		m.OtherHeights = [2]float64{o.TopOuter_mm, o.BottomOuter_mm}
	}
	return m
}

// whole gathers the half sets into the ruff: means weighted by how many panels
// each speaks for, and the worst of what must stay small. Bow, other equilibrium
// and their flags come from the half sets on which they were tried.
func whole(sets []Measures) Measures {
	var w Measures
	for _, m := range sets {
		w.Panels += m.Panels
	}
	if w.Panels == 0 {
		return w
	}
	w.Status, w.Converged, w.Mesh = sets[0].Status, true, sets[0].Mesh
	w.LoopsMeet, w.VerticalStable, w.LateralStable, w.TangentsDone = true, true, true, true
	tried, bowed, fall := false, true, 0
	for i := range sets {
		m := &sets[i]
		f := float64(m.Panels) / float64(w.Panels)
		for _, v := range []struct{ to, from *float64 }{
			{&w.Kappa_1pmm, &m.Kappa_1pmm}, {&w.Panel_mm, &m.Panel_mm}, {&w.Pitch_mm, &m.Pitch_mm},
			{&w.PitchOuter_mm, &m.PitchOuter_mm}, {&w.HeightOuter_mm, &m.HeightOuter_mm},
			{&w.HeightInner_mm, &m.HeightInner_mm}, {&w.TopOuter_mm, &m.TopOuter_mm},
			{&w.BottomOuter_mm, &m.BottomOuter_mm}, {&w.Loop_mm, &m.Loop_mm}, {&w.Contact, &m.Contact},
			{&w.Reach_mm, &m.Reach_mm}, {&w.Tilt_deg, &m.Tilt_deg}, {&w.Droop_mm, &m.Droop_mm},
		} {
			*v.to += f * *v.from
		}
		for _, v := range []struct{ to, from *float64 }{
			{&w.Bow_mm, &m.Bow_mm}, {&w.BowReturn_mm, &m.BowReturn_mm},
			{&w.Vertical_mm_per_g, &m.Vertical_mm_per_g}, {&w.Lateral_mm_per_g, &m.Lateral_mm_per_g},
			{&w.Leans_mm, &m.Leans_mm}, {&w.Mesh_mm, &m.Mesh_mm}, {&w.Thread_N, &m.Thread_N}, {&w.Strain, &m.Strain},
			{&w.Residual_mN, &m.Residual_mN}, {&w.Deepest_mm, &m.Deepest_mm},
		} {
			*v.to = math.Max(*v.to, *v.from)
		}
		w.LoopsMeet = w.LoopsMeet && m.LoopsMeet
		w.VerticalStable = w.VerticalStable && m.VerticalStable
		w.LateralStable = w.LateralStable && m.LateralStable
		w.TangentsDone = w.TangentsDone && m.TangentsDone
		if worse(m.Leans, w.Leans) {
			w.Leans = m.Leans
		}
		w.Popped = w.Popped || m.Popped
		w.Iterations += m.Iterations
		w.Extra += m.Extra
		if !m.Converged {
			w.Converged, w.Status = false, m.Status
		}
		if m.FlapsFall {
			fall += m.Panels
		}
		if i == 0 || i == len(sets)-1 {
			bowed = bowed && m.BowDone
		}
		w.MeshDone = w.MeshDone || m.MeshDone
		w.OtherDone = w.OtherDone || m.OtherDone
		if m.OtherFound && (!tried || math.Abs(m.OtherShare) < math.Abs(w.OtherShare)) {
			tried = true
			w.OtherFound, w.OtherShare, w.OtherHeights = true, m.OtherShare, m.OtherHeights
		}
	}
	w.BowDone = bowed
	w.FlapsFall = 2*fall > w.Panels
	return w
}

// worse reports which of two words for what loops do when pushed sideways weighs
// more.
func worse(a, b string) bool {
	order := []string{"", "no", "inner", "undecided", "yes"}
	return slices.Index(order, a) > slices.Index(order, b)
}
