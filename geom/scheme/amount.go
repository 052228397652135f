package scheme

import "strconv"

type ratio struct{ over, under uint64 }

// amount is a number as it is written, to its last digit: whole.decimal, or whole
// and a fraction.
type amount struct {
	whole, decimal string // digits
	part           ratio  // under 0: none
}

// times is the float64 nearest to the amount times r, +Inf above the largest. The
// amount's own fraction has at most six digits over four, r at most eleven over
// nine.
//
// The digits are multiplied and divided as one does on paper; whatever the
// quotient does after 780 figures, a last 1 stands for it: no number halfway
// between two floats has so many, and strconv reads 800.
func (a amount) times(r ratio) float64 {
	if a.part.under == 0 {
		a.part.under = 1
	}
	// (n ÷ 10^places + over ÷ under) r: with a fraction there are no places.
	n := product([]byte(a.whole+a.decimal), a.part.under*r.over, a.part.over*r.over)
	by := a.part.under * r.under
	text := make([]byte, 0, len(n)+32)
	rest, figures, places := uint64(0), 0, len(a.decimal)
	for i := 0; ; i++ {
		rest *= 10
		if i < len(n) {
			rest += uint64(n[i] - '0')
		} else if rest == 0 || figures > 780 {
			break
		} else {
			places++
		}
		d := rest / by
		rest %= by
		if d > 0 || figures > 0 {
			figures++
			text = append(text, byte('0'+d))
		}
	}
	if rest > 0 {
		text, places = append(text, '1'), places+1
	}
	v, _ := strconv.ParseFloat("0"+string(text)+"e-"+strconv.Itoa(places), 64) // too large: +Inf
	return v
}

// product is the decimal digits of digits × by + more.
func product(digits []byte, by, more uint64) []byte {
	out := make([]byte, len(digits)+24) // by × 10 + more < 1e24
	carry := more
	for i := range out {
		if k := len(digits) - 1 - i; k >= 0 {
			carry += uint64(digits[k]-'0') * by
		}
		out[len(out)-1-i] = byte('0' + carry%10)
		carry /= 10
	}
	return out
}
