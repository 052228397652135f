package word

import "errors"

// Fault is an error that says what is wrong as a text.
type Fault struct {
	Text
	Of error // what it wraps; nil where nothing
}

// Error is the text in English.
func (f Fault) Error() string { return f.Text.String() }

// Unwrap gives what the fault is of.
func (f Fault) Unwrap() error { return f.Of }

// Said is the text of the fault.
func (f Fault) Said() Text { return f.Text }

// Of is what an error says: the text of it, or of what it wraps, where one has one;
// otherwise its English, which is in no other language.
func Of(err error) Text {
	var of interface{ Said() Text }
	if errors.As(err, &of) {
		return of.Said()
	}
	return Name(err.Error())
}
