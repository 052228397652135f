package main

import (
	"context"
	"errors"
	"io"
)

// What the command answers to the shell.
const (
	exitWell  = 0 // done; check: nothing that stops
	exitStops = 1 // the answer is no: something stops, or there is none
	exitBad   = 2 // bad input, or the work could not be done
)

// job is what a verb may touch of the world around it.
type job struct {
	ctx      context.Context // ends with ctrl-C
	in       io.Reader
	out, err io.Writer
	env      func(string) string
}

// input is standard input until the job ends: a read from a terminal can wait for ever,
// and ctrl-C must end it.
func (j job) input() io.Reader { return untilDone{j} }

type untilDone struct{ job }

func (u untilDone) Read(b []byte) (int, error) {
	type got struct {
		text []byte
		err  error
	}
	read := make(chan got, 1)
	own := make([]byte, len(b)) // a read that nobody waits for any more must not touch b
	go func() {
		n, err := u.in.Read(own)
		read <- got{own[:n], err}
	}()
	select {
	case g := <-read:
		return copy(b, g.text), g.err
	case <-u.ctx.Done():
		return 0, u.ctx.Err()
	}
}

// errStops says that the answer, which is printed already, is no: check found
// something that stops, the cloth did not come to rest, no panel or starch was
// found, a known problem is outside what is allowed. It prints nothing of its own.
var errStops = errors.New("something stops")

// usageError is a command line that cannot be understood.
type usageError struct {
	verb string
	why  string
}

func (e usageError) Error() string { return e.why }
