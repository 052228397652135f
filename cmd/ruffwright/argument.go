package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"

	"ruffwright/assets"
	"ruffwright/geom/scheme"
)

// schemeHelp says what a scheme argument may be; every verb that takes one
// shows it.
const schemeHelp = `SCHEME is one of
  default             the scheme that the page starts with; it need not be typed
  a demo's name       ` + "`ruffwright help check` lists them" + `
  a file              a scheme saved by the page (JSON), or a text that holds a code;
                      - reads the same from standard input
  a share code        what stands after # in a shared link, or the whole link
and --set key=value changes a field of it, as often as needed:
  --set ruff.sets=42 --set "wearer.girth=38,5 cm" --set 'ruff.depth=2 3/4"'
Lengths are in mm unless they say cm, in or ". ` + "`ruffwright schema`" + ` lists the keys.
`

// source is how the command line names a scheme and changes it.
type source struct {
	set repeated
}

func (s *source) flags(f *flag.FlagSet) {
	f.Var(&s.set, "set", "change a field: `key=value`, again for each field")
}

// repeated is a flag that may be given several times.
type repeated []string

func (r *repeated) String() string     { return strings.Join(*r, " ") }
func (r *repeated) Set(v string) error { *r = append(*r, v); return nil }

// scheme reads the scheme that the argument names (none: the default), makes the
// changes and validates the whole.
func (s *source) scheme(j job, arguments []string) (scheme.Scheme, error) {
	name := "default"
	if len(arguments) > 0 {
		name = arguments[0]
	}
	made, err := named(j, name)
	if err != nil {
		return scheme.Scheme{}, err
	}
	before := made
	if err := changed(j, &made, "--set", s.set); err != nil {
		return scheme.Scheme{}, err
	}
	// What --set has put aside was told already.
	for _, o := range made.Unheard() {
		if slices.Contains(before.Unheard(), o) {
			fmt.Fprintf(j.err, "ruffwright: %s %s does not count: %s decides, %s\n", o.Key, o.Was, o.By, o.Now)
		}
	}
	return made, made.Validate()
}

// run makes what a verb does with the scheme that its argument names.
func (s *source) run(do func(job, scheme.Scheme) error) func(job, []string) error {
	return func(j job, args []string) error {
		made, err := s.scheme(j, args)
		if err != nil {
			return err
		}
		return do(j, made)
	}
}

// pair reads the share code of two schemes, or the link that holds it, and makes
// the changes in both.
func (s *source) pair(j job, argument string) (a, b scheme.Scheme, err error) {
	a, other, err := scheme.FromPair(codeIn(argument))
	if err != nil {
		return a, b, err
	}
	for _, of := range []*scheme.Scheme{&a, other} {
		if err := errors.Join(changed(j, of, "--set", s.set), of.Validate()); err != nil {
			return a, b, err
		}
	}
	return a, *other, nil
}

// changed makes the changes, key=value each, that were given with the flag. All
// that is wrong is said at once. Of two ways to decide one value the later holds,
// and that is said.
func changed(j job, s *scheme.Scheme, flag string, changes []string) error {
	var wrong []error
	for _, change := range changes {
		key, value, ok := strings.Cut(change, "=")
		if !ok {
			wrong = append(wrong, fmt.Errorf("%s %q: expected key=value, for instance ruff.sets=42", flag, change))
			continue
		}
		told, err := s.Decide(strings.TrimSpace(key), value)
		if err != nil {
			wrong = append(wrong, fmt.Errorf("%s %w", flag, err))
		}
		for _, o := range told {
			fmt.Fprintf(j.err, "ruffwright: %s %s counts no longer: %s decides, %s\n", o.Key, o.Was, o.By, o.Now)
		}
	}
	return errors.Join(wrong...)
}

// named reads the scheme that an argument names, without any changes.
func named(j job, argument string) (scheme.Scheme, error) {
	if argument == "default" {
		return scheme.First(), nil
	}
	if argument == "-" {
		return document("standard input", j.input())
	}
	if text, ok := assets.Demo(argument); ok {
		made, err := scheme.Parse(text)
		return made, within("demo "+argument, err)
	}
	file, err := os.Open(argument)
	if err == nil {
		defer file.Close()
		about, err := file.Stat()
		if err != nil {
			return scheme.Scheme{}, err
		}
		if about.IsDir() {
			return scheme.Scheme{}, fmt.Errorf("%s is a folder, not a scheme", argument)
		}
		if about.Size() > scheme.MaxDocument {
			return scheme.Scheme{}, tooLarge(argument, fmt.Sprintf("%d bytes", about.Size()))
		}
		return document(argument, file)
	}
	if !errors.Is(err, fs.ErrNotExist) && len(argument) < 256 {
		return scheme.Scheme{}, err
	}
	code := codeIn(argument)
	if code == argument && (strings.ContainsAny(argument, `/\`) || strings.HasSuffix(argument, ".json")) {
		return scheme.Scheme{}, fmt.Errorf("%s: there is no such file", argument)
	}
	made, err := scheme.FromCode(code)
	if err != nil {
		return scheme.Scheme{}, fmt.Errorf("%s is no file, no demo (%s) and no share code: %w",
			shortened(argument), strings.Join(assets.Demos(), ", "), err)
	}
	return made, nil
}

// document reads a JSON scheme, a share code or a link; nothing is kept of one that
// is too large.
func document(name string, from io.Reader) (scheme.Scheme, error) {
	text, err := io.ReadAll(io.LimitReader(from, scheme.MaxDocument+1))
	if err != nil {
		return scheme.Scheme{}, within(name, err)
	}
	if len(text) > scheme.MaxDocument {
		return scheme.Scheme{}, tooLarge(name, "more")
	}
	if word := strings.TrimSpace(strings.TrimPrefix(string(text), "\ufeff")); isCode(word) {
		made, err := scheme.FromCode(codeIn(word))
		return made, within(name, err)
	}
	made, err := scheme.Parse(text)
	return made, within(name, err)
}

// isCode reports whether a text is one word that begins as a share code does, with
// digits and a dot, or a link with such a word behind its #.
func isCode(text string) bool {
	version, rest, dot := strings.Cut(codeIn(text), ".")
	return dot && version != "" && strings.Trim(version, "0123456789") == "" && rest != "" && !strings.ContainsAny(text, " \t\r\n{}\"")
}

// codeIn is what stands after the # of a link; text itself where there is none.
func codeIn(text string) string {
	if _, fragment, ok := strings.Cut(text, "#"); ok {
		return fragment
	}
	return text
}

func tooLarge(name, size string) error {
	return fmt.Errorf("%s: a scheme has at most %d bytes, this has %s", name, scheme.MaxDocument, size)
}

// within says which document an error speaks of, on each of its lines.
func within(name string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s: %w", name, err)
}

// shortened is an argument fit for a message: a pasted code can be long.
func shortened(argument string) string {
	if r := []rune(argument); len(r) > 40 {
		return fmt.Sprintf("%q...", string(r[:40]))
	}
	return fmt.Sprintf("%q", argument)
}

// unitsFlag is a unit of length to show lengths in.
type unitsFlag struct{ scheme.Units }

func (u *unitsFlag) Set(text string) error {
	units, err := scheme.ParseUnits(text)
	if err != nil {
		return errors.New("allowed: mm, cm, in")
	}
	u.Units = units
	return nil
}
