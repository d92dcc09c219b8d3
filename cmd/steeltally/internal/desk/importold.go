package desk

import (
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

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
