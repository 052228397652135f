package scheme

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Codes that are out in the world stay readable for ever: each golden code gives
// the whole document beside it, defaults and all. New ones are added; none is
// ever changed.
func TestGoldenCodes(t *testing.T) {
	codes, err := filepath.Glob("testdata/codes/*.code")
	if err != nil || len(codes) < 6 {
		t.Fatalf("%d golden codes (%v)", len(codes), err)
	}
	for _, name := range codes {
		code, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		want, err := os.ReadFile(strings.TrimSuffix(name, ".code") + ".json")
		if err != nil {
			t.Fatal(err)
		}
		s, err := FromCode(string(code))
		if err != nil || !bytes.Equal(s.JSON(), want) {
			t.Errorf("%s: %v\n%s", name, err, s.JSON())
		}
	}
}

func TestCodeRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScheme(t)
		code := s.Code()
		if code == "" {
			if len(s.Pleat.Marks) < 100 {
				t.Fatalf("no code for %d marks", len(s.Pleat.Marks))
			}
			return
		}
		back, err := FromCode(code)
		if err != nil {
			t.Fatalf("%s: %v", code, err)
		}
		if d := Differ(s, back); len(d) != 0 {
			t.Fatalf("%s: %s became %s", d[0].Key, d[0].Get(s), d[0].Get(back))
		}
		if again := back.Code(); again != code {
			t.Fatalf("%s is written again as %s", code, again)
		}
		if strings.Trim(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.") != "" || !strings.HasPrefix(code, "1.") {
			t.Fatalf("%s is not fit for an address", code)
		}
	})
}

// Lengths: nothing differs 9 characters; a scheme that differs in every field,
// each number an odd float and the name as long as can be, at most 2,000.
func TestCodeLength(t *testing.T) {
	if code := Default().Code(); len(code) > 12 {
		t.Errorf("the default takes %d characters: %s", len(code), code)
	}
	s := Default()
	s.Name = strings.Repeat("𝔘", 79) + "x"
	for i := range table {
		f := &table[i]
		switch p := f.at(&s).(type) {
		case *float64:
			*p = math.Nextafter(f.Min+(f.Max-f.Min)/math.Pi, 1e9)
		case *int:
			*p = int(f.Max) - 1
		case *string:
			for _, c := range f.Choices {
				if c.Value != f.Default && len(c.Value) >= len(*p) {
					*p = c.Value
				}
			}
		}
	}
	s.Pleat.Lines, s.Strip.HemTurns = 2, 1
	s.Starch.Dry, s.Starch.Reach = Hung, math.Nextafter(50.3, 1e9)
	s.Wearer.Part, s.Wearer.Girth, s.Band.Length = Wrist, math.Nextafter(150.1, 1e9), math.Nextafter(180.3, 1e9)
	s.Wearer.Face, s.Look.DepthRatio, s.Look.HeightRatio = math.Nextafter(100.3, 1e9), math.Nextafter(.71, 1), math.Nextafter(.31, 1)
	s.Look.Measured = "depth 62 mm (55 to 70), height 39 mm (33 to 46), 41 sets (39 to 43)"
	s.Look.Quarter, s.Starch.Bend, s.Pleat.Panel = 99, math.Nextafter(200.3, 1e9), math.Nextafter(100.3, 1e9)
	code := s.Code()
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	same := 0
	for _, f := range table {
		d := Default()
		if f.same(&s, &d) {
			same++
		}
	}
	if len(code) > 2000 || same > 3 {
		t.Errorf("%d characters, %d fields as the default", len(code), same)
	}
	back, err := FromCode(code)
	if err != nil || len(Differ(s, back)) != 0 {
		t.Error(err)
	}
	// Own marks in half millimetres, 400 sets.
	s = Default()
	for i := range 801 {
		s.Pleat.Marks = append(s.Pleat.Marks, Mark{Place: math.Round(float64(i)*2*25.3+float64(i*i%7)) / 2, Fold: codeFolds[(i+1)%2], Sewn: codeEdges[(i+1)%2]})
	}
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	if code = s.Code(); code == "" || len(code) > MaxCode {
		t.Errorf("801 marks take %d characters", len(code))
	}
	// And at places that no grid knows: no code, not a wrong one.
	for i := range s.Pleat.Marks {
		s.Pleat.Marks[i].Place = float64(i) * 25.3 * math.Pi / 3
	}
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	if code = s.Code(); code != "" {
		back, err := FromCode(code)
		if err != nil || len(Differ(s, back)) != 0 {
			t.Errorf("%d characters, %v", len(code), err)
		}
	}
}

func demoCode(t testing.TB) string {
	code, err := os.ReadFile("testdata/codes/wide.code")
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(string(code))
}

