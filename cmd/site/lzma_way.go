package site

import (
	"encoding/binary"
	"math"
	"math/bits"
)

// How the packer of lzma.go finds its way: what matches, what it would cost, and the
// cheapest way through a block.

// ---- matches ------------------------------------------------------------------

// enter notes position i in the chains and returns the newest places before it
// with the same two, three and four bytes; -1 none.
func (p *packer) enter(i int) (two, three, four int) {
	two, three, four = -1, -1, -1
	d := p.data
	if i+4 > len(d) {
		return
	}
	v := binary.LittleEndian.Uint32(d[i:])
	h2, h3, h4 := v&0xffff, (v<<8)*0x9E3779B1>>14, v*0x9E3779B1>>10
	two, three, four = int(p.head2[h2]), int(p.head3[h3]), int(p.head4[h4])
	p.head2[h2], p.head3[h3], p.chain[i], p.head4[h4] = int32(i), int32(i), p.head4[h4], int32(i)
	return
}

// find notes position i and fills p.matches: ever longer, ever farther.
func (p *packer) find(i int) {
	p.matches = p.matches[:0]
	best := 1
	look := func(j int) bool {
		if best > 1 && (i+best >= len(p.data) || p.data[j+best] != p.data[i+best]) {
			return false
		}
		if n := p.same(i, j); n > best {
			best = n
			p.matches = append(p.matches, match{n, i - j - 1})
			return n >= nice
		}
		return false
	}
	two, three, four := p.enter(i)
	if two >= 0 && look(two) || three >= 0 && three != two && look(three) {
		return
	}
	for n := 0; four >= 0 && n < depth; n++ {
		if look(four) {
			return
		}
		four = int(p.chain[four])
	}
}

// same is for how many bytes the data goes on at i as at j.
func (p *packer) same(i, j int) int {
	d := p.data
	most := min(maxMatch, len(d)-i)
	n := 0
	for n+8 <= most {
		if x := binary.LittleEndian.Uint64(d[i+n:]) ^ binary.LittleEndian.Uint64(d[j+n:]); x != 0 {
			return n + bits.TrailingZeros64(x)/8
		}
		n += 8
	}
	for n < most && d[i+n] == d[j+n] {
		n++
	}
	return n
}

// ---- prices -------------------------------------------------------------------

// prices of a bit by its probability / 16, in 1/64 bit.
var prices = func() (t [128]uint32) {
	for i := range t {
		t[i] = uint32(math.Round(-64 * math.Log2((float64(i)+0.5)/128)))
	}
	return t
}()

func (p *packer) price(i, b int) uint32 {
	prob := p.probs[i]
	if b == 1 {
		prob = 2047 - prob
	}
	return prices[prob>>4]
}

func (p *packer) treePrice(from, n, v int) (sum uint32) {
	m := 1
	for i := n - 1; i >= 0; i-- {
		b := v >> i & 1
		sum += p.price(from+m, b)
		m = m<<1 | b
	}
	return sum
}

func (p *packer) reversePrice(from, n, v int) (sum uint32) {
	m := 1
	for i := range n {
		b := v >> i & 1
		sum += p.price(from+m, b)
		m = m<<1 | b
	}
	return sum
}

func (p *packer) lengthPrice(from, n int) uint32 {
	switch n -= minMatch; {
	case n < 8:
		return p.price(from, 0) + p.treePrice(from+2, 3, n)
	case n < 16:
		return p.price(from, 1) + p.price(from+1, 0) + p.treePrice(from+10, 3, n-8)
	}
	return p.price(from, 1) + p.price(from+1, 1) + p.treePrice(from+18, 8, n-16)
}

// reckon brings the tables of prices up to date.
func (p *packer) reckon() {
	if p.hasPrices && p.at-p.priced < 2048 {
		return
	}
	p.hasPrices, p.priced = true, p.at
	for i := range p.lens {
		for n := minMatch; n <= maxMatch; n++ {
			p.lens[i][n] = p.lengthPrice(lengthTree+i*lengthSize, n)
		}
	}
	for i := range p.aligns {
		p.aligns[i] = p.reversePrice(aligned, 4, i)
	}
	for l := range p.slots {
		for s := range p.slots[l] {
			p.slots[l][s] = p.treePrice(slotTrees+ofSlots*l, 6, s)
			if s >= 14 {
				p.slots[l][s] += uint32(s>>1-1-4) * 64
			}
		}
		for d := range p.dists[l] {
			s := slotOf(d)
			p.dists[l][d] = p.slots[l][s]
			if s >= 4 {
				low := s>>1 - 1
				base := (2 | s&1) << low
				p.dists[l][d] += p.reversePrice(special+base-s, low, d-base)
			}
		}
	}
}

func (p *packer) distancePrice(n, d int) uint32 {
	l := min(n-minMatch, 3)
	if d < modelled {
		return p.dists[l][d]
	}
	return p.slots[l][slotOf(d)] + p.aligns[d&15]
}

