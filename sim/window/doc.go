// Package window solves one half set of a ruff: the panel between a crest and the
// next trough, from the band to the outer edge.
//
// # The model
//
// Every set is taken to be like its neighbours, so the radial planes through a
// crest and through the next trough are mirror planes; half a set, confined to
// the sector between them, stands for the ring, and confinement to the sector
// is exact contact with the neighbours. The panel is a shell (package shell)
// with u along the strip from crest (0) to trough (P) and v from the inner edge
// (0) to the outer (W). x points out from the neckline, y along it, z up from
// the band's bottom edge. With a = κ·pitch/2, the crest plane is y = 0 and the
// trough plane has the gap o + n·x, n = (sin a, −cos a, 0), o = sin a/κ.
//
// The sets are made as a maker makes them: *formed* wet, over sticks, without
// weight and with the inner edge on the band; *frozen* in that shape as far as
// starch and the quality of setting go; *released* under gravity. Starch is not
// a stiffer sheet: it is a second sheet whose rest shape is the formed one.
//
// A tuck is a pressed crease: on its fold lines the bending along u acts
// through a hinge of rigidity B/ℓ, ℓ = 8t(1 − (v/4t)²)² for v < 4t, in series
// with the strip (factor h/(h + ℓ), so the mesh does not matter). Its length 4t
// and stiffness are chosen, not measured. Tucked panels touch their neighbours
// along ridges, much narrower than a cell, so there contact is felt between the
// nodes (between.go).
//
// # What it leaves out
//
// Irregular sets, the opening, end panels, loops that lean (the antisymmetric
// tangent hints at those), friction, humidity. Stitches act as hinges. Tucked
// cloth without starch has several rest shapes; the one found is one of them.
//
// Energies are µJ and rigidities µN·m, both for this one half set.
package window
