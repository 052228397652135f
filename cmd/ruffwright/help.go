package main

import (
	"fmt"
	"strings"
)

// verbs lists the verbs in the order of help.
func verbs() []verb {
	return []verb{openVerb(), pageVerb(), checkVerb(), solveVerb(), fitVerb(), needVerb(), proposeVerb(), mattersVerb(), lookVerb(), swatchVerb(), trialVerb(), compareVerb(), drawVerb(), sheetsVerb(), marksVerb(), batchVerb(), shareVerb(), schemaVerb(), verifyVerb(), robustVerb(), completionVerb(), versionVerb(), noticesVerb()}
}

func verbNamed(name string) (verb, bool) {
	for _, v := range verbs() {
		if v.name == name {
			return v, true
		}
	}
	return verb{}, false
}

// help prints what the command, or one verb of it, does.
func help(j job, args []string) error {
	if len(args) > 0 {
		v, ok := verbNamed(args[0])
		if !ok {
			return usageError{why: fmt.Sprintf("there is no verb %q", args[0])}
		}
		v.usage(j.out)
		return nil
	}
	fmt.Fprint(j.out, `ruffwright designs a ruff before it is sewn: it shows the ruff that a scheme makes,
says what will go wrong with it, and what to change.

  ruffwright            opens the page in your browser
  ruffwright VERB ...   does one thing from the command line, for instance
                        ruffwright check floppy

`)
	for _, v := range verbs() {
		fmt.Fprintf(j.out, "  %-17s %s\n", strings.TrimSpace(v.name+" "+v.args), v.does)
	}
	fmt.Fprint(j.out, "  help VERB         how to use one of them\n\n"+schemeHelp+`
Exit codes: 0 well, 1 the answer is no (check: something stops; help VERB says what
else), 2 bad input or a failure.
`)
	return nil
}
