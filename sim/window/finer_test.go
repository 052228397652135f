package window

import "testing"

// TestFinerTells: a tucked set that sinks is told to be uncertain, by what two
// solves differ by; a firm one is not, nor anything that is solved on the finest
// grid.
func TestFinerTells(t *testing.T) {
	set := Settings{SkipBow: true, SkipOther: true, SkipTangents: true, Finer: true}
	sinks := solved(t, RandomTucked(34), set)
	finest := set
	finest.Grid = Finest
	f := solved(t, RandomTucked(34), finest)
	far := max(sinks.TopOuter_mm-f.TopOuter_mm, f.TopOuter_mm-sinks.TopOuter_mm, sinks.BottomOuter_mm-f.BottomOuter_mm, f.BottomOuter_mm-sinks.BottomOuter_mm)
	t.Logf("sinks by %.0f mm, moves by %.2f mm", sinks.Droop_mm, sinks.Mesh_mm)
	if !sinks.MeshDone || sinks.Mesh_mm != far || far < 1 {
		t.Errorf("done %v, %.2f mm, by hand %.2f", sinks.MeshDone, sinks.Mesh_mm, far)
	}
	if f.MeshDone || f.Mesh_mm != 0 {
		t.Error("the finest grid was held against itself")
	}
	firm := solved(t, DefaultDesign(), set)
	if !firm.MeshDone || firm.Mesh_mm > 1 {
		t.Errorf("the default: done %v, %.2f mm", firm.MeshDone, firm.Mesh_mm)
	}
	if firm.Extra == 0 {
		t.Error("the finer solve is not counted")
	}
}
