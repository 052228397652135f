package main

import (
	"strconv"
	"strings"
	"unicode"
)

// folders gives names for files and folders that are safe on any disk: letters,
// digits and single strokes, never a path, never a name that was given before.
// Names that differ only in their case count as the same.
type folders map[string]bool

// longestName is in bytes: disks take 255, and an ending and a number follow.
const longestName = 80

// reserved are names that Windows keeps for devices, with any ending.
var reserved = map[string]bool{"con": true, "prn": true, "aux": true, "nul": true}

func init() {
	for n := '0'; n <= '9'; n++ {
		reserved["com"+string(n)] = true
		reserved["lpt"+string(n)] = true
	}
}

// name makes a name of what somebody or something is called; fallback where
// nothing of it can stand in a name.
func (f folders) name(called, fallback string) string {
	var b strings.Builder
	gap := false
	for _, r := range called {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.Is(unicode.Mn, r) || r == unicode.ReplacementChar {
			if r != '\'' && r != '’' { // the Cooper's: no gap
				gap = b.Len() > 0
			}
			continue
		}
		more := len(string(r))
		if gap {
			more++
		}
		if b.Len()+more > longestName {
			break
		}
		if gap {
			b.WriteByte('-')
		}
		b.WriteRune(r)
		gap = false
	}
	base := b.String()
	if base == "" {
		base = fallback
	}
	if reserved[strings.ToLower(base)] {
		base = fallback + "-" + base
	}
	name := base
	for n := 2; f[strings.ToLower(name)]; n++ {
		name = base + "-" + strconv.Itoa(n)
	}
	f[strings.ToLower(name)] = true
	return name
}
