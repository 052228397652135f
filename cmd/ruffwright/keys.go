package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"

	"ruffwright/geom/scheme"
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

// checkKeys describes every key of check --json, in the order that it prints
// them; a test holds it against what is printed.
var checkKeys = []key{
	{"name", "text", "", "of the scheme; may be empty"},
	{"code", "text", "", "the scheme's share code; empty where its own marks are too many for one"},
	{"stops", "true or false", "", "some finding stops; the exit code is then 1"},
	{"solved", truth, "", "the cloth was solved; false with --drawn and where it cannot be"},
	{"unsolved", "text", "", "why the cloth cannot be solved; empty where it can"},
	{"plan.sets", "number", "", "sets of the strip"},
	{"plan.panel_mm", "number", "mm", "fold to fold along the strip"},
	{"plan.pitch_mm", "number", "mm", "room a set takes along the neckline, as sewn"},
	{"plan.strip_mm", "number", "mm", "length of the strip as marked, with its end hems, without joins and spare"},
	{"plan.band_mm", "number", "mm", "length of the band, as made or as planned"},
	{"plan.slack", "number", "", "inner edge between two sewn points ÷ their straight distance; 0 where only one edge is sewn"},
	{"plan.height_outer_mm", "number", "mm", "top fold to bottom fold at the outer edge, closed form, mean of all sets"},
	{"plan.loop_mm", "number", "mm", "clear width of a loop at the outer edge, closed form, mean of all sets"},
	{"plan.pitch_outer_mm", "number", "mm", "room a set takes along the outer edge"},
	{"plan.inner_panel_mm", "number", "mm", "inner edge between two folds, tucks taken out"},
	{"findings", "list", "", "what will be seen, worst first"},
	{"findings.id", "text", "", "the finding's own name; see findings of this schema"},
	{"findings.severity", "text", "", "stop, mend, note or caution"},
	{"findings.where", "text", "", "the place that it points at"},
	{"findings.at", "list", "", "numbers of the marks that it speaks of, counted from 1 along the strip; left out where it speaks of all"},
	{"findings.value", "number", "findings.unit", "as this scheme has it"},
	{"findings.limit", "number", "findings.unit", "where it begins to matter"},
	{"findings.unit", "text", "", "of value and limit"},
	{"findings.sentence", "text", "", "what will be seen at the work table"},
	{"findings.pending", "true or false", "", "only the mechanics of the cloth can know, and they are not solved (--drawn): value means nothing yet"},
	{"findings.awaits", "list", "", "where pending: ids of the findings that are not known yet; else left out"},
	{"findings.remedies", "list", "", "changes to the scheme that may remove it; a caution has none"},
	{"findings.remedies.sentence", "text", "", "the change in words"},
	{"findings.remedies.changes", "list", "", "the change as fields of the scheme"},
	{"findings.remedies.changes.key", "text", "", "the field's key"},
	{"findings.remedies.changes.value", "text", "", "what to set it to, lengths in mm: --set key=value"},
	{"findings.remedies.tried", "text", "", "\"removes it\", \"removes it, but brings something new\", \"does not remove it\", or empty if not tried or not known"},
	{"findings.remedies.then", "number", "findings.unit", "where tried: the finding's value with it; left out where 0 or not known"},
	{"findings.remedies.brings", "list", "", "where tried: ids of the findings that newly stop or are to mend with it; left out where none"},
}
