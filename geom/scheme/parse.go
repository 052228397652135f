package scheme

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"ruffwright/geom/word"
)

// MaxDocument is the size in bytes up to which Parse reads a document.
const MaxDocument = 1 << 20

const (
	maxErrors = 20   // of one document that are told
	maxKeys   = 1000 // of one object; a scheme's have at most 13
)

// Parse reads a document as JSON gives it and validates it. Fields that are not
// there have their defaults. Refused, each by its path: a version that is
// missing or newer, keys that are not known, differ in case or come twice,
// values of the wrong kind, bad UTF-8, anything after the document, more than
// MaxDocument bytes, and whatever Validate refuses. The error is Errors.
func Parse(document []byte) (Scheme, error) {
	if len(document) > MaxDocument {
		return Scheme{}, Errors{{Value: word.Say("%d bytes", len(document)), Why: word.Say("are too many for a scheme"), Allowed: word.Say("at most %d", MaxDocument)}}
	}
	if !utf8.Valid(document) {
		return Scheme{}, Errors{{Why: word.Say("the document is not readable text (UTF-8)")}}
	}
	r := reader{dec: json.NewDecoder(bytes.NewReader(bytes.TrimPrefix(document, []byte("\ufeff")))), s: Default()}
	r.dec.UseNumber()
	if err := r.document(); err != nil {
		return Scheme{}, Errors{{Value: word.Say("line %d", r.line(document)), Why: word.Say("the document cannot be read: %s", word.Of(err))}}
	}
	if r.version > Version {
		return Scheme{}, Errors{tooNew(strconv.Itoa(r.version))} // what else looks wrong may be new
	}
	if r.version == 0 && !slices.ContainsFunc(r.errs, func(e Error) bool { return e.Field == "version" }) {
		r.errs = append(Errors{{Field: "version", Why: word.Say("is missing"), Allowed: word.Name(strconv.Itoa(Version))}}, r.errs...)
	}
	if len(r.errs) > 0 {
		return Scheme{}, r.errs
	}
	if err := r.s.Validate(); err != nil {
		return Scheme{}, err
	}
	return r.s, nil
}

func tooNew(version string) Error {
	return Error{Field: "version", Value: word.Name(version), Why: word.Say("was written by a newer ruffwright; this one cannot read it"), Allowed: word.Name(strconv.Itoa(Version))}
}

type reader struct {
	dec     *json.Decoder
	s       Scheme
	version int // 0 = not met yet
	errs    Errors
}

func (r *reader) refuse(path string, value, why, allowed word.Text) {
	if len(r.errs) < maxErrors {
		r.errs = append(r.errs, Error{Field: shorten(path, 80), Value: value, Why: why, Allowed: allowed})
	}
}

// line is where the reader stands.
func (r *reader) line(document []byte) int {
	at := min(int(r.dec.InputOffset()), len(document))
	return 1 + bytes.Count(document[:at], []byte("\n"))
}

// document reads the outermost object; its error is one of syntax.
func (r *reader) document() error {
	t, err := r.token()
	if err != nil {
		return err
	}
	if t != json.Delim('{') {
		return errors.New("it must be an object, { … }")
	}
	err = r.object("", func(key string) error {
		if key == "version" {
			return r.readVersion()
		}
		if f, ok := Lookup(key); ok && f.Group == f.Key {
			return r.value(f)
		}
		if !slices.Contains(objectKeys, key) {
			return r.unknown(key)
		}
		t, err := r.token()
		if err != nil {
			return err
		}
		if t != json.Delim('{') {
			r.refuse(key, kindOf(t), word.Say("is not an object"), word.Name("{ … }"))
			return r.skip(t)
		}
		return r.object(key+".", func(inner string) error {
			f, ok := Lookup(key + "." + inner)
			if !ok {
				return r.unknown(key + "." + inner)
			}
			return r.value(f)
		})
	})
	if err != nil {
		return err
	}
	if _, err := r.dec.Token(); err != io.EOF {
		return errors.New("something stands after its end")
	}
	return nil
}

// object reads keys and their values to the closing brace, refusing a key that
// comes twice.
func (r *reader) object(prefix string, value func(key string) error) error {
	seen := map[string]bool{}
	for n := 0; r.dec.More(); n++ {
		t, err := r.token()
		if err != nil {
			return err
		}
		if n == maxKeys {
			return errors.New("an object has more than " + strconv.Itoa(maxKeys) + " keys")
		}
		key, ok := t.(string)
		if !ok {
			return errors.New("a key must be text")
		}
		if seen[key] {
			r.refuse(prefix+key, word.Text{}, word.Say("comes twice"), word.Say("once"))
			if err := r.skipValue(); err != nil {
				return err
			}
			continue
		}
		seen[key] = true
		if err := value(key); err != nil {
			return err
		}
	}
	_, err := r.token()
	return err
}

func (r *reader) unknown(path string) error {
	e := unknownKey(path)
	for _, known := range append([]string{"version"}, objectKeys...) {
		if strings.EqualFold(known, path) {
			e.Why = word.Say("is not a key of a scheme; %s is", known)
		}
	}
	r.refuse(path, e.Value, e.Why, word.Text{})
	return r.skipValue()
}

