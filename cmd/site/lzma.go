package site

import (
	"encoding/binary"
	"math"
	"math/bits"
)

// pack writes data as one LZMA stream in the .lzma form: a byte of properties
// (lc 3, lp 0, pb 0), the size of the dictionary, the size of the data, then the
// range coder's bytes, without an end mark. Any decoder of that form reads it, xz
// among them; the page's own is unpack.js.
//
// Why not gzip, which browsers unpack by themselves: its window of 32 KiB sees
// nothing of what the page's programs have in common. Both programs of the first
// build took 5.26 MB as gzip and 3.35 MB so; as text only the second stays below
// the 6 MB that one file may have.
//
// The way through the data is the cheapest by the models' prices at the time,
// found block by block as a shortest path; matches come from chains of the places
// where the same four bytes stood. The same data gives the same bytes.
func pack(data []byte) []byte {
	p := &packer{data: data, chain: make([]int32, len(data)), path: make([]node, block+maxMatch+2), wide: 0xffffffff, pending: 1}
	for _, heads := range [][]int32{p.head2[:], p.head3[:], p.head4[:]} {
		for i := range heads {
			heads[i] = -1
		}
	}
	for i := range p.probs {
		p.probs[i] = 1024
	}
	p.out = append(p.out, lc)
	p.out = binary.LittleEndian.AppendUint32(p.out, uint32(1)<<max(12, bits.Len(uint(len(data)))))
	p.out = binary.LittleEndian.AppendUint64(p.out, uint64(len(data)))
	for p.at < len(data) {
		p.step()
	}
	for range 5 {
		p.shift()
	}
	return p.out
}

// Numbers of the format.
const (
	lc       = 3 // bits of the byte before that choose a literal's model
	minMatch = 2
	maxMatch = 273
	ofSlots  = 64
	modelled = 128 // distances below have models of their own for their low bits
)

// Numbers of the search: what more of them brings is small and takes long.
const (
	block = 4096 // positions of a path at most
	depth = 32   // places of a chain that are looked at
	nice  = 128  // a match as long as this is taken as it is
)

// Places of the probabilities; unpack.js has the same.
const (
	isMatch    = 0
	isRep      = 12
	isRep0     = 24
	isRep1     = 36
	isRep2     = 48
	isRep0Long = 60
	slotTrees  = 72
	special    = slotTrees + 4*ofSlots
	aligned    = special + modelled
	lengthTree = aligned + 16
	lengthSize = 2 + 8 + 8 + 256
	literals   = lengthTree + 2*lengthSize
)

type packer struct {
	data []byte
	at   int // packed so far

	// the range coder
	out     []byte
	low     uint64
	wide    uint32
	cache   byte
	pending int
	probs   [literals + 0x300<<lc]uint16
	state   int
	reps    [4]int // distances less one

	// matches
	head2   [1 << 16]int32
	head3   [1 << 18]int32
	head4   [1 << 22]int32
	chain   []int32
	matches []match

	// prices, in 1/64 bit
	priced    int // where they were reckoned
	hasPrices bool
	lens      [2][maxMatch + 1]uint32
	slots     [4][ofSlots]uint32
	dists     [4][modelled]uint32
	aligns    [16]uint32
	path      []node
}

type match struct{ length, distance int }

// node is the cheapest way known to a position.
type node struct {
	price  uint32
	length int32 // of the step that leads here
	what   int32 // of it: literal, shortRep, 0 to 3 a repeated distance, else the distance + 4
	state  int8
	reps   [4]int32
}

const (
	literal  = -1
	shortRep = -2
)

// ---- the range coder --------------------------------------------------------

func (p *packer) bit(i, b int) {
	prob := p.probs[i]
	bound := (p.wide >> 11) * uint32(prob)
	if b == 0 {
		p.wide = bound
		p.probs[i] = prob + (2048-prob)>>5
	} else {
		p.low += uint64(bound)
		p.wide -= bound
		p.probs[i] = prob - prob>>5
	}
	for p.wide < 1<<24 {
		p.wide <<= 8
		p.shift()
	}
}

