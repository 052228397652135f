package look

import (
	"math"
	"strconv"
	"strings"
)

// threeOf reads three numbers, which a document may send anything for.
func threeOf(value string) (v [3]float64, ok bool) {
	fields := strings.Fields(value)
	ok = len(fields) == 3
	for i := 0; ok && i < 3; i++ {
		x, err := strconv.ParseFloat(fields[i], 64)
		v[i], ok = x, err == nil && math.Abs(x) < 1e15 // a browser may name a pointer by a large number
	}
	return v, ok
}

// pointer takes one pointer event and reports whether the camera moved.
func (l *Look) pointer(phase, value string) bool {
	value, shift := strings.CutSuffix(value, " shift")
	v, ok := threeOf(value)
	if !ok {
		return false
	}
	id, at := int(v[0]), place{v[1], v[2]}
	if l.gesture.down == nil {
		l.gesture.down = map[int]place{}
	}
	was, held := l.gesture.down[id]
	switch phase {
	case "down":
		if len(l.gesture.down) < 2 {
			l.gesture.down[id] = at
		}
		return false
	case "up":
		delete(l.gesture.down, id)
		return false
	}
	if !held || was == at {
		return false
	}
	l.gesture.down[id] = at
	inHand := l.View.Turned
	if len(l.gesture.down) == 1 {
		switch {
		case inHand && shift:
			l.pans(at.x-was.x, at.y-was.y)
		case inHand:
			l.camera.turn(true, (at.x-was.x)*degreesPerPixel, (at.y-was.y)*degreesPerPixel)
		default:
			w, h, _ := l.pane()
			l.camera.shift(-(at.x-was.x)/w/l.camera.Lens.Scale, -(at.y-was.y)/h/l.camera.Lens.Scale)
		}
		return true
	}
	for other, there := range l.gesture.down {
		if other == id {
			continue
		}
		before := math.Hypot(was.x-there.x, was.y-there.y)
		after := math.Hypot(at.x-there.x, at.y-there.y)
		if before < 8 || after < 8 {
			return false
		}
		l.zoomAt(after/before, place{(at.x + there.x) / 2, (at.y + there.y) / 2})
		if inHand {
			l.pans((at.x-was.x)/2, (at.y-was.y)/2) // so far the middle of the two goes
		}
		return true
	}
	return false
}

// pans moves the ruff in the hand by CSS pixels of the stage.
func (l *Look) pans(x, y float64) {
	if k := l.pixels() * l.scale * l.camera.Zoom; k > 0 {
		l.camera.pan(x/k, -y/k)
	}
}

// zoomAt enlarges about a place of the stage.
func (l *Look) zoomAt(factor float64, at place) {
	w, h, _ := l.pane()
	at = l.inPane(at)
	l.camera.zoom(l.View.Turned, factor, at.x/w, at.y/h)
}

// wheel takes one wheel event and reports whether the camera moved.
func (l *Look) wheel(value string) bool {
	v, ok := threeOf(value)
	if !ok {
		return false
	}
	delta := min(mostWheel, max(-mostWheel, v[0]))
	was := l.camera
	l.zoomAt(math.Exp(-delta*zoomPerPixel), place{v[1], v[2]})
	return l.camera != was
}

// key takes a key pressed on the stage and reports whether the camera moved.
func (l *Look) key(name string, shift bool) bool {
	was, inHand := l.camera, l.View.Turned
	if step, ok := arrows[name]; ok && inHand && shift {
		w, h, _ := l.pane()
		l.pans(step[0]*w*shareOfSheetPerKey, step[1]*h*shareOfSheetPerKey)
		return l.camera != was
	}
	switch name {
	case "ArrowLeft":
		l.camera.turn(inHand, -degreesPerKey, 0)
	case "ArrowRight":
		l.camera.turn(inHand, degreesPerKey, 0)
	case "ArrowUp":
		l.camera.turn(inHand, 0, -degreesPerKey)
	case "ArrowDown":
		l.camera.turn(inHand, 0, degreesPerKey)
	case "+", "=":
		l.camera.zoom(inHand, zoomPerKey, 0.5, 0.5)
	case "-":
		l.camera.zoom(inHand, 1/zoomPerKey, 0.5, 0.5)
	case "Home":
		l.camera = l.first()
	}
	return l.camera != was
}

// arrows are the ways of the arrow keys: to the right, and down.
var arrows = map[string][2]float64{"ArrowLeft": {-1, 0}, "ArrowRight": {1, 0}, "ArrowUp": {0, -1}, "ArrowDown": {0, 1}}
