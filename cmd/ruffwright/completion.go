package main

import (
	"flag"
	"fmt"
	"io"
	"slices"
	"strings"

	"ruffwright/assets"
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
)

// nextWord is what completion is called with by the scripts that it prints.
const nextWord = "next"

func completionVerb() verb {
	return verb{
		name: "completion", args: "SHELL", least: 1, most: 1000,
		does: "prints what lets bash, zsh or fish complete the command's words",
		help: `
Prints a script for your shell. Once it has read that, the Tab key completes verbs,
flags, demos, and after --set the fields and what may stand in them:

  bash   source <(ruffwright completion bash)      in ~/.bashrc
  zsh    source <(ruffwright completion zsh)       in ~/.zshrc, after compinit
  fish   ruffwright completion fish | source       in ~/.config/fish/config.fish

The scripts ask the command itself (completion ` + nextWord + ` -- WORD ...), so they stay
right when it changes.`,
		flags: func(*flag.FlagSet) {},
		run: func(j job, args []string) error {
			if args[0] == nextWord {
				for _, c := range completed(args[1:]) {
					if _, err := fmt.Fprintf(j.out, "%s\t%s\n", c.word, c.means); err != nil {
						return err
					}
				}
				return nil
			}
			script, ok := shells[args[0]]
			switch {
			case !ok:
				return usageError{"completion", fmt.Sprintf("there is no script for the shell %q; there are bash, fish and zsh", args[0])}
			case len(args) > 1:
				return usageError{"completion", fmt.Sprintf("completion %s does not take %q", args[0], args[1])}
			}
			_, err := io.WriteString(j.out, script)
			return err
		},
	}
}

// completion is a word that may come next, and what it means.
type completion struct{ word, means string }

// completed gives what may stand in place of the last of the words after the
// command's name, which may be empty; nothing where only a file or a number may.
func completed(words []string) []completion {
	words = joined(words)
	if len(words) == 0 {
		return nil
	}
	last := words[len(words)-1]
	var all []completion
	switch v, known := verbNamed(words[0]); {
	case len(words) == 1 && strings.HasPrefix(last, "-"):
		all = append(flagWords(openVerb()), completion{"--help", "how to use the command"},
			completion{"--version", versionVerb().does}, completion{"--notices", noticesVerb().does})
	case len(words) == 1, words[0] == "help" && len(words) == 2:
		for _, v := range verbs() {
			all = append(all, completion{v.name, v.does})
		}
		all = append(all, completion{"help", "how to use a verb"})
	case !known && !strings.HasPrefix(words[0], "-"):
	default:
		if !known { // flags alone are open's
			v = openVerb()
		}
		all = v.next(words[1:])
	}
	return slices.DeleteFunc(all, func(c completion) bool { return !strings.HasPrefix(c.word, last) })
}

// joined puts words together that bash has parted at =.
func joined(words []string) []string {
	var all []string
	for i, w := range words {
		if n := len(all); n > 0 && (w == "=" || i > 0 && words[i-1] == "=") {
			all[n-1] += w
			continue
		}
		all = append(all, w)
	}
	return all
}

// next gives what may stand in place of the last of the words after the verb.
func (v verb) next(words []string) []completion {
	last := words[len(words)-1]
	if len(words) > 1 {
		flags := flag.NewFlagSet("", flag.ContinueOnError)
		v.flags(flags)
		if f := flags.Lookup(strings.TrimLeft(words[len(words)-2], "-")); f != nil && strings.HasPrefix(words[len(words)-2], "-") && takesValue(f) {
			return values(f.Name, last)
		}
	}
	switch {
	case strings.HasPrefix(last, "-"):
		return append(flagWords(v), completion{"--help", "how to use " + v.name})
	case v.name == "completion":
		return plainWords("bash", "fish", "zsh")
	case strings.HasPrefix(v.args, "[SCHEME]") || v.args == "[A] [B]":
		return plainWords(append(assets.Demos(), "default")...)
	}
	return nil
}

func takesValue(f *flag.Flag) bool {
	b, ok := f.Value.(interface{ IsBoolFlag() bool })
	return !ok || !b.IsBoolFlag()
}

func flagWords(v verb) []completion {
	var all []completion
	flags := flag.NewFlagSet("", flag.ContinueOnError)
	v.flags(flags)
	flags.VisitAll(func(f *flag.Flag) {
		_, usage := flag.UnquoteUsage(f)
		all = append(all, completion{"--" + f.Name, usage})
	})
	return all
}

func plainWords(words ...string) []completion {
	var all []completion
	for _, w := range words {
		all = append(all, completion{w, ""})
	}
	return all
}

// values gives what may stand behind a flag; nothing where that is a file or a number.
func values(flag, last string) []completion {
	switch flag {
	case "set", "change":
		return settings(last)
	case "view":
		var all []completion
		for _, v := range figure.Views {
			all = append(all, completion{v.Name, v.Shows.String()})
		}
		return all
	}
	return plainWords(map[string][]string{
		"units": {"mm", "cm", "in"}, "paper": {"a4", "letter"}, "as": {"table", "csv"},
		"grid": {meshes[0].name, meshes[1].name, meshes[2].name}, "scheme": append(assets.Demos(), "default"),
	}[flag]...)
}

// settings gives the fields, key=; where a key stands already, what may be chosen
// there.
func settings(typed string) []completion {
	var all []completion
	key, _, valued := strings.Cut(typed, "=")
	for _, f := range scheme.Fields() {
		switch {
		case !valued:
			all = append(all, completion{f.Key + "=", f.Label})
		case f.Key == key:
			for _, c := range f.Choices {
				all = append(all, completion{key + "=" + c.Value, c.Label})
			}
		}
	}
	return all
}

// shells are the scripts. Each asks the command what may come next and leaves files
// to the shell.
var shells = map[string]string{
	"bash": `# Completes the words of ruffwright in bash.
_ruffwright() {
  local word means
  COMPREPLY=()
  while IFS=$'\t' read -r word means; do
    case $word in
      *=) compopt -o nospace 2>/dev/null ;;
      *=*) [[ $COMP_WORDBREAKS == *=* ]] && word=${word#*=} ;; # bash completes behind the =
    esac
    COMPREPLY+=("$word")
  done < <("${COMP_WORDS[0]}" completion next -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
}
complete -o bashdefault -o default -F _ruffwright ruffwright
`,
	"zsh": `#compdef ruffwright
# Completes the words of ruffwright in zsh.
_ruffwright() {
  local word means
  local -a plain plainly keys keyly
  while IFS=$'\t' read -r word means; do
    if [[ $word == *= ]]; then
      keys+=("$word") keyly+=("$word  $means")
    else
      plain+=("$word") plainly+=("$word  $means")
    fi
  done < <("${words[1]}" completion next -- "${(@)words[2,CURRENT]}" 2>/dev/null)
  if (( $#plain + $#keys == 0 )); then
    _files
    return
  fi
  (( $#plain )) && compadd -l -d plainly -a plain
  (( $#keys )) && compadd -l -S '' -d keyly -a keys
  return 0
}
compdef _ruffwright ruffwright
`,
	"fish": `# Completes the words of ruffwright in fish.
function __ruffwright
  set -l words (commandline -opc) (commandline -ct)
  $words[1] completion next -- $words[2..-1] 2>/dev/null
end
complete -c ruffwright -a '(__ruffwright)'
`,
}
