// Package wire is what the page and its solver in a Web Worker say to each
// other. A message is a head, JSON text, and a body, the bytes of float32
// numbers (little-endian), which crosses as one transferred buffer. Both ends are built together, so there is one version: what
// does not fit exactly is refused, and whatever ReadRequest and ReadReply accept
// is whole and finite.
package wire

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// Limits of a message. The largest ruff has 400 sets, 801 panels at most; on an
// ellipse its head needs about a tenth of mostHead.
const (
	mostHead   = 4 << 20 // bytes
	mostPanels = 1000
	leastCells = 4
	mostCells  = 200 // of one panel, either way
	mostTries  = 64
	mostText   = 2 << 20 // bytes of a scheme
)

// Waking_ms is how long a worker may take to load and compile before it speaks, on
// a slow line.
const Waking_ms = 60000

// encode writes a head.
func encode(v any) (string, error) {
	text, err := json.Marshal(v)
	if err != nil {
		return "", fmt.Errorf("wire: %w", err)
	}
	if len(text) > mostHead {
		return "", fmt.Errorf("wire: a head of %d bytes; allowed are %d", len(text), mostHead)
	}
	return string(text), nil
}

// decode reads a head: one JSON value with known keys.
func decode(head string, v any) error {
	if len(head) > mostHead {
		return fmt.Errorf("wire: a head of %d bytes; allowed are %d", len(head), mostHead)
	}
	d := json.NewDecoder(bytes.NewReader([]byte(head)))
	d.DisallowUnknownFields()
	if err := d.Decode(v); err != nil {
		return fmt.Errorf("wire: %w", err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return errors.New("wire: something follows the head")
	}
	return nil
}
