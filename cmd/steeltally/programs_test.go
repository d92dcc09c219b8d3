package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// installed lists the programs that .ci/test installs for the tests.
const installed = "../../.ci/programs"

// TestEveryProgramIsInstalled finds the programs that the tests, and what they test, start:
// the full run of the tests installs each of them, and nothing that none of them starts.
func TestEveryProgramIsInstalled(t *testing.T) {
	started := startedPrograms(t, "../..")
	if len(started) < 10 {
		t.Fatalf("only %d programs were found: %v", len(started), slices.Sorted(maps.Keys(started)))
	}
	listed := listedPrograms(t)
	for _, name := range slices.Sorted(maps.Keys(started)) {
		if !listed[name] {
			t.Errorf("%s starts %s, which %s does not list", started[name], name, installed)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(listed)) {
		if started[name] == "" {
			t.Errorf("%s lists %s, which nothing starts", installed, name)
		}
	}
}

func listedPrograms(t *testing.T) map[string]bool {
	t.Helper()
	text, err := os.ReadFile(installed)
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]bool{}
	for line := range strings.Lines(string(text)) {
		if words := strings.Fields(line); len(words) == 2 {
			listed[words[0]] = true
		}
	}
	return listed
}

// Programs that are no Debian package's: the toolchain, what opens a page on a desktop,
// and expressions that stand for the program under test or a stand-in of its own.
var (
	notInstalled = []string{"go", "xdg-open", "open"}
	forRaces     = "gcc" // go test -race starts it
	ownPrograms  = []string{"os.Args[0]", "program", "buildProgram(t)", "command", "opener"}
)

// startedPrograms tells where each program is started that is named in code. Where a
// function starts what its caller names, its callers are looked at.
func startedPrograms(t *testing.T, root string) map[string]string {
	t.Helper()
	started := map[string]string{forRaces: ".ci/test"}
	for dir, files := range sourceFolders(t, root) {
		starters := map[string]int{"exec.Command": 0, "exec.CommandContext": 1, "exec.LookPath": 0}
		for grown := true; grown; {
			grown = false
			for _, f := range files {
				for _, call := range callsOf(f, starters) {
					switch name, parameter := call.names(); {
					case name != "":
						started[name] = filepath.Join(dir, call.in.Name.Name)
					case parameter >= 0:
						if _, known := starters[call.in.Name.Name]; !known {
							starters[call.in.Name.Name], grown = parameter, true
						}
					case !slices.Contains(ownPrograms, types.ExprString(call.program)):
						t.Errorf("%s: %s starts %s: name the program where it is started", dir, call.in.Name.Name, types.ExprString(call.program))
					}
				}
			}
		}
		for _, f := range files {
			if slices.ContainsFunc(f.Imports, func(i *ast.ImportSpec) bool { return strings.Contains(i.Path.Value, "chromedp/chromedp") }) {
				started["chromium"] = dir
			}
		}
	}
	for _, name := range notInstalled {
		delete(started, name)
	}
	return started
}

// sourceFolders parses every Go file, by its folder.
func sourceFolders(t *testing.T, root string) map[string][]*ast.File {
	t.Helper()
	folders, positions := map[string][]*ast.File{}, token.NewFileSet()
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(path) != ".go" {
			return err
		}
		f, err := parser.ParseFile(positions, path, nil, parser.SkipObjectResolution)
		folders[filepath.Dir(path)] = append(folders[filepath.Dir(path)], f)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return folders
}

// start is a call that starts a program.
type start struct {
	in      *ast.FuncDecl
	program ast.Expr
}

// callsOf lists the calls of starters in a file.
func callsOf(f *ast.File, starters map[string]int) []start {
	var calls []start
	for _, d := range f.Decls {
		in, ok := d.(*ast.FuncDecl)
		if !ok {
			continue
		}
		ast.Inspect(in, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			called := types.ExprString(call.Fun)
			at, known := starters[called]
			if !known && !strings.HasPrefix(called, "exec.") {
				at, known = starters[called[strings.LastIndex(called, ".")+1:]]
			}
			if known && at < len(call.Args) {
				calls = append(calls, start{in, call.Args[at]})
			}
			return true
		})
	}
	return calls
}

// names is the program that a call names, or else which parameter of its function does;
// -1 for none.
func (s start) names() (name string, parameter int) {
	if literal, ok := s.program.(*ast.BasicLit); ok {
		name, _ = strconv.Unquote(literal.Value)
		return name, -1
	}
	at := 0
	for _, field := range s.in.Type.Params.List {
		for _, n := range field.Names {
			if id, ok := s.program.(*ast.Ident); ok && id.Name == n.Name {
				return "", at
			}
			at++
		}
	}
	return "", -1
}
