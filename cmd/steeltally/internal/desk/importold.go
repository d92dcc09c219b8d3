package desk

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// OldFields are what a column of a club's own list of old pieces can mean.
func OldFields() []string { return []string{"inscription", "player", "side", "off", "place"} }

// OldList is a club's own list of old pieces.
type OldList struct {
	Rows    io.Reader         // as a spreadsheet saves them, the first names the columns
	Columns map[string]string // from a field of OldFields to the column that holds it
	Write   bool              // enter the pieces; else only look
}

// RowError is what is wrong with one row, counted as a spreadsheet does.
type RowError struct {
	Row    int    `json:"row"`
	Reason string `json:"reason"`
}

// OldImport is what became of a list.
type OldImport struct {
	Rows    int                `json:"rows"`
	Written bool               `json:"written"`
	Numbers []inventory.Number `json:"numbers,omitempty"`
	Errors  []RowError         `json:"errors"`
}

// ImportOld enters a list of old pieces: all rows, or none where one is wrong.
func (d *Desk) ImportOld(list OldList) (OldImport, Done, error) {
	result := OldImport{Errors: []RowError{}}
	pieces, err := d.readList(list, &result)
	if err != nil || len(result.Errors) > 0 || !list.Write {
		return result, Done{}, err
	}
	done, err := d.do(deeds.FindManyOld{Pieces: pieces})
	if err != nil {
		return result, done, err
	}
	result.Written = true
	for i := range done.Events {
		if body, ok := done.Events[i].Body.(*inventory.FoundOld); ok {
			result.Numbers = append(result.Numbers, body.Piece)
		}
	}
	return result, done, nil
}

// readList reads the rows and notes what is wrong with which.
func (d *Desk) readList(list OldList, result *OldImport) ([]deeds.FindOld, error) {
	rows := spreadsheet(list.Rows)
	head, err := rows.Read()
	if errors.Is(err, io.EOF) {
		return nil, &inventory.BadValue{Reason: "the list is empty", Hint: "its first row names the columns"}
	}
	if err != nil {
		return nil, &inventory.BadValue{Reason: "this is no list of comma-separated values: " + err.Error()}
	}
	columns, err := columnsOf(head, list.Columns)
	if err != nil {
		return nil, err
	}
	var pieces []deeds.FindOld
	for row := 2; ; row++ {
		cells, err := rows.Read()
		if errors.Is(err, io.EOF) {
			return pieces, nil
		}
		if err != nil && !isA[*csv.ParseError](err) {
			return nil, err // the file can't be read on
		}
		if err == nil && isBlank(cells) {
			continue
		}
		result.Rows++
		piece, rowErr := d.readRow(cells, columns, err)
		if rowErr != nil {
			result.Errors = append(result.Errors, RowError{row, rowErr.Error()})
			continue
		}
		pieces = append(pieces, piece)
	}
}

// columnsOf finds the columns by their headings.
func columnsOf(head []string, meant map[string]string) (map[string]int, error) {
	columns := map[string]int{}
	for field, heading := range meant {
		if !slices.Contains(OldFields(), field) {
			return nil, &inventory.BadValue{Reason: field + " is not known", Hint: "columns can be " + strings.Join(OldFields(), ", ")}
		}
		at := slices.IndexFunc(head, func(cell string) bool { return strings.EqualFold(strings.TrimSpace(cell), heading) })
		if at < 0 {
			return nil, &inventory.BadValue{Reason: fmt.Sprintf("the list has no column %q", heading), Hint: "its columns are " + strings.Join(head, ", ")}
		}
		columns[field] = at
	}
	if _, ok := columns["inscription"]; !ok {
		return nil, &inventory.BadValue{Reason: "which column holds what is written on the piece?", Hint: "--map inscription=COLUMN"}
	}
	return columns, nil
}

// readRow makes one piece out of a row, unless the row itself could not be read.
func (d *Desk) readRow(cells []string, columns map[string]int, unread error) (deeds.FindOld, error) {
	if unread != nil {
		return deeds.FindOld{}, unread
	}
	cell := func(field string) string {
		if at, ok := columns[field]; ok {
			return strings.TrimSpace(cells[at])
		}
		return ""
	}
	old := OldPiece{Inscription: cell("inscription"), Player: cell("player"), CameOff: cell("off"), Place: inventory.Place{Name: cell("place")}}
	if side := cell("side"); side != "" {
		read, err := inventory.ParseSide(strings.ToLower(side))
		if err != nil {
			return deeds.FindOld{}, err
		}
		old.Side = read
	}
	reading, err := d.ReadOld(old)
	if err != nil {
		return deeds.FindOld{}, err
	}
	deed := reading.deed()
	return deed, d.ask(func(v inventory.View, _ time.Time) error {
		_, err := deed.Decide(v, deeds.Moment{Happened: deed.CameOff, Now: d.options.Now()})
		return err
	})
}
