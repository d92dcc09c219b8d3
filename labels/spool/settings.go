package spool

import (
	"fmt"
	"slices"
	"strings"
)

// Settings are what belongs to a machine: its printers, and the first free label of
// each part-used sheet.
type Settings struct {
	Printers []Printer
	Starts   map[string]int
}

// UnknownPrinter says that a machine has no printer of a name.
type UnknownPrinter struct {
	Name  string
	Known []string
}

func (e *UnknownPrinter) Error() string {
	if len(e.Known) == 0 {
		return fmt.Sprintf("no printer is set up on this machine, so none is called %q", e.Name)
	}
	return fmt.Sprintf("no printer is called %q; there are %s", e.Name, strings.Join(e.Known, ", "))
}

// Printer is the printer of a name, or an *UnknownPrinter error.
func (s *Settings) Printer(name string) (*Printer, error) {
	at := slices.IndexFunc(s.Printers, func(p Printer) bool { return p.Name == name })
	if at < 0 {
		unknown := &UnknownPrinter{Name: name}
		for _, p := range s.Printers {
			unknown.Known = append(unknown.Known, p.Name)
		}
		return nil, unknown
	}
	return &s.Printers[at], nil
}

// Put adds a printer, or takes the place of the one with its name.
func (s *Settings) Put(p Printer) {
	if at := slices.IndexFunc(s.Printers, func(o Printer) bool { return o.Name == p.Name }); at >= 0 {
		s.Printers[at] = p
		return
	}
	s.Printers = append(s.Printers, p)
}

// Remove takes a printer away.
func (s *Settings) Remove(name string) error {
	if _, err := s.Printer(name); err != nil {
		return err
	}
	s.Printers = slices.DeleteFunc(s.Printers, func(p Printer) bool { return p.Name == name })
	return nil
}

// Start is the first free label of a sheet, from 1, and whether it is a remembered one.
func (s Settings) Start(sheet string) (start int, remembered bool) {
	if start := s.Starts[sheet]; start > 0 {
		return start, true
	}
	return 1, false
}

// SetStart remembers the first free label of a sheet.
func (s *Settings) SetStart(sheet string, start int) {
	if s.Starts == nil {
		s.Starts = map[string]int{}
	}
	s.Starts[sheet] = start
}

func (s Settings) check() error {
	for _, p := range s.Printers {
		if err := p.check(); err != nil {
			return err
		}
	}
	return nil
}
