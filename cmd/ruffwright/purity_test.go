package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"path"
	"slices"
	"strconv"
	"strings"
)

// impureCalls lists what the file uses of the functions in impure, as
// time.Now.
func impureCalls(file *ast.File) []string {
	as := map[string]string{} // local name: import path
	for _, spec := range file.Imports {
		imported, _ := strconv.Unquote(spec.Path.Value)
		if _, watched := impure[imported]; !watched {
			continue
		}
		name := path.Base(strings.TrimSuffix(imported, "/v2"))
		if spec.Name != nil {
			name = spec.Name.Name
		}
		as[name] = imported
	}
	var names []string
	ast.Inspect(file, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if id, ok := sel.X.(*ast.Ident); ok && slices.Contains(impure[as[id.Name]], sel.Sel.Name) {
				names = append(names, id.Name+"."+sel.Sel.Name)
			}
		}
		return true
	})
	return names
}

// globalsWritten finds the package-level variables that a function of the
// package assigns to or steps. (Taking a row's address to read it is common and
// allowed; a write through it goes unseen.) It type-checks the package
// by itself, imports left unknown: enough to tell a global from a local.
func globalsWritten(fset *token.FileSet, list []goFile) []string {
	var files []*ast.File
	for _, s := range list {
		if !s.test() {
			files = append(files, s.file)
		}
	}
	info := &types.Info{Uses: map[*ast.Ident]types.Object{}}
	lenient := types.Config{Error: func(error) {}, Importer: nothing{}}
	pkg, _ := lenient.Check(list[0].dir, fset, files, info) // errors are expected: imports are unknown
	var found []string
	report := func(e ast.Expr, what string) {
		id := root(e)
		if id == nil {
			return
		}
		if v, ok := info.Uses[id].(*types.Var); ok && pkg != nil && v.Parent() == pkg.Scope() {
			found = append(found, fmt.Sprintf("%s: a pure room %s the global %s", fset.Position(id.Pos()).Filename, what, id.Name))
		}
	}
	for _, file := range files {
		for _, decl := range file.Decls {
			f, ok := decl.(*ast.FuncDecl)
			if !ok || f.Body == nil || f.Recv == nil && f.Name.Name == "init" { // init puts tables together
				continue
			}
			ast.Inspect(f.Body, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.AssignStmt:
					for _, left := range n.Lhs {
						report(left, "assigns to")
					}
				case *ast.IncDecStmt:
					report(n.X, "steps")
				}
				return true
			})
		}
	}
	return found
}

// root is the variable that an expression such as a.b[i] or *p starts from.
func root(e ast.Expr) *ast.Ident {
	for {
		switch x := e.(type) {
		case *ast.Ident:
			return x
		case *ast.SelectorExpr:
			e = x.X
		case *ast.IndexExpr:
			e = x.X
		case *ast.SliceExpr:
			e = x.X
		case *ast.StarExpr:
			e = x.X
		case *ast.ParenExpr:
			e = x.X
		default:
			return nil
		}
	}
}

// nothing is an importer that knows no package.
type nothing struct{}

func (nothing) Import(p string) (*types.Package, error) { return nil, fmt.Errorf("%s not read", p) }
