package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"strconv"
	"strings"

	"ruffwright/geom/portrait"
	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
)

// looking is what the flags of look ask for.
type looking struct {
	from    source
	overlay overlaying
	units   unitsFlag
	asJSON  bool
}

func lookVerb() verb {
	var l looking
	return verb{
		name: "look", args: "FILE [SCHEME]", least: 1, most: 2,
		does: "depth, height and sets of a ruff in a picture, by points on it",
		help: `
Takes points that were placed on a picture, in pixels with y down, from a JSON file
(- reads standard input), and answers with the ruff's depth, height and sets in the
wearer's millimetres. The face is the ruler; the ellipse of the ruff's outer edge says
how it lies, and so how much its depth and height are shortened.

  {"source": {
     "references": [{"kind": "face_height", "from": [610, 212], "to": [604, 502]}],
     "edge": [[210, 640], [330, 742], [560, 790], [800, 760], [930, 650]],
     "depths": [{"from": [420, 610], "to": [212, 638]}],
     "heights": [{"from": [560, 838], "to": [560, 742]}],
     "sets": [{"count": 11, "from": [330, 742], "to": [800, 760]}]},
   "wearer": {"face_mm": {"face_height": 118}}}

` + "`kind`" + ` is face_height (under the chin to the nose's root), face_breadth, pupils or nose;
several are combined by their weights. Edge: five points or more. Sets: counted along the
outer edge between two points, or with a "share" of the way round (0.25).

How far things may be off, 19 times in 20, may be said; this is what is taken:

  source  placing_px 2, distance_mm 2000 (of the painter) by a distance_factor of 1.5,
          face_ahead_mm 80 (of the ruff's middle) ± face_ahead_off_mm 40, freedom 1.1
          (by which painters draw ruffs too large or small), near "below" (the side of
          the ruff that is nearer), head {turn_deg 0, turn_off_deg 10, nod_deg 0,
          nod_off_deg 10}; in sets: count_off 0.5, share_off 0.02
  wearer  people "either" ("women", "men"): whose faces are taken where none is measured;
          face_mm {face_height, ...} with tape_mm 2; or a picture {ruler {from, to},
          ruler_mm, behind_mm 0 ± behind_off_mm 20 (of the face), references, head,
          placing_px 2, distance_mm 2000, distance_factor 1.2}

--picture opens the picture itself, upright as its orientation tag says: points must lie
in it. --out draws lines and ellipse on it, to see whether they lie where they should.

With a SCHEME (or --set) the changes are tried on it. Of a ratio that stands there and a
length that is set later the length holds; that is told.`,
		flags: func(f *flag.FlagSet) {
			l.from.flags(f)
			f.StringVar(&l.overlay.picture, "picture", "", "the source's picture, `file` in JPEG, PNG, WebP, TIFF or BMP: points must lie in it")
			f.StringVar(&l.overlay.out, "out", "", "`file` to write, .png: the picture with the lines and the ellipse drawn on it")
			f.BoolVar(&l.overlay.over, "over", false, overHelp)
			f.BoolVar(&l.asJSON, "json", false, "print the answer as JSON; ruffwright schema describes the keys")
			f.Var(&l.units, "units", "`unit` of the lengths: mm, cm or in")
		},
		prints: lookSaid{},
		run:    l.run,
	}
}

func (l *looking) run(j job, args []string) error {
	name := args[0]
	if name == "-" {
		name = "standard input"
	}
	sheet, err := sheetIn(j, args[0])
	if err != nil {
		return within(name, err)
	}
	seen, err := l.overlay.open(sheet.Source)
	if err != nil {
		return err
	}
	got, err := portrait.Measure(sheet)
	if err != nil {
		return within(name, err)
	}
	a := newLookSaid(&got, l.units.Units)
	if len(args) > 1 || len(l.from.set) > 0 {
		s, err := l.from.scheme(j, args[1:])
		if err != nil {
			return err
		}
		var typed []string
		for _, c := range a.Changes {
			typed = append(typed, c.Key+"="+c.Value)
		}
		if err := errors.Join(changed(j, &s, "--set", typed), s.Validate()); err != nil {
			return err
		}
	}
	if err := l.overlay.write(seen, sheet.Source, got.Outline); err != nil {
		return err
	}
	return say(j, l.asJSON, a, a.text(&got, l.units.Units), true)
}

