// Package report lays out plain pages of tables, black on white, to be read on paper
// beside the bench. Its pages are drawn by the same renderers as tags.
package report

import (
	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/lettering"
)

// Report is what to print.
type Report struct {
	Title  string
	Notes  []string // lines below the title
	Tables []Table
}

// Table is one table with headed columns.
type Table struct {
	Title   string
	Notes   []string // lines below the title, such as where its figures come from
	Columns []Column
	Rows    [][]string // as many cells as columns; missing ones are empty
	Empty   string     // what to say when there are no rows
}

// Column is one column of a table.
type Column struct {
	Title string
	Right bool // figures stand at its right edge
}

// Paper is a sheet of paper.
type Paper struct {
	Name          string
	Width, Height geometry.Millimetre
}

// The papers that reports are printed on.
func A4() Paper { return Paper{"a4", 210, 297} }

// Letter is North American letter paper, 8.5 by 11 inches.
func Letter() Paper {
	return Paper{"letter", geometry.Inch(8.5).Millimetres(), geometry.Inch(11).Millimetres()}
}

// Sizes of a page in millimetres: letters by the height of their capitals.
const (
	margin       geometry.Millimetre = 15
	titleHeight  geometry.Millimetre = 5
	headHeight   geometry.Millimetre = 3.2
	textHeight   geometry.Millimetre = 2.3
	lineDistance geometry.Millimetre = 4.4
	columnGap    geometry.Millimetre = 4
	ruleWidth    geometry.Millimetre = 0.25
)

// Pages lays the report out on as many pages as it needs. A letter that the face
// lacks becomes a box; the last page's notices name it.
func Pages(r Report, paper Paper, dpi geometry.DPI) []labels.Page {
	w := &writer{paper: paper, dpi: dpi, title: r.Title}
	w.newPage()
	w.line(lettering.Bold, titleHeight, r.Title)
	w.skip(lineDistance / 2)
	for _, note := range r.Notes {
		w.paragraph(note)
	}
	for _, t := range r.Tables {
		w.table(t)
	}
	return w.finish()
}
