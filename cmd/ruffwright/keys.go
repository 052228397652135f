package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"reflect"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim/measure"
)

// versionKey is the first key of everything that --json prints.
var versionKey = key{"version", "number", "", "of the scheme's document, and of these keys"}

// printJSON writes v, a struct, as indented JSON with a newline at its end, the
// version before its own keys.
func printJSON(out io.Writer, v any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return err
	}
	_, err := fmt.Fprintf(out, "{\n  \"version\": %d,%s", scheme.Version, bytes.TrimPrefix(b.Bytes(), []byte("{")))
	return err
}

// key is one key that --json prints: where it stands, what it holds.
type key struct {
	Key   string `json:"key"`
	Type  string `json:"type"`
	Unit  string `json:"unit,omitempty"`
	Means string `json:"means"`
}

// keysOf describes every key that a value of the type prints, in their order, each
// below under: by the tags of its field (json the key, unit, means; %s in that is
// what the struct is of), or as elsewhere says; measures by their own table.
func keysOf(t reflect.Type, under, of string) []key {
	var keys []key
	if t == reflect.TypeFor[measure.Values]() {
		for _, q := range measure.Table {
			keys = append(keys, key{under + q.Key, q.Kind(), q.Unit, q.Means})
		}
		return keys
	}
	for f := range t.Fields() {
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" {
			continue
		}
		k := key{under + name, kindOf(f.Type), f.Tag.Get("unit"), strings.ReplaceAll(f.Tag.Get("means"), "%s", of)}
		if said, ok := elsewhere[t.Name()+"."+name]; ok {
			k.Unit, k.Means = said[0], said[1]
		}
		if k.Means != "" { // a plain object is described by its keys alone
			keys = append(keys, k)
		}
		inside := f.Type
		if inside.Kind() == reflect.Slice {
			inside = inside.Elem()
		}
		if inside.Kind() == reflect.Struct {
			keys = append(keys, keysOf(inside, k.Key+".", f.Tag.Get("of"))...)
		}
	}
	return keys
}

// kindOf is what stands under a key whose field has this type.
func kindOf(t reflect.Type) string {
	if t == reflect.TypeFor[json.RawMessage]() {
		return "object"
	}
	switch t.Kind() {
	case reflect.Bool:
		return "true or false"
	case reflect.Slice:
		return "list"
	case reflect.String, reflect.Struct: // a word.Text
		return "text"
	}
	return "number"
}

// elsewhere describes the keys of what other rooms make: unit and meaning.
var elsewhere = map[string][2]string{
	"Finding.id":                    {"", "the finding's own name; see findings of this schema"},
	"Finding.severity":              {"", "stop, mend, note or caution"},
	"Finding.where":                 {"", "the place that it points at"},
	"Finding.at":                    {"", "numbers of the marks that it speaks of, counted from 1 along the strip; left out where it speaks of all"},
	"Finding.value":                 {"findings.unit", "as this scheme has it"},
	"Finding.limit":                 {"findings.unit", "where it begins to matter"},
	"Finding.unit":                  {"", "of value and limit"},
	"Finding.sentence":              {"", "what will be seen at the work table"},
	"Finding.pending":               {"", "only the mechanics of the cloth can know, and they are not solved (--drawn): value means nothing yet"},
	"Finding.awaits":                {"", "where pending: ids of the findings that are not known yet; else left out"},
	"Finding.remedies":              {"", "changes to the scheme that may remove it; a caution has none"},
	"Remedy.sentence":               {"", "the change in words"},
	"Remedy.changes":                {"", "the change as fields of the scheme"},
	"Change.key":                    {"", "the field's key"},
	"Change.value":                  {"", "what to set it to, lengths in mm: --set key=value"},
	"Remedy.tried":                  {"", "\"removes it\", \"removes it, but brings something new\", \"does not remove it\", or empty if not tried or not known"},
	"Remedy.then":                   {"findings.unit", "where tried: the finding's value with it; left out where 0 or not known"},
	"Remedy.brings":                 {"", "where tried: ids of the findings that newly stop or are to mend with it; left out where none"},
	"Fitted.found":                  {"", "a length fold to fold was found; the exit code is 1 where not"},
	"Fitted.reason":                 {"", "why none was found; else left out"},
	"Fitted.panel_mm":               {"mm", "fold to fold; where none was found the nearest tried"},
	"Fitted.height_outer_mm":        {"mm", "the solved height that it gives"},
	"Fitted.wanted_mm":              {"mm", "the height wanted"},
	"Fitted.rule_of_thumb_panel_mm": {"mm", "by the rule that a set takes twice its height (common practice, no source)"},
	"Fitted.closed_form_panel_mm":   {"mm", "by geometry alone"},
	"Fitted.solves":                 {"", "half sets solved on the way"},
	"Needed.found":                  {"", "a stiffness was found; the exit code is 1 where not"},
	"Needed.reason":                 {"", "why none was found; else left out"},
	"Needed.starch_bend_mm":         {"mm", "least bending length of the starched swatch, at the cloth's mass before starch; 0: no starch is needed"},
	"Needed.overhang_mm":            {"mm", "overhang at 41.5° that shows it"},
	"Needed.doubt":                  {"", "why starch alone may not reach it, or what else is not sure of it; else left out"},
	"Needed.governs":                {"", "the limit that asks for it: droop, bow, lean or alike; empty where none does"},
	"Needed.solves":                 {"", "half sets solved on the way"},
	"Needed.droop_mm":               {"mm", "droop with that starch; where none was found, with the stiffest tried"},
	"Needed.bow_mm":                 {"mm", "likewise the move when the wearer bows"},
	"Needed.lateral_mm_per_g":       {"mm/g", "likewise the give sideways; 0 where it is not asked, and of tucked sets"},
	"Needed.paths_mm":               {"mm", "how far the folds of tucked sets lie elsewhere when the sticks are put in in other ways; 0 where it is not asked"},
	"Totals.strip_mm":               {"mm", "the strip with its end hems, without joins and spare"},
	"Totals.mass_g":                 {"g", "what hangs on the neck: strip and band before starch, without seams, thread and closure"},
	"Totals.outer_breadth_mm":       {"mm", "over all from left to right"},
	"Totals.outer_depth_mm":         {"mm", "over all from front to back"},
}

// say prints an answer, as JSON or the text for people; the exit code is 1 where it is
// no.
func say(j job, asJSON bool, answer any, text string, yes bool) error {
	var err error
	if asJSON {
		err = printJSON(j.out, answer)
	} else {
		_, err = io.WriteString(j.out, text)
	}
	if err == nil && !yes {
		return errStops
	}
	return err
}

// asked is what the flags say of a verb that solves a scheme and answers.
type asked struct {
	from   source
	how    solving
	asJSON bool
	units  unitsFlag
}

// flags defines them: what is printed as JSON, and what the unit is of.
func (a *asked) flags(f *flag.FlagSet, what, lengths string) {
	a.from.flags(f)
	a.how.flags(f)
	f.BoolVar(&a.asJSON, "json", false, "print "+what+" as JSON; ruffwright schema describes the keys")
	f.Var(&a.units, "units", "`unit` of "+lengths+": mm, cm or in")
}

// heading begins an answer with the scheme's name, where it has one.
func heading(b *strings.Builder, name string) {
	if name != "" {
		fmt.Fprintln(b, name)
	}
}