// mostSheet is how many bytes a file of points may have.
const mostSheet = 1 << 20

// sheetIn reads a file of points.
func sheetIn(j job, name string) (s portrait.Sheet, err error) {
	in := j.input()
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return s, err
		}
		defer f.Close()
		in = f
	}
	text, err := io.ReadAll(io.LimitReader(in, mostSheet+1))
	if err != nil {
		return s, err
	}
	if len(text) > mostSheet {
		return s, fmt.Errorf("more than %d bytes; allowed: at most so many", mostSheet)
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	var all any
	if err := json.Unmarshal(text, &all); err != nil {
		return s, err
	}
	if err := errors.Join(placed(all)...); err != nil {
		return s, err
	}
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.DisallowUnknownFields()
	err = dec.Decode(&s)
	var other *json.UnmarshalTypeError
	if errors.As(err, &other) {
		want := map[string]string{"float64": "a number", "string": "a text"}[other.Type.String()]
		if want == "" {
			want = map[bool]string{true: "a list", false: "an object"}[other.Type.Kind().String() == "slice"]
		}
		return s, fmt.Errorf("%s: a value of the kind %s; allowed: %s", cmp.Or(other.Field, "the file"), other.Value, want)
	}
	return s, err
}

// placed says which points are missing, or are not two numbers: a list of another length,
// or a line without an end, would be read as 0 without a word.
func placed(all any) (wrong []error) {
	at := func(v any, key string) any { m, _ := v.(map[string]any); return m[key] }
	point := func(path string, v any) {
		list, _ := v.([]any)
		numbers := 0
		for _, x := range list {
			if _, ok := x.(float64); ok {
				numbers++
			}
		}
		if len(list) != 2 || numbers != 2 {
			wrong = append(wrong, fmt.Errorf("%s: %s is no point; allowed: [x, y], two numbers in px", path, asTyped(v)))
		}
	}
	line := func(path string, v any) {
		point(path+".from", at(v, "from"))
		point(path+".to", at(v, "to"))
	}
	each := func(path string, v any, do func(string, any)) {
		list, _ := v.([]any)
		for i, x := range list {
			do(fmt.Sprintf("%s[%d]", path, i), x)
		}
	}
	src, picture := at(all, "source"), at(at(all, "wearer"), "picture")
	each("source.references", at(src, "references"), line)
	each("source.edge", at(src, "edge"), point)
	each("source.depths", at(src, "depths"), line)
	each("source.heights", at(src, "heights"), line)
	each("source.sets", at(src, "sets"), func(path string, v any) {
		if share, ok := at(v, "share").(float64); !ok || share == 0 {
			line(path, v)
		}
	})
	if picture != nil {
		line("wearer.picture.ruler", at(picture, "ruler"))
		each("wearer.picture.references", at(picture, "references"), line)
	}
	return wrong
}

// asTyped is a value of a JSON document, shortened.
func asTyped(v any) string {
	if v == nil {
		return "nothing"
	}
	text, err := json.Marshal(v)
	if err != nil || len(text) > 40 {
		return "that"
	}
	return string(text)
}

