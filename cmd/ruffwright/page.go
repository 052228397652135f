package main

import (
	"flag"
	"fmt"

	"ruffwright/cmd/site"
)

func pageVerb() verb {
	var single string
	return verb{
		name: "page", args: "[OUT]", least: 0, most: 1,
		does: "builds the page: a folder that any web host can serve, or one file",
		help: `
Builds the page into the folder OUT: one index.html and files named by their
content, for any host of static files. OUT must be new, empty, or hold a page
built earlier, which is replaced; nothing else is overwritten. Once visited over
https (or on this machine) it opens without a network too.

--single writes the whole page as one file, for a stick or a course page: it
opens by a double click, without a server and without a network. A page written
so earlier is replaced, nothing else is.

Run it inside a clone of ruffwright: the page is built from the source there.`,
		flags: func(f *flag.FlagSet) {
			f.StringVar(&single, "single", "", "write the page as one `file`, such as ruffwright.html, not as a folder")
		},
		run: func(j job, args []string) error {
			switch {
			case single != "" && len(args) > 0:
				return usageError{"page", "--single writes one file, OUT a folder: give one of them"}
			case single != "":
				return singlePage(j, single)
			case len(args) == 0 || args[0] == "":
				return usageError{"page", "page needs OUT, the folder to write, or --single FILE"}
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

// singlePage writes the page as one file.
func singlePage(j job, name string) error {
	stop := unhurried(j)
	defer stop()
	size, err := site.Single(j.ctx, name)
	if err != nil {
		return err
	}
	fmt.Fprintf(j.out, "The page is in %s: one file of %.2f MB.\n", name, float64(size)/1e6)
	return nil
}