// plain writes bits that have no model.
func (p *packer) plain(v, n int) {
	for i := n - 1; i >= 0; i-- {
		p.wide >>= 1
		if v>>i&1 == 1 {
			p.low += uint64(p.wide)
		}
		for p.wide < 1<<24 {
			p.wide <<= 8
			p.shift()
		}
	}
}

// shift puts out the top byte, once it is certain that nothing carries into it.
func (p *packer) shift() {
	if p.low < 0xff000000 || p.low > 0xffffffff {
		carry := byte(p.low >> 32)
		for b := p.cache; p.pending > 0; p.pending-- {
			p.out = append(p.out, b+carry)
			b = 0xff
		}
		p.cache = byte(p.low >> 24)
	}
	p.pending++
	p.low = p.low & 0x00ffffff << 8
}

func (p *packer) tree(from, n, v int) {
	m := 1
	for i := n - 1; i >= 0; i-- {
		b := v >> i & 1
		p.bit(from+m, b)
		m = m<<1 | b
	}
}

func (p *packer) reverse(from, n, v int) {
	m := 1
	for i := range n {
		b := v >> i & 1
		p.bit(from+m, b)
		m = m<<1 | b
	}
}

func (p *packer) length(from, n int) {
	switch n -= minMatch; {
	case n < 8:
		p.bit(from, 0)
		p.tree(from+2, 3, n)
	case n < 16:
		p.bit(from, 1)
		p.bit(from+1, 0)
		p.tree(from+10, 3, n-8)
	default:
		p.bit(from, 1)
		p.bit(from+1, 1)
		p.tree(from+18, 8, n-16)
	}
}

// put writes one step of the way.
func (p *packer) put(n, what int) {
	i := p.at
	p.at += n
	s := p.state
	p.state = after(s, what)
	switch {
	case what == literal:
		p.bit(isMatch+s, 0)
		p.literal(i, s)
		return
	case what == shortRep:
		p.bit(isMatch+s, 1)
		p.bit(isRep+s, 1)
		p.bit(isRep0+s, 0)
		p.bit(isRep0Long+s, 0)
		return
	case what < 4:
		p.bit(isMatch+s, 1)
		p.bit(isRep+s, 1)
		if what == 0 {
			p.bit(isRep0+s, 0)
			p.bit(isRep0Long+s, 1)
		} else {
			p.bit(isRep0+s, 1)
			p.bit(isRep1+s, min(what-1, 1))
			if what > 1 {
				p.bit(isRep2+s, what-2)
			}
		}
		p.length(lengthTree+lengthSize, n)
	default:
		p.bit(isMatch+s, 1)
		p.bit(isRep+s, 0)
		p.length(lengthTree, n)
		p.distance(n, what-4)
	}
	p.reps = moved(p.reps, what)
}

func (p *packer) literal(i, s int) {
	from, m, v := p.literalModel(i), 1, int(p.data[i])
	if s >= 7 {
		like := int(p.data[i-p.reps[0]-1])
		for k := 7; k >= 0; k-- {
			want, b := like>>k&1, v>>k&1
			p.bit(from+(1+want)<<8+m, b)
			m = m<<1 | b
			if want != b {
				for k--; k >= 0; k-- {
					b := v >> k & 1
					p.bit(from+m, b)
					m = m<<1 | b
				}
			}
		}
		return
	}
	p.tree(from, 8, v)
}

func (p *packer) literalModel(i int) int {
	if i == 0 {
		return literals
	}
	return literals + 0x300*int(p.data[i-1]>>(8-lc))
}

func (p *packer) distance(n, d int) {
	slot := slotOf(d)
	p.tree(slotTrees+ofSlots*min(n-minMatch, 3), 6, slot)
	if slot < 4 {
		return
	}
	low := slot>>1 - 1
	base := (2 | slot&1) << low
	if slot < 14 {
		p.reverse(special+base-slot, low, d-base)
		return
	}
	p.plain((d-base)>>4, low-4)
	p.reverse(aligned, 4, d&15)
}