// lookSaid is what look says.
type lookSaid struct {
	Told     []lookTold     `json:"told" means:"what the picture tells"`
	Scales   []lookScale    `json:"scales" means:"the references that count"`
	Apart    float64        `json:"apart" means:"how far the references disagree, standard deviations; 0 with one"`
	Disagree bool           `json:"disagree" means:"the references disagree more than 1 time in 20 by chance; the intervals are widened"`
	EdgeOff  float64        `json:"edge_off_px" unit:"px" means:"how far the edge's points lie from its ellipse, standard deviation; 0 of fewer than eight"`
	Parts    []lookPart     `json:"parts" means:"what the interval of the depth comes from; without a depth the height's, or the ruff's across"`
	Notes    []string       `json:"notes" means:"what else is to be known"`
	Changes  []check.Change `json:"changes" means:"what to set in a scheme"`
	Low      []check.Change `json:"changes_low" means:"the same with the low ends"`
	High     []check.Change `json:"changes_high" means:"the same with the high ends"`
}

// lookTold is one number.
type lookTold struct {
	What  string  `json:"what" means:"depth_mm, height_mm, sets, across_mm, tilt_deg (of the ruff's plane to the line of sight) or turn_deg (of the ellipse's long axis to the picture's level)"`
	Value float64 `json:"value" means:"the middle of what it may be"`
	Low   float64 `json:"low" means:"its interval at 95 %, low end"`
	High  float64 `json:"high" means:"its interval at 95 %, high end"`
}

// lookScale is one reference.
type lookScale struct {
	Kind   string  `json:"kind" means:"face_height, face_breadth, pupils or nose"`
	From   string  `json:"from" means:"where the wearer's measure is from: measured, picture or people"`
	Face   float64 `json:"face_mm" unit:"mm" means:"the wearer's measure"`
	Low    float64 `json:"face_low_mm" unit:"mm" means:"its interval at 95 %, low end"`
	High   float64 `json:"face_high_mm" unit:"mm" means:"its interval at 95 %, high end"`
	PerPx  float64 `json:"mm_per_px" unit:"mm/px" means:"what a pixel is at the face by it"`
	Weight float64 `json:"weight" means:"its part in the scale, 0 to 1"`
}

// lookPart is one part of an interval.
type lookPart struct {
	Part string  `json:"part" means:"placing, face, turn, painter, distance, count or disagree"`
	Of   float64 `json:"of" means:"its part of the variance, 0 to 1"`
}

// newLookSaid takes what was measured.
func newLookSaid(got *portrait.Answer, u scheme.Units) lookSaid {
	a := lookSaid{Told: []lookTold{}, Scales: []lookScale{}, Apart: got.Apart, Disagree: got.Disagree, EdgeOff: got.Edge_px,
		Parts: []lookPart{}, Notes: []string{}, Changes: []check.Change{}, Low: []check.Change{}, High: []check.Change{}}
	for _, q := range []struct {
		what string
		b    portrait.Bounds
		key  string
	}{
		{"depth_mm", got.Depth_mm, "ruff.depth"}, {"height_mm", got.Height_mm, "ruff.height"}, {"sets", got.Sets, "ruff.sets"},
		{"across_mm", got.Across_mm, ""}, {"tilt_deg", got.Tilt_deg, ""}, {"turn_deg", got.Turn_deg, ""},
	} {
		if !q.b.Given() && q.what != "turn_deg" {
			continue
		}
		a.Told = append(a.Told, lookTold{q.what, q.b.Value, q.b.Low, q.b.High})
		switch q.key {
		case "":
		case "ruff.sets":
			a.change(q.key, q.b, u)
		default:
			a.change(q.key, q.b.Told_mm(), u)
		}
	}
	own := true
	for _, s := range got.Scales {
		a.Scales = append(a.Scales, lookScale{string(s.Kind), s.From, s.Face.Value, s.Face.Low, s.Face.High, s.PerPx.Value, s.Weight})
		own = own && s.From != "people"
	}
	for _, p := range portrait.Parts {
		if of := got.Parts[p]; of > 0 {
			a.Parts = append(a.Parts, lookPart{string(p), of})
		}
	}
	if got.Disagree {
		a.Notes = append(a.Notes, fmt.Sprintf("The references disagree: by %.1f standard deviations, which chance does 1 time in 20 at most. The intervals are widened by that. Look at their points again, at the head's turn, and whether a chin is hidden in the ruff.", got.Apart))
	}
	for _, k := range got.Left {
		a.Notes = append(a.Notes, fmt.Sprintf("The reference %s does not count: the wearer's own is not known, and others are.", k))
	}
	if !own {
		a.Notes = append(a.Notes, "The wearer's own face was not measured: those of a people are taken (ANSUR II). Give wearer.face_mm; it narrows the intervals.")
	}
	return a
}