// A code cut short anywhere says so; a character altered anywhere is noticed
// (the CRC-32 sees every burst of up to 32 bits).
func TestCodeCutOrAltered(t *testing.T) {
	code := demoCode(t)
	for n := 2; n < len(code); n++ {
		if _, err := FromCode(code[:n]); err == nil || !strings.Contains(err.Error(), "cut short") {
			t.Errorf("cut to %d: %v", n, err)
		}
	}
	for i := 2; i < len(code); i++ {
		for _, c := range "A_-z09 +/.é\x00" {
			if byte(c) == code[i] && c < 128 {
				continue
			}
			_, err := FromCode(code[:i] + string(c) + code[i+1:])
			if err == nil || !strings.Contains(err.Error(), "copy") {
				t.Errorf("%q at %d: %v", c, i, err)
			}
		}
		if i+1 < len(code) && code[i] != code[i+1] {
			if _, err := FromCode(code[:i] + string(code[i+1]) + string(code[i]) + code[i+2:]); err == nil {
				t.Errorf("%d and %d exchanged: passed", i, i+1)
			}
		}
	}
	for _, more := range []string{"A", "AB", "ABC", "ABCD", "="} {
		if _, err := FromCode(code + more); err == nil || !strings.Contains(err.Error(), "copy it again") {
			t.Errorf("%q added: %v", more, err)
		}
	}
	if _, err := FromCode(" \n" + code + "\t"); err != nil {
		t.Errorf("space around: %v", err)
	}
}

// sealed makes a code of any body, with a right checksum.
func sealed(packing byte, body []byte) string {
	raw := append([]byte("1."), packing)
	raw = binary.AppendUvarint(raw, uint64(len(body)))
	raw = append(raw, body...)
	raw = binary.BigEndian.AppendUint32(raw, crc32.ChecksumIEEE(raw))
	return "1." + base64.RawURLEncoding.EncodeToString(raw[2:])
}

func TestFromCodeRefuses(t *testing.T) {
	pressed := func(body []byte) []byte {
		var b bytes.Buffer
		w, err := flate.NewWriter(&b, 9)
		if err != nil {
			t.Fatal(err)
		}
		w.Write(body) // to memory: cannot fail
		w.Close()
		return b.Bytes()
	}
	squeeze := func(n int) []byte { return pressed(make([]byte, n)) }
	var girth [8]byte
	binary.BigEndian.PutUint64(girth[:], math.Float64bits(400))
	var bits [9]byte
	bits[0] = 1
	binary.BigEndian.PutUint64(bits[1:], math.Float64bits(math.NaN()))
	for _, c := range []struct{ code, why string }{
		{"", "not a share code"}, {"sound", "not a share code"}, {"1", "not a share code"}, {".", "not a share code"}, {".AB", "not a share code"}, {"01.AB", "not a share code"}, {"x1.AB", "not a share code"}, {"-1.AB", "not a share code"}, {"1x.AB", "not a share code"}, {"0.AB", "not a share code"},
		{"2.AB", "newer"}, {"10.AB", "newer"}, {"99999999999999999999999999.AB", "newer"},
		{"1.", "cut short"}, {"1.A", "cut short"}, {"1.AB", "cut short"}, {"1.////", "altered"}, {"1.A B", "altered"}, {"1.A.B", "altered"},
		{"1." + strings.Repeat("A", MaxCode), "too long"}, {strings.Repeat("A", 1<<20), "too long"}, {strings.Repeat(" ", 10<<20), "too long"},
		{sealed(2, nil), "packed in a way"}, {sealed(1, []byte("rubbish")), "unpack"}, {sealed(1, squeeze(maxInflated+1)), "more than 65536"}, {sealed(1, squeeze(3<<20)), "more than 65536"}, {sealed(1, squeeze(maxInflated)), "no sense"},
		{sealed(0, []byte{0}), "no sense"}, {sealed(0, []byte{99, 2}), "no sense"}, {sealed(0, []byte{255, 255, 255, 255, 255, 255, 255, 255, 255, 1}), "no sense"}, {sealed(0, bytes.Repeat([]byte{255}, 20)), "no sense"},
		{sealed(0, []byte{3}), "no sense"}, {sealed(0, append([]byte{3}, bits[:]...)), "wearer.girth"}, {sealed(0, append([]byte{3}, bits[:5]...)), "no sense"}, {sealed(0, []byte{3, 3}), "no sense"}, {sealed(0, append([]byte{3, 3}, girth[:]...)), "no sense"},
		{sealed(1, pressed(append([]byte{25, 0xd1, 0x0f}, bytes.Repeat([]byte{4, 0, 4, 1}, 1001)...))), "no sense"},
		{sealed(0, []byte{1, 5, 'a'}), "no sense"}, {sealed(0, []byte{1, 1, 0xff}), "UTF-8"}, {sealed(0, []byte{1, 3, 0xe2, 0x80, 0xae}), "direction"}, {sealed(0, []byte{2, 1, 'x'}), "wearer.part"},
		{sealed(0, []byte{10, 2}), "ruff.sets"}, {sealed(0, []byte{10, 80, 10, 80}), "no sense"}, {sealed(0, []byte{11, 0, 10, 80}), "no sense"},
		{sealed(0, []byte{25, 1}), "no sense"}, {sealed(0, []byte{25, 255, 255, 255, 15}), "no sense"}, {sealed(0, []byte{25, 1, 0, 6}), "no sense"}, {sealed(0, []byte{25, 1, 0, 0}), "ruff.sets"}, {sealed(0, []byte{25, 2, 0, 0, 0, 1}), "mark 2"},
	} {
		s, err := FromCode(c.code)
		if err == nil || !strings.Contains(err.Error(), c.why) || len(Differ(s, Scheme{})) != 0 || len(err.Error()) > 400 {
			t.Errorf("%.60q: %v; want …%s…", c.code, err, c.why)
		}
	}
}

