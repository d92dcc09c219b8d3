package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"io/fs"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const (
	module  = "steeltally"
	program = module + "/cmd/steeltally"
	rooms   = program + "/internal/"
)

// mayImport says for each room which other rooms it may import; rooms below a named
// one share its line unless they have their own. The deepest name that fits counts.
var mayImport = map[string][]string{
	module + "/geometry":                {},
	module + "/templates":               {module + "/geometry"},
	module + "/labels":                  {module + "/labels", module + "/templates", module + "/geometry"},
	module + "/inventory":               {module + "/geometry"},
	module + "/inventory/deeds":         {module + "/inventory", module + "/inventory/standing", module + "/geometry"},
	module + "/inventory/inventorytest": {module + "/inventory", module + "/geometry"},
	module + "/inventory/book":          {module + "/inventory", module + "/inventory/book", module + "/geometry"},
	module + "/inventory/wear":          {module + "/inventory/wear", module + "/geometry"},
	module + "/inventory/sparepair":     {module + "/inventory", module + "/inventory/standing", module + "/geometry"},
	module + "/inventory/wayback":       {module + "/inventory", module + "/inventory/standing", module + "/inventory/sparepair", module + "/geometry"},
	module + "/inventory/roadtrip":      {module + "/inventory", module + "/inventory/standing", module + "/inventory/sparepair"},
	module + "/inventory/openwork":      {module + "/inventory", module + "/inventory/standing", module + "/inventory/sparepair"},
	module + "/inventory/standing":      {module + "/inventory", module + "/inventory/standing", module + "/inventory/wear", module + "/geometry"},
	module + "/inventory/calendar":      {},

	module + "/inventory/outlook": {module + "/inventory", module + "/inventory/standing", module + "/inventory/wear", module + "/geometry"},
	module + "/inventory/review":  {module + "/inventory", module + "/inventory/standing", module + "/inventory/wear", module + "/geometry"},
	rooms + "desk":                {module},
	rooms + "demo":                {module},
	rooms + "jig":                 {rooms + "desk", module + "/inventory", module + "/inventory/deeds", module + "/geometry"},
	rooms + "cli":                 {rooms + "desk", rooms + "demo", rooms + "jig", rooms + "station", module + "/inventory", module + "/inventory/deeds", module + "/geometry"},
	rooms + "station":             {rooms + "desk", rooms + "jig", module + "/inventory", module + "/inventory/deeds", module + "/geometry"},
	program:                       {module},
}

// listed is what the go command says of a package.
type listed struct {
	ImportPath string
	Imports    []string
}

// TestImportDirection holds every package to the house's table: data flows one way.
func TestImportDirection(t *testing.T) {
	packages := listPackages(t)
	if len(packages) < 10 {
		t.Fatalf("only %d packages were listed", len(packages))
	}
	for _, p := range packages {
		room, ok := roomOf(p.ImportPath)
		if !ok {
			t.Errorf("%s belongs to no room", p.ImportPath)
			continue
		}
		for _, imported := range p.Imports {
			if within(imported, module) && !allowed(room, imported) {
				t.Errorf("%s imports %s", p.ImportPath, imported)
			}
		}
	}
}

// homes are facts that are worked out in one room, by the names of the functions below it
// that any other would work them out with.
var homes = map[string]string{
	"StateAt": "standing", "DoNotSkate": "standing", "DamagedForGood": "standing", "HeldAt": "standing", // what is on, and is it safe
	"LastReading": "standing, outlook", // how high is it
}