// change adds what to set in a scheme, where a scheme takes it.
func (a *lookSaid) change(key string, b portrait.Bounds, u scheme.Units) {
	f, _ := scheme.Lookup(key)
	tidy := func(x float64) float64 {
		if f.Kind == scheme.KindCount {
			return math.Round(x)
		}
		return math.Round(10*x) / 10
	}
	if !f.InRange(tidy(b.Value)) {
		a.Notes = append(a.Notes, fmt.Sprintf("%s %.4g is left out; allowed: %s.", key, b.Value, f.Allowed(u)))
		return
	}
	value := func(x float64) string {
		return strconv.FormatFloat(tidy(min(max(x, f.Min), f.Max)), 'f', -1, 64)
	}
	a.Changes = append(a.Changes, check.Change{Key: key, Value: value(b.Value)})
	a.Low = append(a.Low, check.Change{Key: key, Value: value(b.Low)})
	a.High = append(a.High, check.Change{Key: key, Value: value(b.High)})
}

func (a lookSaid) text(got *portrait.Answer, u scheme.Units) string {
	var b strings.Builder
	length := func(mm float64) string { return roundedLength(math.Round(2*mm)/2, u) }
	whole := func(n float64) string { return fmt.Sprintf("%.0f", n) }
	angle := func(x float64) string { return scheme.Minus(fmt.Sprintf("%.1f°", x)) }
	for _, q := range []struct {
		name  string
		b     portrait.Bounds
		say   func(float64) string
		about string
	}{
		{"depth", got.Depth_mm.Told_mm(), length, ""}, {"height", got.Height_mm.Told_mm(), length, ""}, {"sets", got.Sets, whole, ""}, {"across", got.Across_mm.Told_mm(), length, ""},
		{"tilt", got.Tilt_deg, angle, ": 0° is seen end on, 90° from above"}, {"turn", got.Turn_deg, angle, ": plus, where the right side is lower"},
	} {
		if q.b.Given() {
			fmt.Fprintf(&b, "%-8s %s, 95 times in 100 between %s and %s%s\n", q.name, q.say(q.b.Value), q.say(q.b.Low), q.say(q.b.High), q.about)
		}
	}
	for _, s := range got.Scales {
		from := map[string]string{"measured": "as measured", "picture": "by the wearer's picture", "people": "by ANSUR II"}[s.From]
		if s.Kind == portrait.Nose && s.From == "people" {
			from = "by a small study"
		}
		fmt.Fprintf(&b, "scale by %s, %s %s (%s to %s): %.4f mm a pixel, weight %.0f %%\n", s.Label, length(s.Face.Value), from, length(s.Face.Low), length(s.Face.High), s.PerPx.Value, 100*s.Weight)
	}
	var parts []string
	for _, p := range a.Parts {
		if p.Of >= 0.005 {
			parts = append(parts, fmt.Sprintf("%s %.0f %%", p.Part, 100*p.Of))
		}
	}
	b.WriteString(wrapped("The interval comes from: "+strings.Join(parts, ", ")+".", 80, ""))
	for _, n := range a.Notes {
		b.WriteString(wrapped(n, 80, ""))
	}
	if len(a.Changes) > 0 {
		fmt.Fprintf(&b, "  %s\nat the low ends:\n  %s\nat the high ends:\n  %s\n", sets(a.Changes), sets(a.Low), sets(a.High))
	}
	return b.String()
}
