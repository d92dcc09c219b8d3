package templates

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"sort"
	"strings"
)

//go:embed tags/*.toml sheets/*.toml
var embedded embed.FS

const ending = ".toml"

// Library is the templates and sheets that a station knows: those that come with the
// program and, before them, the club's own.
type Library struct {
	own fs.FS // nil: none
}

// Embedded is the library that comes with the program.
func Embedded() Library { return Library{} }

// WithOwn is the library with a club's own folder in front: its "tags" and "sheets"
// hold files that add to the embedded ones or replace those of the same name.
func WithOwn(own fs.FS) Library { return Library{own: own} }

// Tag reads a tag's template by its name.
func (l Library) Tag(name string) (*Template, error) {
	source, err := l.source("tags", name)
	if err != nil {
		return nil, unknown("template", name, l.Tags(), err)
	}
	return Parse(name, source)
}

// Sheet reads a sheet by its name.
func (l Library) Sheet(name string) (*Sheet, error) {
	source, err := l.source("sheets", name)
	if err != nil {
		return nil, unknown("sheet", name, l.Sheets(), err)
	}
	return ParseSheet(name, source)
}

// TagSource is the text of a tag's file, to start an own one from.
func (l Library) TagSource(name string) ([]byte, error) {
	source, err := l.source("tags", name)
	if err != nil {
		return nil, unknown("template", name, l.Tags(), err)
	}
	return source, nil
}

// Tags are the names of all templates, in order.
func (l Library) Tags() []string { return l.names("tags") }

// Sheets are the names of all sheets, in order.
func (l Library) Sheets() []string { return l.names("sheets") }

// ErrUnknown says that there is no template or sheet of a name.
var ErrUnknown = errors.New("unknown")

// unknown names what there is instead.
func unknown(what, name string, known []string, err error) error {
	if !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, fs.ErrInvalid) {
		return fmt.Errorf("%s %q: %w", what, name, err)
	}
	return fmt.Errorf("%w %s %q: there are %s", ErrUnknown, what, name, strings.Join(known, ", "))
}

// source reads a file of the club's, or else the embedded one.
func (l Library) source(folder, name string) ([]byte, error) {
	file := path.Join(folder, name+ending)
	if !fs.ValidPath(file) || strings.ContainsAny(name, `/\`) {
		return nil, fs.ErrInvalid
	}
	if l.own != nil {
		source, err := fs.ReadFile(l.own, file)
		if err == nil || !errors.Is(err, fs.ErrNotExist) {
			return source, err
		}
	}
	return embedded.ReadFile(file)
}

// names lists a folder of both, each name once.
func (l Library) names(folder string) []string {
	found := map[string]bool{}
	for _, from := range []fs.FS{l.own, embedded} {
		if from == nil {
			continue
		}
		files, _ := fs.Glob(from, path.Join(folder, "*"+ending))
		for _, file := range files {
			found[strings.TrimSuffix(path.Base(file), ending)] = true
		}
	}
	var names []string
	for name := range found {
		names = append(names, name)
	}
	sort.Strings(names)
	return names
}

// FittingSheets are the names of the sheets whose cells hold a tag of the template's
// size, the tightest first. Sheets that cannot be read are left out.
func (l Library) FittingSheets(t *Template) []string {
	type fit struct {
		name string
		area float64
	}
	var fits []fit
	for _, name := range l.Sheets() {
		s, err := l.Sheet(name)
		if err == nil && s.Fits(t.Width, t.Height) {
			fits = append(fits, fit{name, float64(s.CellWidth * s.CellHeight)})
		}
	}
	sort.SliceStable(fits, func(i, j int) bool { return fits[i].area < fits[j].area })
	var names []string
	for _, f := range fits {
		names = append(names, f.name)
	}
	return names
}
