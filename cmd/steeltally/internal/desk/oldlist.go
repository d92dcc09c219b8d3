package desk

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// OldFields are what a column of a club's own list of old pieces can mean.
func OldFields() []string { return []string{"inscription", "player", "side", "off", "place"} }

// OldFile is a club's own list of old pieces as a file.
type OldFile struct {
	Rows     io.Reader         // as a spreadsheet saves them, the first names the columns
	Encoding string            // one of TextEncodings; empty: UTF-8
	Columns  map[string]string // from a field of OldFields to the column that holds it
}

// OldList is a list of old pieces as it was read, before any book was looked at.
type OldList struct {
	rows   []oldRow
	faults []*RowError // rows that can't be read
}

// oldRow is a row's cells by what they mean.
type oldRow struct {
	row   int
	cells map[string]string
}

// ReadOldList reads a list. It needs no book, so that none is held meanwhile.
func ReadOldList(file OldFile) (OldList, error) {
	var list OldList
	sheet, err := readSpreadsheet(file.Rows, file.Encoding)
	if err != nil {
		return list, err
	}
	_, head, err := sheet.next()
	if errors.Is(err, io.EOF) {
		return list, &inventory.BadValue{Reason: "the list is empty", Hint: "its first row names the columns"}
	}
	if err != nil {
		return list, &inventory.BadValue{Reason: err.Error(), Hint: HintOf(err)}
	}
	columns, err := columnsOf(head, file.Columns)
	if err != nil {
		return list, err
	}
	return list, list.read(sheet, columns)
}

// read takes the rows in, blank ones left out.
func (l *OldList) read(sheet *spreadsheet, columns map[string]int) error {
	for {
		row, cells, err := sheet.next()
		var fault *RowError
		switch {
		case errors.Is(err, io.EOF):
			return nil
		case errors.As(err, &fault):
			l.faults = append(l.faults, fault)
		case err != nil:
			return err // the file can't be read on
		case !isBlank(cells):
			meant := map[string]string{}
			for field, at := range columns {
				meant[field] = strings.TrimSpace(cells[at])
			}
			l.rows = append(l.rows, oldRow{row, meant})
		}
		if l.count() > deeds.MostOld {
			return &inventory.BadValue{Reason: fmt.Sprintf("the list has more than %d rows", deeds.MostOld), Hint: "enter it by parts"}
		}
	}
}

func (l *OldList) count() int { return len(l.rows) + len(l.faults) }

// columnsOf finds the columns by their headings.
func columnsOf(head []string, meant map[string]string) (map[string]int, error) {
	columns := map[string]int{}
	for field, heading := range meant {
		if !slices.Contains(OldFields(), field) {
			return nil, &inventory.BadValue{Reason: field + " is not known", Hint: "columns can be " + strings.Join(OldFields(), ", ")}
		}
		at, err := columnNamed(head, heading)
		if err != nil {
			return nil, err
		}
		columns[field] = at
	}
	if _, ok := columns["inscription"]; !ok {
		return nil, &inventory.BadValue{Reason: "which column holds what is written on the piece?", Hint: "--map inscription=COLUMN"}
	}
	return columns, nil
}

// columnNamed is the one column of a heading.
func columnNamed(head []string, heading string) (int, error) {
	at := -1
	for i, cell := range head {
		if !strings.EqualFold(strings.TrimSpace(cell), strings.TrimSpace(heading)) {
			continue
		}
		if at >= 0 {
			return 0, &inventory.BadValue{Reason: fmt.Sprintf("the list has two columns %q, number %d and number %d", heading, at+1, i+1), Hint: "give each a name of its own in the spreadsheet"}
		}
		at = i
	}
	if at < 0 {
		return 0, &inventory.BadValue{Reason: fmt.Sprintf("the list has no column %q", heading), Hint: "its columns are " + strings.Join(head, ", ")}
	}
	return at, nil
}
