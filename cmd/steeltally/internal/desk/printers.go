package desk

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/labels"
	"steeltally/labels/report"
	"steeltally/labels/spool"
	"steeltally/templates"
)

// until is what ends a wait for a printer.
func (o Options) until() context.Context {
	if o.Until == nil {
		return context.Background()
	}
	return o.Until
}

// Printer is a printer of this machine.
type Printer struct {
	Name   string       `json:"name"`
	Queue  string       `json:"queue"`
	Sheet  string       `json:"sheet"`
	DPI    geometry.DPI `json:"dpi"`
	Offset string       `json:"calibration"` // in words
	State  string       `json:"state"`       // ready, or what is wrong with it
}

// AddPrinter keeps a printer with what is loaded in it. One of that name keeps its
// calibration while queue and sheet stay the same.
func AddPrinter(o Options, p Printer) ([]inventory.Notice, error) {
	if _, err := o.library().Sheet(p.Sheet); err != nil {
		return nil, &inventory.BadValue{Reason: err.Error(), Hint: "steeltally sheet list shows what they are"}
	}
	added := spool.Printer{Name: p.Name, Queue: p.Queue, Sheet: p.Sheet, DPI: p.DPI}
	err := spool.Change(o.Machine, func(s *spool.Settings) error {
		if before, err := s.Printer(p.Name); err == nil && before.Queue == p.Queue && before.Sheet == p.Sheet {
			added.Offset = before.Offset
		}
		s.Put(added)
		return nil
	})
	if err != nil {
		return nil, notSettings(err)
	}
	o.stands("printer %s is set up: steeltally printer list shows it", p.Name)
	if err := (spool.Spooler{}).Ready(o.until(), p.Queue); err != nil {
		return []inventory.Notice{{Text: err.Error(), Hint: HintOf(err)}}, nil
	}
	return nil, nil
}

// notSettings tells a wrong value from a file that can't be written.
func notSettings(err error) error {
	var file *os.PathError
	var unknown *spool.UnknownPrinter
	switch {
	case errors.As(err, &unknown):
		return unknownPrinter(err)
	case errors.As(err, &file):
		return err
	}
	return &inventory.BadValue{Reason: err.Error()}
}

// RemovePrinter forgets a printer.
func RemovePrinter(o Options, name string) error {
	err := spool.Change(o.Machine, func(s *spool.Settings) error { return s.Remove(name) })
	if err != nil {
		return notSettings(err)
	}
	o.stands("printer %s is forgotten", name)
	return nil
}

// Printers lists this machine's printers and asks how each is.
func Printers(o Options) ([]Printer, error) {
	settings, err := spool.Load(o.Machine)
	if err != nil {
		return nil, err
	}
	printers := []Printer{}
	for _, p := range settings.Printers {
		state := "ready"
		if err := (spool.Spooler{}).Ready(o.until(), p.Queue); err != nil {
			state = err.Error()
		}
		printers = append(printers, Printer{p.Name, p.Queue, p.Sheet, p.DPI, p.Offset.String(), state})
	}
	return printers, nil
}

// CheckPrinter refuses the name of a printer that this machine does not have.
func CheckPrinter(o Options, name string) error {
	settings, err := spool.Load(o.Machine)
	if err != nil {
		return err
	}
	if _, err := settings.Printer(name); err != nil {
		return unknownPrinter(err)
	}
	return nil
}

// CalibrationPage is a page that came out for a printer.
type CalibrationPage struct {
	File string   `json:"file"`
	Job  string   `json:"job"`
	Ask  []string `json:"measure"` // what to measure on it, with what it should be: left, top, across, down
}

// PrintCalibration brings out a printer's calibration page, uncorrected: on the
// printer, or as a file.
func PrintCalibration(o Options, name, out string) (CalibrationPage, error) {
	printer, sheet, err := o.printer(name)
	if err != nil {
		return CalibrationPage{}, err
	}
	page, err := calibrationPage(printer, sheet)
	if err != nil {
		return CalibrationPage{}, err
	}
	came := CalibrationPage{File: out, Ask: spool.MarksOn(sheet.Width, sheet.Height).Ask()}
	if out != "" {
		return came, writeTags(o.outlet(out), []labels.Page{page})
	}
	var file bytes.Buffer
	if err := pdfTo(&file, []labels.Page{page}); err != nil {
		return came, err
	}
	job := spool.Job{Queue: printer.Queue, Title: "Steeltally: calibration", Width: sheet.Width, Height: sheet.Height}
	if came.Job, err = (spool.Spooler{}).Submit(o.until(), job, &file); err != nil {
		return came, &PrintError{Cause: err, Reprint: "steeltally printer calibrate " + name}
	}
	o.stands("the page is on its way to %s, job %s", name, came.Job)
	return came, nil
}

