package main

import (
	"flag"
	"fmt"
	"io"
	"reflect"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/sim/check"
)

func schemaVerb() verb {
	var asJSON bool
	return verb{
		name: "schema",
		does: "lists every field of a scheme, and the keys that --json prints",
		help: `
Lists every field of a scheme with its key, what may stand there, its default and
what it is; then the findings that check knows, and the keys that each verb's
--json prints.`,
		flags: func(f *flag.FlagSet) {
			f.BoolVar(&asJSON, "json", false, "print all of it as JSON")
		},
		run: func(j job, _ []string) error {
			if asJSON {
				return printJSON(j.out, schema{scheme.Groups(), scheme.Fields(), check.Table(), everyPrinted()})
			}
			return printSchema(j.out)
		},
	}
}

// schema is everything that schema says.
type schema struct {
	Groups   []scheme.Group `json:"groups"`
	Fields   []scheme.Field `json:"fields"`
	Findings []check.Rule   `json:"findings"`
	Prints   []printed      `json:"prints"`
}

// printed is what a verb prints with --json.
type printed struct {
	Verb string `json:"verb"`
	Keys []key  `json:"keys"`
}

// everyPrinted lists the verbs that describe what --json prints.
func everyPrinted() []printed {
	var all []printed
	for _, v := range verbs() {
		if v.prints != nil {
			all = append(all, printed{v.name, append([]key{versionKey}, keysOf(reflect.TypeOf(v.prints), "", "")...)})
		}
	}
	return all
}

// printSchema writes the schema for people.
func printSchema(out io.Writer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "The scheme, version %d. A document is JSON: \"version\": %d, then these keys, the\npart before the dot as an object. Only keys that differ from their default are needed.\n", scheme.Version, scheme.Version)
	var first []string
	for _, f := range scheme.Differ(scheme.First(), scheme.Default()) {
		first = append(first, f.Key+" "+strings.TrimSpace(f.Get(scheme.First())+" "+f.Unit))
	}
	fmt.Fprintf(&b, "The scheme that ruffwright begins with, %q, has all defaults but %s.\n", "default", strings.Join(first, ", "))
	for _, g := range scheme.Groups() {
		fmt.Fprintf(&b, "\n%s\n", g.Label)
		for _, f := range scheme.Fields() {
			if f.Group != g.Key {
				continue
			}
			fmt.Fprintf(&b, "\n  %s\n", f.Key)
			value := f.Allowed(scheme.Millimetres).String()
			if f.Default != "" {
				value += "; default " + strings.TrimSpace(f.Default+" "+f.Unit)
			}
			b.WriteString(wrapped(value, 78, "      "))
			b.WriteString(wrapped(strings.TrimSuffix(f.Label, ".")+". "+f.Help, 78, "      "))
		}
	}
	fmt.Fprint(&b, "\nWhat check can find\n\n")
	for _, r := range check.Table() {
		fmt.Fprintf(&b, "  %s\n", r.ID)
		b.WriteString(wrapped(fmt.Sprintf("%s (%s, from %s). Limit: %s.", r.Title, r.Severity, r.From, limit(r)), 78, "      "))
		b.WriteString(wrapped("Source: "+r.Source+".", 78, "      "))
	}
	for _, p := range everyPrinted() {
		fmt.Fprintf(&b, "\nThe keys of %s --json\n\n", p.Verb)
		for _, k := range p.Keys {
			fmt.Fprintf(&b, "  %s  %s\n", k.Key, strings.TrimSpace(k.Type+" "+k.Unit))
			b.WriteString(wrapped(k.Means, 78, "      "))
		}
	}
	_, err := io.WriteString(out, b.String())
	return err
}

// limit writes a rule's limit in words.
func limit(r check.Rule) string {
	if r.Limit == 0 {
		return r.Against
	}
	return strings.TrimSpace(fmt.Sprintf("%v %s", r.Limit, r.Unit)) + " (" + r.Against + ")"
}
