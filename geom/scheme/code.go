package scheme

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"io"
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
	raw, why := unlettered(head, text)
	if !why.Empty() {
		return nil, why
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
		return inflated(body)
	}
	return nil, word.Say("the share code cannot be read: it is packed in a way not known here")
}

// unlettered undoes base64 (RFC 4648, section 5, without padding).
func unlettered(head, text string) (raw []byte, why word.Text) {
	const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"
	strange := func(r rune) bool { return !strings.ContainsRune(letters, r) }
	if i := strings.IndexFunc(text, strange); i >= 0 {
		return nil, word.Say("%s (character %d cannot stand in one)", altered, len(head)+i+1)
	}
	strict := base64.RawURLEncoding.Strict()
	raw, err := strict.DecodeString(text)
	if err == nil {
		return raw, why
	}
	// The last character may be half of something: read what is before it to tell a
	// code that is cut short from one that was altered.
	raw, err = strict.DecodeString(text[:len(text)/4*4])
	if err != nil {
		return nil, altered
	}
	if want, ok := wantedLength(raw); ok && len(raw)+3 > want {
		return nil, altered
	}
	return nil, cutShort
}

// inflated unpacks DEFLATE (RFC 1951).
func inflated(body []byte) ([]byte, word.Text) {
	out, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(body)), maxInflated+1))
	if err != nil {
		return nil, word.Say("the share code cannot be read: its contents do not unpack")
	}
	if len(out) > maxInflated {
		return nil, word.Say("the share code is refused: it unpacks to more than %d bytes", maxInflated)
	}
	return out, word.Text{}
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

// deflated packs by DEFLATE; a buffer takes every write, and the level is one that
// there is.
func deflated(body []byte) []byte {
	var b bytes.Buffer
	w, _ := flate.NewWriter(&b, flate.BestCompression)
	w.Write(body)
	w.Close()
	return b.Bytes()
}

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
