package main

import (
	"encoding/json"
	"flag"
	"reflect"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// jsonKeys lists the keys that a value of the type prints as JSON, with those
// inside it, in their order.
func jsonKeys(t reflect.Type, before string) []string {
	var keys []string
	for t.Kind() == reflect.Slice || t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct {
		return nil
	}
	for i := range t.NumField() {
		name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		if name == "" || name == "-" {
			continue
		}
		inside := jsonKeys(t.Field(i).Type, before+name+".")
		// A plain object is described by its keys, a list also by itself.
		if len(inside) == 0 || t.Field(i).Type.Kind() == reflect.Slice {
			keys = append(keys, before+name)
		}
		keys = append(keys, inside...)
	}
	return keys
}

// TestKeysDescribed: schema describes every key that a verb's --json prints, no
// other, in the order that they are printed in; and no verb prints any that are
// not described.
func TestKeysDescribed(t *testing.T) {
	for _, v := range verbs() {
		flags := flag.NewFlagSet("", flag.ContinueOnError)
		v.flags(flags)
		// share prints the document, schema itself: the fields describe those.
		if flags.Lookup("json") != nil && v.prints == nil && v.name != "share" && v.name != "schema" {
			t.Errorf("%s has --json, and nothing says what it prints", v.name)
		}
		if v.prints == nil {
			continue
		}
		var described []string
		for _, k := range keysOf(reflect.TypeOf(v.prints), "", "") {
			described = append(described, k.Key)
			if k.Means == "" || k.Type == "" {
				t.Errorf("%s: %s is not described", v.name, k.Key)
			}
			if mm := strings.HasSuffix(k.Key, "_mm") && !strings.HasSuffix(k.Key, "_per_mm"); mm != (k.Unit == "mm") {
				t.Errorf("%s: %s: unit %q", v.name, k.Key, k.Unit)
			}
		}
		if printed := jsonKeys(reflect.TypeOf(v.prints), ""); !slices.Equal(printed, described) {
			t.Errorf("%s: printed\n  %s\ndescribed\n  %s", v.name, strings.Join(printed, "\n  "), strings.Join(described, "\n  "))
		}
	}
}

// TestReportWithoutFindings: lists that are empty are printed as [], so that a
// program need not know null.
func TestReportWithoutFindings(t *testing.T) {
	r := sim.Ruff{Plan: pleat.Plan{Scheme: scheme.Default()}}
	for _, found := range [][]check.Finding{nil, {{ID: "flame", Severity: check.Caution}}} {
		text, err := json.Marshal(reported(r, found))
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text), "null") {
			t.Errorf("null in %s", text)
		}
	}
}

// TestPendingDoesNotStop: what only the mechanics can know, and nobody has
// solved, is no answer.
func TestPendingDoesNotStop(t *testing.T) {
	r := sim.Ruff{Plan: pleat.Plan{Scheme: scheme.Default()}}
	waiting := check.Finding{ID: "bow", Severity: check.Stop, Pending: true}
	if reported(r, []check.Finding{waiting}).Stops {
		t.Error("a finding that is not known yet stops")
	}
	waiting.Pending = false
	if !reported(r, []check.Finding{waiting}).Stops {
		t.Error("a finding that stops does not")
	}
}

// TestRemediesAreFlags: what check offers can be typed into a shell as it
// stands, and read back.
func TestRemediesAreFlags(t *testing.T) {
	for _, c := range []struct {
		changes []check.Change
		want    string
	}{
		{[]check.Change{{Key: "ruff.sets", Value: "44"}}, "--set ruff.sets=44"},
		{[]check.Change{{Key: "pleat.first", Value: "crest"}, {Key: "pleat.last", Value: "crest"}}, "--set pleat.first=crest --set pleat.last=crest"},
		{[]check.Change{{Key: "cloth.name", Value: "cotton lawn"}}, "--set 'cloth.name=cotton lawn'"},
		{[]check.Change{{Key: "name", Value: "the Cooper's"}}, `--set 'name=the Cooper'\''s'`},
		{[]check.Change{{Key: "pleat.marks", Value: "0 trough bottom; 30 crest top"}}, "--set 'pleat.marks=0 trough bottom; 30 crest top'"},
	} {
		if got := sets(c.changes); got != c.want {
			t.Errorf("got %s, want %s", got, c.want)
		}
	}
}
