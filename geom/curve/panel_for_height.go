package curve

import (
	"fmt"
	"math"
)

// PanelForHeight returns the panel length (mm) whose Elastica between mirror
// planes halfPitch (mm) apart is height (mm) tall: the inverse of
// NewElastica's Height. height ≥ 0 (0 gives halfPitch, the flat strip);
// the length found must not exceed 1e9 half pitches.
//
// Both forms have one parameter on which height ÷ half pitch depends alone and
// monotonically: 2k/(2E − K) of the modulus while free, δ of elastica_touching.go beyond
// 5.32, where loops touch. Its root is found to the last places; the height of
// the length returned is the wanted one to 1e-12 (free) and 1e-10 (touching) of
// the length, TestPanelForHeight.
func PanelForHeight(height, halfPitch float64) (length float64, err error) {
	if err := inRange("panel for height", "half pitch", halfPitch); err != nil {
		return 0, err
	}
	if !(height >= 0 && height <= maxLength) {
		return 0, fmt.Errorf("curve: panel for height: height is %g mm, want 0 to %g mm", height, float64(maxLength))
	}
	want := height / halfPitch
	if want > 0.9/minRatioElastica {
		return 0, fmt.Errorf("curve: panel for height: height is %g mm for a half pitch of %g mm, %.3g times it, want up to %.3g times", height, halfPitch, want, 0.9/minRatioElastica)
	}
	if want > contactSlender {
		logWant := math.Log(want)
		f := newTouchingForm(touchingBy(func(_, h float64) float64 { return math.Log(h) - logWant }))
		l, _ := f.slender()
		return l * halfPitch, nil
	}
	shape := func(k float64) (slender, ratio float64) {
		p := newPendulum(k*k, (1-k)*(1+k))
		return 2 * k / (2*p.bigE - p.bigK), 2*p.bigE/p.bigK - 1
	}
	f := func(k float64) float64 {
		s, _ := shape(k)
		return s - want
	}
	top := math.Sqrt(contactParameter)
	k, ok := root(f, 0, -want, top, f(top))
	if !ok {
		k = top
	}
	_, ratio := shape(k)
	return halfPitch / ratio, nil
}
