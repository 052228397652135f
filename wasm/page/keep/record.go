package keep

import (
	"bytes"
	"encoding/json"
	"fmt"
	"hash/crc32"
	"strings"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/page/work"
)

// Record is a ruff as it stands in the device's storage.
type Record struct {
	work.Held
	N int // rises with every writing on this device
}

// recordForm is the version of the form below. A page that meets a higher one
// leaves it alone.
const recordForm = 1

// Limits of what is read back.
const (
	mostRecord = 2 * scheme.MaxDocument // bytes
	mostName   = 64                     // bytes of line and by
	mostN      = 1 << 50
)

// recordText is a record as written: the document is a text within, so that its
// check sum is of the very bytes.
type recordText struct {
	Form   int    `json:"ruffwright"`
	By     string `json:"by"`
	Line   string `json:"line"`
	N      int    `json:"n"`
	Own    bool   `json:"own"`
	Units  string `json:"units"`
	Lesson string `json:"lesson,omitempty"`
	Sum    string `json:"sum"` // CRC-32 (IEEE) of Scheme and Beside
	Scheme string `json:"scheme"`
	Beside string `json:"beside,omitempty"`
}

func sumOf(text string) string { return fmt.Sprintf("%08x", crc32.ChecksumIEEE([]byte(text))) }

// text writes the record.
func (w Record) text() string {
	document, beside := string(w.Scheme.JSON()), ""
	if w.Beside != nil {
		beside = string(w.Beside.JSON())
	}
	text, err := json.Marshal(recordText{recordForm, w.By, w.Line, w.N, w.Own, w.Units.Symbol(), w.Lesson, sumOf(document + beside), document, beside})
	if err != nil {
		return "" // numbers and strings alone: it cannot
	}
	return string(text)
}

// readRecord reads a record. Whatever is not exactly as text writes it is refused,
// with words.
func readRecord(text string) (Record, error) {
	if len(text) > mostRecord {
		return Record{}, fmt.Errorf("it is %d bytes long; allowed: at most %d", len(text), mostRecord)
	}
	var form struct {
		Form int `json:"ruffwright"`
	}
	if err := json.Unmarshal([]byte(text), &form); err != nil {
		return Record{}, fmt.Errorf("it is not what the page writes (%d bytes)", len(text))
	}
	if form.Form > recordForm {
		return Record{}, fmt.Errorf("it was written by a newer ruffwright (form %d; this one reads %d)", form.Form, recordForm)
	}
	var t recordText
	d := json.NewDecoder(bytes.NewReader([]byte(text)))
	d.DisallowUnknownFields()
	if err := d.Decode(&t); err != nil || d.More() || t.Form != recordForm {
		return Record{}, fmt.Errorf("it is not what the page writes (%d bytes)", len(text))
	}
	if !plainName(t.By) || !plainName(t.Line) || t.N < 0 || t.N > mostN {
		return Record{}, fmt.Errorf("its first lines make no sense")
	}
	if sumOf(t.Scheme+t.Beside) != t.Sum {
		return Record{}, fmt.Errorf("it was altered after it was written")
	}
	units, err := scheme.ParseUnits(t.Units)
	if err != nil {
		return Record{}, err
	}
	s, err := scheme.Parse([]byte(t.Scheme))
	if err != nil {
		return Record{}, err
	}
	w := Record{work.Held{Scheme: s, Units: units, Whose: work.Whose{Line: t.Line, Own: t.Own}, By: t.By, Lesson: t.Lesson}, t.N}
	if t.Beside != "" {
		b, err := scheme.Parse([]byte(t.Beside))
		if err != nil {
			return Record{}, err
		}
		w.Beside = &b
	}
	return w, nil
}

// plainName reports that a name may stand in a key of the storage.
func plainName(name string) bool {
	return len(name) > 0 && len(name) <= mostName &&
		strings.Trim(name, "abcdefghijklmnopqrstuvwxyz0123456789-") == ""
}
