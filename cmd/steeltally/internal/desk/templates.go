package desk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"steeltally/inventory"
	"steeltally/labels/spool"
	"steeltally/templates"
)

// TemplateLine is a template in a list.
type TemplateLine struct {
	Name   string   `json:"name"`
	Title  string   `json:"title"`
	Width  float64  `json:"width_mm"`
	Height float64  `json:"height_mm"`
	Own    bool     `json:"own"`              // the club's, from the book's folder
	Fault  string   `json:"fault,omitempty"`  // why it can't be used
	Sheets []string `json:"sheets,omitempty"` // that it fits on, the tightest first
}

// Templates lists the tags that there are.
func Templates(o Options) []TemplateLine {
	library := o.library()
	lines := []TemplateLine{}
	for _, name := range library.Tags() {
		line := TemplateLine{Name: name, Own: o.isOwn("tags", name)}
		if template, err := library.Tag(name); err != nil {
			line.Fault = err.Error()
		} else {
			line.Title, line.Width, line.Height = template.Title, float64(template.Width), float64(template.Height)
			line.Sheets = library.FittingSheets(template)
		}
		lines = append(lines, line)
	}
	return lines
}

// SheetLine is a sheet or roll in a list.
type SheetLine struct {
	Name   string `json:"name"`
	About  string `json:"about"`
	Labels int    `json:"labels"`
	Own    bool   `json:"own"`
	Start  int    `json:"first_free_label"`
	Fault  string `json:"fault,omitempty"`
}

// Sheets lists the sheets and rolls that there are, and where part-used ones go on.
func Sheets(o Options) ([]SheetLine, error) {
	library := o.library()
	settings, err := spool.Load(o.Machine)
	if err != nil {
		return nil, err
	}
	lines := []SheetLine{}
	for _, name := range library.Sheets() {
		line := SheetLine{Name: name, Own: o.isOwn("sheets", name), Start: 1}
		if sheet, err := library.Sheet(name); err != nil {
			line.Fault = err.Error()
		} else {
			line.About, line.Labels = sheet.Describe(), sheet.Cells()
			line.Start, _ = settings.Start(name)
		}
		lines = append(lines, line)
	}
	return lines, nil
}

// ownFile is where a book keeps a template or sheet of its club.
func (o Options) ownFile(folder, name string) string {
	return filepath.Join(o.Book, templatesFolder, folder, name+".toml")
}

func (o Options) isOwn(folder, name string) bool {
	_, err := os.Stat(o.ownFile(folder, name))
	return err == nil
}

var templateName = regexp.MustCompile(`^[a-z0-9][a-z0-9-]{0,39}$`)

// NewTemplate starts a club's own template from another one, in the book's folder, and
// gives the file. Nothing is written over.
func NewTemplate(o Options, name, from string) (file string, replaces bool, err error) {
	if !templateName.MatchString(name) {
		return "", false, &inventory.BadValue{Reason: fmt.Sprintf("%q is no name for a template", name), Hint: "use small letters, digits and -"}
	}
	library := o.library()
	source, err := library.TagSource(from)
	if err != nil {
		return "", false, &inventory.BadValue{Reason: err.Error()}
	}
	if info, err := os.Stat(o.Book); err != nil || !info.IsDir() {
		return "", false, &inventory.Refusal{Reason: "there is no book at " + o.Book + " to keep the template in", Hint: "make one with steeltally init, or name another folder with --book"}
	}
	file = o.ownFile("tags", name)
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return file, false, err
	}
	if _, err := os.Stat(file); !errors.Is(err, fs.ErrNotExist) {
		return file, false, &inventory.Refusal{Reason: file + " is there already", Hint: "change it, or choose another name"}
	}
	replaces = slices.Contains(templates.Embedded().Tags(), name)
	return file, replaces, o.outlet(file).write(func(w io.Writer) error {
		_, err := w.Write(source)
		return err
	})
}

// nameOfFile is a file's name without folder and ending, as a template is called.
func nameOfFile(file string) string {
	return strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
}
