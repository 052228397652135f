package sim

import (
	"errors"
	"math"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim/window"
)

// TestSticksFit: a stick too thick for the loops is refused where it is entered, with the
// thickest that fits; that one is taken. Hung sets have no stick.
func TestSticksFit(t *testing.T) {
	s := scheme.First()
	s.Starch.Stick = 60
	r, err := Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	_, err = Design(r)
	var of window.Misfit
	var in scheme.Error
	if !errors.Is(err, ErrDesign) || !errors.As(err, &of) || of.Kind != StickThick || !errors.As(err, &in) {
		t.Fatalf("%v", err)
	}
	for _, want := range []string{"starch.stick", "60 mm", "is too thick a stick for the loops", "at most "} {
		if !strings.Contains(in.Error(), want) {
			t.Errorf("%q does not say %q", in.Error(), want)
		}
	}
	for stick, fits := range map[float64]bool{math.Floor(1e3*of.Most) / 1e3: true, 1.001 * of.Most: false} {
		r.Plan.Scheme.Starch.Stick = stick
		if _, err := Design(r); (err == nil) != fits {
			t.Errorf("a stick of %g mm, at most %g: %v", stick, of.Most, err)
		}
	}
	r.Plan.Scheme.Starch.Stick, r.Plan.Scheme.Starch.Dry = 60, scheme.Hung
	if d, err := Design(r); err != nil || !d.Hung {
		t.Errorf("hung: %+v, %v", d, err)
	}
}

// TestStickInDesign: what the scheme says of drying comes to the half set.
func TestStickInDesign(t *testing.T) {
	s := scheme.First()
	s.Starch.Stick, s.Starch.Tip, s.Starch.Reach, s.Starch.Shear, s.Pleat.Catch = 12, 9, 30, 640, 2
	r, err := Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	d, err := Design(r)
	if err != nil || d.Stick_mm != 12 || d.StickTip_mm != 9 || d.StickReach_mm != 30 || d.FrozenShear_Npm != 580 || d.LineGap_mm != 2 || d.Hung {
		t.Errorf("%+v, %v", d, err)
	}
	q, on := NewSticks(r.Plan)
	if !on || q.Given_mm != 12 || q.Tip_mm != 9 || q.Reach_mm != 30 {
		t.Errorf("%+v, %v", q, on)
	}
	r.Plan.Scheme.Pleat.Lines = 2 // a second line holds more than a stitch that catches
	if d, err = Design(r); err != nil || d.LineGap_mm != r.Plan.Scheme.Pleat.LineGap {
		t.Errorf("two lines: %+v, %v", d, err)
	}
	s = scheme.First()
	s.Pleat.Catch, s.Ruff.Depth, s.Pleat.TuckTop, s.Pleat.TuckBottom = 9, 11, 0, 0
	if r, err = Draw(s); err != nil {
		t.Fatal(err)
	}
	_, err = Design(r)
	var in scheme.Error
	if !errors.As(err, &in) || in.Field != "pleat.catch" || !strings.Contains(in.Error(), "9 mm") || !strings.Contains(in.Error(), "at most 8.8 mm") {
		t.Errorf("a catch of most of the depth: %v", err)
	}
}

// TestOwnSticks: without a stick named it is the one of the narrowest half set, that
// reaches in half the depth; on it the sets stand as tall as the closed form draws them.
func TestOwnSticks(t *testing.T) {
	s := scheme.First()
	s.Wearer.Ratio = 1.3
	r, err := Draw(s)
	if err != nil {
		t.Fatal(err)
	}
	q, on := NewSticks(r.Plan)
	if !on || q.Given_mm != 0 || q.Reach_mm != s.Ruff.Depth/2 {
		t.Errorf("%+v, %v", q, on)
	}
	for _, h := range r.Folded.Half {
		room := r.Plan.Pitch_mm / 2 * (1 + h.Kappa_1pmm*s.Ruff.Depth)
		if own := window.OwnStick(r.Plan.Panel_mm, room, r.Plan.Scheme.Cloth.Thickness); own < q.Own_mm-1e-9 {
			t.Errorf("a half set's own stick is %g mm, thinner than %g", own, q.Own_mm)
		}
	}
	s.Wearer.Ratio = 1
	if r, err = Draw(s); err != nil {
		t.Fatal(err)
	}
	q, _ = NewSticks(r.Plan)
	h, err := q.Height_mm(q.Own_mm)
	if err != nil || math.Abs(h-r.Folded.Mean.HeightOuter_mm) > 0.01 {
		t.Errorf("on its own stick %g mm, drawn %g, %v", h, r.Folded.Mean.HeightOuter_mm, err)
	}
	if _, err := q.Height_mm(200); err == nil {
		t.Error("a stick of 200 mm fits")
	}
}
