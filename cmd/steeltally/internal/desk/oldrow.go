package desk

import (
	"fmt"
	"strconv"
	"strings"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

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
