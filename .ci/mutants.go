// Mutants asks what the tests of geom and sim would see: it puts small wrongs into
// the code, one at a time, and runs the short tests of the room that each stands in.
//
//	nice go run .ci/mutants.go                  200 of them, from every room
//	nice go run .ci/mutants.go -n 20 geom sim/cloth
//	nice go run .ci/mutants.go -first 41 -n 20  the 41st to the 60th of the same row
//	nice go run .ci/mutants.go -at near.go:54 sim/shell  those of one file or line
//
// A wrong is one of these: a comparison turned round or moved by its bound, + for -
// and * for /, a condition negated, the sign of what is returned dropped, a number
// changed, && for ||. Which ones are drawn depends on the seed and the code alone.
// The tree is left as it is: go test reads the changed file through an overlay. Change
// none of it while this runs.
//
// What no test can see, because nothing comes out otherwise, stands with its reason in
// .ci/equivalent.txt, by file, wrong and the text of its line. It is not counted.
//
// It is not part of .ci/run: 200 wrongs take about half an hour.
package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// mutant is one wrong: the bytes from to upto of the file give way to text.
type mutant struct {
	room       string // "sim/cloth"
	file       string
	line       int
	from, upto int
	text       string
	what       string // "+ for -"
	source     string // the line's text
}

// kinds of wrongs. One is drawn first, then a place for it: otherwise most would be
// numbers.
const (
	comparison = iota
	arithmetic
	condition
	sign
	number
	logic
	kinds
)

// room is one package that is tried.
type room struct {
	dir    string
	name   string // "sim/cloth"
	binary string // its test program
	places [kinds][]mutant
	takes  time.Duration // its short tests as they are; 0: not run yet
}

func main() {
	n := flag.Int("n", 200, "how many wrongs to try")
	first := flag.Int("first", 1, "the first of them")
	seed := flag.Uint64("seed", 1, "draws other wrongs")
	at := flag.String("at", "", "only those of this file or line")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	dirs, err := listed(flag.Args())
	if err == nil {
		err = try(ctx, dirs, *at, *seed, *first, *n)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(1)
	}
}

// listed are the folders of the rooms asked for, those of geom and sim if none is.
func listed(rooms []string) ([]string, error) {
	args := []string{"list", "-f", `{{if .TestGoFiles}}{{.Dir}}{{end}}`}
	if len(rooms) == 0 {
		args = append(args, "./geom/...", "./sim/...")
	}
	for _, r := range rooms {
		args = append(args, "./"+strings.TrimPrefix(r, "./"))
	}
	out, err := exec.Command("go", args...).Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w: run it from the top of the tree, and name rooms as geom/pleat", err)
	}
	return strings.Fields(string(out)), nil
}

