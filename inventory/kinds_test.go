package inventory

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"
)

// eachDeclaration goes through the package's source without its tests.
func eachDeclaration(t *testing.T, do func(ast.Decl)) {
	t.Helper()
	names, err := filepath.Glob("*.go")
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

// kindsInSource finds the types of the package that say in a constant word what kind of
// body they are.
func kindsInSource(t *testing.T) map[string]string {
	t.Helper()
	types := map[string]string{}
	eachDeclaration(t, func(declared ast.Decl) {
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

func TestEveryKindIsKnown(t *testing.T) {
	types := kindsInSource(t)
	if len(types) < 15 {
		t.Fatalf("only %d kinds were found in the source", len(types))
	}
	for kind, name := range types {
		body := newBody(kind)
		if body == nil {
			t.Errorf("%s: newBody does not know it, so it would be read as foreign", kind)
			continue
		}
		if body.Kind() != kind || reflect.TypeOf(body).Elem().Name() != name {
			t.Errorf("%s is made as %T of kind %s, want %s", kind, body, body.Kind(), name)
		}
	}
	if body := newBody("loan"); body != nil {
		t.Errorf("an unknown kind is a %T", body)
	}
}

// Every kind is said in words of its own.
func TestEveryKindIsTold(t *testing.T) {
	c := newChance(t, 2)
	for _, kind := range c.kinds {
		for range 50 {
			e := c.event()
			e.Body = c.body(kind)
			if line := (Teller{&Ledger{}}).Line(&e); line == "" || strings.Contains(line, "newer program") || strings.Contains(line, "\n") {
				t.Fatalf("%s reads %q", asJSON(t, &e), line)
			}
		}
	}
}
