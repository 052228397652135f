package scheme

import (
	"reflect"
	"slices"
	"strings"
	"testing"
)

// design is the table of the design document, transcribed by hand: key, unit,
// least, most, value that 0 adds to the range (z) or nothing, default. It is the
// outside truth that the table of fields is held to.
const design = `
wearer.part       -         neck,wrist                       neck
wearer.girth      mm        100    560   -  395
wearer.ratio      -         0.5    2   -  1
wearer.ease       mm        0      80    -  20
wearer.face       mm        60     200   z  0
look.depth_ratio  -         0      3     z  0
look.height_ratio -         0      3     z  0
look.quarter      sets      0      100   z  0
ruff.sets         sets      8      400   -  40
ruff.depth        mm        10     300   -  70
ruff.height       mm        5      150   -  45
ruff.flaps        -         fall,stand                       fall
ruff.ends         -         fall,stand                       fall
pleat.panel       mm        5      200   z  0
pleat.pitch       mm        1      60    z  0
pleat.anchor      -         top,bottom,both                  both
pleat.sewn        -         crests,troughs                   crests
pleat.tuck_top    mm        0      40    -  9
pleat.tuck_bottom mm        0      40    -  9
pleat.lines       -         1      2     -  1
pleat.line_gap    mm        2      30    -  6
pleat.catch       mm        0      10    z  0
pleat.first       -         crest,trough                     trough
pleat.last        -         crest,trough                     trough
band.height       mm        5      80    -  36
band.length       mm        80    700   z  0
band.overlap      mm        0      60    -  15
band.seam         mm        0      30    -  10
band.closure      -         hooks,ties,buttons               hooks
strip.have        mm        100    50000 z  0
strip.along       -         warp,weft                        weft
strip.bolt        mm        200    3000  -  1400
strip.selvedge    mm        0      30    -  8
strip.hem         mm        0      20    -  2
strip.hem_turns   -         1      2     -  2
strip.takeup      mm        0      40    -  8
strip.join        mm        0      15    -  1.5
strip.shrink_warp %         0      20    -  4
strip.shrink_weft %         0      20    -  3
strip.spare       sets      0      20    -  2
cloth.mass        g/m²      10     400   z  0
cloth.thickness   mm        0.03   1.5   z  0
cloth.bend_warp   mm        5      120   z  0
cloth.bend_weft   mm        5      120   z  0
cloth.error       %         0.5    60    z  0
cloth.light       %         1      95    z  0
starch.bend       mm        5      250   z  0
starch.quality    -         0      1     -  1
starch.dry        -         sticks,hung                      sticks
starch.stick      mm        2      60    z  0
starch.tip        mm        1      60    z  0
starch.reach      mm        5      300   z  0
starch.shear      N/m       60     20000 z  0
starch.bath       g/L       0      150   -  35
starch.kind       -         maize,wheat,potato,rice          maize
support.kind      -         none,collar,supporter            none
support.drop      mm        0      60    -  10
support.slope     °         -30    60    -  0
hand.error        mm        0      20    -  1
hand.drift        mm_a_set  -5     5     -  0
hand.stitches     per_cm    2      15    -  6
hand.pace         -         learner,practised                learner
`

func TestTableIsTheDesigns(t *testing.T) {
	told := map[string]bool{"name": true, "look.measured": true, "cloth.name": true, "pleat.marks": true} // tested below
	for _, line := range strings.Split(strings.TrimSpace(design), "\n") {
		w := strings.Fields(line)
		f, ok := Lookup(w[0])
		if !ok {
			t.Errorf("%s is not in the table", w[0])
			continue
		}
		told[f.Key] = true
		unit := strings.ReplaceAll(strings.TrimPrefix(w[1], "-"), "_", " ")
		if f.Unit != unit || f.Default != w[len(w)-1] {
			t.Errorf("%s: unit %q default %q, want %q %q", f.Key, f.Unit, f.Default, unit, w[len(w)-1])
		}
		if len(w) == 4 {
			values := map[string]bool{}
			for _, c := range f.Choices {
				values[c.Value] = true
			}
			want := strings.Split(w[2], ",")
			for _, v := range want {
				if !values[v] {
					t.Errorf("%s does not offer %s", f.Key, v)
				}
			}
			if f.Kind != KindChoice || len(values) != len(want) {
				t.Errorf("%s: %s with choices %v, want %v", f.Key, f.Kind, values, want)
			}
			continue
		}
		if exact(f.Min) != w[2] || exact(f.Max) != w[3] || (f.Zero != "") != (w[4] == "z") {
			t.Errorf("%s: %g to %g, zero %q; want %v", f.Key, f.Min, f.Max, f.Zero, w[2:5])
		}
	}
	for _, f := range Fields() {
		if !told[f.Key] {
			t.Errorf("%s is not in the design's table", f.Key)
		}
	}
	if f, _ := Lookup("name"); f.Max != 80 || f.Kind != KindText {
		t.Errorf("name: %+v", f)
	}
	if f, _ := Lookup("pleat.marks"); f.Max != 2000 || f.Kind != KindMarks {
		t.Errorf("pleat.marks: %+v", f)
	}
	if f, _ := Lookup("cloth.name"); len(f.Choices) != len(cloths) || f.Default != "cotton lawn" {
		t.Errorf("cloth.name: %+v", f)
	}
}

