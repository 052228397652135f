package curve

import (
	"fmt"
	"math"
)

// TautLength is the length of a strip drawn in an S round two level sticks, one in a
// crest and one in the next trough: two arcs and their inner common tangent. The sticks'
// axes are rise apart in height and halfPitch sideways, their radius, half the strip's
// thickness added, is radius; all in mm. It is plane geometry, and 0 where the sticks
// would overlap.
//
// With D the distance of the axes, the tangent is √(D² − 4r²) long, and each arc turns
// from the level crest by atan2(rise, halfPitch) + asin(2r/D).
func TautLength(rise, halfPitch, radius float64) float64 {
	d := math.Hypot(rise, halfPitch)
	if !(d >= 2*radius*(1-1e-12)) { // less what rounding does
		return 0
	}
	return 2*radius*(math.Atan2(rise, halfPitch)+math.Asin(min(1, 2*radius/d))) + math.Sqrt(max(0, d*d-4*radius*radius))
}

// TautHeight is how tall, crest to trough, a strip of the given length (mm) becomes when
// drawn taut round such sticks: TautLength solved for the rise, and the two radii. The
// height is the strip's middle. An error says that the sticks are too thick for the
// length or the pitch.
func TautHeight(length, halfPitch, radius float64) (height float64, err error) {
	for _, q := range []struct {
		name string
		v    float64
	}{{"length", length}, {"half pitch", halfPitch}, {"radius", radius}} {
		if err := inRange("taut", q.name, q.v); err != nil {
			return 0, err
		}
	}
	least := math.Sqrt(max(0, 4*radius*radius-halfPitch*halfPitch)) // where the sticks touch
	if short := TautLength(least, halfPitch, radius); !(length >= short) || radius > halfPitch {
		return 0, fmt.Errorf("curve: taut: sticks of radius %g mm in a strip of %g mm, half pitch %g mm: at least %g mm long and at most that half pitch thick", radius, length, halfPitch, short)
	}
	f := func(rise float64) float64 { return TautLength(rise, halfPitch, radius) - length }
	rise, _ := root(f, least, f(least), length, f(length))
	return rise + 2*radius, nil
}

// TautRadius is the radius, half the strip's thickness included, of the sticks round
// which the strip stands as tall as height, or as nearly so as sticks can make it:
// TautHeight solved for the radius. Sticks so thick that they make it taller again are
// left out.
func TautRadius(length, halfPitch, height float64) (radius float64, err error) {
	if err := inRange("taut", "height", height); err != nil {
		return 0, err
	}
	thin, thick := 1e-9*length, lowest(length, halfPitch)
	if _, err := TautHeight(length, halfPitch, thin); err != nil {
		return 0, err
	}
	off := func(r float64) float64 {
		h, _ := TautHeight(length, halfPitch, r)
		return h - height
	}
	switch low, high := off(thick), off(thin); {
	case low >= 0:
		return thick, nil
	case high <= 0:
		return thin, nil
	default:
		radius, _ = root(off, thin, high, thick, low)
		return radius, nil
	}
}

// TautThickest is the largest radius that TautHeight takes, both in mm.
func TautThickest(length, halfPitch float64) float64 {
	lo, hi := 0.0, 2*halfPitch
	for range 60 {
		m := (lo + hi) / 2
		if _, err := TautHeight(length, halfPitch, m); err == nil {
			lo = m
		} else {
			hi = m
		}
	}
	return lo
}

// lowest is the radius at which the strip stands lowest. Thicker sticks touch each other
// and lift it again, and at last do not fit.
func lowest(length, halfPitch float64) float64 {
	height := func(r float64) float64 {
		h, err := TautHeight(length, halfPitch, r)
		if err != nil {
			return math.Inf(1)
		}
		return h
	}
	lo, hi := 0.0, halfPitch
	for range 100 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if h := height(b); height(a) < h || math.IsInf(h, 1) {
			hi = b
		} else {
			lo = a
		}
	}
	return lo
}
