package scheme

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"math"
	"slices"
)

// The body of a share code; its form is told beside Code.

// byCode gives the fields in the order of their numbers.
func byCode() []Field {
	return slices.SortedFunc(slices.Values(table), func(a, b Field) int { return a.code - b.code })
}

// pack writes what differs from the defaults.
func (s Scheme) pack() []byte {
	var out []byte
	plain := Default()
	for _, f := range byCode() {
		if f.same(&s, &plain) {
			continue
		}
		out = binary.AppendUvarint(out, uint64(f.code))
		switch p := f.at(&s).(type) {
		case *float64:
			out = appendNumber(out, *p, thousandths(*p))
		case *int:
			out = binary.AppendVarint(out, int64(*p))
		case *string:
			out = binary.AppendUvarint(out, uint64(len(*p)))
			out = append(out, *p...)
		case *[]Mark:
			out = binary.AppendUvarint(out, uint64(len(*p)))
			last := 0.0
			for _, m := range *p {
				// Both sides round the mark before to thousandths alike, so the step
				// leads back to the very place wherever that lies on the grid.
				out = appendNumber(out, m.Place, thousandths(m.Place)-thousandths(last))
				last = m.Place
				out = append(out, foldByte(m))
			}
		}
	}
	return out
}

// appendNumber writes a number: one that is a whole count of thousandths as
// uvarint 2 × zigzag(count); any other as a byte 1 and its eight bytes,
// big-endian. Either way it comes back as the very same float.
func appendNumber(out []byte, v float64, count int64) []byte {
	if onGrid(v) {
		return binary.AppendUvarint(out, zigzag(count)<<1)
	}
	return binary.BigEndian.AppendUint64(append(out, 1), math.Float64bits(v))
}

// onGrid says whether v is exactly a whole count of thousandths.
func onGrid(v float64) bool {
	return math.Abs(v) < 1e9 && float64(thousandths(v))/1000 == v
}

func thousandths(v float64) int64 {
	if !(math.Abs(v) < 1e9) {
		return 0
	}
	return int64(math.Round(v * 1000))
}

func zigzag(n int64) uint64   { return uint64(n<<1) ^ uint64(n>>63) }
func unzigzag(u uint64) int64 { return int64(u>>1) ^ -int64(u&1) }

func foldByte(m Mark) byte {
	return byte(slices.Index(codeFolds, m.Fold) + 2*slices.Index(codeEdges, m.Sewn))
}

var (
	codeFolds = []Fold{Crest, Trough}
	codeEdges = []Edge{EdgeTop, EdgeBottom, EdgeNone}
)

var errBody = errors.New("its contents make no sense")

// unpack reads what pack wrote into s.
func (s *Scheme) unpack(body []byte) error {
	fields := byCode()
	in := bytes.NewReader(body)
	last := -1
	for in.Len() > 0 {
		number, err := binary.ReadUvarint(in)
		if err != nil {
			return errBody
		}
		at, ok := slices.BinarySearchFunc(fields, number, func(f Field, n uint64) int { return f.code - int(min(n, 1e6)) })
		if !ok || at <= last {
			return errBody
		}
		last = at
		if err := fields[at].unpack(in, s); err != nil {
			return err
		}
	}
	return nil
}

func (f Field) unpack(in *bytes.Reader, s *Scheme) error {
	switch p := f.at(s).(type) {
	case *float64:
		v, _, err := readNumber(in)
		if err != nil {
			return err
		}
		*p = v
	case *int:
		v, err := binary.ReadVarint(in)
		if err != nil || v > 1e9 || v < -1e9 {
			return errBody
		}
		*p = int(v)
	case *string:
		n, err := binary.ReadUvarint(in)
		if err != nil || n > uint64(in.Len()) {
			return errBody
		}
		text := make([]byte, n)
		if _, err := io.ReadFull(in, text); err != nil {
			return errBody
		}
		if *p = string(text); badText(*p, int(f.Max)).Empty() { // what is bad is told, not hidden
			*p = seen(*p)
		}
	case *[]Mark:
		n, err := binary.ReadUvarint(in)
		if err != nil || n > maxMarks {
			return errBody
		}
		marks := make([]Mark, 0, n)
		place := 0.0
		for range n {
			v, step, err := readNumber(in)
			if err != nil {
				return err
			}
			if step {
				v = float64(thousandths(place)+thousandths(v)) / 1000
			}
			b, err := in.ReadByte()
			if err != nil || b >= 6 {
				return errBody
			}
			place = v
			marks = append(marks, Mark{Place: v, Fold: codeFolds[b%2], Sewn: codeEdges[b/2]})
		}
		*p = marks
	}
	return nil
}

// readNumber reads what appendNumber wrote; grid says that it was a count of
// thousandths.
func readNumber(in *bytes.Reader) (v float64, grid bool, err error) {
	u, err := binary.ReadUvarint(in)
	if err != nil {
		return 0, false, errBody
	}
	if u&1 == 0 {
		return float64(unzigzag(u>>1)) / 1000, true, nil
	}
	var raw [8]byte
	if _, err := io.ReadFull(in, raw[:]); err != nil || u != 1 {
		return 0, false, errBody
	}
	v = math.Float64frombits(binary.BigEndian.Uint64(raw[:]))
	if v == 0 {
		v = 0
	}
	return v, false, nil
}