// try draws the wrongs and tells what became of each, one room after the other.
func try(ctx context.Context, dirs []string, at string, seed uint64, first, n int) error {
	top, err := os.Getwd()
	if err != nil {
		return err
	}
	scratch, err := os.MkdirTemp("", "mutants-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(scratch)
	var rooms []*room
	var places [kinds][]mutant
	fset := token.NewFileSet()
	from := importer.ForCompiler(fset, "source", nil)
	for _, dir := range dirs {
		r := &room{dir: dir, binary: filepath.Join(scratch, "room.test")}
		if r.name, err = filepath.Rel(top, dir); err != nil {
			return err
		}
		if err := r.read(fset, from); err != nil {
			return err
		}
		rooms = append(rooms, r)
		for k := range places {
			for _, m := range r.places[k] {
				if file := filepath.Base(m.file); at == "" || at == file || at == fmt.Sprintf("%s:%d", file, m.line) {
					places[k] = append(places[k], m)
				}
			}
		}
	}
	all := draw(places, seed, first+n-1)
	all = all[min(first-1, len(all)):]
	same, err := equivalents(top)
	if err != nil {
		return err
	}
	count := map[string]int{}
	for _, r := range rooms {
		for i, m := range all {
			if m.room != r.name {
				continue
			}
			verdict, err := m.try(ctx, r, scratch)
			if err != nil {
				return err
			}
			where, _ := filepath.Rel(top, m.file)
			if verdict == "survived" && same[where+" | "+m.what+" | "+m.source] {
				verdict = "equivalent"
			}
			fmt.Printf("%3d %-16s %s:%d: %s\n", first+i, verdict, where, m.line, m.what)
			count[verdict]++
		}
	}
	caught := count["caught"] + count["caught, in time"]
	if tried := caught + count["survived"]; tried > 0 {
		fmt.Printf("\ncaught %d of %d, %.0f %%; %d more do not compile, %d change nothing\n",
			caught, tried, 100*float64(caught)/float64(tried), count["does not compile"], count["equivalent"])
	}
	return nil
}

// equivalents are the wrongs that change nothing: "file | wrong | line".
func equivalents(top string) (map[string]bool, error) {
	text, err := os.ReadFile(filepath.Join(top, ".ci", "equivalent.txt"))
	if err != nil {
		return nil, err
	}
	same := map[string]bool{}
	for line := range strings.Lines(string(text)) {
		if end := strings.LastIndex(line, " | "); end > 0 && !strings.HasPrefix(line, "#") { // the last is the reason
			same[line[:end]] = true
		}
	}
	return same, nil
}

// draw draws n different wrongs, all there are if they are fewer.
func draw(places [kinds][]mutant, seed uint64, n int) []mutant {
	all := 0
	for _, p := range places {
		all += len(p)
	}
	var drawn []mutant
	seen := map[mutant]bool{}
	for dice := rand.New(rand.NewPCG(seed, 0)); len(drawn) < min(n, all); {
		p := places[dice.IntN(kinds)]
		if len(p) == 0 {
			continue
		}
		if m := p[dice.IntN(len(p))]; !seen[m] {
			seen[m] = true
			drawn = append(drawn, m)
		}
	}
	return drawn
}

// try runs the room's short tests with the wrong in its place.
func (m mutant) try(ctx context.Context, r *room, scratch string) (verdict string, err error) {
	if r.takes == 0 {
		if out, err := r.build(ctx); err != nil {
			return "", fmt.Errorf("the tests of %s do not compile as they are: %w\n%s", m.room, err, out)
		}
		began := time.Now()
		if out, err := r.run(ctx, 10*time.Minute); err != nil {
			return "", fmt.Errorf("the tests of %s fail as they are: %w\n%s", m.room, err, out)
		}
		r.takes = time.Since(began)
	}
	text, err := os.ReadFile(m.file)
	if err != nil {
		return "", err
	}
	changed := filepath.Join(scratch, "changed.go")
	if err := os.WriteFile(changed, []byte(string(text[:m.from])+m.text+string(text[m.upto:])), 0o644); err != nil {
		return "", err
	}
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{m.file: changed}})
	if err != nil {
		return "", err
	}
	list := filepath.Join(scratch, "overlay.json")
	if err := os.WriteFile(list, overlay, 0o644); err != nil {
		return "", err
	}
	if _, err := r.build(ctx, "-overlay", list); err != nil {
		return "does not compile", ctx.Err()
	}
	out, err := r.run(ctx, 10*time.Second+5*r.takes)
	switch {
	case ctx.Err() != nil:
		return "", ctx.Err()
	case err == nil:
		return "survived", nil
	case bytes.Contains(out, []byte("panic: test timed out")):
		return "caught, in time", nil
	}
	return "caught", nil
}

// build makes the room's test program.
func (r *room) build(ctx context.Context, more ...string) ([]byte, error) {
	args := append([]string{"test", "-c", "-vet=off", "-ldflags=-s -w", "-o", r.binary}, more...)
	return exec.CommandContext(ctx, "go", append(args, r.dir)...).CombinedOutput()
}

// run runs the room's short tests until the first fails or the time is over.
func (r *room) run(ctx context.Context, limit time.Duration) ([]byte, error) {
	kept := filepath.Join(r.dir, "testdata", "rapid") // where a property keeps what broke it
	if _, err := os.Stat(kept); os.IsNotExist(err) {
		defer func() {
			os.RemoveAll(kept)
			os.Remove(filepath.Dir(kept)) // it stays where something else lies in it
		}()
	}
	cmd := exec.CommandContext(ctx, r.binary, "-test.short", "-test.failfast", "-test.timeout", limit.String())
	cmd.Dir = r.dir
	return cmd.CombinedOutput()
}

