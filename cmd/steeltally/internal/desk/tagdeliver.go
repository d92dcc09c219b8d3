package desk

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

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
	number, err := spool.Spooler{}.Submit(context.Background(), job, &file)
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
