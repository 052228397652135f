package scheme

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"ruffwright/geom/word"
)

// Limits of share codes.
const (
	MaxCode     = 8 << 10  // characters
	maxInflated = 64 << 10 // bytes
)

// worthPacking is the size in bytes below which deflate is not tried: it saves
// nothing on a few fields, and setting it up costs a thousand times the rest.
const worthPacking = 160

// A share code is
//
//	version "." base64url( packing, length, body, checksum )
//
// packing is 0 (as it is) or 1 (deflate); length the number of bytes of body as
// packed, an unsigned varint; checksum the CRC-32 (IEEE) of version, dot,
// packing, length and body, big-endian. body unpacked is, for each field that
// differs from its default, in rising order of their numbers in the table:
//
//	number (uvarint), then
//	text, choice   length (uvarint), bytes
//	count          zigzag varint
//	other numbers  see appendNumber
//	marks          how many (uvarint), then for each the step from the mark
//	               before it as a number, and one byte: fold + 2 × edge
//
// The defaults are those of the version: whoever changes a default, a number or
// this form raises Version and keeps reading the old codes; golden codes in
// testdata hold that.

// Code gives the scheme as a share code: only what differs from the defaults,
// exactly. A valid scheme without own marks needs at most 2,000 characters. With
// many own marks at odd places a code may come out longer than MaxCode; then
// Code gives "", and the scheme can only be saved as a document.
func (s Scheme) Code() string {
	body := s.pack()
	packing := byte(0)
	if len(body) > worthPacking {
		if small := deflated(body); len(small) < len(body) {
			packing, body = 1, small
		}
	}
	head := strconv.Itoa(Version) + "."
	raw := append([]byte(head), packing)
	raw = binary.AppendUvarint(raw, uint64(len(body)))
	raw = append(raw, body...)
	raw = binary.BigEndian.AppendUint32(raw, crc32.ChecksumIEEE(raw))
	code := head + base64.RawURLEncoding.EncodeToString(raw[len(head):])
	if len(code) > MaxCode {
		return ""
	}
	return code
}

// FromCode reads a share code and validates the scheme. Space around it is
// passed over. A code that was cut short, altered, made by a newer version, or
// that is none, is told as such.
func FromCode(code string) (Scheme, error) {
	refuse := func(why string, with ...any) (Scheme, error) {
		return Scheme{}, badCode(word.Say(why, with...))
	}
	if len(code) > MaxCode+64 {
		return refuse("the share code is too long: %d characters, at most %d", len(code), MaxCode)
	}
	code = strings.TrimSpace(code)
	version, text, ok := strings.Cut(code, ".")
	if n, rest := digits(version); !ok || n == "" || rest != "" || n[0] == '0' {
		return refuse("this is not a share code; one begins with its version and a dot, as “%d.”", Version)
	}
	if version != strconv.Itoa(Version) {
		return Scheme{}, Errors{tooNew(shorten(version, 20))}
	}
	if len(code) > MaxCode {
		return refuse("the share code is too long: %d characters, at most %d", len(code), MaxCode)
	}
	if strings.Contains(text, between) {
		return refuse("this is the code of two ruffs compared, not of one")
	}
	body, why := uncoded(version+".", text)
	if !why.Empty() {
		return Scheme{}, badCode(why)
	}
	s := Default()
	if err := s.unpack(body); err != nil {
		return refuse("the share code cannot be read: %s", err)
	}
	if err := s.Validate(); err != nil {
		return Scheme{}, err
	}
	return s, nil
}

// badCode is the error of a code that gives no scheme.
func badCode(why word.Text) error { return Errors{{Field: "code", Why: why}} }

var (
	cutShort = word.Say("the share code is cut short; copy the whole of it")
	altered  = word.Say("the share code was altered on its way; copy it again")
)

// uncoded undoes base64, checksum and packing. why is empty where it could.
func uncoded(head, text string) (body []byte, why word.Text) {
	for i := 0; i < len(text); i++ {
		c := text[i]
		if !(c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-' || c == '_') {
			return nil, word.Say("%s (character %d cannot stand in one)", altered, len(head)+i+1)
		}
	}
	strict := base64.RawURLEncoding.Strict()
	raw, err := strict.DecodeString(text)
	if err != nil {
		// The last character may be half of something: read what is before it to
		// tell a code that is cut short from one that was altered.
		raw, err = strict.DecodeString(text[:len(text)/4*4])
		if err != nil {
			return nil, altered
		}
		if want, ok := wantedLength(raw); ok && len(raw)+3 > want {
			return nil, altered
		}
		return nil, cutShort
	}
	want, ok := wantedLength(raw)
	switch {
	case !ok || len(raw) < want:
		// A flipped bit in the length looks like this too; either way a fresh copy
		// mends it.
		return nil, cutShort
	case len(raw) > want:
		return nil, altered
	}
	end := len(raw) - 4
	if crc32.ChecksumIEEE(append([]byte(head), raw[:end]...)) != binary.BigEndian.Uint32(raw[end:]) {
		return nil, altered
	}
	_, n := binary.Uvarint(raw[1:])
	body = raw[1+n : end]
	switch raw[0] {
	case 0:
		return body, why
	case 1:
		inflated, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(body)), maxInflated+1))
		if err != nil {
			return nil, word.Say("the share code cannot be read: its contents do not unpack")
		}
		if len(inflated) > maxInflated {
			return nil, word.Say("the share code is refused: it unpacks to more than %d bytes", maxInflated)
		}
		return inflated, why
	}
	return nil, word.Say("the share code cannot be read: it is packed in a way not known here")
}

// wantedLength is the number of bytes that the whole code must have, from its
// own beginning.
func wantedLength(raw []byte) (int, bool) {
	if len(raw) < 2 {
		return 0, false
	}
	length, n := binary.Uvarint(raw[1:])
	if n <= 0 || length > MaxCode {
		return 0, false
	}
	return 1 + n + int(length) + 4, true
}

func deflated(body []byte) []byte {
	var b bytes.Buffer
	w, err := flate.NewWriter(&b, flate.BestCompression)
	if err != nil {
		return body
	}
	if _, err := w.Write(body); err != nil {
		return body
	}
	if err := w.Close(); err != nil {
		return body
	}
	return b.Bytes()
}

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
			out = appendNumber(out, *p)
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
				step := thousandths(m.Place) - thousandths(last)
				if onGrid(m.Place) {
					out = binary.AppendUvarint(out, zigzag(step)<<1)
				} else {
					out = append(out, 1)
					out = binary.BigEndian.AppendUint64(out, math.Float64bits(m.Place))
				}
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
func appendNumber(out []byte, v float64) []byte {
	if onGrid(v) {
		return binary.AppendUvarint(out, zigzag(thousandths(v))<<1)
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
	b := byte(slices.Index(codeFolds, m.Fold))
	return b + 2*byte(slices.Index(codeEdges, m.Sewn))
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

// same says whether a and b have the same value in the field.
func (f Field) same(a, b *Scheme) bool {
	switch p := f.at(a).(type) {
	case *float64:
		return *p == *f.at(b).(*float64)
	case *int:
		return *p == *f.at(b).(*int)
	case *string:
		return *p == *f.at(b).(*string)
	case *[]Mark:
		return slices.Equal(*p, *f.at(b).(*[]Mark))
	}
	return false
}

// Differ gives the fields in which a and b differ, in the order of the table.
func Differ(a, b Scheme) []Field {
	var out []Field
	for _, f := range table {
		if !f.same(&a, &b) {
			out = append(out, f)
		}
	}
	return out
}