func (p *packer) literalPrice(i, s, rep0 int) (sum uint32) {
	from, m, v, k := p.literalModel(i), 1, int(p.data[i]), 7
	if s >= 7 {
		like := int(p.data[i-rep0-1])
		for same := true; same && k >= 0; k-- {
			want, b := like>>k&1, v>>k&1
			sum += p.price(from+(1+want)<<8+m, b)
			m = m<<1 | b
			same = want == b
		}
	}
	for ; k >= 0; k-- {
		b := v >> k & 1
		sum += p.price(from+m, b)
		m = m<<1 | b
	}
	return sum
}

// ---- the way --------------------------------------------------------------------

// step packs the next block: it looks for the cheapest way from here to the next
// position that every way known passes, and goes it.
func (p *packer) step() {
	p.reckon()
	p.path[0] = node{state: int8(p.state)}
	for i, d := range p.reps {
		p.path[0].reps[i] = int32(d)
	}
	p.reach = 0
	for end := 0; ; end++ {
		here := &p.path[end]
		if end > 0 {
			before := &p.path[end-int(here.length)]
			here.state = int8(after(int(before.state), int(here.what)))
			here.reps = moved(before.reps, int(here.what))
			if end == p.reach || end >= block {
				p.walk(end)
				return
			}
		}
		i := p.at + end
		p.find(i)
		reps := p.repeats(i, here)
		if n, what := p.longest(reps); n >= nice { // taken, whatever it costs
			p.relax(end, n, what, 0)
			p.path[end+n].length, p.path[end+n].what = int32(n), int32(what)
			for k := 1; k < n; k++ {
				p.enter(i + k)
			}
			p.walk(end + n)
			return
		}
		p.spread(end, here, reps)
	}
}

// repeats is for how many bytes the data goes on at i as it did at each of the
// node's last distances; 0 where it does not.
func (p *packer) repeats(i int, here *node) (reps [4]int) {
	for r, d := range here.reps {
		if int(d) < i && len(p.data)-i >= minMatch && p.data[i] == p.data[i-int(d)-1] {
			reps[r] = p.same(i, i-int(d)-1)
		}
	}
	return reps
}

// longest is the longest match found, and what it is.
func (p *packer) longest(reps [4]int) (n, what int) {
	for r, long := range reps {
		if long > n {
			n, what = long, r
		}
	}
	if k := len(p.matches); k > 0 && p.matches[k-1].length > n {
		n, what = p.matches[k-1].length, p.matches[k-1].distance+4
	}
	return n, what
}

// relax notes that n bytes on from a position can be reached at the price, by what.
func (p *packer) relax(from, n, what int, price uint32) {
	to := from + n
	for p.reach < to {
		p.reach++
		p.path[p.reach].price = math.MaxUint32
	}
	if price < p.path[to].price {
		p.path[to].price, p.path[to].length, p.path[to].what = price, int32(n), int32(what)
	}
}

// spread relaxes all that can be reached from a position in one stride.
func (p *packer) spread(end int, here *node, reps [4]int) {
	i, s, base := p.at+end, int(here.state), here.price
	matched := base + p.price(isMatch+s, 1)
	repeated := matched + p.price(isRep+s, 1)
	p.relax(end, 1, literal, base+p.price(isMatch+s, 0)+p.literalPrice(i, s, int(here.reps[0])))
	if d := int(here.reps[0]); d < i && p.data[i] == p.data[i-d-1] {
		p.relax(end, 1, shortRep, repeated+p.price(isRep0+s, 0)+p.price(isRep0Long+s, 0))
	}
	for r, n := range reps {
		if n < minMatch {
			continue
		}
		price := repeated
		if r == 0 {
			price += p.price(isRep0+s, 0) + p.price(isRep0Long+s, 1)
		} else {
			price += p.price(isRep0+s, 1) + p.price(isRep1+s, min(r-1, 1))
			if r > 1 {
				price += p.price(isRep2+s, r-2)
			}
		}
		for ; n >= minMatch; n-- {
			p.relax(end, n, r, price+p.lens[1][n])
		}
	}
	single := matched + p.price(isRep+s, 0)
	from := minMatch
	for _, m := range p.matches {
		for n := from; n <= m.length; n++ {
			p.relax(end, n, m.distance+4, single+p.lens[0][n]+p.distancePrice(n, m.distance))
		}
		from = m.length + 1
	}
}

// walk goes the way found to the position end: backwards along its links, to turn
// them round, then forwards.
func (p *packer) walk(end int) {
	var ways []match
	for at := end; at > 0; at -= int(p.path[at].length) {
		ways = append(ways, match{int(p.path[at].length), int(p.path[at].what)})
	}
	for k := len(ways) - 1; k >= 0; k-- {
		p.put(ways[k].length, ways[k].distance)
	}
}
