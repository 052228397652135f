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

// Light is the sheet by day: paper, blue-black ink, white linen.
func Light() Palette {
	return Palette{
		Ground: rgb(0xf8f3e7), Ink: rgb(0x17233f), Quiet: rgb(0x4c566c), Rule: rgb(0x6c7486), Ghost: rgb(0xcfc9bb),
		Wash:       rgb(0xfffdf8),
		ClothLight: rgb(0xfffefa), ClothMid: rgb(0xd3d4d6), ClothDeep: rgb(0x5c6478), Hatch: rgb(0x27324d),
		WoodLight: rgb(0xdcc4a0), WoodDeep: rgb(0x967651), Thread: rgb(0x17233f),
		ToneLow: rgb(0xfdf6dc), ToneMid: rgb(0x9abf8d), ToneHigh: rgb(0x348672), ToneInk: rgb(0x0f1c33),
		Madder: rgb(0xa3242c), Weld: rgb(0x7d5f00), Woad: rgb(0x24588f), Walnut: rgb(0x68462a),
	}
}

// Dark is the same sheet by candle: warm near-black, cloth in candlelight.
func Dark() Palette {
	return Palette{
		Ground: rgb(0x1b1510), Ink: rgb(0xf1e4cb), Quiet: rgb(0xc4b394), Rule: rgb(0x94856c), Ghost: rgb(0x3b3025),
		Wash:       rgb(0x2a2119),
		ClothLight: rgb(0xfcebc8), ClothMid: rgb(0xb3966a), ClothDeep: rgb(0x3d2b1c), Hatch: rgb(0x1f140c),
		WoodLight: rgb(0x7d5c3c), WoodDeep: rgb(0x33231a), Thread: rgb(0xf1e4cb),
		ToneLow: rgb(0xfcefca), ToneMid: rgb(0x98ba80), ToneHigh: rgb(0x34826c), ToneInk: rgb(0x0e120d),
		Madder: rgb(0xf08a7c), Weld: rgb(0xe3bd4c), Woad: rgb(0x93bbe4), Walnut: rgb(0xcfa882),
	}
}

// Contrast is for forced colours and for printing in black and white: black on
// white, dyes dark enough to read as black.
func Contrast() Palette {
	return Palette{
		Ground: rgb(0xffffff), Ink: rgb(0x000000), Quiet: rgb(0x1c1c1c), Rule: rgb(0x333333), Ghost: rgb(0xbbbbbb),
		Wash:       rgb(0xffffff),
		ClothLight: rgb(0xffffff), ClothMid: rgb(0xd9d9d9), ClothDeep: rgb(0x666666), Hatch: rgb(0x111111),
		WoodLight: rgb(0xc4c4c4), WoodDeep: rgb(0x777777), Thread: rgb(0x000000),
		ToneLow: rgb(0xffffff), ToneMid: rgb(0xc6c6c6), ToneHigh: rgb(0x858585), ToneInk: rgb(0x000000),
		Madder: rgb(0x7a0010), Weld: rgb(0x4d3a00), Woad: rgb(0x003a75), Walnut: rgb(0x3f2610),
	}
}

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
