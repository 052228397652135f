package main

import (
	"fmt"
	"io"
	"os"
	"time"
)

// progressEvery is how often a line of progress may change.
const progressEvery = 500 * time.Millisecond

// progress tells on standard error how far long work has come: on a terminal in
// one line that is written over, with --progress elsewhere line by line.
type progress struct {
	to    io.Writer
	wipes bool // on a terminal
	last  time.Time
	shown bool
}

// newProgress tells nothing where standard error is no terminal, unless forced.
// The first line waits as long as every other, so that quick work says nothing.
func newProgress(j job, forced bool) *progress {
	p := &progress{last: time.Now()}
	if file, ok := j.err.(*os.File); ok {
		about, err := file.Stat()
		p.wipes = err == nil && about.Mode()&os.ModeCharDevice != 0
	}
	if p.wipes || forced {
		p.to = j.err
	}
	return p
}

// tell shows the line, unless one was shown just now.
func (p *progress) tell(format string, args ...any) {
	if p.to == nil || time.Since(p.last) < progressEvery {
		return
	}
	p.last, p.shown = time.Now(), true
	line := fmt.Sprintf(format, args...)
	if p.wipes {
		fmt.Fprintf(p.to, "\r\x1b[K%s", line)
		return
	}
	fmt.Fprintln(p.to, line)
}

// done wipes the line on a terminal.
func (p *progress) done() {
	if p.wipes && p.shown {
		fmt.Fprint(p.to, "\r\x1b[K")
	}
	p.shown = false
}
