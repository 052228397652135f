package site

import (
	"encoding/binary"
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
	reach     int // of the path: the farthest position known
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
