package page

import (
	"encoding/base64"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
)

// mostLink is the most characters of a link's code: longer ones are cut off by
// programs for mail and messages.
const mostLink = 2000

// mostFileName is how many letters of a scheme's name a file's name takes.
const mostFileName = 60

// fileName is a file's name for a ruff: its name in small letters
// that every device takes, then what it shows, then the ending.
func fileName(s scheme.Scheme, shows, ending string) string {
	var b strings.Builder
	n, gap := 0, false
	for _, r := range strings.ToLower(s.Name) {
		switch {
		case r == '\'' || r == '’':
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			if gap && n > 0 {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(r)
			n++
		default:
			gap = true
		}
		if n == mostFileName {
			break
		}
	}
	name := b.String()
	if name == "" {
		name = "ruff"
	}
	if slices.Contains([]string{"con", "prn", "aux", "nul"}, name) || len(name) == 4 && (strings.HasPrefix(name, "com") || strings.HasPrefix(name, "lpt")) {
		name = "ruff-" + name // the first are devices to some systems
	}
	if shows != "" {
		name += "-" + strings.ReplaceAll(strings.ToLower(shows), " ", "-")
	}
	return name + "." + ending
}

// saves hands the browser a file to save.
func (p *Page) saves(name, kind string, bytes []byte) []doc.Patch {
	if p.tell().State().Old() {
		p.voice.Soon(say.Text("The browser saves %s: the last good ruff, not what is typed.", name))
	} else {
		p.voice.Soon(say.Text("The browser saves %s.", name))
	}
	return []doc.Patch{{Op: doc.OpSave, Name: name, Value: "data:" + kind + ";base64," + base64.StdEncoding.EncodeToString(bytes)}}
}

// savesScheme saves the ruff at hand as its document.
func (p *Page) savesScheme() []doc.Patch {
	p.keep.Filed(p.work.Held())
	return p.saves(fileName(p.work.Scheme, "", "json"), "application/json", p.work.Scheme.JSON())
}

// rescues hands the document the ruff at hand, for when the program dies: it is
// not asked then.
func (p *Page) rescues() []doc.Patch {
	if p.rescued == p.work.AskedBoth() {
		return nil
	}
	p.rescued = p.work.AskedBoth()
	code := p.work.Code()
	if code != "" {
		code = "#" + code
	}
	return []doc.Patch{{Op: doc.OpRescue, Name: fileName(p.work.Scheme, "", "json"), Value: string(p.work.Scheme.JSON()), Was: code}}
}

// savesAside saves what stands aside: the document of one that can be read, the
// very text of one that cannot.
func (p *Page) savesAside(e doc.Event) []doc.Patch {
	text, ruff := p.keep.Aside(e.Value)
	switch {
	case text == "":
		return nil
	case ruff == nil:
		return p.saves("ruffwright-found.txt", "text/plain", []byte(text))
	}
	return p.saves(fileName(ruff.Scheme, "", "json"), "application/json", ruff.Scheme.JSON())
}

// picks asks the browser for a file, no more of it than can be a scheme and
// one byte.
func (p *Page) picks(e doc.Event) []doc.Patch {
	return []doc.Patch{{Op: doc.OpPick, Name: e.Name, Value: strconv.Itoa(scheme.MaxDocument + 1)}}
}

// opensFile takes a file that the reader chose.
func (p *Page) opensFile(e doc.Event) ([]doc.Patch, extent) {
	name := shownName(e.Name)
	n, err := strconv.ParseInt(e.Value, 10, 64)
	if err != nil {
		p.voice.Notice(say.Text("%s could not be read, so nothing was changed.", name))
		return nil, all
	}
	if n > scheme.MaxDocument {
		p.voice.Notice(say.Text("%s was not opened, and nothing was changed: it has %s; a ruff’s file has at most %s.", name, bytesWords(n), bytesWords(scheme.MaxDocument)))
		return nil, all
	}
	s, err := scheme.Parse(e.Body)
	if err == nil {
		err = p.replaces(s, name)
	}
	if err != nil {
		p.voice.Notice(say.Text("%s holds no ruff that can be read, so nothing was changed. %s", name, say.Faults(err, "")))
		return nil, all
	}
	p.work.Own = true
	p.voice.Notice("")
	p.voice.Soon(say.Text("Opened %s. %s", name, p.news()))
	return nil, all
}

// shownName is a file's name as it may be shown: short, in one line.
func shownName(name string) string {
	runes := []rune(strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return '·'
		}
		return r
	}, name))
	if len(runes) > 2*mostFileName {
		runes = append(runes[:2*mostFileName], '…')
	}
	if len(runes) == 0 {
		return say.Text("The file")
	}
	return say.Text("“%s”", string(runes))
}

func bytesWords(n int64) string {
	if n < 1<<20 {
		return fmt.Sprintf("%.3g kB", float64(n)/1000)
	}
	return fmt.Sprintf("%.3g MB", float64(n)/1e6)
}

// links puts the ruff at hand into the address and on the clipboard, or says
// why it cannot be sent so.
func (p *Page) links() []doc.Patch {
	code := p.work.Code()
	if code == "" || len(code) > mostLink {
		length := len(code)
		if code == "" {
			length = scheme.MaxCode
		}
		p.voice.Notice(say.Text("This ruff has many marks of its own. Its link would be longer than mail and messages carry (%d characters or more; at most %d). Save it as a file instead, and send that.", length, mostLink))
		return focus("save")
	}
	p.voice.Notice("")
	p.keep.Linked(p.work.Held())
	return []doc.Patch{{Op: doc.OpAddress, Value: "#" + code}, {Op: doc.OpCopy, Name: "link", Value: "#" + code}}
}
