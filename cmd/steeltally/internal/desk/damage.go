package desk

import (
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// Damage records what was found wrong with a piece. Photographs are kept in the book's
// folder first: what the record names is there.
func (d *Desk) Damage(piece string, deed deeds.ReportDamage, photos []string) (Done, error) {
	n, err := inventory.ScannedNumber(piece)
	if err != nil {
		return Done{}, err
	}
	deed.Piece = n
	kept, err := d.keepPhotos(photos)
	if err != nil {
		return Done{}, err
	}
	deed.Photos = kept.names
	done, err := d.do(deed)
	if err != nil {
		kept.drop()
	}
	return done, err
}

// Inspect records a look at a piece, or at a pair with what hangs on it.
func (d *Desk) Inspect(piece string, deed deeds.Inspect) (Done, error) {
	n, err := inventory.ScannedNumber(piece)
	if err != nil {
		return Done{}, err
	}
	deed.Piece = n
	return d.do(deed)
}

// AddSession puts a game or a practice in the schedule; the start is as typed.
func (d *Desk) AddSession(start string, deed deeds.AddSession) (Done, error) {
	when, err := inventory.ParseWhen(start, d.zone)
	if err != nil {
		return Done{}, &inventory.BadValue{Reason: err.Error()}
	}
	deed.Start = when
	return d.do(deed)
}

// Broken lists the pieces of which an action says that nobody may skate on them, for
// their tags.
func (done Done) Broken() []inventory.Number {
	var numbers []inventory.Number
	for i := range done.Events {
		if body, ok := done.Events[i].Body.(*inventory.Damaged); ok && body.Unsafe {
			numbers = append(numbers, body.Piece)
		}
	}
	return numbers
}
