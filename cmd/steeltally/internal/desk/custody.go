package desk

import (
	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
)

// HandOver gives pieces into other hands; due is as typed.
func (d *Desk) HandOver(pieces []string, due string, deed deeds.HandOver) (Done, error) {
	var err error
	if deed.Due, err = d.day(due); err != nil {
		return Done{}, err
	}
	if deed.Pieces, err = ScannedAll(pieces); err != nil {
		return Done{}, err
	}
	return d.do(deed)
}

// TakeBack notes that pieces are with the club again.
func (d *Desk) TakeBack(pieces []string, notGround bool) (Done, error) {
	numbers, err := ScannedAll(pieces)
	if err != nil {
		return Done{}, err
	}
	return d.do(deeds.TakeBack{Pieces: numbers, NotGround: notGround})
}

// NoteAnswer notes what a maker said about pieces that he has.
func (d *Desk) NoteAnswer(pieces []string, due string, deed deeds.NoteAnswer) (Done, error) {
	var err error
	if deed.Due, err = d.day(due); err != nil {
		return Done{}, err
	}
	if deed.Pieces, err = ScannedAll(pieces); err != nil {
		return Done{}, err
	}
	return d.do(deed)
}

// Scrap notes that pieces were thrown away.
func (d *Desk) Scrap(pieces []string, reason string) (Done, error) {
	numbers, err := ScannedAll(pieces)
	if err != nil {
		return Done{}, err
	}
	return d.do(deeds.Scrap{Pieces: numbers, Reason: reason})
}

// day reads a day as typed; nothing is unknown.
func (d *Desk) day(text string) (inventory.When, error) {
	if text == "" {
		return inventory.When{}, nil
	}
	when, err := inventory.ParseWhen(text, d.zone)
	if err != nil {
		return when, &inventory.BadValue{Reason: err.Error()}
	}
	return when, nil
}

// ScannedAll reads numbers as scanned or typed.
func ScannedAll(texts []string) ([]inventory.Number, error) {
	var numbers []inventory.Number
	for _, text := range texts {
		n, err := inventory.ScannedNumber(text)
		if err != nil {
			return nil, err
		}
		numbers = append(numbers, n)
	}
	return numbers, nil
}

// AwayLine is a piece that somebody else has.
type AwayLine struct {
	PieceLine
	With      string             `json:"with,omitempty"`
	Reference string             `json:"reference,omitempty"`
	Since     string             `json:"since"`
	Due       string             `json:"due,omitempty"`
	Overdue   bool               `json:"overdue,omitempty"`
	Decision  inventory.Decision `json:"decision,omitempty"`
	Words     string             `json:"words"`
}

// Away lists the pieces that somebody else has; those that went with a player who was
// traded are his.
func (d *Desk) Away() ([]AwayLine, error) {
	lines := []AwayLine{}
	err := d.askNow(func(v *standing.Now) error {
		at := v.At
		for _, n := range inventory.OnceAway(v) {
			marks := inventory.MarksOf(v, n)
			custody := marks.CustodyAt(at)
			if custody.Ours() || custody.Custody == inventory.CustodyTraded {
				continue
			}
			line := AwayLine{
				PieceLine: pieceLine(v, n, at), With: custody.With, Reference: custody.Reference,
				Decision: custody.Decision, Words: custody.String(),
			}
			if went := marks.Custodies.Until(at); len(went) > 0 {
				line.Since = went[len(went)-1].When.SayDay(d.zone)
			}
			if !custody.Due.Unknown() {
				line.Due, line.Overdue = custody.Due.SayDay(d.zone), custody.Due.End.Before(at)
			}
			lines = append(lines, line)
		}
		return nil
	})
	return lines, err
}