// read finds the places of the room's own code. Imports are checked as well: what
// + does depends on the type.
func (r *room) read(fset *token.FileSet, from types.Importer) error {
	out, err := exec.Command("go", "list", "-f", `{{join .GoFiles " "}}`, r.dir).Output()
	if err != nil {
		return err
	}
	var files []*ast.File
	for _, f := range strings.Fields(string(out)) {
		file, err := parser.ParseFile(fset, filepath.Join(r.dir, f), nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		files = append(files, file)
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	lenient := types.Config{Importer: from, Error: func(error) {}}
	_, _ = lenient.Check(r.name, fset, files, info) // a type left unknown loses a place, no more
	for _, file := range files {
		if err := r.search(fset, file, info); err != nil {
			return err
		}
	}
	return nil
}

// search adds the places of one file.
func (r *room) search(fset *token.FileSet, file *ast.File, info *types.Info) error {
	path := fset.Position(file.Pos()).Filename
	source, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	lines := strings.Split(string(source), "\n")
	add := func(kind int, from, upto token.Pos, text, what string) {
		p := fset.Position(from)
		line := strings.TrimSpace(lines[p.Line-1])
		r.places[kind] = append(r.places[kind], mutant{r.name, path, p.Line, p.Offset, fset.Position(upto).Offset, text, what, line})
	}
	negate := func(e ast.Expr) {
		if e != nil {
			a, b := fset.Position(e.Pos()).Offset, fset.Position(e.End()).Offset
			add(condition, e.Pos(), e.End(), "!("+string(source[a:b])+")", "condition negated")
		}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.BinaryExpr:
			kind, new := swapped(n.Op, is(info, n.X, types.IsInteger))
			if new != token.ILLEGAL && (kind == logic || is(info, n.X, types.IsNumeric)) {
				add(kind, n.OpPos, n.OpPos+token.Pos(len(n.Op.String())), new.String(), new.String()+" for "+n.Op.String())
			}
		case *ast.IfStmt:
			negate(n.Cond)
		case *ast.ForStmt:
			negate(n.Cond)
		case *ast.ReturnStmt:
			for _, e := range n.Results {
				if u, ok := e.(*ast.UnaryExpr); ok && (u.Op == token.SUB || u.Op == token.NOT) {
					add(sign, u.Pos(), u.X.Pos(), "", "returned without its "+u.Op.String())
				}
			}
		case *ast.BasicLit:
			if v, err := strconv.ParseFloat(n.Value, 64); err == nil && v != 0 {
				text := strconv.FormatFloat(2*v, 'g', -1, 64)
				if n.Kind == token.INT && is(info, n, types.IsInteger) {
					text = strconv.Itoa(int(v) + 1)
				}
				add(number, n.Pos(), n.End(), text, text+" for "+n.Value)
			}
		}
		return true
	})
	return nil
}

// is says whether e is of such a basic type.
func is(info *types.Info, e ast.Expr, of types.BasicInfo) bool {
	t := info.TypeOf(e)
	if t == nil {
		return false
	}
	basic, ok := t.Underlying().(*types.Basic)
	return ok && basic.Info()&of != 0
}

// swapped is what stands in the place of an operator. Whether < or <= stands between
// two floats tells next to nothing: there the comparison is turned round.
func swapped(op token.Token, whole bool) (kind int, new token.Token) {
	switch op {
	case token.LSS, token.GTR, token.LEQ, token.GEQ:
		round := map[token.Token]token.Token{token.LSS: token.GTR, token.GTR: token.LSS, token.LEQ: token.GEQ, token.GEQ: token.LEQ}
		if whole {
			round = map[token.Token]token.Token{token.LSS: token.LEQ, token.GTR: token.GEQ, token.LEQ: token.LSS, token.GEQ: token.GTR}
		}
		return comparison, round[op]
	case token.ADD:
		return arithmetic, token.SUB
	case token.SUB:
		return arithmetic, token.ADD
	case token.MUL:
		return arithmetic, token.QUO
	case token.QUO:
		return arithmetic, token.MUL
	case token.LAND:
		return logic, token.LOR
	case token.LOR:
		return logic, token.LAND
	}
	return 0, token.ILLEGAL
}
