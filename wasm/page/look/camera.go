package look

import (
	"math"

	"ruffwright/geom/figure"
)

// Camera is how the reader holds the ruff. Turn, tilt, zoom and pan are of the view
// in the hand; the flat sheets are only moved under a lens.
type Camera struct {
	Turn_deg, Tilt_deg, Zoom float64
	PanX_mm, PanY_mm         float64 // how far it is moved to the right and up, mm of the ruff
	Lens                     Lens
}

// Lens enlarges a sheet: 1 shows all of it; X, Y in 0 … 1 is the place of the
// sheet in the lens's middle.
type Lens struct{ Scale, X, Y float64 }

// inHand is the view that the page begins with: the one that is turned.
var inHand = figure.Named("hand")

// home is the camera that Home returns to while the wearer stands.
var home = Camera{Turn_deg: 28, Tilt_deg: 26, Zoom: 1, Lens: Lens{1, 0.5, 0.5}}

const (
	leastZoom, mostZoom     = 0.5, 8
	leastLens, mostLens     = 1, 12
	degreesPerPixel         = 0.4  // of a drag
	degreesPerKey           = 7.5  // of an arrow
	zoomPerKey              = 1.25 // of + and −
	zoomPerPixel            = 0.0015
	shareOfSheetPerKey      = 0.12 // an arrow's step under the lens
	mostWheel               = 240  // CSS pixels of one event
	lowestTilt, highestTilt = -89, 89
	farthestPan_mm          = 400
)

// turn turns and tilts the ruff in the hand, or moves a sheet under the lens
// by the same step in degrees.
func (c *Camera) turn(inHand bool, turn, tilt float64) {
	if inHand {
		c.Turn_deg = math.Mod(c.Turn_deg+turn, 360)
		c.Tilt_deg = min(highestTilt, max(lowestTilt, c.Tilt_deg+tilt))
		return
	}
	step := shareOfSheetPerKey / degreesPerKey / c.Lens.Scale
	c.shift(turn*step, tilt*step)
}

// shift moves the lens over the sheet, by shares of the sheet.
func (c *Camera) shift(x, y float64) {
	half := 0.5 / c.Lens.Scale
	c.Lens.X = min(1-half, max(half, c.Lens.X+x))
	c.Lens.Y = min(1-half, max(half, c.Lens.Y+y))
}

// pan moves the ruff in the hand to the right and up, mm of the ruff.
func (c *Camera) pan(x_mm, y_mm float64) {
	c.PanX_mm = min(farthestPan_mm, max(-farthestPan_mm, c.PanX_mm+x_mm))
	c.PanY_mm = min(farthestPan_mm, max(-farthestPan_mm, c.PanY_mm+y_mm))
}

// zoom enlarges a sheet by factor about the place x, y of the stage (0 … 1), and a ruff
// in the hand about its middle.
func (c *Camera) zoom(inHand bool, factor, x, y float64) {
	if inHand {
		c.Zoom = min(mostZoom, max(leastZoom, c.Zoom*factor))
		return
	}
	old := c.Lens.Scale
	c.Lens.Scale = min(mostLens, max(leastLens, old*factor))
	// What lies under the pointer stays there.
	c.shift((x-0.5)*(1/old-1/c.Lens.Scale), (y-0.5)*(1/old-1/c.Lens.Scale))
}