func calibrationPage(printer *spool.Printer, sheet *templates.Sheet) (labels.Page, error) {
	template, err := spool.CalibrationPage(sheet)
	if err != nil {
		return labels.Page{}, err
	}
	return labels.Layout(template, templates.Content{}, printer.DPI)
}

// printer finds a printer of this machine and what is loaded in it.
func (o Options) printer(name string) (*spool.Printer, *templates.Sheet, error) {
	settings, err := spool.Load(o.Machine)
	if err != nil {
		return nil, nil, err
	}
	printer, err := settings.Printer(name)
	if err != nil {
		return nil, nil, unknownPrinter(err)
	}
	sheet, err := o.library().Sheet(printer.Sheet)
	if err != nil {
		return nil, nil, &inventory.BadValue{Reason: err.Error(), Hint: fmt.Sprintf("name another one: steeltally printer add %s --queue %s --sheet SHEET", inventory.Quoted(name), inventory.Quoted(printer.Queue))}
	}
	return printer, sheet, nil
}

// Ruler is what was measured on a calibration page; nil is as it should be.
type Ruler struct{ Left, Top, Across, Down *geometry.Millimetre }

// Calibrate keeps how a printer prints off its mark, and says it in words.
func Calibrate(o Options, name string, ruler Ruler) (string, error) {
	_, sheet, err := o.printer(name)
	if err != nil {
		return "", err
	}
	marks := spool.MarksOn(sheet.Width, sheet.Height)
	offset, err := marks.Offset(spool.Measured{
		Left: measured(ruler.Left, marks.Left), Top: measured(ruler.Top, marks.Top),
		Across: measured(ruler.Across, marks.Right-marks.Left), Along: measured(ruler.Down, marks.Bottom-marks.Top),
	})
	if err != nil {
		return "", &inventory.BadValue{Reason: err.Error(), Hint: "measure again, in mm"}
	}
	err = spool.Change(o.Machine, func(s *spool.Settings) error {
		printer, err := s.Printer(name)
		if err == nil {
			printer.Offset = offset
		}
		return err
	})
	if err == nil {
		o.stands("printer %s is calibrated: steeltally printer list shows it", name)
	}
	return offset.String(), err
}

func measured(value *geometry.Millimetre, should geometry.Millimetre) geometry.Millimetre {
	if value == nil {
		return should
	}
	return *value
}

// Sheet says on what paper pages come out, and in which file.
type Sheet struct {
	File  string // the PDF to write
	Paper string // a4 or letter

	Stdout io.Writer         // what "-" stands for as the file
	Stands func(what string) // is told once the file is there, as Options has it
}

func (s Sheet) outlet() outlet { return outlet{s.File, s.Stdout, s.Stands} }

// Written is what came out on paper.
type Written struct {
	File    string             `json:"file"`
	Pages   int                `json:"pages"`
	Notices []inventory.Notice `json:"notices,omitempty"`
}

// reportDPI is what pages for reading are laid out in: an office printer's dots.
const reportDPI geometry.DPI = 600

func (s Sheet) paper() (report.Paper, error) {
	switch s.Paper {
	case "a4", "":
		return report.A4(), nil
	case "letter":
		return report.Letter(), nil
	}
	return report.Paper{}, &inventory.BadValue{Reason: "paper " + s.Paper + " is not known", Hint: "--paper a4 or --paper letter"}
}

// print writes a report's pages.
func (s Sheet) print(r report.Report) (Written, error) {
	paper, err := s.paper()
	if err != nil {
		return Written{}, err
	}
	return s.write(report.Pages(r, paper, reportDPI))
}

func (s Sheet) write(pages []labels.Page) (Written, error) {
	written := Written{File: s.File, Pages: len(pages)}
	for _, page := range pages {
		for _, notice := range page.Notices {
			written.Notices = append(written.Notices, inventory.Notice{Text: notice})
		}
	}
	return written, writePDF(s.outlet(), pages)
}
