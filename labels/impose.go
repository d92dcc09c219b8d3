package labels

import (
	"errors"
	"fmt"
	"strings"

	"steeltally/geometry"
	"steeltally/templates"
)

// Imposition says how tags go on a sheet.
type Imposition struct {
	Sheet    *templates.Sheet
	Start    int  // first free cell, from 1; 0 means 1
	CutMarks bool // ticks at the corners of each cell in use
}

// ErrTooBig says that a tag is larger than the sheet's cells.
var ErrTooBig = errors.New("the tag is larger than the label")

// ErrStart says that a sheet has no such cell.
var ErrStart = errors.New("no such label on the sheet")

// Impose puts tags on as many sheets as they need, cell by cell. All tags must be of
// one resolution. A tag smaller than its cell stands at the cell's top left with its
// own outline around it.
func (i Imposition) Impose(tags []Page) ([]Page, error) {
	if len(tags) == 0 {
		return nil, errors.New("no tags to put on a sheet")
	}
	start := max(i.Start, 1)
	if start > i.Sheet.Cells() {
		return nil, fmt.Errorf("%w: %s has labels 1 to %d, not %d", ErrStart, i.Sheet.Name, i.Sheet.Cells(), start)
	}
	var sheets []Page
	for n, tag := range tags {
		if err := i.check(tag, tags[0].DPI); err != nil {
			return nil, err
		}
		cell := (start - 1 + n) % i.Sheet.Cells()
		if n == 0 || cell == 0 {
			sheets = append(sheets, i.empty(tag.DPI))
		}
		i.put(&sheets[len(sheets)-1], tag, cell)
	}
	return sheets, nil
}

// check refuses a tag that the sheet cannot take.
func (i Imposition) check(tag Page, dpi geometry.DPI) error {
	if tag.DPI != dpi {
		return fmt.Errorf("tags of %d and %d dpi do not go on one sheet", dpi, tag.DPI)
	}
	width, height := i.Sheet.CellWidth.Dots(dpi), i.Sheet.CellHeight.Dots(dpi)
	if tag.Width > width || tag.Height > height {
		return fmt.Errorf("%w: %s by %s on labels of %s by %s (%s)", ErrTooBig, tag.Width.Millimetres(dpi), tag.Height.Millimetres(dpi),
			i.Sheet.CellWidth, i.Sheet.CellHeight, i.Sheet.Name)
	}
	return nil
}

// CheckFit refuses a template that is larger than the sheet's labels, and says which
// sheets of the library would do.
func CheckFit(l templates.Library, t *templates.Template, s *templates.Sheet) error {
	if s.Fits(t.Width, t.Height) {
		return nil
	}
	fitting := l.FittingSheets(t)
	if len(fitting) == 0 {
		return fmt.Errorf("%w: %s is %s by %s; no known sheet has labels as large", ErrTooBig, t.Name, t.Width, t.Height)
	}
	return fmt.Errorf("%w: %s is %s by %s, the labels of %s are %s by %s; it fits on %s", ErrTooBig,
		t.Name, t.Width, t.Height, s.Name, s.CellWidth, s.CellHeight, strings.Join(fitting, ", "))
}

// empty is a sheet without tags.
func (i Imposition) empty(dpi geometry.DPI) Page {
	return Page{Name: i.Sheet.Name, DPI: dpi, Width: i.Sheet.Width.Dots(dpi), Height: i.Sheet.Height.Dots(dpi)}
}

// put copies a tag into a cell.
func (i Imposition) put(sheet *Page, tag Page, cell int) {
	box := i.Sheet.Cell(cell)
	x, y := box.X.Dots(tag.DPI), box.Y.Dots(tag.DPI)
	sheet.Ink = appendMoved(sheet.Ink, tag.Ink, x, y)
	sheet.Marks = appendMoved(sheet.Marks, tag.Marks, x, y)
	sheet.Holes = appendMoved(sheet.Holes, tag.Holes, x, y)
	for _, s := range tag.Symbols {
		s.Area = s.Area.Moved(x, y)
		sheet.Symbols = append(sheet.Symbols, s)
	}
	for _, run := range tag.Texts {
		run.X, run.Baseline, run.Ink = run.X+x, run.Baseline+y, run.Ink.Moved(x, y)
		sheet.Texts = append(sheet.Texts, run)
	}
	sheet.Notices = append(sheet.Notices, tag.Notices...)
	i.mark(sheet, tag, geometry.Rect{X: x, Y: y, Width: box.Right().Dots(tag.DPI) - x, Height: box.Bottom().Dots(tag.DPI) - y})
}

// appendMoved appends rectangles shifted by x and y.
func appendMoved(to, from []geometry.Rect, x, y geometry.Dot) []geometry.Rect {
	for _, r := range from {
		to = append(to, r.Moved(x, y))
	}
	return to
}

// tick is the length of a cut mark along each edge of a corner.
const tick geometry.Millimetre = 2

// mark outlines a tag that does not fill its cell, and ticks the cell's corners if
// cut marks are wanted.
func (i Imposition) mark(sheet *Page, tag Page, cell geometry.Rect) {
	width := max(guideWidth.Dots(tag.DPI), 1)
	own := geometry.Rect{X: cell.X, Y: cell.Y, Width: tag.Width, Height: tag.Height}
	if right := cell.Right() - own.Right(); right > width {
		sheet.Marks = append(sheet.Marks, geometry.Rect{X: own.Right(), Y: own.Y, Width: width, Height: own.Height})
	}
	if below := cell.Bottom() - own.Bottom(); below > width {
		sheet.Marks = append(sheet.Marks, geometry.Rect{X: own.X, Y: own.Bottom(), Width: own.Width, Height: width})
	}
	if i.CutMarks {
		sheet.Marks = append(sheet.Marks, corners(own, tick.Dots(tag.DPI), width)...)
	}
}

// corners are two ticks along the edges at each corner of a rectangle, inside it.
func corners(r geometry.Rect, length, width geometry.Dot) []geometry.Rect {
	var ticks []geometry.Rect
	for _, x := range []geometry.Dot{r.X, r.Right() - length} {
		for _, y := range []geometry.Dot{r.Y, r.Bottom() - width} {
			ticks = append(ticks, geometry.Rect{X: x, Y: y, Width: length, Height: width})
		}
	}
	for _, x := range []geometry.Dot{r.X, r.Right() - width} {
		for _, y := range []geometry.Dot{r.Y, r.Bottom() - length} {
			ticks = append(ticks, geometry.Rect{X: x, Y: y, Width: width, Height: length})
		}
	}
	return ticks
}
