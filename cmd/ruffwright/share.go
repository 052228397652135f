package main

import (
	"errors"
	"flag"
	"fmt"

	"ruffwright/geom/scheme"
)

func shareVerb() verb {
	var from source
	var document bool
	return verb{
		name: "share", args: "[SCHEME]", most: 1,
		does: "prints the scheme as a share code, or as its document",
		help: `
Prints the scheme's share code: the same scheme in a few characters, only what
differs from the default. Put it after the page's address and a # to make a
link, or give it to any verb that takes a SCHEME.`,
		flags: func(f *flag.FlagSet) {
			from.flags(f)
			f.BoolVar(&document, "json", false, "print the document instead, as the page saves it")
		},
		run: from.run(func(j job, s scheme.Scheme) error {
			if document {
				_, err := j.out.Write(s.JSON())
				return err
			}
			code := s.Code()
			if code == "" {
				return errors.New("the scheme has too many marks of its own for a share code: save it with --json instead")
			}
			_, err := fmt.Fprintln(j.out, code)
			return err
		}),
	}
}
