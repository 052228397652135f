// Package light draws cloth: surfaces as an eye sees them, each pixel by what lies
// nearest, with the light that reaches it through the loops and through the cloth, and
// the lines that an engraver would leave: folds where the cloth turns away, hems,
// stitches. It knows nothing of ruffs and needs no graphics hardware; the page, the
// command, the sheets and the README show what it makes.
//
// A Scene is drawn for a Camera and a window of the sheet by Scene.Look, with so many
// pixels to a sheet's millimetre. What light reaches where is worked out by Scene.Bake,
// once for a shape; without it, folds are shaded by how deep they lie.
package light
