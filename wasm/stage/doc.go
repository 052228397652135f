// Package stage replays drawings on an Ebiten canvas: it draws when told to and
// only then. What the reader does reaches it through the page's logic; Ebiten's
// own input is not used (see the loader). Everything that touches Ebiten is in
// files ending _js.go; the rest runs natively too.
package stage
