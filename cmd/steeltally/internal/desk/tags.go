package desk

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/labels"
	"steeltally/labels/pdf"
	"steeltally/templates"
)

// DefaultDPI is the resolution of the usual tag printer.
const DefaultDPI geometry.DPI = 203

// TagJob says which tags shall come out, and where.
type TagJob struct {
	Pieces   []inventory.Number
	Template string // empty: by the kind of each piece
	Sheet    string // empty: the smallest roll that the tag fits on
	DPI      geometry.DPI
	Start    int // first free label of a part-used sheet, from 1
	CutMarks bool
	Out      string // the PDF to write
}

// Printed is what came out.
type Printed struct {
	File    string
	Tags    int
	Pages   int
	Notices []inventory.Notice
}

// PrintError says that tags did not come out although the record stands.
type PrintError struct {
	Cause   error
	Reprint string // the command that tries again
}

func (e *PrintError) Error() string { return "the tags did not come out: " + e.Cause.Error() }
func (e *PrintError) Unwrap() error { return e.Cause }

// PrintTags writes the tags of a job. The record is only read.
func (d *Desk) PrintTags(job TagJob) (Printed, error) {
	if job.DPI == 0 {
		job.DPI = DefaultDPI
	}
	pages, notices, err := d.layTags(job)
	if err != nil {
		return Printed{}, err
	}
	printed := Printed{File: job.Out, Tags: len(job.Pieces), Pages: len(pages), Notices: notices}
	return printed, writePDF(job.Out, pages)
}

// PrintAfter writes tags after something was recorded: a failure is a PrintError.
func (d *Desk) PrintAfter(job TagJob) (Printed, error) {
	printed, err := d.PrintTags(job)
	if err != nil {
		err = &PrintError{err, job.command()}
	}
	return printed, err
}

// command is what a person types to get the tags of a job again.
func (j TagJob) command() string {
	words := []string{"steeltally", "tag"}
	for _, n := range j.Pieces {
		words = append(words, n.Short())
	}
	if j.Template != "" {
		words = append(words, "--template", j.Template)
	}
	if j.Sheet != "" {
		words = append(words, "--sheet", j.Sheet)
	}
	return strings.Join(append(words, "--out", "tags.pdf"), " ")
}

// layTags lays every tag out and puts them on sheets; tags of different templates go
// on sheets of their own.
func (d *Desk) layTags(job TagJob) ([]labels.Page, []inventory.Notice, error) {
	library := templates.Embedded()
	var pages []labels.Page
	var notices []inventory.Notice
	for start := 0; start < len(job.Pieces); {
		name := job.templateFor(d, job.Pieces[start])
		end := start
		for end < len(job.Pieces) && job.templateFor(d, job.Pieces[end]) == name {
			end++
		}
		sheets, told, err := d.layRun(library, name, job, job.Pieces[start:end])
		if err != nil {
			return nil, nil, err
		}
		pages, notices = append(pages, sheets...), append(notices, told...)
		start = end
	}
	return pages, notices, nil
}

// templateFor is the template that was asked for, or the one for the piece: a removed
// runner's tag is tied on, a runner on the shelf has it on its sleeve.
func (j TagJob) templateFor(d *Desk, n inventory.Number) string {
	if j.Template != "" {
		return j.Template
	}
	switch n.Kind() {
	case inventory.KindHolder:
		return "holder-spot"
	case inventory.KindPair:
		return "pair"
	case inventory.KindSet:
		return "set"
	}
	name := "sleeve-strip"
	d.book.Read(func(v inventory.View) error {
		if runner, err := inventory.FindRunner(v, n); err == nil && runner.StateAt(d.Instant()) == inventory.Removed {
			name = "tie-on"
		}
		return nil
	})
	return name
}

// kindsOf lists which kinds of piece a template is for; an unknown one is for none.
func kindsOf(template string) []inventory.Kind {
	switch strings.TrimSuffix(template, "-folded") {
	case "tie-on":
		return []inventory.Kind{inventory.KindRunner, inventory.KindHolder}
	case "sleeve-strip", "sleeve-spot":
		return []inventory.Kind{inventory.KindRunner}
	case "holder-spot":
		return []inventory.Kind{inventory.KindHolder}
	case "set":
		return []inventory.Kind{inventory.KindSet}
	case "pair":
		return []inventory.Kind{inventory.KindPair}
	}
	return nil
}

