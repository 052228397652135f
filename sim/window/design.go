package window

import "math"

// Anchor says which edges of the band the folds are sewn to.
type Anchor uint8

// Sewn to both edges (crests to the top, troughs to the bottom), or to one.
const (
	Both Anchor = iota
	Top
	Bottom
)

// Sewn says which folds are sewn where one edge takes them.
type Sewn uint8

// Crests or troughs.
const (
	Crests Sewn = iota
	Troughs
)

// Design is one half set: everything that decides its shape. Units stand in
// the names. The zero value is not a design; see DefaultDesign.
type Design struct {
	Panel_mm      float64 // P, crest to trough along the strip; 3 to 400
	Width_mm      float64 // W, inner to outer edge; 5 to 350
	Pitch_mm      float64 // room a set takes along the neckline; 0.3 to 1.6 P
	Kappa_1pmm    float64 // the neckline's curvature κ here; 0 to 0.25
	BandHeight_mm float64 // B; 2 to 120

	Anchor Anchor
	Sewn   Sewn // for one edge only

	// Tuck depths t: the points ±t from a mark are brought together at the
	// stitch, the cloth between folds inward. 0 for none. A tuck at a fold that
	// is not sewn is ignored.
	TuckTop_mm, TuckBottom_mm float64
	// LineGap_mm is how far out a second stitch line holds the sheet at the same
	// place around the neck and in height; 0 for one line only.
	LineGap_mm float64

	BendU_uNm, BendV_uNm float64 // the cloth's rigidity along the strip and across; > 0
	// FrozenU_uNm and FrozenV_uNm are the rigidities of the part that starch
	// froze into the formed shape; 0 for none.
	FrozenU_uNm, FrozenV_uNm float64
	// Quality is how much of the formed curvature was set; 0 to 1, 1 perfect. A
	// frozen part of quality 0 is frozen flat.
	Quality float64
	// FrozenShear_Npm is the frozen part's stiffness in shear, N/m; 0 for none.
	FrozenShear_Npm float64
	// Stick_mm is the diameter, at the outer edge, of the sticks on which the sets dry:
	// 0 where tucked for the one that leaves the loops their own height (OwnStick), and
	// where not tucked for none, for such loops find their shape by themselves.
	// StickTip_mm is their diameter at the inner end, 0 for the same, StickReach_mm how
	// far in from the outer edge that is, 0 for half the width. Hung sets dry without
	// sticks, by their own weight.
	Stick_mm, StickTip_mm, StickReach_mm float64
	Hung                                 bool
	Mass_gm2                             float64 // 1 to 1,000
	Thickness_mm                         float64 // 0.01 to 3

	// Support puts a collar or supporter under the ruff: a cone about the neck's
	// axis whose height at the neckline is SupportDrop_mm below the band's bottom
	// edge and which rises outward by SupportSlope_deg.
	Support          bool
	SupportDrop_mm   float64 // −60 to 200
	SupportSlope_deg float64 // −60 to 75
}

// DefaultDesign is a sound half set: both edges sewn, tucked, starched cotton.
func DefaultDesign() Design {
	return Design{
		Panel_mm: 60, Width_mm: 75, Pitch_mm: 10, Kappa_1pmm: 2 * math.Pi / 400, BandHeight_mm: 35,
		Anchor: Both, TuckTop_mm: 12, TuckBottom_mm: 12,
		BendU_uNm: 15.3, BendV_uNm: 15.3, FrozenU_uNm: 459, FrozenV_uNm: 459, Quality: 1,
		Mass_gm2: 100, Thickness_mm: 0.25,
	}
}

// Run is the half set as a window of two folds between mirrors.
func (d *Design) Run() Run {
	crest := Fold{Crest: true, Sewn: d.Anchor == Both || d.Sewn == Crests, Height_mm: d.BandHeight_mm, Tuck_mm: d.TuckTop_mm}
	trough := Fold{Sewn: d.Anchor == Both || d.Sewn == Troughs, Tuck_mm: d.TuckBottom_mm, Station_mm: d.Pitch_mm / 2}
	switch d.Anchor {
	case Top:
		trough.Height_mm = d.BandHeight_mm
	case Bottom:
		crest.Height_mm = 0
	}
	return Run{Folds: []Fold{crest, trough}, Panels_mm: []float64{d.Panel_mm}}
}

// Room_mm is the room that a part of the neckline so long opens to so far out from it.
func Room_mm(part_mm, kappa_1pmm, out_mm float64) float64 { return part_mm * (1 + kappa_1pmm*out_mm) }

// tucks returns the tuck depths that count: those at sewn folds.
func (d *Design) tucks() (crest, trough float64) {
	f := d.Run().Folds
	return f[0].tuck(), f[1].tuck()
}

// Tucked reports that a tuck is sewn.
func (d *Design) Tucked() bool {
	c, t := d.tucks()
	return c > 0 || t > 0
}

// Weight_mN returns the half set's weight.
func (d *Design) Weight_mN() float64 {
	return d.Mass_gm2 * 9.80665e-6 * d.Panel_mm * d.Width_mm
}

// Slack returns inner-edge length between sewn points ÷ their straight
// distance, 0 where only one edge is sewn and the word has no meaning.
func (d *Design) Slack() float64 {
	if d.Anchor != Both {
		return 0
	}
	c, t := d.tucks()
	return (d.Panel_mm - c - t) / math.Hypot(d.BandHeight_mm, d.chord())
}

// chord is the straight distance of the two marks along the neckline, mm.
func (d *Design) chord() float64 {
	k, h := d.Kappa_1pmm, d.Pitch_mm/2
	if k*h < 1e-6 {
		return h
	}
	return 2 * math.Sin(k*h/2) / k
}
