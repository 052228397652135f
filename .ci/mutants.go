// Mutants asks what the tests of geom and sim would see: it puts small wrongs into
// the code, one at a time, and runs the short tests of the room that each stands in.
//
//	nice go run .ci/mutants.go                  200 of them, from every room
//	nice go run .ci/mutants.go -n 20 geom sim/cloth
//	nice go run .ci/mutants.go -first 41 -n 20  the 41st to the 60th of the same row
//
// A wrong is one of these: a comparison turned round or moved by its bound, + for -
// and * for /, a condition negated, the sign of what is returned dropped, a number
// changed, && for ||. Which ones are drawn depends on the seed and the code alone.
// The tree is left as it is: go test reads the changed file through an overlay. Change
// none of it while this runs.
//
// It is not part of .ci/run: 200 wrongs take about an hour.
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
	places [kinds][]mutant
	takes  time.Duration // its short tests as they are; 0: not run yet
}

func main() {
	n := flag.Int("n", 200, "how many wrongs to try")
	first := flag.Int("first", 1, "the first of them")
	seed := flag.Uint64("seed", 1, "draws other wrongs")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	dirs, err := listed(flag.Args())
	if err == nil {
		err = try(ctx, dirs, *seed, *first, *n)
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

// try draws the wrongs and tells what became of each.
func try(ctx context.Context, dirs []string, seed uint64, first, n int) error {
	top, err := os.Getwd()
	if err != nil {
		return err
	}
	scratch, err := os.MkdirTemp("", "mutants-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(scratch)
	rooms := map[string]*room{}
	var places [kinds][]mutant
	fset := token.NewFileSet()
	from := importer.ForCompiler(fset, "source", nil)
	for _, dir := range dirs {
		r := &room{dir: dir}
		name, err := filepath.Rel(top, dir)
		if err != nil {
			return err
		}
		if err := r.read(fset, from, name); err != nil {
			return err
		}
		rooms[name] = r
		for k := range places {
			places[k] = append(places[k], r.places[k]...)
		}
	}
	caught, survived, senseless := 0, []string{}, 0
	dice := rand.New(rand.NewPCG(seed, 0))
	for i := 1; i < first+n; i++ {
		k := dice.IntN(kinds)
		for len(places[k]) == 0 {
			k = dice.IntN(kinds)
		}
		m := places[k][dice.IntN(len(places[k]))]
		if i < first {
			continue
		}
		verdict, err := m.try(ctx, rooms[m.room], scratch)
		if err != nil {
			return err
		}
		where, _ := filepath.Rel(top, m.file)
		line := fmt.Sprintf("%s:%d: %s", where, m.line, m.what)
		fmt.Printf("%3d %-16s %s\n", i, verdict, line)
		switch verdict {
		case "survived":
			survived = append(survived, line)
		case "does not compile":
			senseless++
		default:
			caught++
		}
	}
	if tried := caught + len(survived); tried > 0 {
		fmt.Printf("\ncaught %d of %d, %.0f %%; %d more do not compile\n", caught, tried, 100*float64(caught)/float64(tried), senseless)
	}
	return nil
}

// try runs the room's short tests with the wrong in its place.
func (m mutant) try(ctx context.Context, r *room, scratch string) (verdict string, err error) {
	if r.takes == 0 {
		began := time.Now()
		if out, err := exec.CommandContext(ctx, "go", "test", "-short", "-vet=off", r.dir).CombinedOutput(); err != nil {
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
	kept := filepath.Join(r.dir, "testdata", "rapid") // where a property keeps what broke it
	if _, err := os.Stat(kept); os.IsNotExist(err) {
		defer func() {
			os.RemoveAll(kept)
			os.Remove(filepath.Dir(kept)) // it stays where something else lies in it
		}()
	}
	limit := time.Minute + 4*r.takes
	out, err := exec.CommandContext(ctx, "go", "test", "-short", "-vet=off", "-failfast", "-timeout", limit.String(), "-overlay", list, r.dir).CombinedOutput()
	switch {
	case ctx.Err() != nil:
		return "", ctx.Err()
	case err == nil:
		return "survived", nil
	case bytes.Contains(out, []byte("[build failed]")):
		return "does not compile", nil
	case bytes.Contains(out, []byte("panic: test timed out")):
		return "caught, in time", nil
	}
	return "caught", nil
}

// read finds the places of the room's own code. Imports are checked as well: what
// + does depends on the type.
func (r *room) read(fset *token.FileSet, from types.Importer, name string) error {
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
	_, _ = lenient.Check(name, fset, files, info) // a type left unknown loses a place, no more
	for _, file := range files {
		r.places = placesIn(fset, file, info, name, r.places)
	}
	return nil
}

// placesIn adds the places of one file.
func placesIn(fset *token.FileSet, file *ast.File, info *types.Info, name string, to [kinds][]mutant) [kinds][]mutant {
	add := func(kind int, from, upto token.Pos, text, what string) {
		p := fset.Position(from)
		to[kind] = append(to[kind], mutant{name, p.Filename, p.Line, p.Offset, fset.Position(upto).Offset, text, what})
	}
	source, _ := os.ReadFile(fset.Position(file.Pos()).Filename)
	negate := func(e ast.Expr) {
		if e != nil {
			a, b := fset.Position(e.Pos()).Offset, fset.Position(e.End()).Offset
			add(condition, e.Pos(), e.End(), "!("+string(source[a:b])+")", "condition negated")
		}
	}
	is := func(e ast.Expr, of types.BasicInfo) bool {
		b, ok := info.TypeOf(e).(interface{ Underlying() types.Type })
		if !ok {
			return false
		}
		basic, ok := b.Underlying().(*types.Basic)
		return ok && basic.Info()&of != 0
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.BinaryExpr:
			kind, new := swapped(n.Op, is(n.X, types.IsInteger))
			if new != token.ILLEGAL && (kind == logic || is(n.X, types.IsNumeric)) {
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
				if n.Kind == token.INT && is(n, types.IsInteger) {
					text = strconv.Itoa(int(v) + 1)
				}
				add(number, n.Pos(), n.End(), text, text+" for "+n.Value)
			}
		}
		return true
	})
	return to
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