// Every leaf of the document is one field, at the key that its JSON names say.
func TestEveryLeafIsAField(t *testing.T) {
	var s Scheme
	leaves := map[string]any{}
	var walk func(v reflect.Value, prefix string)
	walk = func(v reflect.Value, prefix string) {
		for i := range v.NumField() {
			key := prefix + v.Type().Field(i).Tag.Get("json")
			if v.Field(i).Kind() == reflect.Struct {
				walk(v.Field(i), key+".")
				continue
			}
			leaves[key] = v.Field(i).Addr().Pointer()
		}
	}
	walk(reflect.ValueOf(&s).Elem(), "")
	for _, f := range table {
		if at := reflect.ValueOf(f.at(&s)).Pointer(); leaves[f.Key] != at {
			t.Errorf("%s points elsewhere than its JSON name says", f.Key)
		}
		delete(leaves, f.Key)
	}
	for key := range leaves {
		t.Errorf("%s has no field", key)
	}
}

func TestTableIsWhole(t *testing.T) {
	codes, keys, order := map[int]string{}, map[string]bool{}, []string{}
	for _, f := range Fields() {
		if keys[f.Key] || codes[f.code] != "" || f.code < 1 {
			t.Errorf("%s: key or share code number %d used before (%s)", f.Key, f.code, codes[f.code])
		}
		keys[f.Key], codes[f.code] = true, f.Key
		if len(order) == 0 || order[len(order)-1] != f.Group {
			order = append(order, f.Group)
		}
		for what, text := range map[string]string{"label": f.Label, "help": f.Help, "changes": f.Changes} {
			if text == "" {
				t.Errorf("%s has no %s", f.Key, what)
			}
			for _, word := range []string{"hill", "valley", "peak", "facing", "sag ", "crest", "trough"} {
				if strings.Contains(strings.ToLower(text), word) && f.Kind != KindMarks {
					t.Errorf("%s: %s uses %q, which the page does not", f.Key, what, word)
				}
			}
		}
		for _, c := range f.Choices {
			if c.Value == "" || c.Label == "" {
				t.Errorf("%s: choice %+v", f.Key, c)
			}
		}
		if got := f.Get(Default()); got != f.Default {
			t.Errorf("%s: default %q is read as %q", f.Key, f.Default, got)
		}
	}
	var groups []string
	for _, g := range Groups() {
		groups = append(groups, g.Key)
	}
	slices.Sort(order) // a group is in one piece, so that it comes once
	slices.Sort(groups)
	if !slices.Equal(order, groups) {
		t.Errorf("fields come in groups %v, headings are %v", order, groups)
	}
	// A caller's changes stay the caller's.
	Fields()[0].Key, Groups()[0].Key = "x", "x"
	if Fields()[0].Key != "name" || Groups()[0].Key != "wearer" {
		t.Error("a caller can change the table")
	}
}

// What fit.go leaves to the ranges: an overlap is shorter than any band, and two
// selvedges are narrower than any bolt.
func TestRangesThatNeedNoFit(t *testing.T) {
	of := func(key string) Field { f, _ := Lookup(key); return f }
	if of("band.overlap").Max >= of("band.length").Min {
		t.Error("an overlap can be as long as the band: fit must check it")
	}
	if of("band.overlap").Max >= of("wearer.girth").Min {
		t.Error("an overlap can go round the wrist: fit must check it")
	}
	if 2*of("strip.selvedge").Max >= of("strip.bolt").Min {
		t.Error("selvedges can use up the bolt: fit must check it")
	}
}

