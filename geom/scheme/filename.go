package scheme

import (
	"strings"
	"unicode"
)

// longestFile is in bytes: disks take 255, and an ending and a number follow.
const longestFile = 80

// FileName makes a name of what somebody or something is called that is safe on any
// disk: letters, digits and single strokes, at most 80 bytes, never a path, never
// one that Windows keeps for devices. fallback, itself such a name, stands where
// nothing of it can.
func FileName(called, fallback string) string {
	var b strings.Builder
	gap := false
	for _, r := range called {
		word := unicode.IsLetter(r) || unicode.IsDigit(r)
		switch mark := unicode.Is(unicode.Mn, r); {
		case word && visible(r), mark && b.Len() > 0 && !gap: // a mark stands on the letter before it
		case word, mark, r == '\'', r == '’': // no gap in the Cooper's
			continue
		default:
			gap = b.Len() > 0
			continue
		}
		more := len(string(r))
		if gap {
			more++
		}
		if b.Len()+more > longestFile {
			break
		}
		if gap {
			b.WriteByte('-')
		}
		b.WriteRune(r)
		gap = false
	}
	switch name := b.String(); {
	case name == "":
		return fallback
	case keptForDevices(strings.ToLower(name)):
		return fallback + "-" + name
	default:
		return name
	}
}

// keptForDevices are con, prn, aux, nul, com0 to com9 and lpt0 to lpt9: Windows
// keeps them, with any ending.
func keptForDevices(name string) bool {
	switch name {
	case "con", "prn", "aux", "nul":
		return true
	}
	return len(name) == 4 && (name[:3] == "com" || name[:3] == "lpt") && name[3] >= '0' && name[3] <= '9'
}
