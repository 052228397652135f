package scheme

import "ruffwright/geom/word"

// NamedCloth is what the table guesses of a cloth that only its name is known
// of, unstarched, finished and dry. Every figure is a guess to be overwritten by
// the maker's own swatch: trust the rigidity that follows to a factor of 2 only,
// for it goes with the cube of the bending length.
type NamedCloth struct {
	Name               string    // as cloth.name has it
	Mass               float64   // g/m²
	Thickness          float64   // mm
	BendWarp, BendWeft float64   // mm, bending length
	Source             word.Text // where the figures come from
}

// ClothNamed finds a cloth of the table.
func ClothNamed(name string) (NamedCloth, bool) {
	for _, c := range cloths {
		if c.Name == name {
			return c, true
		}
	}
	return NamedCloth{}, false
}

var (
	guessAll  = word.Say("guess; no published table of these figures was found: measure a swatch")
	guessRest = word.Say("mass after sellers' figures; the rest a guess: measure a swatch")
)

// The middle of each range of working values gathered for the cloth (mass,
// thickness, bending length both ways). Sellers' masses:
// lawn 70 g/m²; handkerchief linen 2.8 and 3.5 oz/yd² (95 and 119 g/m²); silk
// organza 12 and 18 g/m². Muslin in the British sense is by definition not over
// 2 oz/yd² (68 g/m²); 55 stands for it. All bending lengths are guesses.
var cloths = []NamedCloth{
	{"cotton lawn", 72.5, 0.15, 19.5, 17, guessRest},
	{"linen lawn", 105, 0.23, 27, 24, guessRest},
	{"cotton cambric", 100, 0.185, 21, 18.5, guessAll},
	{"holland", 140, 0.30, 30, 26, guessAll},
	{"cotton batiste", 67.5, 0.13, 18.5, 16.5, guessAll},
	{"cotton voile", 65, 0.16, 16.5, 15, guessAll},
	{"cotton muslin", 55, 0.17, 16, 14.5, word.Say("mass below 68 g/m² by definition of the British word; the rest a guess: measure a swatch")},
	{"cotton organdie", 50, 0.11, 45, 40, guessAll},
	{"silk organza", 23.5, 0.085, 36.5, 32.5, word.Say("mass after sellers' figures; the rest a guess: measure a swatch; warm water takes the stiffness out")},
	{"medium linen", 170, 0.375, 33.5, 30, guessAll},
}
