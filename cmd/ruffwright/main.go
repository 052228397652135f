// Ruffwright designs a ruff before it is sewn: it opens the page, and does from
// the command line what the page does. `ruffwright help` lists the verbs.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := run(job{ctx, os.Stdin, os.Stdout, os.Stderr, os.Getenv}, os.Args[1:])
	stop()
	os.Exit(code)
}

// run does what the arguments ask and returns the exit code.
func run(j job, args []string) int {
	err := dispatch(j, args)
	var usage usageError
	switch {
	case err == nil:
		return exitWell
	case errors.Is(err, errStops):
		return exitStops
	case errors.As(err, &usage):
		help := "ruffwright help"
		if usage.verb != "" {
			help += " " + usage.verb
		}
		fmt.Fprintf(j.err, "ruffwright: %s\nTry: %s\n", usage.why, help)
	case j.ctx.Err() != nil:
		fmt.Fprintln(j.err, "ruffwright: stopped")
	default:
		for line := range strings.Lines(err.Error()) {
			fmt.Fprintf(j.err, "ruffwright: %s\n", strings.TrimSuffix(line, "\n"))
		}
	}
	return exitBad
}

// dispatch finds the verb and runs it. Without a verb, and with flags alone, it
// is open.
func dispatch(j job, args []string) error {
	name := "open"
	if len(args) > 0 && !strings.HasPrefix(args[0], "-") {
		name, args = args[0], args[1:]
	} else if len(args) > 0 && isHelp(args[0]) {
		name, args = "help", args[1:]
	} else if len(args) > 0 && (args[0] == "--version" || args[0] == "--notices") {
		name, args = strings.TrimPrefix(args[0], "--"), args[1:]
	}
	if name == "help" {
		return help(j, args)
	}
	v, ok := verbNamed(name)
	if !ok {
		return usageError{why: fmt.Sprintf("there is no verb %q", name)}
	}
	flags := flag.NewFlagSet(v.name, flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	v.flags(flags)
	rest, err := interspersed(flags, args)
	if errors.Is(err, flag.ErrHelp) {
		return help(j, []string{v.name})
	}
	if err != nil {
		return usageError{v.name, err.Error()}
	}
	if len(rest) < v.least {
		return usageError{v.name, fmt.Sprintf("%s needs %s", v.name, v.args)}
	}
	if len(rest) > v.most {
		return usageError{v.name, fmt.Sprintf("%s does not take %q", v.name, rest[v.most])}
	}
	return v.run(j, rest)
}

func isHelp(arg string) bool { return arg == "-h" || arg == "-help" || arg == "--help" }

// interspersed parses flags wherever they stand among the arguments and returns
// the others. After "--" all are arguments.
func interspersed(flags *flag.FlagSet, args []string) ([]string, error) {
	var rest []string
	for {
		before := args
		if err := flags.Parse(args); err != nil {
			return nil, err
		}
		args = flags.Args()
		if used := len(before) - len(args); used > 0 && before[used-1] == "--" {
			return append(rest, args...), nil
		}
		if len(args) == 0 {
			return rest, nil
		}
		rest, args = append(rest, args[0]), args[1:]
	}
}
