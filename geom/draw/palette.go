package draw

import "image/color"

// Palette is every colour that drawings use; nothing else in this package
// names one. On Ground, text colours (Ink, Quiet and the dyes) have a contrast
// of at least 4.5:1 and lines (Rule) at least 3:1, by WCAG 2.2's formula
// (TestPaletteContrast).
type Palette struct {
	Ground color.NRGBA // the sheet
	Ink    color.NRGBA // text and the lines that matter
	Quiet  color.NRGBA // lesser text
	Rule   color.NRGBA // dimension lines, lesser lines
	Ghost  color.NRGBA // construction that may be missed: no contrast promised
	Wash   color.NRGBA // a tint of cloth laid on the sheet, below lines and text

	// Cloth from the brightest light to the depth of a fold, and the thread
	// of its hatching. Wood likewise.
	ClothLight, ClothMid, ClothDeep color.NRGBA
	Hatch                           color.NRGBA
	WoodLight, WoodDeep             color.NRGBA
	Thread                          color.NRGBA // stitches

	// Dyed cloth, from little to much, and the lines on it.
	ToneLow, ToneMid, ToneHigh, ToneInk color.NRGBA

	// The four dyes: each always comes with a sign and a word.
	Madder color.NRGBA // stops
	Weld   color.NRGBA // mend
	Woad   color.NRGBA // selected; B of a compare
	Walnut color.NRGBA // notes and cautions
}

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 255}
}

// dyes gives a palette's colours in three lights: the sheet by day, by candle, and black
// on white for forced colours and for printing, where the dyes read as black.
func dyes(light int) Palette {
	var p Palette
	for _, c := range []struct {
		at  *color.NRGBA
		hex [3]uint32 // by day, by candle, black on white
	}{
		{&p.Ground, [3]uint32{0xf8f3e7, 0x1b1510, 0xffffff}}, {&p.Ink, [3]uint32{0x17233f, 0xf1e4cb, 0x000000}},
		{&p.Quiet, [3]uint32{0x4c566c, 0xc4b394, 0x1c1c1c}}, {&p.Rule, [3]uint32{0x6c7486, 0x94856c, 0x333333}},
		{&p.Ghost, [3]uint32{0xcfc9bb, 0x3b3025, 0xbbbbbb}}, {&p.Wash, [3]uint32{0xfffdf8, 0x2a2119, 0xffffff}},
		{&p.ClothLight, [3]uint32{0xfffefa, 0xfcebc8, 0xffffff}}, {&p.ClothMid, [3]uint32{0xd3d4d6, 0xb3966a, 0xd9d9d9}},
		{&p.ClothDeep, [3]uint32{0x5c6478, 0x3d2b1c, 0x666666}}, {&p.Hatch, [3]uint32{0x27324d, 0x1f140c, 0x111111}},
		{&p.WoodLight, [3]uint32{0xdcc4a0, 0x7d5c3c, 0xc4c4c4}}, {&p.WoodDeep, [3]uint32{0x967651, 0x33231a, 0x777777}},
		{&p.Thread, [3]uint32{0x17233f, 0xf1e4cb, 0x000000}}, {&p.ToneLow, [3]uint32{0xfdf6dc, 0xfcefca, 0xffffff}},
		{&p.ToneMid, [3]uint32{0x9abf8d, 0x98ba80, 0xc6c6c6}}, {&p.ToneHigh, [3]uint32{0x348672, 0x34826c, 0x858585}},
		{&p.ToneInk, [3]uint32{0x0f1c33, 0x0e120d, 0x000000}}, {&p.Madder, [3]uint32{0xa3242c, 0xf08a7c, 0x7a0010}},
		{&p.Weld, [3]uint32{0x7d5f00, 0xe3bd4c, 0x4d3a00}}, {&p.Woad, [3]uint32{0x24588f, 0x93bbe4, 0x003a75}},
		{&p.Walnut, [3]uint32{0x68462a, 0xcfa882, 0x3f2610}},
	} {
		*c.at = rgb(c.hex[light])
	}
	return p
}

// Light, Dark and Contrast are the three; see dyes.
func Light() Palette    { return dyes(0) }
func Dark() Palette     { return dyes(1) }
func Contrast() Palette { return dyes(2) }

// Mix blends from a (t = 0) to b (t = 1), component by component.
func Mix(a, b color.NRGBA, t float64) color.NRGBA {
	k := int32(max(0, min(1, t))*256 + 0.5)
	f := func(x, y uint8) uint8 { return uint8((int32(x)*(256-k) + int32(y)*k + 128) >> 8) }
	return color.NRGBA{f(a.R, b.R), f(a.G, b.G), f(a.B, b.B), f(a.A, b.A)}
}

// Cloth is the colour of cloth at brightness t: 0 the depth of a fold, 1 full
// light.
func (p Palette) Cloth(t float64) color.NRGBA {
	if t < 0.5 {
		return Mix(p.ClothDeep, p.ClothMid, 2*t)
	}
	return Mix(p.ClothMid, p.ClothLight, 2*t-1)
}

// Ramp is cloth at 256 steps of brightness, and the same in the tint of what is
// selected.
func (p Palette) Ramp() (plain, tinted [256]color.NRGBA) {
	for i := range plain {
		t := float64(i) / 255
		plain[i] = p.Cloth(t)
		tinted[i] = Mix(plain[i], Mix(p.ClothDeep, Mix(p.Woad, p.ClothLight, 0.15), t), 0.8)
	}
	return plain, tinted
}

// Dye is the colour of the part t of the dye, 0 the least to 1 the most.
func (p Palette) Dye(t float64) color.NRGBA {
	if t < 0.5 {
		return Mix(p.ToneLow, p.ToneMid, 2*t)
	}
	return Mix(p.ToneMid, p.ToneHigh, 2*t-1)
}
