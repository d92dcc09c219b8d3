package desk

import (
	"fmt"
	"slices"
	"strings"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/templates"
)

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
