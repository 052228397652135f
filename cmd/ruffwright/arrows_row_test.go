package main

import (
	"go/ast"
	"slices"
)

// What is sewn where is said by the row of a plan (pleat.Row). These fields of
// scheme.Pleat say it too, before own marks overrule them and a fitted panel makes
// the tucks shallower: the rooms below alone read and write them.
var (
	sewnFields = []string{"Anchor", "Sewn", "TuckTop", "TuckBottom", "Marks"}
	sewnRooms  = []string{"geom/scheme", "geom/pleat"}
)

// sewnReads lists what the file takes of a scheme's Pleat that the row should be
// asked for: one of those fields, or the whole of it under another name.
func sewnReads(file *ast.File) []string {
	var found []string
	whole := map[ast.Expr]bool{}
	ast.Inspect(file, func(n ast.Node) bool {
		sel, ok := n.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		if id, ok := sel.X.(*ast.Ident); ok && id.Name == "scheme" { // the type scheme.Pleat
			return true
		}
		if sel.Sel.Name == "Pleat" && !whole[sel] {
			found = append(found, "all of Pleat")
		}
		if of, ok := sel.X.(*ast.SelectorExpr); ok && of.Sel.Name == "Pleat" {
			whole[of] = true // one field of it alone
			if slices.Contains(sewnFields, sel.Sel.Name) {
				found = append(found, "Pleat."+sel.Sel.Name)
			}
		}
		return true
	})
	return found
}
