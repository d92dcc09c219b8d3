package desk

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/labels"
	"steeltally/labels/spool"
	"steeltally/templates"
)

// tagWork is a job being carried out.
type tagWork struct {
	asked   TagJob // as it was given
	job     TagJob // with what the printer says
	library templates.Library
	machine spool.Settings
	printer *spool.Printer // nil: the tags go to a file
	groups  []*sheetGroup  // one for each sheet, in the order of their first tags
	order   []*sheetGroup  // of each tag
	printed Printed
}

// sheetGroup is the tags that go on sheets of one sort.
type sheetGroup struct {
	sheet *templates.Sheet
	start int // first label
	tags  []labels.Page
}

// templatesFolder is where a book keeps its club's own templates and sheets.
const templatesFolder = "templates"

// library is the templates and sheets that the book's club has: the program's own, and
// before them those in the book's folder.
func (o Options) library() templates.Library {
	return templates.WithOwn(os.DirFS(filepath.Join(o.Book, templatesFolder)))
}

// tagWork finds the printer and what it has loaded.
func (d *Desk) tagWork(job TagJob) (*tagWork, error) {
	w := &tagWork{asked: job, job: job, library: d.options.library()}
	if job.Out != "" && job.Printer != "" {
		return nil, &inventory.BadValue{Reason: "tags go to a file or to a printer", Hint: "leave --out or --print out"}
	}
	var err error
	if w.machine, err = spool.Load(d.options.Machine); err != nil && job.Printer != "" {
		return nil, err
	} else if err != nil {
		w.tell(err.Error(), "a file needs none of them; mend or delete that file")
	}
	if job.Printer != "" {
		if w.printer, err = w.machine.Printer(job.Printer); err != nil {
			return nil, unknownPrinter(err)
		}
		w.job.Sheet = cmp.Or(job.Sheet, w.printer.Sheet)
		if job.DPI == 0 {
			w.job.DPI = w.printer.DPI
		}
	}
	if w.job.DPI == 0 {
		w.job.DPI = DefaultDPI
	}
	return w, nil
}

func unknownPrinter(err error) error {
	return &inventory.BadValue{Reason: err.Error(), Hint: "steeltally printer add NAME --queue QUEUE --sheet roll-70x35 --dpi 203"}
}

// layAll lays every tag out, looking at one state of the record.
func (w *tagWork) layAll(d *Desk) error {
	known := map[string]*templates.Template{}
	return d.ask(func(v inventory.View, at time.Time) error {
		pieces, err := w.meant(v, at)
		if err != nil {
			return err
		}
		for i, n := range pieces {
			name := w.job.templateFor(v, n, at)
			if known[name] == nil {
				template, err := w.template(name)
				if err != nil {
					return err
				}
				known[name] = template
			}
			if err := w.lay(d, v, known[name], n); err != nil {
				return err
			}
			if w.job.Progress != nil {
				w.job.Progress(i+1, len(pieces))
			}
		}
		return nil
	})
}

func (w *tagWork) template(name string) (*templates.Template, error) {
	template, err := w.library.Tag(name)
	if err != nil {
		return nil, &inventory.BadValue{Reason: err.Error(), Hint: "there are " + strings.Join(w.library.Tags(), ", ")}
	}
	return template, nil
}

// lay lays one tag out and puts it with those of its sheet.
func (w *tagWork) lay(d *Desk, v inventory.View, template *templates.Template, n inventory.Number) error {
	if err := checkKind(template.Name, n.Kind()); err != nil {
		return err
	}
	content, err := d.content(v, n, d.Instant())
	if err != nil {
		return err
	}
	page, err := labels.Layout(template, content, w.job.DPI)
	if err != nil {
		return &inventory.BadValue{Reason: err.Error()}
	}
	group, err := w.groupFor(template)
	if err != nil {
		return err
	}
	group.tags = append(group.tags, page)
	w.order = append(w.order, group)
	w.printed.Each = append(w.printed.Each, printedBefore(v, template.Name, n, d.Instant()))
	for _, told := range page.Notices {
		w.tell(fmt.Sprintf("tag %s: %s", content.Short, told), "")
	}
	return nil
}

func (w *tagWork) tell(text, hint string) {
	w.printed.Notices = append(w.printed.Notices, inventory.Notice{Text: text, Hint: hint})
}

// groupFor finds or begins the group of the sheet that a template's tags go on.
func (w *tagWork) groupFor(template *templates.Template) (*sheetGroup, error) {
	sheet, err := sheetFor(w.library, template, cmp.Or(w.job.Sheet, usualSheet(template.Name)))
	if err != nil {
		return nil, err
	}
	for _, group := range w.groups {
		if group.sheet.Name == sheet.Name {
			return group, nil
		}
	}
	group := &sheetGroup{sheet: sheet, start: w.startOn(sheet)}
	w.groups = append(w.groups, group)
	return group, nil
}

// usualSheet is the sheet that a template's tags belong on where none is told; empty is
// a roll.
func usualSheet(template string) string {
	if template == "action" {
		return "a4-2x5" // a card of all of them, side by side
	}
	return ""
}

// sheetFor is the sheet that was asked for, or the smallest roll that the tag fits on.
func sheetFor(library templates.Library, template *templates.Template, asked string) (*templates.Sheet, error) {
	if asked == "" {
		for _, name := range library.FittingSheets(template) {
			if strings.HasPrefix(name, "roll-") {
				return library.Sheet(name)
			}
		}
		return nil, &inventory.BadValue{Reason: "no roll holds a tag " + template.Name, Hint: "name a sheet: --sheet " + strings.Join(library.FittingSheets(template), ", ")}
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

// pages puts all tags on their sheets, where the printer needs them.
func (w *tagWork) pages() ([]labels.Page, error) {
	var pages []labels.Page
	for _, group := range w.groups {
		sheet := *group.sheet
		if w.printer != nil {
			sheet = w.printer.Corrected(sheet)
		}
		sheets, err := labels.Imposition{Sheet: &sheet, Start: group.start, CutMarks: w.job.CutMarks}.Impose(group.tags)
		if err != nil {
			return nil, &inventory.BadValue{Reason: err.Error()}
		}
		pages = append(pages, sheets...)
	}
	return pages, nil
}
