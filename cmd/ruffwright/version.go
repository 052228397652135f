package main

import (
	"flag"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"

	"ruffwright/assets"
	"ruffwright/geom/scheme"
)

func versionVerb() verb {
	return verb{
		name: "version",
		does: "prints which ruffwright this is (also --version)",
		help: `
Prints the version of the command, the version of the schemes that it writes, and
what it was built with. Schemes of a newer version cannot be read.`,
		flags: func(*flag.FlagSet) {},
		run: func(j job, _ []string) error {
			_, err := fmt.Fprintf(j.out, "ruffwright %s\nschemes of version %d\n%s %s/%s\n",
				ownVersion(), scheme.Version, runtime.Version(), runtime.GOOS, runtime.GOARCH)
			return err
		},
	}
}

// ownVersion is the version that the toolchain wrote into the command: a release's, or
// the commit that it was built from; built without either it is "of no release".
func ownVersion() string {
	info, ok := debug.ReadBuildInfo()
	if ok && info.Main.Version != "" && info.Main.Version != "(devel)" {
		return info.Main.Version
	}
	if ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				return "of commit " + s.Value
			}
		}
	}
	return "of no release"
}

func noticesVerb() verb {
	return verb{
		name: "notices",
		does: "prints the licences of all that it is made of (also --notices)",
		help: `
Prints the licences of ruffwright and of everything that is linked into the command
and the page: whoever gives them away gives these with them. The page carries the
same text, as a file of its folder and inside the page that is one file.`,
		flags: func(*flag.FlagSet) {},
		run: func(j job, _ []string) error {
			_, err := io.WriteString(j.out, assets.Notices)
			return err
		},
	}
}
