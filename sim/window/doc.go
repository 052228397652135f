// Package window solves a window of a ruff: a run of folds, crests and troughs in
// turn, with the panels of cloth between them, from the band to the outer edge.
//
// # The data
//
// A Run says where each Fold lies along the neckline, whether and how high it is
// sewn, how deep its tuck is, how long each panel is, and how the run ends: in its
// mirror image, closed onto itself, or free. A Design is the half set, one crest and
// one trough between mirrors: with all sets alike it stands for the whole ruff, and
// Solve measures it. Settle takes any Run.
//
// A frame lays one grid over all panels. Each panel is described from its crest to
// its trough in the crest's own frame: x points out from the neckline, y along it
// towards the trough, z up from the band's bottom edge. With a = κ·room, the crest
// plane is y = 0 and the trough plane has the gap o + n·x, n = (sin a, −cos a, 0),
// o = sin a/κ. A panel that begins at its trough is mirrored, and all are turned to
// their places about the neck's axis; that of a half set lies as it is. The whole
// is a shell (package shell) with u along the strip and v from the inner edge (0)
// to the outer (W).
//
// # Contact round the neck
//
// What a panel meets across a fold is the next panel: in the same window, or beyond
// its end the image of one, by mirror or by turn. Where the two are alike, each is
// the other's image in the fold's radial plane, and to keep to its own side of that
// plane, a wall, is exactly what they do to each other. So every panel keeps
// between its walls. Where they may lean over, all alike, the walls are taken away
// (loose): cloth presses on cloth, of the images too, and inside a tuck each node
// faces its like. Either way two layers press as on a plane midway between them.
//
// # The making
//
// The sets are made as a maker makes them: *formed* damp, with the inner edge on the
// band; *frozen* in that shape as far as starch and the quality of setting go;
// *released* under gravity. Starch is not a stiffer sheet: it is a second sheet whose
// rest shape is the formed one, in its curvature and in its skew.
//
// Tucked sets, and others for which the design names a stick, are formed on sticks
// (stick.go): without weight, with the rigidity that the cloth has, over a rigid round
// stick in every crest and every trough. The sticks stand level, are as thick as the
// design says (or leave the loops their own height, OwnStick), and are drawn apart until
// the cloth is snug. At the outer edge geometry then says how tall the strip stands
// (curve.TautHeight): a forming far off that (hung_mm) is tried in other ways, and
// Values.FormedOff_mm tells how far off the best of them is. On the fine grids it begins
// with the shape of the Coarse one. Sets without tucks and sticks find their loops by
// themselves, without weight: they come to the same shape however they are formed.
// Hung sets dry under their own weight.
//
// What sticks do not decide is the inside of a tuck: it may lie in several ways, and
// which it takes depends on how the sticks are put in. So the half set is solved again
// on the finest grid, with the sticks put in otherwise and 1 % larger (finer.go), and
// Mesh_mm, Paths_mm and Apart_mm tell by how much those differ. What is asked on the Coarse grid
// is asked of one half set, made there once (coarse.go).
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
// That the two layers of a tuck press on each other: they may pass through each other, in
// tucked demos by 0.4 to 1.8 mm. Of a half set all that is unlike its neighbours; of unlike ones that they push the
// plane between them aside; and of unlike tucked ones the sticks: all sticks of a run
// share their levels and one thickness, the mean room's, so unlike tucked sets are not
// formed each to its own height, and a tucked run that is closed is refused. Friction,
// humidity. Stitches act as hinges. Tucked cloth without starch has several rest shapes;
// the one found is one of them.
//
// Energies are µJ, of the whole window; rigidities are µN·m.
package window
