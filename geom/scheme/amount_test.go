package scheme

import (
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
)

// TestAmountIsNearest: amounts times units are the nearest floats, as the exact
// arithmetic of math/big has them: for short and long numbers, for every
// fraction and unit, and for numbers halfway between two floats.
func TestAmountIsNearest(t *testing.T) {
	sizes := []ratio{one, {10, 1}, {1000, 1}, {127, 5}, {4572, 5}, {28349523125, 836127360}, {50, 127}}
	check := func(a amount, r ratio) {
		t.Helper()
		x, ok := new(big.Rat).SetString("0" + a.whole + "." + a.decimal + "0")
		if !ok {
			t.Fatalf("%+v is no number", a)
		}
		if a.part.under > 0 {
			x.Add(x, new(big.Rat).SetFrac(new(big.Int).SetUint64(a.part.over), new(big.Int).SetUint64(a.part.under)))
		}
		x.Mul(x, new(big.Rat).SetFrac(new(big.Int).SetUint64(r.over), new(big.Int).SetUint64(r.under)))
		want, _ := x.Float64()
		if got := a.times(r); got != want {
			t.Errorf("%+v times %+v is %v, want %v", a, r, got, want)
		}
	}
	rnd := rand.New(rand.NewPCG(1, 2))
	digits := func(most int) string {
		var b strings.Builder
		for range rnd.IntN(most + 1) {
			b.WriteByte(byte('0' + rnd.IntN(10)))
		}
		return b.String()
	}
	for range 4000 {
		r := sizes[rnd.IntN(len(sizes))]
		switch rnd.IntN(4) {
		case 0:
			check(amount{digits(4), digits(4), ratio{}}, r)
		case 1:
			check(amount{digits(180), digits(200), ratio{}}, r)
		case 2:
			check(amount{whole: digits(6), part: ratio{rnd.Uint64N(1000000), 1 + rnd.Uint64N(9999)}}, r)
		case 3: // halfway to the next float, and a hair off it
			f := math.Ldexp(1+rnd.Float64(), rnd.IntN(60)-30)
			mid := new(big.Rat).SetFloat64(f)
			mid.Add(mid, new(big.Rat).SetFloat64(math.Nextafter(f, math.Inf(1))))
			mid.Quo(mid, big.NewRat(2, 1))
			whole, decimal, _ := strings.Cut(mid.FloatString(180), ".")
			check(amount{whole, decimal, ratio{}}, one)
			check(amount{whole, decimal + "1", ratio{}}, one)
			check(amount{whole, strings.TrimRight(decimal, "0") + digits(3), ratio{}}, one)
		}
	}
	for _, text := range []string{strconv.FormatFloat(math.MaxFloat64, 'f', -1, 64), "1" + strings.Repeat("0", 309), strings.Repeat("9", 400), "", "0"} {
		check(amount{whole: text}, one)
		check(amount{whole: text}, ratio{28349523125, 836127360})
	}
	check(amount{decimal: strings.Repeat("0", 330) + "1"}, one)
}
