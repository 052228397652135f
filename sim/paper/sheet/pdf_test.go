package sheet

import (
	"bytes"
	"errors"
	"image/color"
	"testing"
	"time"
)

// TestUnscaled: only a file that ends in its catalogue is changed.
func TestUnscaled(t *testing.T) {
	for _, bad := range []string{"%PDF-1.3\nno catalogue", "/Type /Catalog\n", "/Type /Catalog\n9 0 obj\nstartxref\n9\n", "/Type /Catalog\n\nstartxref\nx\n", "/Type /Catalog\n\nstartxref\n3\n"} {
		if _, err := unscaled([]byte(bad)); err == nil {
			t.Errorf("%q was taken", bad)
		}
	}
	got, err := unscaled([]byte("/Type /Catalog\n>>\nxref\n\nstartxref\n99\n%%EOF"))
	if want := "/Type /Catalog\n/ViewerPreferences << /PrintScaling /None >>\n>>\nxref\n\nstartxref\n144\n%%EOF"; err != nil || string(got) != want {
		t.Errorf("%q, %v, want %q", got, err, want)
	}
}

// TestProgress: what the caller's progress gives back ends the work.
func TestProgress(t *testing.T) {
	stop := errors.New("enough")
	var told []int
	how := Print{Wide_mm: 210, High_mm: 297, StretchX: 1, StretchY: 1, Date: time.Unix(0, 0), Progress: func(page, of int) error {
		told = append(told, page, of)
		if page == 2 {
			return stop
		}
		return nil
	}}
	var b bytes.Buffer
	if err := WritePDF(&b, make([]Page, 3), how); err != stop || b.Len() > 0 || len(told) != 4 || told[3] != 3 {
		t.Errorf("%v, %d bytes, told %v", err, b.Len(), told)
	}
}

// TestShade: sheets are printed in greys, a colour as light as it is, on white.
func TestShade(t *testing.T) {
	for c, want := range map[color.NRGBA]int{Black: 0, White: 255, {}: 255, {A: 51}: 204, {R: 255, A: 255}: 76, {G: 255, A: 255}: 150, {B: 255, A: 255}: 29} {
		if got := shade(c); got != want {
			t.Errorf("%v: %d, want %d", c, got, want)
		}
	}
}
