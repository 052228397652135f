package main

import (
	"flag"
	"fmt"
)

func pageVerb() verb {
	return verb{
		name: "page", args: "OUT", least: 1, most: 1,
		does: "builds the page as a folder that any web host can serve",
		help: `
Builds the page into the folder OUT: one index.html and files named by their
content, for any host of static files. OUT must be new, empty, or hold a page
built earlier, which is replaced; nothing else is overwritten.

Run it inside a clone of ruffwright: the page is built from the source there.`,
		flags: func(*flag.FlagSet) {},
		run: func(j job, args []string) error {
			if args[0] == "" {
				return usageError{"page", "OUT is empty: name a folder"}
			}
			dir, err := built(j, args[0])
			if err != nil {
				return err
			}
			fmt.Fprintf(j.out, "The page is in %s\n", dir)
			return nil
		},
	}
}
