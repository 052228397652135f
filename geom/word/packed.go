package word

import (
	"encoding/json"
	"fmt"
	"reflect"
)

// Packed is a text that travels: its JSON holds the template and what stands in its
// places, so that the text can be put into any language where it arrives.
type Packed struct{ Text }

// packed is the JSON of a text.
type packed struct {
	English string  `json:"say,omitempty"`
	One     string  `json:"one,omitempty"`
	Kind    kind    `json:"kind,omitempty"`
	N       int     `json:"n,omitempty"`
	With    []place `json:"with,omitempty"`
}

// place is what stands in one place; one of its members is set.
type place struct {
	Text    *Packed  `json:"text,omitempty"`
	Number  *Number  `json:"number,omitempty"`
	Written *Written `json:"written,omitempty"`
	Key     *Key     `json:"key,omitempty"`
	Name    *string  `json:"name,omitempty"`
	Int     *int64   `json:"int,omitempty"`
	Float   *float64 `json:"float,omitempty"`
}

// MarshalJSON packs the text; what stands in a place and cannot travel is an error.
func (p Packed) MarshalJSON() ([]byte, error) {
	out := packed{English: p.english, One: p.one, Kind: p.kind, N: p.n, With: make([]place, len(p.with))}
	for i, w := range p.with {
		at := &out.With[i]
		switch w := w.(type) {
		case Text:
			at.Text = &Packed{w}
		case Number:
			at.Number = &w
		case Written:
			at.Written = &w
		case Key:
			at.Key = &w
		default:
			switch v := reflect.ValueOf(w); v.Kind() {
			case reflect.String:
				name := fmt.Sprint(w)
				at.Name = &name
			case reflect.Int, reflect.Int64:
				n := v.Int()
				at.Int = &n
			case reflect.Float64:
				x := v.Float()
				at.Float = &x
			default:
				return nil, fmt.Errorf("word: %q: a %T cannot travel", p.english, w)
			}
		}
	}
	return json.Marshal(out)
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (p *Packed) UnmarshalJSON(b []byte) error {
	var in packed
	if err := json.Unmarshal(b, &in); err != nil {
		return err
	}
	p.Text = Text{english: in.English, one: in.One, kind: in.Kind, n: in.N}
	for _, at := range in.With {
		var w any
		switch {
		case at.Text != nil:
			w = at.Text.Text
		case at.Number != nil:
			w = *at.Number
		case at.Written != nil:
			w = *at.Written
		case at.Key != nil:
			w = *at.Key
		case at.Name != nil:
			w = *at.Name
		case at.Int != nil:
			w = *at.Int
		case at.Float != nil:
			w = *at.Float
		}
		if _, text := w.(Text); w == nil || in.Kind == joined && !text {
			return fmt.Errorf("word: %q: a place with nothing to stand in it", in.English)
		}
		p.with = append(p.with, w)
	}
	if in.Kind > joined {
		return fmt.Errorf("word: a text of kind %d", in.Kind)
	}
	return nil
}
