package cloth

import "fmt"

// Starch adds rigidity that is frozen at the shape in which the cloth dried; the
// cloth's own rigidity stays elastic from flat. What is measured is the sum, on
// a swatch starched and dried flat.

// FrozenRatio is the frozen part as a multiple of the cloth's own rigidity,
// (starched/cloth)³ − 1: 7 where starch doubles the bending length. Both bending
// lengths, mm (1 to 500), are at the cloth's unstarched mass; one read on the swatch
// under its own, starched mass goes through AtMass first. starched = 0 says 'no starch'
// and gives 0. A starched swatch limper than the cloth is refused: it was misread, or
// read the other way of the cloth.
func FrozenRatio(cloth_mm, starched_mm float64) (float64, error) {
	own, err := Rigidity(1, cloth_mm)
	if err != nil || starched_mm == 0 {
		return 0, err
	}
	if err := within("starched bending length", starched_mm, cloth_mm, BendMax_mm, "mm"); err != nil {
		return 0, fmt.Errorf("%w: starch does not make the cloth limper than its own %g mm; 0 is no starch", err, cloth_mm)
	}
	return (rigidity(1, starched_mm) - own) / own, nil
}
