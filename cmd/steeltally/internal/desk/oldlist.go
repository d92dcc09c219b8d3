package desk

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

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

// readRow makes one piece out of a row.
func (d *Desk) readRow(v inventory.View, cells map[string]string, hand inventory.DateOrders) (deeds.FindOld, error) {
	var none deeds.FindOld
	old := OldPiece{Inscription: cells["inscription"], Place: inventory.Place{Name: cells["place"]}, Hand: hand}
	for _, field := range OldFields() {
		if err := inventory.CheckText(cells[field]); err != nil {
			return none, err
		}
	}
	off, err := d.readOff(cells["off"], hand)
	if err == nil && cells["side"] != "" {
		old.Side, err = inventory.ParseSide(strings.ToLower(cells["side"]))
	}
	if err != nil {
		return none, err
	}
	old.Player = woreThen(v, cells["player"], off)
	readings, err := d.readOld(v, old, off)
	var agree []OldReading
	for _, r := range readings {
		if err = d.contradiction(v, r); err == nil {
			agree = append(agree, r)
		}
	}
	if len(agree) == 0 {
		return none, err
	}
	reading, err := d.OneReading(distinct(agree))
	return reading.deed(), err
}

// woreThen puts a player's number in the place of a sweater that he alone wore when the
// steel came off: somebody else may wear it today.
func woreThen(v inventory.View, player string, off *inventory.When) string {
	sweater, err := strconv.Atoi(player)
	if err != nil || sweater > inventory.MostSweater || off == nil || off.Unknown() {
		return player
	}
	if wore := inventory.RosterOf(v).WoreIn(sweater, *off); len(wore) == 1 {
		return wore[0].String()
	}
	return player
}

// contradiction says where the columns of a row and what is written on the piece can't
// both be right.
func (d *Desk) contradiction(v inventory.View, r OldReading) error {
	const hint = "mend the row; where its columns are right, enter that piece with steeltally found"
	switch written := r.written; {
	case written.Side != "" && r.Side != written.Side:
		return inventory.Refuse(fmt.Sprintf("%q says %s, its column %s", inventory.Clip(r.Text), written.Side, r.Side), hint)
	case !written.When.Meets(r.When):
		return inventory.Refuse(fmt.Sprintf("%q says that it came off %s, its column %s", inventory.Clip(r.Text), written.When.Say(d.zone), r.When.Say(d.zone)), hint)
	case written.Sweater != 0 && r.Player != 0 && neverWore(v, r.Player, written.Sweater):
		name, _ := d.nameOf(v, r.Player, d.Instant())
		return inventory.Refuse(fmt.Sprintf("%q says sweater %d, its column %s, who never wore it by the record", inventory.Clip(r.Text), written.Sweater, name), hint)
	}
	return nil
}

// neverWore tells whether a player is known to have worn other sweaters, and not this.
func neverWore(v inventory.View, player inventory.Number, sweater int) bool {
	other := false
	for _, m := range inventory.RosterOf(v).Members {
		for _, worn := range m.Sweaters {
			if m.Player == player && worn.Value == sweater {
				return false
			}
			other = other || m.Player == player && worn.Value != 0
		}
	}
	return other
}

// ImportOld says how a list of old pieces is to be taken.
type ImportOld struct {
	List  OldList
	Hand  inventory.DateOrders // of dates; empty: only what can't be read otherwise
	Alike bool                 // what looks like a piece that is known already is another one
}

// OldImport is what became of a list.
type OldImport struct {
	Rows    int                `json:"rows"`
	Written bool               `json:"written"`
	Numbers []inventory.Number `json:"numbers,omitempty"`
	Errors  []*RowError        `json:"errors"`
}

// LookAtOld says what is wrong with which row of a list of old pieces.
func (d *Desk) LookAtOld(how ImportOld) (OldImport, error) {
	result := how.List.result()
	err := d.ask(func(v inventory.View, _ time.Time) error {
		m, err := d.Moment()
		if err == nil {
			_, result.Errors = d.oldPieces(v, m, how)
		}
		return err
	})
	return result, err
}

// EnterOld enters a list of old pieces: all rows, or none where one is wrong.
func (d *Desk) EnterOld(how ImportOld) (OldImport, Done, error) {
	result := how.List.result()
	done, err := d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		var deed deeds.FindManyOld
		if deed, result.Errors = d.oldPieces(v, m, how); len(result.Errors) > 0 {
			return nil, result.Errors[0]
		}
		return deed, nil
	})
	if len(result.Errors) > 0 {
		return result, done, nil
	}
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

func (l *OldList) result() OldImport { return OldImport{Rows: l.count(), Errors: []*RowError{}} }

// oldPieces makes pieces out of rows, and says what is wrong with which, in their order.
func (d *Desk) oldPieces(v inventory.View, m deeds.Moment, how ImportOld) (deeds.FindManyOld, []*RowError) {
	deed := deeds.FindManyOld{Alike: how.Alike}
	wrong := slices.Clone(how.List.faults)
	var rows []int
	for _, row := range how.List.rows {
		piece, err := d.readRow(v, row.cells, how.Hand)
		if err != nil {
			wrong = append(wrong, rowError(row.row, err))
			continue
		}
		piece.Listed = fmt.Sprintf("row %d", row.row)
		deed.Pieces, rows = append(deed.Pieces, piece), append(rows, row.row)
	}
	for i, fault := range deed.Faults(v, m) {
		if fault != nil {
			wrong = append(wrong, rowError(rows[i], fault))
		}
	}
	slices.SortStableFunc(wrong, func(a, b *RowError) int { return a.Row - b.Row })
	return deed, wrong
}
