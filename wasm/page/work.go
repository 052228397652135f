package page

import (
	"bytes"
	"encoding/json"
	"fmt"
	"hash/crc32"
	"strings"

	"ruffwright/geom/scheme"
)

// work is a ruff as it stands in the device's storage.
type work struct {
	scheme scheme.Scheme
	beside *scheme.Scheme // B of a comparison; nil: none
	units  scheme.Units
	whose
	by     string // the open page that wrote it
	n      int    // rises with every writing on this device
	lesson string // that is open; "" none
}

// whose tells one ruff from another, and whose it is.
type whose struct {
	line  string // every change keeps it; another ruff has another one
	own   bool   // the reader decided something of it
	guest bool   // it came by a link and nothing was decided yet: it is not saved
}

// workForm is the version of the form below. A page that meets a higher one
// leaves it alone.
const workForm = 1

// Limits of what is read back.
const (
	mostWork = 2 * scheme.MaxDocument // bytes
	mostName = 64                     // bytes of line and by
	mostN    = 1 << 50
)

// workText is a work as written: the document is a text within, so that its
// check sum is of the very bytes.
type workText struct {
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

// text writes the work.
func (w work) text() string {
	document, beside := string(w.scheme.JSON()), ""
	if w.beside != nil {
		beside = string(w.beside.JSON())
	}
	text, err := json.Marshal(workText{workForm, w.by, w.line, w.n, w.own, w.units.Symbol(), w.lesson, sumOf(document + beside), document, beside})
	if err != nil {
		return "" // numbers and strings alone: it cannot
	}
	return string(text)
}

// readWork reads a work. Whatever is not exactly as text writes it is refused,
// with words.
func readWork(text string) (work, error) {
	if len(text) > mostWork {
		return work{}, fmt.Errorf("it is %d bytes long; allowed: at most %d", len(text), mostWork)
	}
	var form struct {
		Form int `json:"ruffwright"`
	}
	if err := json.Unmarshal([]byte(text), &form); err != nil {
		return work{}, fmt.Errorf("it is not what the page writes (%d bytes)", len(text))
	}
	if form.Form > workForm {
		return work{}, fmt.Errorf("it was written by a newer ruffwright (form %d; this one reads %d)", form.Form, workForm)
	}
	var t workText
	d := json.NewDecoder(bytes.NewReader([]byte(text)))
	d.DisallowUnknownFields()
	if err := d.Decode(&t); err != nil || d.More() || t.Form != workForm {
		return work{}, fmt.Errorf("it is not what the page writes (%d bytes)", len(text))
	}
	if !plainName(t.By) || !plainName(t.Line) || t.N < 0 || t.N > mostN {
		return work{}, fmt.Errorf("its first lines make no sense")
	}
	if sumOf(t.Scheme+t.Beside) != t.Sum {
		return work{}, fmt.Errorf("it was altered after it was written")
	}
	units, err := scheme.ParseUnits(t.Units)
	if err != nil {
		return work{}, err
	}
	s, err := scheme.Parse([]byte(t.Scheme))
	if err != nil {
		return work{}, err
	}
	w := work{s, nil, units, whose{line: t.Line, own: t.Own}, t.By, t.N, t.Lesson}
	if t.Beside != "" {
		b, err := scheme.Parse([]byte(t.Beside))
		if err != nil {
			return work{}, err
		}
		w.beside = &b
	}
	return w, nil
}

// plainName reports that a name may stand in a key of the storage.
func plainName(name string) bool {
	return len(name) > 0 && len(name) <= mostName &&
		strings.Trim(name, "abcdefghijklmnopqrstuvwxyz0123456789-") == ""
}
