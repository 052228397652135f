package scheme

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"
	"strings"
)

// JSON gives the whole document, every field in the order of the table, lengths
// in mm, two spaces a level and a newline at the end. Parse reads it back to the
// same scheme, and that scheme gives the same bytes. A number that is not finite
// (no valid scheme has one) is written as null, which Parse refuses by name.
func (s Scheme) JSON() []byte {
	var b bytes.Buffer
	b.WriteString("{\n  \"version\": " + strconv.Itoa(Version))
	group := ""
	for i := range table {
		f := &table[i]
		key, inner, nested := strings.Cut(f.Key, ".")
		if f.Rare && f.Kind == KindText && f.Get(s) == "" {
			continue // words that most documents lack
		}
		switch {
		case nested && f.Group == group:
			b.WriteString(",\n    ")
		case nested:
			closeGroup(&b, group)
			b.WriteString(",\n  \"" + key + "\": {\n    ")
			group = f.Group
		default:
			closeGroup(&b, group)
			group = ""
			b.WriteString(",\n  ")
		}
		if nested {
			key = inner
		}
		b.WriteString("\"" + key + "\": ")
		f.writeJSON(&b, &s)
	}
	closeGroup(&b, group)
	b.WriteString("\n}\n")
	return b.Bytes()
}

func closeGroup(b *bytes.Buffer, group string) {
	if group != "" {
		b.WriteString("\n  }")
	}
}

func (f Field) writeJSON(b *bytes.Buffer, s *Scheme) {
	switch p := f.at(s).(type) {
	case *float64:
		b.WriteString(jsonNumber(*p))
	case *int:
		b.WriteString(strconv.Itoa(*p))
	case *string:
		b.WriteString(jsonText(*p))
	case *[]Mark:
		if len(*p) == 0 {
			b.WriteString("[]")
			return
		}
		for i, m := range *p {
			b.WriteString(map[bool]string{true: "[", false: ","}[i == 0])
			b.WriteString("\n      {\"place\": " + jsonNumber(m.Place) + ", \"fold\": " + jsonText(string(m.Fold)) + ", \"sewn\": " + jsonText(string(m.Sewn)) + "}")
		}
		b.WriteString("\n    ]")
	}
}

func jsonNumber(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "null"
	}
	return exact(v)
}

func jsonText(text string) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(text); err != nil {
		return `""` // cannot be: a string always encodes
	}
	return strings.TrimSuffix(b.String(), "\n")
}
