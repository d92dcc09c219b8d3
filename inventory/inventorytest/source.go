package inventorytest

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// EachDeclaration goes through a package's source without its tests.
func EachDeclaration(t *testing.T, dir string, do func(ast.Decl)) {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, declared := range file.Decls {
			do(declared)
		}
	}
}

// KindsInSource finds the types of the package that say in a constant word what kind of
// body they are.
func KindsInSource(t *testing.T, dir string) map[string]string {
	t.Helper()
	types := map[string]string{}
	EachDeclaration(t, dir, func(declared ast.Decl) {
		if kind, receiver := kindMethod(declared); kind != "" {
			types[kind] = receiver
		}
	})
	return types
}

// kindMethod reads func (*T) Kind() string { return "word" }.
func kindMethod(declared ast.Decl) (kind, receiver string) {
	method, ok := declared.(*ast.FuncDecl)
	if !ok || method.Name.Name != "Kind" || method.Recv == nil || len(method.Body.List) != 1 {
		return "", ""
	}
	returned, ok := method.Body.List[0].(*ast.ReturnStmt)
	if !ok || len(returned.Results) != 1 {
		return "", ""
	}
	word, isWord := returned.Results[0].(*ast.BasicLit)
	pointer, isPointer := method.Recv.List[0].Type.(*ast.StarExpr)
	if !isWord || !isPointer {
		return "", ""
	}
	kind, _ = strconv.Unquote(word.Value)
	return kind, pointer.X.(*ast.Ident).Name
}
