package desk

import (
	"context"
	"errors"
	"os"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/labels/spool"
)

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
	if err := (spool.Spooler{}).Ready(context.Background(), p.Queue); err != nil {
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
		if err := (spool.Spooler{}).Ready(context.Background(), p.Queue); err != nil {
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
