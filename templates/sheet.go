package templates

import (
	"fmt"

	"github.com/BurntSushi/toml"

	"steeltally/geometry"
)

// Sheet is the geometry of a sheet or roll of labels. On a roll each page is one
// label. It is never named by a maker's stock number.
type Sheet struct {
	Name          string
	Title         string
	Width, Height geometry.Millimetre // of the page
	CellWidth     geometry.Millimetre
	CellHeight    geometry.Millimetre
	Columns, Rows int
	Left, Top     geometry.Millimetre // of the first cell
	PitchX        geometry.Millimetre // from one cell's left edge to the next one's
	PitchY        geometry.Millimetre
}

// Cells is the number of labels on a page.
func (s *Sheet) Cells() int { return s.Columns * s.Rows }

// Cell is the place of a cell on the page, counted from 0, row by row.
func (s *Sheet) Cell(n int) Box {
	column, row := n%s.Columns, n/s.Columns
	return Box{
		X:     s.Left + geometry.Millimetre(column)*s.PitchX,
		Y:     s.Top + geometry.Millimetre(row)*s.PitchY,
		Width: s.CellWidth, Height: s.CellHeight,
	}
}

// Fits tells whether a tag of a size goes into a cell.
func (s *Sheet) Fits(width, height geometry.Millimetre) bool {
	return width <= s.CellWidth+tolerance && height <= s.CellHeight+tolerance
}

// writtenSheet is a sheet's file as it is written; lengths are millimetres.
type writtenSheet struct {
	Title         string
	Page, Cell    []float64
	Columns, Rows int
	First, Pitch  []float64
}

// ParseSheet reads and checks a sheet's file. A roll has no columns, rows, first or
// pitch: its page is its cell.
func ParseSheet(name string, source []byte) (*Sheet, error) {
	if err := checkExtent(name, source); err != nil {
		return nil, err
	}
	var w writtenSheet
	meta, err := toml.Decode(string(source), &w)
	if err != nil {
		return nil, syntaxError(name, err)
	}
	p := &parser{name: name, lines: indexLines(source)}
	p.unknownKeys(meta, w, "sheet")
	s := p.sheet(w)
	if err := p.err(); err != nil {
		return nil, err
	}
	return s, nil
}

// sheet builds a sheet; the faults tell whether it may be used.
func (p *parser) sheet(w writtenSheet) *Sheet {
	s := &Sheet{Name: p.name, Title: w.Title, Columns: max(w.Columns, 1), Rows: max(w.Rows, 1)}
	s.Width, s.Height = p.size("page", w.Page)
	s.CellWidth, s.CellHeight = s.Width, s.Height
	if w.Cell != nil {
		s.CellWidth, s.CellHeight = p.size("cell", w.Cell)
	}
	s.PitchX, s.PitchY = s.CellWidth, s.CellHeight
	if w.First != nil {
		s.Left, s.Top = p.point("first", w.First, Box{Width: s.Width, Height: s.Height})
	}
	if w.Pitch != nil {
		s.PitchX, s.PitchY = p.size("pitch", w.Pitch)
	}
	p.cells(s)
	return s
}

// cells checks that the cells lie on the page and beside one another.
func (p *parser) cells(s *Sheet) {
	if s.PitchX < s.CellWidth-tolerance || s.PitchY < s.CellHeight-tolerance {
		p.wrong("pitch", "cells of %s by %s overlap at a pitch of %s by %s", s.CellWidth, s.CellHeight, s.PitchX, s.PitchY)
	}
	last := s.Cell(s.Cells() - 1)
	if last.Right() > s.Width+tolerance || last.Bottom() > s.Height+tolerance {
		p.wrong("first", "the last cell ends at %s, %s: outside the page", last.Right(), last.Bottom())
	}
	if s.Title == "" {
		p.wrong("title", "a sheet needs a title that says what it is")
	}
}

// Describe is the sheet's geometry in one line.
func (s *Sheet) Describe() string {
	if s.Cells() == 1 && s.CellWidth == s.Width && s.CellHeight == s.Height {
		return fmt.Sprintf("%s, %g x %g mm", s.Title, float64(s.Width), float64(s.Height))
	}
	return fmt.Sprintf("%s, %d x %d cells of %g x %g mm", s.Title, s.Columns, s.Rows, float64(s.CellWidth), float64(s.CellHeight))
}