func slotOf(d int) int {
	if d < 4 {
		return d
	}
	n := bits.Len(uint(d)) - 1
	return 2*n | d>>(n-1)&1
}

// after is the state after a step.
func after(s, what int) int {
	pick := func(a, b int) int {
		if s < 7 {
			return a
		}
		return b
	}
	switch {
	case what == literal && s < 4:
		return 0
	case what == literal && s < 10:
		return s - 3
	case what == literal:
		return s - 6
	case what == shortRep:
		return pick(9, 11)
	case what < 4:
		return pick(8, 11)
	}
	return pick(7, 10)
}

// moved are the last four distances after a step.
func moved[I int | int32](reps [4]I, what int) [4]I {
	if what < 0 {
		return reps
	}
	to, first := 3, I(what-4)
	if what < 4 {
		to, first = what, reps[what]
	}
	copy(reps[1:to+1], reps[:to])
	reps[0] = first
	return reps
}

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
	path := p.path
	path[0] = node{state: int8(p.state)}
	for i, d := range p.reps {
		path[0].reps[i] = int32(d)
	}
	reach, end := 0, 0
	relax := func(from, n, what int, price uint32) {
		to := from + n
		for reach < to {
			reach++
			path[reach].price = math.MaxUint32
		}
		if price < path[to].price {
			path[to].price, path[to].length, path[to].what = price, int32(n), int32(what)
		}
	}
	for end = 0; ; end++ {
		i := p.at + end
		here := &path[end]
		if end > 0 {
			before := &path[end-int(here.length)]
			here.state = int8(after(int(before.state), int(here.what)))
			here.reps = moved(before.reps, int(here.what))
			if end == reach || end >= block {
				break
			}
		}
		s, base := int(here.state), here.price
		p.find(i)
		most := len(p.data) - i

		long, which := 0, 0
		var reps [4]int
		for r, d := range here.reps {
			if int(d) >= i || most < minMatch || p.data[i] != p.data[i-int(d)-1] {
				continue
			}
			if reps[r] = p.same(i, i-int(d)-1); reps[r] > long {
				long, which = reps[r], r
			}
		}
		if n := len(p.matches); n > 0 && p.matches[n-1].length > long {
			long, which = p.matches[n-1].length, p.matches[n-1].distance+4
		}
		if long >= nice {
			relaxed := end + long
			relax(end, long, which, 0) // taken, whatever it costs
			path[relaxed].length, path[relaxed].what = int32(long), int32(which)
			for k := 1; k < long; k++ {
				p.enter(i + k)
			}
			end = relaxed
			break
		}

		matched := base + p.price(isMatch+s, 1)
		repeated := matched + p.price(isRep+s, 1)
		relax(end, 1, literal, base+p.price(isMatch+s, 0)+p.literalPrice(i, s, int(here.reps[0])))
		if d := int(here.reps[0]); d < i && p.data[i] == p.data[i-d-1] {
			relax(end, 1, shortRep, repeated+p.price(isRep0+s, 0)+p.price(isRep0Long+s, 0))
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
				relax(end, n, r, price+p.lens[1][n])
			}
		}
		single := matched + p.price(isRep+s, 0)
		from := minMatch
		for _, m := range p.matches {
			for n := from; n <= m.length; n++ {
				relax(end, n, m.distance+4, single+p.lens[0][n]+p.distancePrice(n, m.distance))
			}
			from = m.length + 1
		}
	}
	// Backwards to where it began, turning the links round; then forwards.
	at := end
	var ways []match
	for at > 0 {
		ways = append(ways, match{int(path[at].length), int(path[at].what)})
		at -= int(path[at].length)
	}
	for k := len(ways) - 1; k >= 0; k-- {
		p.put(ways[k].length, ways[k].distance)
	}
}
