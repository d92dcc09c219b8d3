package cli

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/printer"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// projectRoot is the folder of the module, as seen from this package's.
const projectRoot = "../../../.."

// spelled is a line of a text that the project shows to people: a literal of the source with
// what is put into it between ‹ and ›, a page of the screen, the README.
type spelled struct {
	where string
	line  string
	exact bool // an example: the whole line is typed as it stands
}

// spelledTexts gathers every text that may spell a command line.
func spelledTexts(t *testing.T) (all []spelled) {
	t.Helper()
	err := filepath.WalkDir(projectRoot, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		short, _ := filepath.Rel(projectRoot, path)
		switch extension := filepath.Ext(path); {
		case strings.HasSuffix(path, "_test.go"):
		case extension == ".go":
			all = append(all, ofSource(t, path, short)...)
		case strings.Contains(short, "station/assets") && extension == ".js":
			all = append(all, matches(t, path, short, `"([^"\n]*)"|`+"`([^`]*)`")...)
		case strings.Contains(short, "station/parts") || strings.HasPrefix(short, "templates/") && extension == ".toml":
			all = append(all, matches(t, path, short, `([^<>{}\n]+)`)...)
		case short == "README.md" || short == "DEVELOPERS.md":
			all = append(all, ofPage(t, path, short)...)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// matches are the texts of a file that a pattern finds.
func matches(t *testing.T, path, short, pattern string) (all []spelled) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, found := range regexp.MustCompile(pattern).FindAllStringSubmatch(string(text), -1) {
		all = append(all, spelled{where: short, line: strings.Join(found[1:], "")})
	}
	return all
}

// ofPage are the examples of a page in Markdown, and what stands between backquotes.
func ofPage(t *testing.T, path, short string) []spelled {
	t.Helper()
	all := matches(t, path, short, "(?m)^(steeltally .*)$|`(steeltally [^`\n]*)`")
	for i := range all {
		all[i].exact = true
	}
	return all
}

// ofSource are the lines of all literals of a Go file.
func ofSource(t *testing.T, path, short string) (all []spelled) {
	t.Helper()
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, path, nil, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	f := folder{files: files, folded: map[ast.Node]bool{}}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.Field:
			f.folded[n.Tag] = true
		case ast.Expr:
			if f.folded[n] {
				break
			}
			if text, isText := f.fold(n); isText {
				where := short + ":" + strconv.Itoa(files.Position(n.Pos()).Line)
				for line := range strings.Lines(text) {
					all = append(all, spelled{where, line, strings.HasPrefix(line, "  steeltally ")})
				}
			}
		}
		return true
	})
	return all
}

// folder puts the parts of a text together.
type folder struct {
	files  *token.FileSet
	folded map[ast.Node]bool // stands in a larger one
}

var formatVerb = regexp.MustCompile(`%[-+# 0]*\d*(?:\.\d+)?[a-zA-Z]`)

// fold is the text of an expression, with what is only known later between ‹ and ›; false
// where nothing of it is text.
func (f folder) fold(e ast.Expr) (text string, isText bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		if e.Kind == token.STRING {
			f.folded[e] = true
			text, _ = strconv.Unquote(e.Value)
			return formatVerb.ReplaceAllString(text, "‹$0›"), true
		}
	case *ast.ParenExpr:
		return f.fold(e.X)
	case *ast.BinaryExpr:
		if e.Op == token.ADD {
			left, leftIs := f.fold(e.X)
			right, rightIs := f.fold(e.Y)
			f.folded[e.X], f.folded[e.Y] = true, true
			return left + right, leftIs || rightIs
		}
	case *ast.CallExpr:
		if f.source(e.Fun) == "fmt.Sprintf" {
			return f.formatted(e)
		}
	}
	return "‹" + f.source(e) + "›", false
}

// formatted is what Sprintf makes of its arguments.
func (f folder) formatted(call *ast.CallExpr) (string, bool) {
	text, isText := f.fold(call.Args[0])
	next := 0
	return regexp.MustCompile(`‹%[^›]*›`).ReplaceAllStringFunc(text, func(verb string) string {
		if next++; next < len(call.Args) {
			verb, _ = f.fold(call.Args[next])
		}
		return verb
	}), isText
}

func (f folder) source(e ast.Expr) string {
	var text bytes.Buffer
	printer.Fprint(&text, f.files, e)
	return strings.NewReplacer("‹", "", "›", "").Replace(text.String())
}
