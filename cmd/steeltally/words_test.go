package main

import (
	"bytes"
	"encoding/json"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// typedWords are the types whose words stand in inventory/words.go and nowhere else.
var typedWords = []string{"WorkKind", "Reason", "Why", "Custodian", "Decision", "Remedy"}

// TestWordsOfTheRecordHaveOneHome lets no source but inventory/words.go spell a word of these
// types: a slip in it would be another word.
func TestWordsOfTheRecordHaveOneHome(t *testing.T) {
	c := newChecker(t)
	checked := 0
	for _, p := range c.packages {
		if !strings.HasPrefix(p.ImportPath, module) || strings.HasSuffix(p.ImportPath, "test") {
			continue
		}
		checked++
		for _, name := range p.GoFiles {
			c.add(filepath.Join(p.Dir, name), nil)
		}
		for _, at := range c.spelled(p.ImportPath) {
			if filepath.Base(at.Filename) != "words.go" {
				t.Errorf("%s spells a word that inventory/words.go has a name for", at)
			}
		}
	}
	if checked < 20 {
		t.Errorf("only %d packages were checked", checked)
	}
}

// The check finds such a word wherever it is taken for one, and no other text.
func TestSpelledWordsAreFound(t *testing.T) {
	c := newChecker(t)
	c.add("planted.go", `package planted
import "steeltally/inventory"
var off = inventory.TakenOut{Reason: "low", LastGame: "low"}
var on = map[inventory.Remedy]bool{"spare": true}
func hone(w inventory.WorkKind) bool { return w == "hone" || w == "" || w == inventory.WorkNick }
var why, text = inventory.Why("crack"), "crack"
`)
	if found := c.spelled("planted"); len(found) != 4 {
		t.Errorf("found %v, want four words", found)
	}
}

type checker struct {
	t        *testing.T
	packages []built
	files    *token.FileSet
	sources  []*ast.File
	imports  types.Importer
}

// built is what the go command says of a package that it built.
type built struct {
	ImportPath, Dir, Export string
	GoFiles                 []string
}

func newChecker(t *testing.T) *checker {
	t.Helper()
	out, err := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Dir,Export,GoFiles", module+"/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	c := &checker{t: t, files: token.NewFileSet()}
	exports := map[string]string{}
	for decoder := json.NewDecoder(bytes.NewReader(out)); decoder.More(); {
		var p built
		if err := decoder.Decode(&p); err != nil {
			t.Fatal(err)
		}
		c.packages, exports[p.ImportPath] = append(c.packages, p), p.Export
	}
	c.imports = importer.ForCompiler(c.files, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	return c
}

func (c *checker) add(name string, source any) {
	c.t.Helper()
	file, err := parser.ParseFile(c.files, name, source, 0)
	if err != nil {
		c.t.Fatal(err)
	}
	c.sources = append(c.sources, file)
}

// spelled is where the sources that were added spell words of these types; it forgets them.
func (c *checker) spelled(path string) (found []token.Position) {
	c.t.Helper()
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	config := types.Config{Importer: c.imports}
	if _, err := config.Check(path, c.files, c.sources, info); err != nil {
		c.t.Fatal(err)
	}
	c.sources = nil
	for expr, of := range info.Types {
		literal, isLiteral := expr.(*ast.BasicLit)
		named, isNamed := of.Type.(*types.Named)
		if isLiteral && isNamed && literal.Value != `""` && named.Obj().Pkg().Path() == module+"/inventory" && slices.Contains(typedWords, named.Obj().Name()) {
			found = append(found, c.files.Position(literal.Pos()))
		}
	}
	return found
}