// TestFactsHaveOneHome lets no room but theirs, and the one that they come from, call the
// functions that a fact is worked out with: two rooms would in time answer differently.
func TestFactsHaveOneHome(t *testing.T) {
	seen := map[string]bool{}
	err := filepath.WalkDir("../..", func(path string, entry fs.DirEntry, err error) error {
		room := filepath.Base(filepath.Dir(path))
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || room == "inventory" || strings.HasSuffix(room, "test") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(node ast.Node) bool {
			call, ok := node.(*ast.CallExpr)
			if !ok {
				return true
			}
			name, ok := call.Fun.(*ast.SelectorExpr)
			if !ok || homes[name.Sel.Name] == "" {
				return true
			}
			if strings.Contains(homes[name.Sel.Name], room) {
				seen[name.Sel.Name] = true
			} else {
				t.Errorf("%s asks %s itself: ask inventory/standing", path, name.Sel.Name)
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(seen) != len(homes) {
		t.Errorf("of the facts with a home only %v are asked there", seen)
	}
}

// TestGeometryImportsOnlyTheStandardLibrary keeps the innermost room free of others' code.
func TestGeometryImportsOnlyTheStandardLibrary(t *testing.T) {
	checked := 0
	for _, p := range listPackages(t) {
		if !within(p.ImportPath, module+"/geometry") {
			continue
		}
		checked++
		for _, imported := range p.Imports {
			if strings.Contains(imported, ".") {
				t.Errorf("%s imports %s", p.ImportPath, imported)
			}
		}
	}
	if checked == 0 {
		t.Fatal("geometry was not listed")
	}
}

// TestEnginesStayInTheirRooms keeps the database and the PDF writer out of sight.
func TestEnginesStayInTheirRooms(t *testing.T) {
	homes := map[string]string{
		"go.etcd.io/bbolt":              module + "/inventory/book",
		"github.com/signintech/gopdf":   module + "/labels",
		"github.com/spf13/cobra":        rooms + "cli",
		"github.com/arran4/golang-ical": module + "/inventory/calendar",
	}
	seen := map[string]bool{}
	for _, p := range listPackages(t) {
		for _, imported := range p.Imports {
			if home, engine := homes[imported]; engine {
				seen[imported] = true
				if !within(p.ImportPath, home) {
					t.Errorf("%s imports %s, whose home is %s", p.ImportPath, imported, home)
				}
			}
		}
	}
	if len(seen) != len(homes) {
		t.Errorf("of the engines only %v are used", seen)
	}
}

// TestNoMapIsMadeByHandForPrograms keeps what programs read to tagged structs, whose names
// are checked: in no source a map of anything by name.
func TestNoMapIsMadeByHandForPrograms(t *testing.T) {
	sources := 0
	err := filepath.WalkDir("../..", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
			return err
		}
		sources++
		files := token.NewFileSet()
		source, err := parser.ParseFile(files, path, nil, 0)
		if err != nil {
			return err
		}
		for node := range ast.Preorder(source) {
			if of, isMap := node.(*ast.MapType); isMap && byName(of) {
				t.Errorf("%s: a map of anything by name: declare a struct", files.Position(of.Pos()))
			}
		}
		return nil
	})
	if err != nil || sources < 100 {
		t.Fatalf("%d sources were read: %v", sources, err)
	}
}

// byName tells whether a map holds anything, or lists of anything, by names.
func byName(of *ast.MapType) bool {
	key, _ := of.Key.(*ast.Ident)
	value := of.Value
	if list, isList := value.(*ast.ArrayType); isList {
		value = list.Elt
	}
	name, _ := value.(*ast.Ident)
	empty, isInterface := value.(*ast.InterfaceType)
	return key != nil && key.Name == "string" && (name != nil && name.Name == "any" || isInterface && len(empty.Methods.List) == 0)
}

func listPackages(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", module+"/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	var packages []listed
	decoder := json.NewDecoder(bytes.NewReader(out))
	for {
		var p listed
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			return packages
		} else if err != nil {
			t.Fatal(err)
		}
		packages = append(packages, p)
	}
}

// roomOf is the deepest room that a package lies in.
func roomOf(path string) (string, bool) {
	best := ""
	for room := range mayImport {
		if within(path, room) && len(room) > len(best) && (room != program || path == program) {
			best = room
		}
	}
	return best, best != ""
}

// allowed tells whether a room may import a package: one of a room that it names, or
// anything where it names the whole module.
func allowed(room, imported string) bool {
	if slices.Contains(mayImport[room], module) {
		return true
	}
	home, ok := roomOf(imported)
	return ok && slices.Contains(mayImport[room], home)
}

func within(path, root string) bool { return path == root || strings.HasPrefix(path, root+"/") }
