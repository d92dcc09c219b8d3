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

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/labels"
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

// TemplateCheck is what is wrong with a template or a sheet, and where it can be used.
type TemplateCheck struct {
	File   string   `json:"file"`
	About  string   `json:"about,omitempty"`
	Faults []string `json:"faults"` // each with its line where it has one
	Sheets []string `json:"sheets,omitempty"`
}

// CheckTemplate reads a template's file and lays it out with a tag of every sort: left,
// right, neither, not to be skated on, nearly empty, at each usual resolution.
func CheckTemplate(o Options, file string, source []byte) TemplateCheck {
	check := TemplateCheck{File: file, Faults: []string{}}
	template, err := templates.Parse(nameOfFile(file), source)
	if err != nil {
		check.Faults = strings.Split(err.Error(), "\n")
		return check
	}
	check.About = fmt.Sprintf("%s, %g x %g mm", template.Title, float64(template.Width), float64(template.Height))
	check.Sheets = o.library().FittingSheets(template)
	if len(check.Sheets) == 0 {
		check.add("no sheet or roll holds a tag as large: describe one in the book's templates/sheets")
	}
	for _, dpi := range []geometry.DPI{203, 300, 600} {
		for _, trial := range trials() {
			check.lay(template, trial, dpi)
		}
	}
	return check
}

// CheckSheet reads a sheet's file.
func CheckSheet(file string, source []byte) TemplateCheck {
	check := TemplateCheck{File: file, Faults: []string{}}
	sheet, err := templates.ParseSheet(nameOfFile(file), source)
	if err != nil {
		check.Faults = strings.Split(err.Error(), "\n")
		return check
	}
	check.About = sheet.Describe()
	return check
}

// trial is a content that a template has to show.
type trial struct {
	sort    string
	content templates.Content
}

// trials are tags of every sort.
func trials() []trial {
	full := templates.Sample()
	unsafe, right, none := full, full, full
	unsafe.Unsafe, right.Side, none.Side = true, "right", ""
	bare := templates.Content{Number: full.Number, Short: full.Short, Kind: full.Kind, Name: full.Name, Word: full.Word}
	return []trial{{"a left one", full}, {"a right one", right}, {"one without a side", none}, {"one not to be skated on", unsafe}, {"a blank one", bare}}
}

// lay lays out one tag and notes what is wrong with it, each fault once.
func (c *TemplateCheck) lay(template *templates.Template, t trial, dpi geometry.DPI) {
	page, err := labels.Layout(template, t.content, dpi)
	faults := page.Faults()
	if err != nil {
		faults = []string{err.Error()}
	}
	for _, fault := range faults {
		if !c.has(fault) {
			c.add(fmt.Sprintf("%s at %d dpi: %s", t.sort, dpi, fault))
		}
	}
}

func (c *TemplateCheck) has(fault string) bool {
	return slices.ContainsFunc(c.Faults, func(known string) bool { return strings.HasSuffix(known, fault) })
}

func (c *TemplateCheck) add(fault string) { c.Faults = append(c.Faults, fault) }