func (r *reader) readVersion() error {
	t, err := r.token()
	if err != nil {
		return err
	}
	n, _ := t.(json.Number)
	v, err := strconv.Atoi(string(n))
	if err != nil || v < 1 {
		r.refuse("version", kindOf(t), word.Say("is not a version"), word.Name(strconv.Itoa(Version)))
		return r.skip(t)
	}
	r.version = v
	return nil
}

func (r *reader) value(f Field) error {
	t, err := r.token()
	if err != nil {
		return err
	}
	wrong := func(why string) error {
		r.refuse(f.Key, kindOf(t), word.Say(why), f.Allowed(Millimetres))
		return r.skip(t)
	}
	switch p := f.at(&r.s).(type) {
	case *float64, *int:
		v, ok := number(t)
		switch _, whole := p.(*int); {
		case whole && (!ok || v != math.Trunc(v) || math.Abs(v) > 1e9):
			return wrong("is not a whole number")
		case !ok:
			return wrong("is not a number")
		}
		f.put(&r.s, v)
	case *string:
		text, ok := t.(string)
		if !ok {
			return wrong("is not text")
		}
		if *p = text; badText(text, int(f.Max)).Empty() { // what is bad is told, not hidden
			*p = seen(text)
		}
	case *[]Mark:
		if t != json.Delim('[') {
			return wrong("is not a list")
		}
		return r.marks(f, p)
	}
	return nil
}

// number reads a finite number; one too large for a float is none.
func number(t json.Token) (float64, bool) {
	n, ok := t.(json.Number)
	v, err := strconv.ParseFloat(string(n), 64)
	if !ok || err != nil || v == 0 { // no negative zero
		return 0, ok && err == nil
	}
	return v, true
}

func (r *reader) marks(f Field, out *[]Mark) error {
	for i := 0; r.dec.More(); i++ {
		t, err := r.token()
		if err != nil {
			return err
		}
		path := f.Key + "[" + strconv.Itoa(i) + "]"
		if i == maxMarks {
			r.refuse(f.Key, word.Text{}, word.Say("has more than %d marks", maxMarks), f.Allowed(Millimetres))
		}
		if i >= maxMarks || t != json.Delim('{') {
			if i < maxMarks {
				r.refuse(path, kindOf(t), word.Say("is not a mark"), word.Name(`{"place": 30.5, "fold": "crest", "sewn": "top"}`))
			}
			if err := r.skip(t); err != nil {
				return err
			}
			continue
		}
		var m Mark
		given := map[string]bool{}
		err = r.object(path+".", func(key string) error {
			text := map[string]*string{"fold": (*string)(&m.Fold), "sewn": (*string)(&m.Sewn)}[key]
			if key != "place" && text == nil {
				return r.unknown(path + "." + key)
			}
			given[key] = true
			t, err := r.token()
			if err != nil {
				return err
			}
			if text == nil {
				v, ok := number(t)
				if !ok {
					r.refuse(path+"."+key, kindOf(t), word.Say("is not a number"), markPlaces)
					return r.skip(t)
				}
				m.Place = v
				return nil
			}
			value, ok := t.(string)
			if !ok {
				r.refuse(path+"."+key, kindOf(t), word.Say("is not text"), word.Text{})
				return r.skip(t)
			}
			*text = value
			return nil
		})
		if err != nil {
			return err
		}
		for _, key := range []string{"place", "fold", "sewn"} {
			if !given[key] {
				r.refuse(path+"."+key, word.Text{}, word.Say("is missing"), word.Text{})
			}
		}
		*out = append(*out, m)
	}
	_, err := r.token()
	return err
}

// token reads one token; a document that ends too early is an error of its own.
func (r *reader) token() (json.Token, error) {
	t, err := r.dec.Token()
	if err == io.EOF || errors.Is(err, io.ErrUnexpectedEOF) {
		return nil, errors.New("it ends too early")
	}
	return t, err
}

func (r *reader) skipValue() error {
	t, err := r.token()
	if err != nil {
		return err
	}
	return r.skip(t)
}

// skip passes over the rest of the value that begins with t.
func (r *reader) skip(t json.Token) error {
	depth := 0
	for {
		switch t {
		case json.Delim('{'), json.Delim('['):
			depth++
		case json.Delim('}'), json.Delim(']'):
			depth--
		}
		if depth <= 0 {
			return nil
		}
		var err error
		if t, err = r.token(); err != nil {
			return err
		}
	}
}

// kindOf names a value in an error.
func kindOf(t json.Token) word.Text {
	switch v := t.(type) {
	case json.Number:
		return word.Name(shorten(string(v), 40))
	case string:
		return quoted(v)
	case bool:
		return word.Name(strconv.FormatBool(v))
	case nil:
		return word.Name("null")
	case json.Delim:
		if v == '[' {
			return word.Say("a list")
		}
		return word.Say("an object")
	}
	return word.Text{}
}

// objectKeys are the keys of the document whose values are objects.
var objectKeys = func() (keys []string) {
	for _, g := range groups {
		if place(g.Key) < 0 {
			keys = append(keys, g.Key)
		}
	}
	return keys
}()
