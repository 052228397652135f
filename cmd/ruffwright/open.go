package main

import (
	"context"
	"flag"
	"fmt"
	"net"
	"os/exec"
	"runtime"
	"strconv"
	"time"

	"ruffwright/cmd/site"
)

func openVerb() verb {
	var port int
	var quiet bool
	return verb{
		name: "open",
		does: "opens the page in your browser (what ruffwright does without a verb)",
		help: `
Builds the page from its source, keeps the build for the next time, serves it on
this machine alone and opens it in your browser. The first build takes a minute
or two. Nothing leaves the machine. End it with ctrl-C.

Run it inside a clone of ruffwright: the page is built from the source there.`,
		flags: func(f *flag.FlagSet) {
			f.IntVar(&port, "port", 0, "serve on this `port`, 1 to 65535, instead of 7833")
			f.BoolVar(&quiet, "no-browser", false, "print the address and open nothing")
		},
		run: func(j job, _ []string) error {
			if port < 0 || port > 65535 {
				return usageError{"open", fmt.Sprintf("--port %d: expected 1 to 65535", port)}
			}
			dir, err := built(j, "")
			if err != nil {
				return err
			}
			addr := "127.0.0.1:" + strconv.Itoa(port)
			if port == 0 {
				addr = usualAddress
				if !free(j.ctx, addr) {
					addr = "127.0.0.1:0"
					fmt.Fprintf(j.err, "Another program has %s, so the page is at another address today, and what was saved there is not seen here.\n", usualAddress)
				}
			}
			return site.Serve(j.ctx, dir, addr, func(url string) {
				fmt.Fprintf(j.out, "ruffwright is at %s\nctrl-C ends it.\n", url)
				if quiet {
					return
				}
				if why := browse(j, url); why != "" {
					fmt.Fprintf(j.err, "%s: open the address in a browser yourself.\n", why)
				}
			})
		},
	}
}

// usualAddress is where the page is served if nothing else is asked for: a
// browser keeps what is saved by address. The port spells RUFF on a telephone.
const usualAddress = "127.0.0.1:7833"

// free reports whether a server can listen at addr.
func free(ctx context.Context, addr string) bool {
	l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", addr)
	if err != nil {
		return false
	}
	l.Close()
	return true
}

// built builds the site into out, or into the cache, and says so when it takes
// longer than a blink.
func built(j job, out string) (string, error) {
	stop := unhurried(j)
	defer stop()
	return site.Build(j.ctx, out)
}

// unhurried says that the page is being built, unless it is stopped within a
// blink.
func unhurried(j job) (stop func() bool) {
	return time.AfterFunc(time.Second, func() {
		fmt.Fprintln(j.err, "building the page, which takes a minute or two the first time ...")
	}).Stop
}

// browse asks the system to open the address. It returns why it could not, or
// "". The browser is not waited for.
func browse(j job, url string) string {
	var open []string
	switch runtime.GOOS {
	case "darwin":
		open = []string{"open", url}
	case "windows":
		open = []string{"rundll32", "url.dll,FileProtocolHandler", url}
	default:
		if j.env("DISPLAY") == "" && j.env("WAYLAND_DISPLAY") == "" {
			return "No screen was found"
		}
		open = []string{"xdg-open", url}
	}
	// Not bound to the job: ctrl-C must end the server, not the maker's browser.
	opener := exec.CommandContext(context.WithoutCancel(j.ctx), open[0], open[1:]...)
	if err := opener.Start(); err != nil {
		return "No browser could be started"
	}
	go opener.Wait() // reaps it; what it answers changes nothing
	return ""
}