// layRun lays out tags of one template and puts them on sheets.
func (d *Desk) layRun(library templates.Library, name string, job TagJob, pieces []inventory.Number) ([]labels.Page, []inventory.Notice, error) {
	template, err := library.Tag(name)
	if err != nil {
		return nil, nil, &inventory.BadValue{Reason: err.Error(), Hint: "there are " + strings.Join(library.Tags(), ", ")}
	}
	sheet, err := sheetFor(library, template, job.Sheet)
	if err != nil {
		return nil, nil, err
	}
	contents, err := d.contents(pieces, name)
	if err != nil {
		return nil, nil, err
	}
	var tags []labels.Page
	var notices []inventory.Notice
	for _, c := range contents {
		page, err := labels.Layout(template, c, job.DPI)
		if err != nil {
			return nil, nil, &inventory.BadValue{Reason: err.Error()}
		}
		for _, told := range page.Notices {
			notices = append(notices, inventory.Notice{Text: fmt.Sprintf("tag %s: %s", c.Short, told)})
		}
		tags = append(tags, page)
	}
	pages, err := labels.Imposition{Sheet: sheet, Start: job.Start, CutMarks: job.CutMarks}.Impose(tags)
	if err != nil {
		return nil, nil, &inventory.BadValue{Reason: err.Error()}
	}
	return pages, notices, nil
}

// contents gathers what the tags show, and refuses pieces that a template is not for.
func (d *Desk) contents(pieces []inventory.Number, template string) ([]templates.Content, error) {
	var contents []templates.Content
	err := d.book.Read(func(v inventory.View) error {
		for _, n := range pieces {
			if err := checkKind(template, n.Kind()); err != nil {
				return err
			}
			c, err := d.content(v, n, d.Instant())
			if err != nil {
				return err
			}
			contents = append(contents, c)
		}
		return nil
	})
	return contents, err
}

func checkKind(template string, kind inventory.Kind) error {
	kinds := kindsOf(template)
	for _, k := range kinds {
		if k == kind {
			return nil
		}
	}
	if len(kinds) == 0 {
		return &inventory.BadValue{Reason: "template " + template + " is not for pieces"}
	}
	return &inventory.BadValue{
		Reason: fmt.Sprintf("template %s is for a %s, not for a %s", template, kinds[0], kind),
		Hint:   "leave --template out to get the tag that goes with each piece",
	}
}

// sheetFor is the sheet that was asked for, or the smallest roll that the tag fits on.
func sheetFor(library templates.Library, template *templates.Template, asked string) (*templates.Sheet, error) {
	if asked == "" {
		for _, name := range library.FittingSheets(template) {
			if strings.HasPrefix(name, "roll-") {
				return library.Sheet(name)
			}
		}
	}
	sheet, err := library.Sheet(asked)
	if err != nil {
		return nil, &inventory.BadValue{Reason: err.Error(), Hint: "there are " + strings.Join(library.Sheets(), ", ")}
	}
	if err := labels.CheckFit(library, template, sheet); err != nil {
		return nil, &inventory.BadValue{Reason: err.Error()}
	}
	return sheet, nil
}

// writePDF writes pages to a file, which is there whole or not at all.
func writePDF(path string, pages []labels.Page) error {
	document, err := pdf.New()
	if err != nil {
		return err
	}
	for _, page := range pages {
		if err := document.Add(page); err != nil {
			return err
		}
	}
	return writeWhole(path, func(w io.Writer) error {
		_, err := document.WriteTo(w)
		return err
	})
}

// writeWhole writes a file beside its place and moves it there when it is whole.
func writeWhole(path string, write func(io.Writer) error) error {
	file, err := os.CreateTemp(filepath.Dir(path), ".steeltally-*")
	if err != nil {
		return err
	}
	defer os.Remove(file.Name())
	if err := write(file); err != nil {
		file.Close()
		return err
	}
	if err := file.Sync(); err != nil {
		file.Close()
		return err
	}
	if err := file.Close(); err != nil {
		return err
	}
	return os.Rename(file.Name(), path)
}
