package desk

import (
	"bytes"
	"context"
	"fmt"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/labels"
	"steeltally/labels/spool"
	"steeltally/templates"
)

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
	if came.Job, err = (spool.Spooler{}).Submit(context.Background(), job, &file); err != nil {
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
