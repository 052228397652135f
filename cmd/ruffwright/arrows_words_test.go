package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// sayer tells which arguments of a function are templates, and where what stands in
// their places begins.
type sayer struct{ templates, with int }

// sayers are the functions of the tree that take templates as fmt does: their last
// parameters are one or two strings and ...any. They go by how they are called, see
// called.
func sayers(sources []goFile) map[string]sayer {
	found := map[string]sayer{}
	for _, s := range sources {
		if s.test() {
			continue
		}
		add := func(name string, f *ast.FuncType) {
			var types []string
			for _, p := range f.Params.List {
				types = append(types, slices.Repeat([]string{exprText(p.Type)}, max(1, len(p.Names)))...)
			}
			with := len(types) - 1
			at := with
			for at > 0 && types[at-1] == "string" {
				at--
			}
			if at < with && types[with] == "...any" {
				found[name] = sayer{at, with}
			}
		}
		ast.Inspect(s.file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				name := n.Name.Name
				if n.Recv != nil {
					add(s.dir+" ."+name, n.Type)
					break
				}
				add(s.dir+" "+name, n.Type)
				add(path.Base(s.dir)+"."+name, n.Type)
			case *ast.AssignStmt:
				for i, right := range n.Rhs {
					if f, ok := right.(*ast.FuncLit); ok {
						add(path.Join(s.dir, s.name)+" "+exprText(n.Lhs[i]), f.Type)
					}
				}
			}
			return true
		})
	}
	return found
}

// exprText writes the type of a parameter, or a name, where it is a short one.
func exprText(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.Ellipsis:
		return "..." + exprText(e.Elt)
	}
	return ""
}

// called are the names by which sayers may know what is called: of a local function
// in its file, of a function or a method in its room, of a function of another room.
func (s goFile) called(f ast.Expr) []string {
	switch f := f.(type) {
	case *ast.Ident:
		return []string{path.Join(s.dir, s.name) + " " + f.Name, s.dir + " " + f.Name}
	case *ast.SelectorExpr:
		return []string{exprText(f.X) + "." + f.Sel.Name, s.dir + " ." + f.Sel.Name}
	}
	return nil
}

var fmtVerb = regexp.MustCompile(`%[-+#0]*[0-9]*(\.[0-9]+)?(\[([0-9]+)\])?[a-zA-Z]`)

// places counts what a template has places for, and says whether it names them by
// index (%[2]s): then it may leave some out.
func places(template string) (n int, indexed bool) {
	next := 0
	for _, m := range fmtVerb.FindAllStringSubmatch(strings.ReplaceAll(template, "%%", ""), -1) {
		if next++; m[3] != "" {
			next, _ = strconv.Atoi(m[3])
			indexed = true
		}
		n = max(n, next)
	}
	return n, indexed
}

// literal is the text of a string literal, or of several with + between them.
func literal(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		text, err := strconv.Unquote(e.Value)
		return text, e.Kind == token.STRING && err == nil
	case *ast.BinaryExpr:
		a, left := literal(e.X)
		b, right := literal(e.Y)
		return a + b, left && right
	}
	return "", false
}

// misplaced lists the templates of the file that have other places than what stands
// in them. Of a count's templates one may do without any place.
func (s goFile) misplaced(of map[string]sayer) []string {
	var found []string
	ast.Inspect(s.file, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok || call.Ellipsis.IsValid() {
			return true
		}
		var as sayer
		for _, name := range s.called(call.Fun) {
			if as = of[name]; as.with > 0 {
				break
			}
		}
		if as.with == 0 || len(call.Args) < as.with {
			return true
		}
		has := len(call.Args) - as.with
		for _, e := range call.Args[as.templates:as.with] {
			text, ok := literal(e)
			n, indexed := places(text)
			countless := n == 0 && as.with-as.templates > 1
			if ok && n != has && !(indexed && n < has) && !countless {
				found = append(found, fmt.Sprintf("%q has %d places, and %d stand in them", text, n, has))
			}
		}
		return true
	})
	return found
}
