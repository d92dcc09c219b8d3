package desk

import (
	"io"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/labels"
	"steeltally/labels/report"
)

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