func FuzzFromCode(f *testing.F) {
	f.Add(Default().Code())
	f.Add(demoCode(f))
	f.Add("2.AAAA")
	f.Add(sealed(0, []byte{25, 2, 0, 0, 0, 1}))
	f.Add(sealed(1, []byte{1, 2, 3}))
	f.Fuzz(func(t *testing.T, code string) {
		s, err := FromCode(code)
		if err != nil {
			return
		}
		checkDecoded(t, s)
	})
}

// FuzzBody goes past the checksum, which a fuzzer cannot guess.
func FuzzBody(f *testing.F) {
	for _, c := range []string{Default().Code(), demoCode(f)} {
		raw, err := base64.RawURLEncoding.DecodeString(c[2:])
		if err != nil {
			f.Fatal(err)
		}
		f.Add(byte(0), raw[2:len(raw)-4])
	}
	f.Add(byte(1), []byte{25, 2, 0, 0, 0, 1})
	f.Fuzz(func(t *testing.T, packing byte, body []byte) {
		if s, err := FromCode(sealed(packing, body)); err == nil {
			checkDecoded(t, s)
		}
	})
}

func checkDecoded(t *testing.T, s Scheme) {
	t.Helper()
	if err := s.Validate(); err != nil {
		t.Fatalf("decoded but not valid: %v", err)
	}
	if code := s.Code(); code != "" {
		back, err := FromCode(code)
		if err != nil || len(Differ(s, back)) != 0 {
			t.Fatalf("does not come back: %v", err)
		}
	}
}

func FuzzParseLength(f *testing.F) {
	for _, text := range []string{"395", "39,5 cm", `15 1/2"`, "15-1/2 in", "½″", "1e999", "NaN", "-−1", "1,400", "1/0", "4 yd"} {
		f.Add(text, 0)
	}
	f.Fuzz(func(t *testing.T, text string, u int) {
		mm, err := ParseLength(text, Units(u))
		if math.IsNaN(mm) || math.IsInf(mm, 0) || err != nil && mm != 0 {
			t.Fatalf("%q gives %v, %v", text, mm, err)
		}
		if err != nil {
			return
		}
		if back, err := ParseLength(exact(mm), Millimetres); len(exact(mm)) <= maxQuantity && (err != nil || back != mm) {
			t.Fatalf("%q is %v mm, read back as %v, %v", text, mm, back, err)
		}
	})
}

// The text form of marks leads back to the same marks.
func TestMarksText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		marks := drawMarks(t)
		back, err := ParseMarks(FormatMarks(marks))
		if err != nil || len(back) != len(marks) {
			t.Fatal(err)
		}
		for i := range marks {
			if back[i] != marks[i] {
				t.Fatalf("mark %d: %v became %v", i, marks[i], back[i])
			}
		}
	})
}

// TestUnpackCounts: a whole number beyond 1e9 makes no sense, whatever its sign; one of
// that size is told by its field.
func TestUnpackCounts(t *testing.T) {
	for n, want := range map[int]bool{1e9: true, -1e9: true, 1e9 + 1: false, -1e9 - 1: false} {
		s := Default()
		s.Ruff.Sets = n
		read := Default()
		if err := read.unpack(s.pack()); (err == nil) != want || want && read.Ruff.Sets != n {
			t.Errorf("%d sets: %v, %d", n, err, read.Ruff.Sets)
		}
	}
}