// Every field of numbers: at both ends of its range, beyond them, and all that
// is no number.
func TestSetEveryField(t *testing.T) {
	for _, f := range Fields() {
		t.Run(f.Key, func(t *testing.T) {
			refused := func(text string) {
				t.Helper()
				s := Default()
				err := s.Set(f.Key, text)
				e, ok := err.(Error)
				if !ok || e.Field != f.Key || e.Allowed.Empty() || e.Why.Empty() {
					t.Errorf("%.60q: error %#v, want one that names the field and what is allowed", text, err)
				}
				if d := Differ(s, Default()); len(d) != 0 {
					t.Errorf("%.60q was refused but changed %s", text, d[0].Key)
				}
			}
			accepted := func(text, want string) {
				t.Helper()
				s := Default()
				if err := s.Set(f.Key, text); err != nil || f.Get(s) != want {
					t.Errorf("%.60q gives %q (%v), want %q", text, f.Get(s), err, want)
				}
				s2 := Default()
				if err := s2.Set(f.Key, f.Get(s)); err != nil || len(Differ(s, s2)) != 0 {
					t.Errorf("Get's text %q does not lead back (%v)", f.Get(s), err)
				}
			}
			switch f.Kind {
			case KindText:
				accepted("The Cooper's ruff", "The Cooper's ruff")
				accepted("", "")
				accepted("u\u0308bergroß", "übergroß")
				accepted(strings.Repeat("ß", 80), strings.Repeat("ß", 80))
				for _, bad := range []string{strings.Repeat("x", 81), "a\nb", "a\x00b", "a\u202eb", "a\u2066b", "a\u200fb", "\xff", "a\ufffdb", "a\u2028b"} {
					refused(bad)
				}
			case KindChoice:
				for _, c := range f.Choices {
					accepted(c.Value, c.Value)
				}
				for _, bad := range []string{"", "x", "0", strings.ToUpper(f.Default), strings.Repeat("x", 1000)} {
					refused(bad)
				}
			case KindMarks:
				accepted("", "")
				accepted("0 trough bottom; 1.5 in crest top\n 61 trough no;", "0 trough bottom; 38.1 crest top; 61 trough no")
				for _, bad := range []string{"x", "0", "0 trough", "1 trough bottom", "0 trough bottom; 0 crest top", "0 trough bottom; 50 trough bottom",
					"0 peak top", "0 crest side", "0 crest top; NaN trough bottom", "0 crest top; 1e999 trough no", "0 crest top; 50001 trough no", "0 crest top; -1 trough no",
					strings.Repeat("0 crest top;", 2001)} {
					refused(bad)
				}
			default:
				accepted(exact(f.Min), exact(f.Min))
				accepted(exact(f.Max), exact(f.Max))
				accepted(" "+strings.ReplaceAll(exact(f.Max), ".", ",")+" ", exact(f.Max))
				if f.Unit != "" {
					accepted(exact(f.Max)+" "+strings.TrimSuffix(f.Unit, " a set"), exact(f.Max))
				}
				if f.Zero != "" {
					accepted("0", "0")
					accepted("-0", "0")
				}
				step := 0.001
				if f.Kind == KindCount {
					step = 1
					refused(exact(f.Min + 0.5))
				}
				refused(decimals(f.Max+step, 3))
				if !(f.InRange(f.Min - step)) {
					refused(decimals(f.Min-step, 3))
				}
				for _, bad := range []string{"", " ", "NaN", "nan", "Inf", "-Inf", "+inf", "1e999", "1e2", "0x20", "abc", "12 34", "1 2 3",
					"12 furlongs", "12 kg", "--12", "1/0", "1//2", "1.2.3", "1,200.5", "½½", "９", strings.Repeat("9", 399), strings.Repeat("1", 5000)} {
					refused(bad)
				}
				if f.Kind == KindLength {
					refused("12 %")
				} else {
					refused("12 mm")
				}
			}
		})
	}
	s := Default()
	for _, key := range []string{"", "ruff", "ruff.", "ruff.Sets", "Ruff.sets", "nothing.here"} {
		if err := s.Set(key, "12"); err == nil {
			t.Errorf("key %q was accepted", key)
		}
	}
	if err := s.Set("Ruff.sets", "12"); !strings.Contains(err.Error(), "ruff.sets is") {
		t.Errorf("a key that differs in case: %v", err)
	}
}
