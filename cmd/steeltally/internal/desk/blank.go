package desk

import (
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// ReserveBlank keeps numbers for blank tags of a kind of piece, said in a word.
func (d *Desk) ReserveBlank(piece string, count int) ([]inventory.Number, Done, error) {
	done, err := d.do(deeds.ReserveBlank{Piece: inventory.KindNamed(piece), Count: count})
	for i := range done.Events {
		if body, ok := done.Events[i].Body.(*inventory.Reserved); ok {
			return body.Numbers(), done, err
		}
	}
	return nil, done, err
}

// BlankTag is the number on a scanned blank tag; zero where the text is no such thing.
func (d *Desk) BlankTag(text string) (inventory.Number, error) {
	n, err := inventory.ScannedNumber(text)
	if err != nil {
		return 0, nil
	}
	err = d.ask(func(v inventory.View, _ time.Time) error {
		if !inventory.IsBlank(v, n) {
			n = 0
		}
		return nil
	})
	return n, err
}

// StillBlank is said of a blank tag where nobody can be asked what it sticks on.
func StillBlank(n inventory.Number) error {
	return &inventory.Refusal{
		Reason: fmt.Sprintf("%s is a blank tag: no piece has it yet", n.Short()),
		Hint:   fmt.Sprintf("enter what it sticks on: steeltally stockin %s --number %s --model NAME --size MM", n.Kind(), n.Short()),
	}
}

// ActionNumbers are the numbers of the action card, in its order.
func ActionNumbers() []inventory.Number {
	var numbers []inventory.Number
	for _, action := range inventory.Actions() {
		numbers = append(numbers, action.Number)
	}
	return numbers
}
