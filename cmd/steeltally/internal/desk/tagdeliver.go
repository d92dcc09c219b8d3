package desk

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/labels"
	"steeltally/labels/pdf"
	"steeltally/labels/png"
	"steeltally/labels/spool"
	"steeltally/templates"
)

// deliver writes the tags or hands them to the printer, and remembers where part-used
// sheets go on.
func (w *tagWork) deliver(d *Desk) (Printed, error) {
	pages, err := w.pages()
	if err != nil {
		return Printed{}, err
	}
	w.printed.Tags, w.printed.Pages = len(w.printed.Each), len(pages)
	switch {
	case w.printer != nil:
		err = w.toPrinter(d.options, pages)
	case w.job.To != nil:
		err = pdfTo(w.job.To, pages)
	default:
		w.printed.File, err = w.job.Out, writeTags(d.options.outlet(w.job.Out), pages)
	}
	if err != nil {
		return Printed{}, err
	}
	w.tellPrints(d)
	w.rememberStarts(d.options.Machine)
	return w.printed, nil
}

// toPrinter hands the pages to the printer's queue.
func (w *tagWork) toPrinter(o Options, pages []labels.Page) error {
	var file bytes.Buffer
	if err := pdfTo(&file, pages); err != nil {
		return err
	}
	sheet := w.groups[0].sheet // the printer has one sheet loaded, so there is one group
	job := spool.Job{Queue: w.printer.Queue, Title: "Steeltally: tags", Width: sheet.Width, Height: sheet.Height}
	number, err := spool.Spooler{}.Submit(o.until(), job, &file)
	if err != nil {
		return &PrintError{Cause: err, Reprint: w.asked.command()}
	}
	w.printed.Printer, w.printed.Job = w.printer.Name, number
	o.stands("the tags are on their way to %s, job %s", w.printer.Name, number)
	return nil
}

// startOn is the first label of a sheet: as told, or where it went on.
func (w *tagWork) startOn(sheet *templates.Sheet) int {
	if w.job.Start > 0 || sheet.Cells() == 1 {
		return max(w.job.Start, 1)
	}
	start, _ := w.machine.Start(sheet.Name)
	if start > 1 && start <= sheet.Cells() {
		w.tell(fmt.Sprintf("sheet %s goes on at label %d", sheet.Name, start), "for a fresh sheet add --start 1")
		return start
	}
	return 1
}

// rememberStarts keeps where sheets go on: of those whose start was told once, and of
// those that went to a printer.
func (w *tagWork) rememberStarts(machine string) {
	next := map[string]int{}
	for _, group := range w.groups {
		_, remembered := w.machine.Start(group.sheet.Name)
		if cells := group.sheet.Cells(); cells > 1 && (remembered || w.printer != nil || w.job.Start > 0) {
			next[group.sheet.Name] = (group.start-1+len(group.tags))%cells + 1
		}
	}
	if len(next) == 0 {
		return
	}
	err := spool.Change(machine, func(s *spool.Settings) error {
		for sheet, start := range next {
			s.SetStart(sheet, start)
		}
		return nil
	})
	if err != nil {
		w.tell("where the sheet goes on could not be remembered: "+err.Error(), "say it next time with --start")
	}
}

// Picture tells whether the tags came out as a picture to look at.
func (p Printed) Picture() bool { return isPicture(p.File) }

// isPicture tells whether a file is to be a picture, not a document.
func isPicture(file string) bool { return strings.EqualFold(filepath.Ext(file), ".png") }

// writeTags writes pages to a file: a PDF, or a picture for each page.
func writeTags(to outlet, pages []labels.Page) error {
	if !isPicture(to.path) {
		return writePDF(to, pages)
	}
	for i, page := range pages {
		one := to
		if len(pages) > 1 {
			ending := filepath.Ext(to.path)
			one.path = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(to.path, ending), i+1, ending)
		}
		if err := one.write(func(w io.Writer) error { return png.Write(w, page) }); err != nil {
			return err
		}
	}
	return nil
}

// pdfTo writes pages as a PDF.
func pdfTo(w io.Writer, pages []labels.Page) error {
	document, err := pdf.New()
	if err != nil {
		return err
	}
	for _, page := range pages {
		if err := document.Add(page); err != nil {
			return err
		}
	}
	_, err = document.WriteTo(w)
	return err
}

// writePDF writes pages as a PDF where a file goes.
func writePDF(to outlet, pages []labels.Page) error {
	return to.write(func(w io.Writer) error { return pdfTo(w, pages) })
}

// mostInEntry is how many tags one entry notes, so that the history of a piece whose tag
// came out with a thousand others stays short.
const mostInEntry = 50

// inventoryOf groups the tags that came out into what the record notes of them.
func (p Printed) inventoryOf() deeds.NotePrints {
	var notes deeds.NotePrints
	at := map[string]int{}
	for _, tag := range p.Each {
		if tag.blank {
			continue
		}
		if i, known := at[tag.Template]; !known || len(notes[i].Tags) == mostInEntry {
			at[tag.Template] = len(notes)
			notes = append(notes, inventory.Printed{Template: tag.Template, Printer: p.Printer, Job: p.Job})
		}
		note := &notes[at[tag.Template]]
		note.Tags = append(note.Tags, inventory.TagOfPiece{Piece: tag.Number, Generation: tag.Generation})
	}
	return notes
}

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
