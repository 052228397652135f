package main

import (
	"flag"
	"fmt"
	"io"
	"strings"
)

// verb is one thing that the command can do.
type verb struct {
	name, args  string                        // "draw", "SCHEME"
	least, most int                           // how many arguments it takes
	does        string                        // in one line
	help        string                        // in full
	flags       func(*flag.FlagSet)           // defines its flags
	run         func(j job, a []string) error // does it

	prints any // a value of what --json prints, described by its tags: see keysOf; nil if it has none
}

// usage prints how the verb is used.
func (v verb) usage(out io.Writer) {
	flags := flag.NewFlagSet(v.name, flag.ContinueOnError)
	v.flags(flags)
	any := false
	flags.VisitAll(func(*flag.Flag) { any = true })
	line := strings.TrimSpace("ruffwright " + v.name + " " + v.args)
	if any {
		line += " [flags]"
	}
	fmt.Fprintf(out, "%s\n\n%s\n", line, strings.TrimSpace(v.help))
	if !any {
		return
	}
	fmt.Fprint(out, "\nFlags:\n")
	flags.VisitAll(func(f *flag.Flag) {
		value, text := flag.UnquoteUsage(f)
		if d := f.DefValue; d != "" && d != "0" && d != "false" {
			text += fmt.Sprintf(" (%s if not given)", d)
		}
		fmt.Fprintf(out, "  %s\n%s", strings.TrimSpace("--"+f.Name+" "+value), wrapped(text, 78, "      "))
	})
	if strings.HasPrefix(v.args, "[SCHEME]") || v.args == "[A] [B]" {
		fmt.Fprint(out, "\n"+schemeHelp)
	}
}

// wrapped breaks text into lines of at most width columns, each indented.
func wrapped(text string, width int, indent string) string {
	var b strings.Builder
	column := 0
	for _, word := range strings.Fields(text) {
		long := len([]rune(word))
		switch {
		case column == 0:
			b.WriteString(indent)
			column = len(indent)
		case column+1+long > width:
			b.WriteString("\n" + indent)
			column = len(indent)
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += long
	}
	if column > 0 {
		b.WriteByte('\n')
	}
	return b.String()
}
